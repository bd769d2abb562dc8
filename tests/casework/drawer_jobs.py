"""Jobs of one case with drawers."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

from casewright.casework.front_choices import Front, FrontKind
from casewright.casework.job import Bay, Construction, Job
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.shop.materials import SheetGood, Spread
from casewright.shop.slides import Slide
from samples import MATERIALS, SHEETS, job, spec

SLIDES = packaged_catalogue().slides
MM = F(10, 254)


def sheet(key: str, thickness: F) -> SheetGood:
    return SheetGood(key, key, thickness, F(96), F(48), Spread(thickness, 0.004))


def with_drawers(
    slide: Slide | None,
    *,
    bank: tuple[Front, ...] = (Front(FrontKind.DRAWER),),
    sides: F = F(1, 2),
    width: F = F(36),
    depth: F = F(24),
    bays: tuple[Bay, ...] | None = None,
    **made: Any,
) -> Job:
    """A job of one case with these fronts; drawer boxes of a sheet that is `sides` thick."""
    construction = replace(Construction(), **made)
    of = replace(MATERIALS, drawer="box")
    bays = bays or (Bay(fronts=bank),)
    one = replace(spec(construction=construction, width=width, depth=depth, bays=bays), materials=of)
    plain = job(one, construction=construction)
    slides = {slide.key: slide} if slide else {}
    return replace(plain, sheets={**SHEETS, "box": sheet("box", sides)}, slides=slides)
