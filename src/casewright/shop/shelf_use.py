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


@dataclass(frozen=True)
class OwnUse:
    """What is said of some shelves alone; None is what holds for the rest."""

    holds: Holds | None = None
    load: Fraction | None = None
    sag: SagFigure | None = None

    def over(self, rest: ShelfUse) -> ShelfUse:
        """The use of these shelves where the others are for `rest`. What they hold goes before a load of the
        rest's own."""
        load = rest.load if self.load is None and self.holds is None else self.load
        return ShelfUse(self.holds or rest.holds, load, self.sag or rest.sag)
