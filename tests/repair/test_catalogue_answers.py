"""The catalogue's own answers hold: the wood that they name holds the parts, and no less will do.

Checked with the sheet planner and its verifier alone; the search for ways has no part in it.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction as F

import pytest

from casewright.casework.inputs import with_input
from casewright.casework.project import Project, draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import PlanStatus
from casewright.planner.problem import Bin, Trim
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify
from casewright.workshop.sheets.cut_problems import cut_problem
from repair.catalogue.asked_today import parts_of, project_of
from repair.catalogue.mishap import Cure, Lost, Measures, Mishap, Wood, WoodFlawed, WoodGone
from repair.catalogue.read_catalogue import read_catalogue

CATALOGUE = read_catalogue(parts_of)
AT_HAND = {Cure.RECUT_OTHER_BLANK, Cure.RELAY}
LEAST_LAP = F(1, 8)
"""How much a centred back must lap on each side (our judgement, no source)."""


def answered(*cures: Cure) -> pytest.MarkDecorator:
    chosen = [one for one in CATALOGUE if one.answer in cures]
    assert chosen, cures
    return pytest.mark.parametrize("mishap", chosen, ids=lambda one: one.name)


@answered(Cure.RECUT_LEFTOVER)
def test_the_leftover_holds_the_part(mishap: Mishap) -> None:
    assert fit(mishap, missing(mishap), free(mishap))


@answered(*AT_HAND)
def test_only_wood_that_is_planned_for_others_holds_it_too(mishap: Mishap) -> None:
    assert not fit(mishap, missing(mishap), free(mishap))
    assert fit(mishap, still_to_make(mishap), mishap.wood)


@answered(Cure.RECUT_SPOILED)
def test_only_with_the_spoiled_part_itself_is_there_wood_enough(mishap: Mishap) -> None:
    assert not fit(mishap, still_to_make(mishap), mishap.wood)
    assert fit(mishap, still_to_make(mishap), (*mishap.wood, *spoiled(mishap)))


@answered(Cure.BUY)
def test_a_purchase_is_needed(mishap: Mishap) -> None:
    gone = {one.wood for one in mishap.reports if isinstance(one, WoodGone)}
    wood = [*(one for one in mishap.wood if one.name not in gone), *spoiled(mishap)]
    assert not fit(mishap, still_to_make(mishap), wood)


@answered(Cure.TRIM_ITSELF)
def test_a_part_to_trim_is_large_enough(mishap: Mishap) -> None:
    project = project_of(mishap.job)
    for one in measured(mishap):
        length, width, _ = project.dimensions(project.parts[one.part])
        half = half_a_mark(project)
        assert one.length > length - half and one.width > width - half
        assert one.length > length + half or one.width > width + half


@answered(Cure.CENTRE_BACK)
def test_a_centred_back_still_laps_on_both_sides(mishap: Mishap) -> None:
    project = project_of(mishap.job)
    for one in measured(mishap):
        inside = project.sizes.of(f"{project.parts[one.part].case}.inside")
        assert one.width >= inside + 2 * LEAST_LAP


NARROWER = {
    "library: bottom half an inch short, the rest of both cases not cut": ("C2", F(1, 2)),
    "ferry: bottom 5 mm short, the rest of both cases not cut": ("B2", F(50, 254)),
}
"""The case to make narrower in each mishap that a changed size cures, and by how much."""


@answered(Cure.CHANGE_SIZE)
def test_the_changed_size_makes_the_part_right_and_all_else_fits_its_piece(mishap: Mishap) -> None:
    case, by = NARROWER[mishap.name]
    project = project_of(mishap.job)
    width = f"{case}.width"
    after = draw_up(with_input(project.job, width, project.sizes.of(width) - by))
    for one in measured(mishap):
        length = after.dimensions(after.parts[one.part])[0]
        assert abs(one.length - length) <= 2 * half_a_mark(project)
    assert not fit(mishap, still_to_make(mishap), mishap.wood), "else the part is simply cut again"
    for piece in mishap.wood:
        assert holds(after, piece.planned, [piece]), piece.name
    cut = {part.mark for part in project} - {*still_to_make(mishap)}
    changed = {mark for mark in cut if after.dimensions(after.parts[mark]) != dimensions(project, mark)}
    assert not changed, "nothing that is cut changes its size"


def half_a_mark(project: Project) -> F:
    return project.job.mark.step / 2


def dimensions(project: Project, mark: str) -> tuple[F, F, F]:
    return project.dimensions(project.parts[mark])


def measured(mishap: Mishap) -> list[Measures]:
    found = [one for one in mishap.reports if isinstance(one, Measures)]
    assert found, "the answer is about a measured part"
    return found


def missing(mishap: Mishap) -> tuple[str, ...]:
    """The parts that are to be made again if nothing better is known, in the order of the reports."""
    named = [one.part for one in mishap.reports if not isinstance(one, WoodGone | WoodFlawed)]
    gone = {one.wood for one in mishap.reports if isinstance(one, WoodGone)}
    return (*dict.fromkeys(named), *(m for one in mishap.wood if one.name in gone for m in one.planned))


def still_to_make(mishap: Mishap) -> tuple[str, ...]:
    uncut = (mark for one in mishap.wood for mark in one.planned)
    return tuple(dict.fromkeys((*missing(mishap), *uncut)))


def free(mishap: Mishap) -> tuple[Wood, ...]:
    return tuple(one for one in mishap.wood if not one.planned)


def spoiled(mishap: Mishap) -> tuple[Wood, ...]:
    """The spoiled parts as pieces of wood, where they have no features yet.

    A rule reads to half a mark, so a size that is read as printed holds the size it was rounded from.
    """
    project = project_of(mishap.job)
    half = half_a_mark(project)
    return tuple(
        Wood(
            f"what is left of {one.part}",
            project.parts[one.part].material,
            one.length + half,
            one.width + half,
            (),
        )
        for one in mishap.reports
        if isinstance(one, Measures) and one.part not in mishap.worked
    )


def fit(mishap: Mishap, marks: Iterable[str], wood: Iterable[Wood]) -> bool:
    return holds(project_of(mishap.job), marks, wood)


def holds(project: Project, marks: Iterable[str], wood: Iterable[Wood]) -> bool:
    """Whether a verified sheet plan cuts all these parts from this wood."""
    parts = [project.parts[mark] for mark in marks]
    pieces = list(wood)
    for material in {part.material for part in parts}:
        bins = tuple(_bin(project, one) for one in pieces if one.material == material)
        if not bins:
            return False
        problem = cut_problem(project, material, [one for one in parts if one.material == material], bins)
        plan = solve(problem, MaxIterations(600))
        if plan.unplaced or plan.status is PlanStatus.IMPOSSIBLE:
            return False
        assert not verify(problem, plan)
    return True


def _bin(project: Project, wood: Wood) -> Bin:
    sheet = project.job.sheets[wood.material]
    trim = Trim(sheet.trim, sheet.trim, sheet.trim, sheet.trim)
    if wood.length is None or wood.width is None:
        return Bin(wood.name, sheet.sheet_length, sheet.sheet_width, count=1, trim=trim, offcut=True)
    return Bin(wood.name, wood.length, wood.width, count=1, offcut=True)


def test_lost_parts_are_told_as_missing() -> None:
    lost = [one for one in CATALOGUE if any(isinstance(report, Lost) for report in one.reports)]
    assert lost and all(missing(one) for one in lost)
