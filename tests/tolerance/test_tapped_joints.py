"""A tap at the dry fit is of the same joint whatever the joint was called when it was tapped."""

from __future__ import annotations

from casewright.casework.project import draw_up
from casewright.tolerance.chains.roles import GapRole
from casewright.tolerance.learning.tapped_joints import tapped_joints
from casewright.tolerance.outcomes.gap_spread import fit
from samples import BASE, job, spec

PLAN = fit(draw_up(job(spec(bays=BASE))))

OLD_RECORD = {
    "B1: B1-B in the dado of B1-L": ("B1-B B1-L Z slip fit", GapRole.OWN_DADO),
    "B1: B1-SF against B1-R": ("B1-R B1-SF X seated", GapRole.END),
    "B1: B1-K in the groove of B1-R": ("B1-K B1-R X play", GapRole.BACK_PLAY),
    "B1: B1-K before the rear wall in B1-L": ("B1-K B1-L Y slip fit", GapRole.OWN_DADO),
    "B1: B1-K before the rear wall in B1-B": ("B1-B B1-K Y slip fit", GapRole.OWN_DADO),
    "B1: B1-D1 against B1-SF": ("B1-D1 B1-SF Z seated", GapRole.END),
    "B1: B1-F11 home in B1-D1": ("B1-D1 B1-F11 X seated", GapRole.END),
    "B1: B1-F11 on its wall in B1-D1": ("B1-D1 B1-F11 Z seated", GapRole.LEAN),
    "B1: B1-F11 in the dado of B1-D1": ("B1-D1 B1-F11 Z slip fit", GapRole.OWN_DADO),
}
"""Joints by the names that shops' records hold, with their keys and what they are. Never to be brought up to
date: records are not either."""


def test_taps_of_an_old_record_are_of_the_joints_that_they_were_of() -> None:
    found = tapped_joints(PLAN, dict.fromkeys(OLD_RECORD, "clamp"))
    assert not found.gone
    gaps = [PLAN.gaps[name] for name in found.how]
    assert [(gap.key, gap.role) for gap in gaps] == list(OLD_RECORD.values())


def test_a_key_hangs_on_no_words_and_is_one_joint_s() -> None:
    keys = [gap.key for gap in PLAN.gaps.values()]
    assert len(set(keys)) == len(keys)
    marks = set(PLAN.project.parts)
    told = {"seated", "flush", "slip", "fit", "play", "rock", "X", "Y", "Z", "run", "opening"}
    assert {word for key in keys for word in key.split()} <= marks | told
    by_key = tapped_joints(PLAN, {key: "eased" for key, _ in OLD_RECORD.values()})
    assert set(by_key.how) == set(tapped_joints(PLAN, dict.fromkeys(OLD_RECORD, "eased")).how)


def test_the_last_tap_of_a_joint_counts_and_one_of_no_joint_is_told() -> None:
    key, old = "B1-D1 B1-F11 X seated", "B1: B1-F11 home in B1-D1"
    first = tapped_joints(PLAN, {old: "clamp", key: "eased"})
    last = tapped_joints(PLAN, {key: "eased", old: "clamp"})
    assert list(first.how.values()) == ["eased"] and list(last.how.values()) == ["clamp"]
    assert tapped_joints(PLAN, {"B9: B9-F1 home in B9-D1": "remade"}).gone == ("B9: B9-F1 home in B9-D1",)
