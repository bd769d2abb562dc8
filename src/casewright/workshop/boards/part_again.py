"""A part of boards that is spoiled: where another like it comes from, in words."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...boards.board_plan import BoardPlan
from ...boards.one_more import left_place, smallest_board, unused_board
from ...casework.parts.part import Part
from ...casework.project import Project
from ...lengths.length import show
from ...lengths.quantities import with_cents
from .board_problems import board_problem
from .board_wording import board_title
from .buying_wording import what_is_bought


def again_from_boards(project: Project, part: Part, plan: BoardPlan) -> str:
    """How to mill a part of boards once more, the cheapest way first: from what the boards of the plan leave,
    from a board at hand, or from the smallest to buy."""

    def write(length: Fraction) -> str:
        return show(length, project.rule, unit=True).marked

    problem = board_problem(project, part.material, [part])
    (again,) = problem.parts
    size = f"{write(problem.rough_length(again))} × {write(problem.rough_width(again))}"
    ways = "; or ".join(_ways(project, part, plan))
    return f"Mill another, rough {size}, by the same steps: {ways}."


def _ways(project: Project, part: Part, plan: BoardPlan) -> Iterator[str]:
    def write(length: Fraction) -> str:
        return show(length, project.rule, unit=True).marked

    boards = project.job.sheets[part.material].boards
    assert boards is not None, f"{part.material} is bought as boards"
    problem = board_problem(project, part.material, [part])
    (again,) = problem.parts
    if (place := left_place(problem, plan, again)) is not None:
        length, across = place.length, write(place.strip.y)
        where = f"the length from {write(length.x)} to {write(length.end)}"
        beside = f"{where}, a strip that begins {across} from the near edge"
        kind = "the uncut end" if place.fresh else "what is left beside the strips"
        yield f"from {kind} of {board_title(place.board)}: {beside}"
    if (board := unused_board(problem, plan, again)) is not None:
        yield f"from “{board.name}”, which is at hand and not used"
    long, wide, feet = smallest_board(problem, boards.grade, again, boards.rough)
    price = f", {project.job.money}{with_cents(boards.price_of(feet))}" if boards.foot_price else ""
    grade = what_is_bought(project, boards)
    yield f"from a {grade} board to buy, clear, at least {write(long)} × {write(wide)} ({feet} bf{price})"
