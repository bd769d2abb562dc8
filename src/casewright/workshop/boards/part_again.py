"""A part of boards that is spoiled: where another like it comes from, in words."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from ...boards.board_plan import BoardPlan
from ...boards.board_problem import BoardProblem
from ...boards.glue_up import as_planned, in_strips, to_glue_up
from ...boards.one_more import LeftPlace, left_places, smallest_board, unused_board
from ...casework.parts.part import Part
from ...casework.project import Project
from ...lengths.length import show
from ...lengths.quantities import with_cents
from .board_problems import board_problem
from .board_wording import board_title, grade_words


def again_from_boards(project: Project, part: Part, plan: BoardPlan) -> str:
    """How to mill a part of boards once more, the cheapest way first: from what the boards of the plan leave,
    from a board at hand, or from the smallest to buy."""

    def write(length: Fraction) -> str:
        return show(length, project.rule, unit=True).marked

    problem = problem_of_one_more(project, part, plan)
    first = problem.parts[0]
    size = f"{write(problem.rough_length(first))} × {write(problem.rough_width(first))}"
    ways = "; or ".join(_ways(project, part, problem, plan))
    if first.panel:
        return f"Glue up another from {len(problem.parts)} strips, rough {size}, by the same steps: {ways}."
    return f"Mill another, rough {size}, by the same steps: {ways}."


def problem_of_one_more(project: Project, part: Part, plan: BoardPlan) -> BoardProblem:
    """What is to be cut from boards for another such part: in one piece, or in as many strips as before."""
    problem = board_problem(project, part.material, [part])
    if part.mark in plan.glued:
        return as_planned(problem, plan)
    return in_strips(problem, {mark: fewest for mark, (fewest, *_) in to_glue_up(problem).items()})


def _ways(project: Project, part: Part, problem: BoardProblem, plan: BoardPlan) -> Iterator[str]:
    def write(length: Fraction) -> str:
        return show(length, project.rule, unit=True).marked

    boards = project.job.sheets[part.material].boards
    assert boards is not None, f"{part.material} is bought as boards"
    if (places := left_places(problem, plan, problem.parts)) is not None:
        yield "; ".join(_place_words(place, write) for place in places)
    if (board := unused_board(problem, plan, problem.parts)) is not None:
        yield f"from “{board.name}”, which is at hand and not used"
    long, wide, feet = smallest_board(problem, boards.grade, problem.parts, boards.rough)
    price = f", {project.job.money}{with_cents(boards.price_of(feet))}" if boards.foot_price else ""
    grade = grade_words(project, boards.rough, boards.grade.name.value)
    yield f"from a {grade} board to buy, clear, at least {write(long)} × {write(wide)} ({feet} bf{price})"


def _place_words(place: LeftPlace, write: Callable[[Fraction], str]) -> str:
    length, across = place.length, write(place.strip.y)
    where = f"the length from {write(length.x)} to {write(length.end)}"
    beside = f"{where}, a strip that begins {across} from the near edge"
    kind = "the uncut end" if place.fresh else "what is left beside the strips"
    return f"from {kind} of {board_title(place.board)}: {beside}"
