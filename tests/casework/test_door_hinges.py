"""Cups in hung doors against makers' published pages: how far from the edge, and where along it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

import pytest

from casewright.casework.build.fronts.door_hinges import CUPS
from casewright.casework.front_choices import Front, FrontKind, FrontLie
from casewright.casework.job import Bay, Construction, FittedWith
from casewright.casework.parts.holes import HoleRow
from casewright.casework.project import draw_up
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.lengths.length import MM
from samples import job, spec

FULL = packaged_catalogue().hinges["full overlay"]
REST = Front(FrontKind.FIXED)


def cups(height: F, *, from_end: F = FULL.from_end, **made: Any) -> HoleRow:
    """Those of a door so high, in a case with a fixed front above it."""
    door = Front(FrontKind.DOOR, height)
    construction = Construction(**made)
    one = spec(width=F(15), height=F(96), bays=(Bay(fronts=(door, REST)),), construction=construction)
    hinge = replace(FULL, key="cup", from_end=from_end)
    plain = job(replace(one, fitted=FittedWith("cup")), construction=construction)
    project = draw_up(replace(plain, hinges={"cup": hinge}))
    (row,) = project.parts["B1-DO1"].feature(CUPS).rows(project.sizes)
    return row


@pytest.mark.parametrize(
    ("edge", "center"), [(3, "20.5"), (4, "21.5"), (5, "22.5"), (6, "23.5"), (7, "24.5"), (8, "25.5")]
)
def test_how_far_from_the_edge_a_cup_is_bored(edge: int, center: str) -> None:
    """A hinge maker's table of boring distances, cup 35 mm. Each millimetre further gives one more of lap."""
    lap = FULL.overlays[0] + (edge - 3) * MM
    row = cups(F(30), fronts=FrontLie.PARTIAL_OVERLAY, front_lap=lap)
    assert row.setback == F(center) * MM


@pytest.mark.parametrize(
    ("height", "from_end", "ends"),
    [(F(30), F(4), F(4)), (F(60), F(4), F(4)), (F(60), F(3), F(3)), (F(10), F(4), F(5, 2))],
)
def test_where_along_a_door_its_cups_are(height: F, from_end: F, ends: F) -> None:
    """Hardware pages: 3 to 4 in from the ends; common practice: the rest evenly between, and a quarter of its
    height from the ends of a low door."""
    row = cups(height, from_end=from_end)
    assert row.holes[0] == ends and height - row.last == ends
