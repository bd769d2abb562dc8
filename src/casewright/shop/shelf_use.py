"""What shelves are to hold, and by whose figure their sag is judged."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction


class Holds(Enum):
    """What lies on a shelf; each has its load in pounds, with its source, in the data of `strength`."""

    BOOKS = "books"
    MAGAZINES = "magazines"
    CROCKERY = "crockery"
    TINNED_FOOD = "tinned food"
    LINEN = "linen"
    KITCHEN = "kitchen, as tested"
    SCHOOL = "school or library"
    ANYTHING = "anything"
    LABORATORY = "laboratory"


class SagFigure(Enum):
    """How far a shelf may sag: figures of standards and of the trade."""

    WOODWORK = "architectural woodwork"
    KITCHEN = "kitchen cabinets"
    EYE = "the eye"
    BOARD_MAKERS = "board makers"
    PLYWOOD_MAKERS = "plywood makers"
    LABORATORY = "laboratory furniture"


@dataclass(frozen=True)
class ShelfUse:
    """What the shelves of a case are for. `load` is the maker's own figure in pounds per square foot, which
    goes before what they hold.

    Where nothing is said, load and figure are those of the woodwork standard for cases of any use.
    """

    holds: Holds = Holds.ANYTHING
    load: Fraction | None = None
    sag: SagFigure = SagFigure.WOODWORK


USUAL_USE = ShelfUse()
