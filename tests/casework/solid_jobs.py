"""Small jobs with parts of solid wood."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction as F
from typing import Any

from casewright.casework.job import Bay, Construction, Job, Materials
from casewright.shop.materials import SheetGood, Spread
from casewright.shop.moisture import Climate
from casewright.shop.woods import Sawn, wood_called
from samples import MATERIALS, SHEETS, job, spec

SAID = Climate(shop=F(8), house_dry=F(6), house_damp=F(11))
"""A climate that the maker has measured."""


def boards(key: str, wood: str, thick: F = F(3, 4), sawn: Sawn = Sawn.FLAT) -> SheetGood:
    """Boards of solid wood, wide enough for any part."""
    spread = Spread(thick, 0.005)
    return SheetGood(key, f"{wood} boards", thick, F(96), F(48), spread, wood=wood_called(wood), sawn=sawn)


STOCK = {
    **SHEETS,
    "cherry": boards("cherry", "cherry"),
    "quartered": boards("quartered", "cherry", sawn=Sawn.QUARTER),
    "oak": boards("oak", "red oak"),
    "thin-oak": boards("thin-oak", "red oak", F(1, 4)),
}


def solid(
    made_of: dict[str, str] | None = None,
    *,
    climate: Climate = SAID,
    depth: F = F(24),
    width: F = F(36),
    either_way: Iterable[str] = (),
    bays: tuple[Bay, ...] = (Bay(fixed=(F(10),), adjustable=1),),
    **made: Any,
) -> Job:
    """One case with parts of those materials, by kind, in a climate that the maker has measured."""
    construction = Construction(**made)
    one = spec(construction=construction, depth=depth, width=width, bays=bays)
    materials = Materials(**{**vars(MATERIALS), **(made_of or {})})
    plain = job(replace(one, materials=materials), construction=construction)
    return replace(plain, sheets=STOCK, climate=climate, either_way=frozenset(either_way))
