"""A joint of a face frame that went wrong is mended as a maker mends it, or its part is made again."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.casework.job import FaceFrame
from casewright.casework.project import draw_up
from casewright.repair.facts import AsCut
from casewright.repair.harm import Harm, HarmKind
from casewright.repair.ways.cure import lack_of
from casewright.repair.ways.mends import mended
from casewright.repair.ways.way import Mend, WayKind
from framed_jobs import framed
from samples import spec

PROJECT = draw_up(framed(FaceFrame.MORTISE_AND_TENON, spec()))
MORTISE, TENON = ("B1-ST1", "lower-joint"), ("B1-RA1", "left-end")

WORDS = {
    (MORTISE, HarmKind.SMALL): (WayKind.TO_SIZE, "Pare the mortise"),
    (MORTISE, HarmKind.LARGE): (WayKind.FILL, "Glue slips to the mortise"),
    (MORTISE, HarmKind.DEEP): (WayKind.FILL, "Glue slips to the mortise"),
    (MORTISE, HarmKind.PLACE): (WayKind.FILL, "into the wrong mortise"),
    (TENON, HarmKind.SMALL): (WayKind.FILL, "Glue slips to the tenon"),
    (TENON, HarmKind.LARGE): (WayKind.TO_SIZE, "Pare the tenon"),
    (TENON, HarmKind.PLACE): None,
}


@pytest.mark.parametrize(("what", "fault"), WORDS)
def test_loose_is_packed_tight_is_pared_and_a_misplaced_tenon_is_lost(
    what: tuple[str, str], fault: HarmKind
) -> None:
    """Common practice, no source: a tenon that is too thin is loose, a mortise that is too wide is."""
    mark, name = what
    length, width, _ = PROJECT.dimensions(PROJECT.parts[mark])
    cut = AsCut(length, width, worked=True, harms=(Harm(fault, name, by=F(1, 16)),))
    cures = list(mended(PROJECT, lack_of(PROJECT, mark, cut)))
    wanted = WORDS[what, fault]
    if wanted is None:
        assert not cures
        return
    (cure,) = cures
    (mend,) = (one for one in cure.actions if isinstance(one, Mend))
    assert cure.kind is wanted[0] and wanted[1] in mend.steps[0]
