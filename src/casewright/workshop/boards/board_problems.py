"""What a job cuts from boards: a problem for every material that is bought so. Parts are named by their
marks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from math import ceil

from ...boards.board_problem import BoardPart, BoardProblem
from ...boards.glue_up import to_glue_up
from ...boards.plan_boards import lone_misfits
from ...casework.parts.part import FRAMED_DOOR, Part
from ...casework.project import Project
from ...casework.size_names import thickness_of
from ...findings import Finding, Weight
from ...lengths.in_a_sentence import listed
from ...lengths.length import MM, Unit
from ...shop.lumber import planed_thickness

ROUGH_MARK = {Unit.INCH: Fraction(1, 8), Unit.MM: 2 * MM}
"""What rough lengths, widths and kerfs are rounded up to: nobody marks a rough board finer. Common
practice, no source."""

MOST_MARKS = 4
"""Marks named in one sentence; of more, the number is enough."""

SHORTEST_MILLED = {Unit.INCH: Fraction(12), Unit.MM: 300 * MM}
"""What jointer and planer hold at least: short parts are milled end to end in one length. Machine manuals
say 12 in, from memory."""


TO_FLUSH = Fraction(1, 32)
"""Inches that strips are planed thicker than the panel they are glued up to, where the rough boards have so
much: leveling the joints takes it off, half of it from each face. Common practice, no source."""


def strips_planed_to(project: Project, material: str) -> Fraction:
    """How thick strips are planed that are to be glued up."""
    boards, planed = project.job.sheets[material].boards, project.sizes.of(thickness_of(material))
    assert boards is not None, f"{material} is bought as boards"
    return min(planed + TO_FLUSH, max(planed, planed_thickness(boards.rough)))


def board_problems(project: Project) -> Mapping[str, BoardProblem]:
    """A problem for each material of boards that has parts, by its key, in order of first use."""
    by_material: dict[str, list[Part]] = {}
    for part in project:
        if project.job.sheets[part.material].boards is not None:
            by_material.setdefault(part.material, []).append(part)
    return {material: board_problem(project, material, parts) for material, parts in by_material.items()}


def board_problem(project: Project, material: str, parts: list[Part]) -> BoardProblem:
    """How to get these parts out of the boards at hand, and bought ones of the usual size.

    The parts of one door belong together, and all others of a case: they are looked at together.
    """
    boards, shop = project.job.sheets[material].boards, project.job.shop
    assert boards is not None, f"{material} is bought as boards"
    wanted = (BoardPart(part.mark, *project.planned_size(part), _looked_at_with(part)) for part in parts)
    # One kerf for crosscuts and rips, by pencil lines: the wider, so that either saw will do.
    mark = ROUGH_MARK[project.job.unit]
    milling = replace(
        boards.milling,
        end_trim=_marked(boards.milling.end_trim, mark),
        first_edge=_marked(boards.milling.first_edge, mark),
    )
    kerf = _marked(max(shop.table_saw.kerf, shop.hand_saw.kerf), mark)
    usual = boards.usual_board
    shortest = SHORTEST_MILLED[project.job.unit]
    return BoardProblem(tuple(wanted), boards.at_hand, usual, kerf, milling, mark, shortest)


def _looked_at_with(part: Part) -> str:
    """What a part is seen as one piece with: the frame of a door, else its case."""
    return part.leaf if part.role in FRAMED_DOOR else part.case


def _marked(length: Fraction, mark: Fraction) -> Fraction:
    """The next mark up."""
    return ceil(length / mark) * mark


def board_findings(project: Project, material: str, problem: BoardProblem) -> Iterator[Finding]:
    """The parts that fit no board, not even glued up from strips, and how large a board would have to be; and
    panels that come out thinner than they are planned."""
    milling = problem.milling

    write = project.printed
    for part in lone_misfits(problem):
        long = problem.rough_length(part) + 2 * milling.end_trim
        wide = problem.rough_width(part) + milling.first_edge
        largest = max(problem.boards, key=lambda board: board.area)
        longest = max(problem.boards, key=lambda board: board.length)
        if part.width > milling.widest_piece or wide > longest.widest:
            text = (
                f"even glued up from strips it takes clear boards {write(long)} long, rough; the longest of "
                f"{project.job.sheets[material].name} is {write(longest.length)}."
            )
            fix = (
                f"Enter longer boards under materials.{material}.boards, as size or at_hand; make the part "
                "shorter; or make it of a sheet."
            )
            yield Finding("part-needs-longer-board", part.name, text, fix)
            continue
        text = (
            f"it takes a clear board {write(long)} × {write(wide)}, rough; the largest of "
            f"{project.job.sheets[material].name} is {write(largest.length)} × {write(largest.widest)}."
        )
        fix = (
            f"Enter a larger board under materials.{material}.boards, as size or at_hand; make the part "
            "smaller; or make it of a sheet."
        )
        yield Finding("part-needs-larger-board", part.name, text, fix)
    if glued := list(to_glue_up(problem)):
        yield from _nothing_to_level(project, material, glued)


def _nothing_to_level(project: Project, material: str, glued: list[str]) -> Iterator[Finding]:
    """Panels whose joints cannot be leveled without making them thinner than the rest of their wood."""
    good, planed = project.job.sheets[material], project.sizes.of(thickness_of(material))
    lacks = planed + TO_FLUSH - strips_planed_to(project, material)
    if good.boards is None or not lacks:
        return

    write = project.printed
    marks = listed(glued) if len(glued) <= MOST_MARKS else f"{len(glued)} parts"
    are, rough = "is" if len(glued) == 1 else "are", write(good.boards.rough)
    text = (
        f"{marks} of {good.name} {are} glued up, and boards {rough} thick leave too little to level the "
        f"joints at {write(planed)}: expect up to {write(lacks)} less."
    )
    most = write(planed_thickness(good.boards.rough) - TO_FLUSH)
    fix = (
        f"Enter a usual of {most} or less, or thicker boards; or measure the panels before you cut what they "
        "go into."
    )
    yield Finding("panel-comes-out-thinner", f"materials.{material}.usual", text, fix, Weight.NOTE)
