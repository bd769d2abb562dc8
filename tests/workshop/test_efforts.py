"""What an operation and a batch are made of, and the minutes they take before any time is recorded."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.workshop.operations import HANDS, Guide, Machine, Operation, OperationKind
from casewright.workshop.order.batches import Batch
from casewright.workshop.order.step_times import Effort, Pace, effort_of, effort_of_batch
from casewright.workshop.safety.hazards import Caution, Hazard, worst_cautions
from record.happenings import operation


def made(kind: OperationKind, **other: object) -> Operation:
    """One operation 30 in long, at the table saw unless told otherwise."""
    plain = operation("one", kind, ("B1-L",))
    setting = {key: other.pop(key) for key in ("machine", "guide") if key in other}
    return replace(plain, setting=replace(plain.setting, **setting), **other)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("one", "minutes"),
    [
        # Our own first estimates, no source: half a minute to pick a piece up, a tenth for a foot of cut.
        (made(OperationKind.RIP), 0.5 + 2.5 * 0.1),
        (made(OperationKind.CARRY, guide=Guide.STRAIGHTEDGE), 2.0 + 0.5 + 2.5 * 0.1),
        (made(OperationKind.BORE, machine=Machine.DRILL, holes=10), 0.5 + 10 * 0.12),
        (made(OperationKind.NOTCH), 0.5 + 3.0),
        (made(OperationKind.DRY_FIT), 10.0),
        (made(OperationKind.JOIN), 20.0),
    ],
)
def test_an_operation_takes_its_minutes(one: Operation, minutes: float) -> None:
    assert Pace().minutes(effort_of(one)) == pytest.approx(minutes)


@pytest.mark.parametrize(
    ("setting", "cutter", "minutes"),
    [(False, False, 0.0), (True, False, 2.0), (True, True, 2.0 + 8.0)],
)
def test_a_batch_takes_its_setting_and_its_cutter_too(setting: bool, cutter: bool, minutes: float) -> None:
    rip = made(OperationKind.RIP)
    batch = Batch(rip.setting, (rip, rip), setting, cutter)
    assert Pace().minutes(effort_of_batch(batch)) == pytest.approx(minutes + 2 * 0.75)
    assert Pace({Effort.FOOT: 2.0}).minutes(effort_of(rip)) == pytest.approx(0.5 + 2 * 0.25)


def test_work_by_hand_is_set_to_nothing() -> None:
    assert (HANDS.machine, HANDS.distance, HANDS.cutter.width) == (Machine.BENCH, F(0), F(0))


def test_of_cautions_about_one_thing_the_greatest_is_given_and_one_without_degree_counts_least() -> None:
    plain, long, longer = (
        Caution(Hazard.SUPPORT, "support it", "overhang"),
        Caution(Hazard.SUPPORT, "20 in", "overhang", 0.5),
        Caution(Hazard.SUPPORT, "30 in", "overhang", 0.9),
    )
    other = Caution(Hazard.DUST, "wear a mask")
    assert worst_cautions([plain, longer, other, long, other]) == (longer, other)
    assert worst_cautions([plain, long]) == (long,)
