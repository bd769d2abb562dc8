"""Caliper readings from the shop screens of all jobs teach the shop's figures; a rule's do not."""

from __future__ import annotations

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.learning.dry_fit_figures import dry_fit_figures
from casewright.app.learning.dry_fit_taps import dry_fits_told
from casewright.app.learning.shop_record import dry_fits_of_shop, last_tested, readings_of_shop
from casewright.app.learning.shop_test_sheet import results_of_shop, take_test
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import hand_out, read_record
from casewright.lengths.length import Unit
from casewright.tolerance.chains.made_sizes import HowMade
from casewright.tolerance.learning.own_deviations import SetBy
from planned_once import planned_once
from web_bench import JOB


@pytest.fixture(scope="module")
def saved(tmp_path_factory: pytest.TempPathFactory) -> KeptJobs:
    saved = KeptJobs.open(tmp_path_factory.mktemp("shop") / "shop.sqlite3")
    for _ in range(2):
        work = saved.start(JOB)
        plans = planned_once(work.revision.text).plans
        hand_out(saved.file, work.id, work.revision.number, plans, f"issue {work.id}", saved.clock())
    return saved


def send(saved: KeptJobs, job: str, *events: dict[str, object]) -> None:
    seq = read_record(saved.file, job).newest_number
    sent = [
        {"id": f"{job} {seq + at}", "bench": "saw", "seq": seq + at, **event}
        for at, event in enumerate(events, 1)
    ]
    received = receive(saved.file, job, sent, Unit.INCH, saved.clock())
    assert not received.refused and not received.asked


def fence_cut(saved: KeptJobs) -> list[str]:
    floor = read_record(saved.file, "larder").floor
    assert floor is not None
    return [
        name for name, made in floor.fit.made.items() if made.how is HowMade.FENCE and name.endswith(".width")
    ]


def measured(name: str, value: str, tool: str) -> dict[str, object]:
    return {"kind": "measured", "name": name, "value": value, "tool": tool}


def test_readings_of_all_jobs_come_with_their_number_and_setting(saved: KeptJobs) -> None:
    first, second = fence_cut(saved)[:2]
    floor = read_record(saved.file, "larder").floor
    assert floor is not None
    planned = floor.project.sizes.of(first)
    for job in ("larder", "larder-2"):
        send(saved, job, {**measured(first, str(planned + 1), "rule"), "sure": True})
    state = read_record(saved.file, "larder-2").state
    assert state is not None and len(state.readings[first]) == 1
    assert readings_of_shop(saved) == (), "a rule alone teaches nothing"
    for job in ("larder", "larder-2"):
        send(saved, job, measured(first, str(planned), "caliper"), measured(second, str(planned), "caliper"))
    by_caliper = [one for one in readings_of_shop(saved) if one.tool.value == "caliper"]
    assert {one.name for one in by_caliper} == {
        f"{job}: {name}" for job in ("larder", "larder-2") for name in (second,)
    }, "readings of one size that disagree teach nothing"
    assert len({one.setting for one in by_caliper}) == 2, "two jobs share no setting"
    assert {one.set_by for one in by_caliper} <= {SetBy.FENCE, SetBy.STOP}
    assert all(abs(one.number * 32 - round(one.number * 32)) < 1e-9 for one in by_caliper), (
        "a mark of the rule"
    )


def test_a_part_made_wrong_or_lost_counts_no_more(saved: KeptJobs) -> None:
    third = fence_cut(saved)[3]
    floor = read_record(saved.file, "larder").floor
    assert floor is not None
    send(saved, "larder", measured(third, str(floor.project.sizes.of(third)), "caliper"))
    assert any(one.name == f"larder: {third}" for one in readings_of_shop(saved))
    send(saved, "larder", {"kind": "spoiled", "part": third.partition(".")[0]})
    assert not any(one.name == f"larder: {third}" for one in readings_of_shop(saved))


def test_the_test_is_kept_in_the_record_and_a_slip_keeps_nothing(saved: KeptJobs) -> None:
    work = saved.take("larder")
    good = {f"strip {at}": f"3.00{at}" for at in range(1, 6)}
    slipped = take_test(saved, work, {**good, "strip 2": "30"}, "sheet a")
    assert [finding.place for finding in slipped.findings] == ["strip 2"] and slipped.typed["strip 2"] == "30"
    assert last_tested(read_record(saved.file, "larder")) == ({}, {})
    kept = take_test(saved, work, good, "sheet b")
    assert not kept.findings and kept.typed["strip 3"] == "3.003 in"
    events = len(read_record(saved.file, "larder").events)
    take_test(saved, work, {**dict(kept.typed), "thickness 1-1": "0.7"}, "sheet c")
    assert len(read_record(saved.file, "larder").events) == events + 1, "only the new reading is kept"
    results = results_of_shop(saved, work)
    (cut,) = [line for line in results.figures.lines if line.name == "cut"]
    assert "5 readings" in cut.on and not cut.use
    assert "0.700 in" in results.thickness and "thickness" in results.figures.edits


def test_taps_at_the_dry_fit_stand_beside_what_was_predicted(saved: KeptJobs) -> None:
    floor = read_record(saved.file, "larder").floor
    assert floor is not None
    joints = [spread.gap.name for spread in floor.fit.in_place("B1")][:3]
    taps = ("clamp", "by hand", "remade")
    for joint, how in zip(joints, taps, strict=True):
        send(saved, "larder", {"kind": "dry-fit", "joint": joint, "how": how})
    fits = dry_fits_of_shop(saved)
    assert sum(one.joints for one in fits.records) == 3 and not fits.gone
    sentences = " ".join(line.sentence for line in dry_fit_figures(fits).lines)
    assert "happened 1" in sentences and "cut again" in sentences


def test_a_joint_tapped_by_its_old_name_counts_and_shows_once(saved: KeptJobs) -> None:
    floor = read_record(saved.file, "larder-2").floor
    assert floor is not None
    seat = next(gap for name, gap in floor.fit.gaps.items() if " on the floor of the dado in " in name)
    old = seat.name.replace(" on the floor of the dado in ", " home in ")
    taps = ((old, "eased"), (seat.key, "by hand"), (old, "clamp"), ("B7: B7-F1 home in B7-D1", "clamp"))
    before = sum(one.joints for one in dry_fits_of_shop(saved).records)
    for joint, how in taps:
        send(saved, "larder-2", {"kind": "dry-fit", "joint": joint, "how": how})
    assert dry_fits_told(read_record(saved.file, "larder-2"))["joints"] == {seat.key: "clamp"}
    fits = dry_fits_of_shop(saved)
    assert sum(one.joints for one in fits.records) == before + 1
    (gone,) = [line for line in dry_fit_figures(fits).lines if "no longer" in line.role]
    assert gone.sentence == "1 tap not counted"
