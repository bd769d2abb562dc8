"""The jobs that drawing and document tests look at, drawn up once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction as F
from functools import cache

from casewright.casework.job import BackKind, Bay, CaseKind, Construction, Filler, Job, Run, ToeKind, TopKind
from casewright.casework.project import Project, draw_up
from casewright.lengths.length import MM, Mark, Unit
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import Plan
from casewright.planner.solve import solve
from casewright.workshop.order.batches import order
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.sheets.sheet_marks import SheetMarks, sheet_marks
from casewright.workshop.work import work
from samples import BASE, SHEETS, job, spec

HUNG = Construction(top=TopKind.DADO, toe=ToeKind.NONE, back=BackKind.RABBET, strips=2)
STOOD = Construction(top=TopKind.RABBET, toe=ToeKind.PLINTH, strips=2)


def three_kinds() -> Job:
    """Base, wall and tall cases along one wall, with a filler and caliper readings off the rule's marks."""
    sheets = {key: replace(sheet, weight=F(2)) for key, sheet in SHEETS.items()}
    sheets["ply"] = replace(sheets["ply"], readings=(F(705, 1000), F(712, 1000)))
    low = Run(
        "low run",
        F(98) + F(3, 16),
        (
            spec("B1", bays=(Bay(fixed=(F(12),), adjustable=1),)),
            spec("B2", width=None, bays=BASE),
            spec(
                "T1",
                kind=CaseKind.TALL,
                width=F(24),
                height=F(84),
                construction=STOOD,
                bays=(Bay(fixed=(F(38),), adjustable=2),),
            ),
        ),
        wall="north",
        left=Filler(F(3, 2), F(1, 2), "ply"),
        ceiling=F(96),
    )
    high = Run(
        "high run",
        F(60),
        (
            spec("W1", kind=CaseKind.WALL, height=F(30), depth=F(12), construction=HUNG),
            spec("W2", kind=CaseKind.WALL, width=F(24), height=F(30), depth=F(12), construction=HUNG),
        ),
        wall="north",
        lift=F(54),
        ceiling=F(96),
    )
    return replace(job(), name="Three kinds", sheets=sheets, runs=(low, high))


@cache
def project() -> Project:
    """The job of three kinds, drawn up."""
    return draw_up(three_kinds())


@cache
def project_mm() -> Project:
    """One base case in a shop that works in millimetres."""
    return draw_up(replace(job(spec(width=900 * MM)), unit=Unit.MM, mark=Mark.HALF_MILLIMETRE))


@cache
def marks() -> Mapping[tuple[str, int], SheetMarks]:
    """What the maps of that job's sheets show of its work."""
    return sheet_marks(plans(), order(work(project(), plans()).operations).operations)


@cache
def plans() -> dict[str, Plan]:
    """A sheet plan for each material of the job of three kinds."""
    return {key: solve(problem, MaxIterations(50)) for key, problem in cut_problems(project()).items()}
