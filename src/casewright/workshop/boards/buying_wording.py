"""How many board feet of a solid wood to buy, and how sure that is, in words: the same for command, page and
paper."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...boards.buying_odds import MOST_BOARDS, SURE
from ...casework.project import Project
from ...lengths.quantities import with_cents
from .board_purchases import BoardPurchase
from .board_wording import feet_words, grade_words

TOLD = (Fraction(1, 2), Fraction(4, 5), SURE)
"""How sure one may want to be, each with the board feet it takes."""


def what_to_buy(project: Project, wood: BoardPurchase) -> str:
    """What to buy of a wood and how often that is enough, or why no amount is, in one sentence or two."""
    if wood.sure_feet == 0 and wood.here:
        return "Nothing left to buy: the boards of the plan are begun, or at hand."
    if wood.sure_feet == 0:
        return "Nothing to buy; the boards at hand are enough."
    if wood.sure_feet is None:
        return _why_none(project, wood)
    grade = grade_words(project, wood.rough, wood.grade)
    price = f" ({project.job.money}{with_cents(wood.money)})" if wood.money else ""
    return f"Buy at least {feet_words(wood.feet)} of {grade}{price}: {how_sure(wood)}."


def how_sure(wood: BoardPurchase) -> str:
    """`enough in 38 of 40 lots drawn at random`."""
    return f"enough in {wood.enough_in} of {wood.odds.drawn} lots drawn at random"


def less_to_buy(wood: BoardPurchase) -> Iterator[str]:
    """How often less would be enough, a sentence each, and what clear boards would do."""
    if not wood.sure_feet:
        return
    others = (wood.odds.to_buy(sure) for sure in TOLD)
    for feet in dict.fromkeys(others):
        if feet is not None and feet < wood.sure_feet:
            enough = wood.odds.lots_enough(Fraction(feet))
            yield f"{feet_words(Fraction(feet))} would be enough in {enough} of them."
    yield f"Of clear boards of the usual size the plan takes {feet_words(wood.clear_feet)}."


def _why_none(project: Project, wood: BoardPurchase) -> str:
    """Why no amount is sure to do, and what helps: a part that no board holds, or too many parts."""
    grade = grade_words(project, wood.rough, wood.grade)
    lots = f"in {wood.odds.hopeless} of {wood.odds.drawn} lots drawn at random"
    if wood.has_misfits:
        return (
            f"No amount of {grade} is sure to do: {lots} some part fits no board. "
            "Look for longer or wider boards, or a better grade."
        )
    return (
        f"No amount of {grade} can be named: {lots} not even {MOST_BOARDS} boards give "
        "every part. Enter the size of larger boards, choose a better grade, or divide the cases over two "
        "job files."
    )
