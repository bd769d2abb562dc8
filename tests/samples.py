"""Small jobs for tests, made of plain values; nothing here is read from a file."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.casework.job import Bay, CaseKind, CaseSpec, Construction, Filler, Job, Materials, Run
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.lengths.length import Mark, Unit
from casewright.shop.deviations import Workmanship
from casewright.shop.machines import Carry, DadoStack, HandSaw, Shop, TableSaw
from casewright.shop.materials import SheetGood, Spread

SHEETS = {
    "ply": SheetGood(
        "ply", "birch ply", F(3, 4), F(96), F(48), Spread(F(23, 32), 0.005), trim=F(1, 4), price=F(80)
    ),
    "thin": SheetGood(
        "thin", "thin ply", F(1, 4), F(96), F(48), Spread(F(7, 32), 0.004), trim=F(1, 4), price=F(35)
    ),
}
SHOP = Shop(
    HandSaw("circular saw", F(1, 8), F(1, 4), F(100)),
    TableSaw("table saw", F(1, 8), F(52), F(3)),
    DadoStack("8 in stack", F(1, 8), (F(1, 8),) * 4 + (F(1, 16),), (F(1, 100), F(1, 200)), F(13, 16)),
    Carry(F(50), F(72)),
    Workmanship.FIRST_CABINETS,
    packaged_catalogue().deviations[Workmanship.FIRST_CABINETS],
)
MATERIALS = Materials("ply", "thin", "ply", "ply", "ply", "ply", "ply", "thin", "ply", "thin")
BASE = (Bay(fixed=(F(10),), adjustable=1), Bay(adjustable=2))


def spec(
    mark: str = "B1",
    *,
    construction: Construction | None = None,
    width: F | None = F(36),
    height: F = F(69, 2),
    depth: F = F(24),
    bays: tuple[Bay, ...] = (Bay(adjustable=1),),
    kind: CaseKind = CaseKind.BASE,
    chosen: frozenset[str] = frozenset(),
) -> CaseSpec:
    """One case; a base case 36 in wide unless told otherwise."""
    return CaseSpec(
        mark, kind, width, height, depth, construction or Construction(), MATERIALS, bays, chosen=chosen
    )


def job(
    *specs: CaseSpec,
    opening: F | None = None,
    construction: Construction | None = None,
    left: Filler | None = None,
    right: Filler | None = None,
    lift: F = F(0),
) -> Job:
    """A job of one run; the opening is as wide as the cases unless given."""
    cases = specs or (spec(construction=construction),)
    wide = opening if opening is not None else sum((case.width or F(0) for case in cases), F(0))
    return Job(
        "sample",
        Unit.INCH,
        Mark.THIRTY_SECOND,
        Mark.THIRTY_SECOND,
        "$",
        SHEETS,
        SHOP,
        construction or Construction(),
        (Run("run", wide, cases, left=left, right=right, lift=lift),),
    )
