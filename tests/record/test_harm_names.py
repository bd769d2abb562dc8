"""The record knows every fault and side by the name that the repair has for it, and no other."""

from __future__ import annotations

from fractions import Fraction
from typing import get_args

import pytest

from casewright.casework.directions import Way
from casewright.record.events import HarmName, Side
from casewright.repair.harm import Harm, HarmKind
from casewright.repair.recorded_facts import harms_recorded, recorded_harm
from drawings.shown_jobs import project


def test_every_fault_and_side_has_its_name_in_the_record() -> None:
    assert {kind.name.lower() for kind in HarmKind} == set(get_args(HarmName))
    assert {"", *(way.name.lower() for way in Way)} == set(get_args(Side))


@pytest.mark.parametrize(
    "harm",
    [
        Harm(HarmKind.PLACE, "dado-bottom", by=Fraction(-1, 64)),
        Harm(HarmKind.SHALLOW, "dado-bottom", by=Fraction(1, 16)),
        Harm(HarmKind.MATERIAL, material="ply"),
        Harm(HarmKind.MATERIAL, material="ply", by=Fraction(-1, 32)),
        Harm(HarmKind.MADE_AS, other="B1-R"),
        Harm(HarmKind.LEFT_OUT),
        Harm(HarmKind.MIRRORED),
        Harm(HarmKind.DAMAGE, side=Way.FRONT, long=Fraction(2), deep=Fraction(1, 4)),
    ],
)
def test_what_is_kept_reads_back_the_same(harm: Harm) -> None:
    part = project().parts["B1-L"]
    assert harms_recorded(project(), part, [recorded_harm(harm)]) == (harm,)
