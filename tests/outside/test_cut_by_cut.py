"""Every step of planned jobs, acted out on real rectangles in the order in which it is told.

The maker of `oracles.cut_by_cut` knows no plan. What he is told wrongly he does wrongly: so each sort of
fault is planted in every cut of a small job, to see that it comes out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, replace
from fractions import Fraction as F
from functools import cache

import pytest

from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.shop.step_list import steps_json
from casewright.boards.board_faults import board_plan_faults
from casewright.casework.project import Project, draw_up
from casewright.findings import Finding
from casewright.jobfile.write.write_job import write_job
from casewright.workshop.batch_wording import BatchWriter
from casewright.workshop.operations import Guide, Machine, Operation, OperationKind, Setting, cut_key
from casewright.workshop.order.batches import Batch
from example_files import EXAMPLES
from oracles.cut_by_cut import NIOSH_CONSTANT, OPPOSITE, ActedOut, Fault, act_out, stock_of
from oracles.odd_shops import odd_job
from oracles.printed_steps import misprints

SEEDS = (1, 3, 5, 18, 21, 36, 40, 43, 53, 56, 93)
JOBS = {
    **{path.stem: (path.read_text(encoding="utf-8"), 0.3) for path in sorted(EXAMPLES.glob("*.toml"))},
    **{
        f"odd job {seed}": (write_job(odd_job(seed)), 0.03)
        for seed in (1, 3, 5, 18, 21, 36, 40, 43, 53, 56, 93)
    },
}
NO_ROOM = "fence-reach"
"""A plan that says this says that a row of parts has no room for a cut by hand: it cannot be acted out."""


@cache
def planned(name: str) -> PlannedJob:
    text, seconds = JOBS[name]
    return open_job(text).planned(seconds)


@cache
def said(name: str) -> tuple[Finding, ...]:
    """What the job says of itself, and its plans where they name a match group or a sheet."""
    job = planned(name)
    return (*job.findings, *(one for plan in job.plans.values() for one in plan.findings))


def acted_out(
    name: str,
    batches: Sequence[Batch] | None = None,
    project: Project | None = None,
    findings: Sequence[Finding] | None = None,
) -> ActedOut:
    job = planned(name)
    sheets = {
        f"{material} {sheet.number}": (material, sheet.bin)
        for material, plan in job.plans.items()
        for sheet in plan.sheets
    }
    return act_out(
        project or job.project,
        stock_of(job.project, sheets),
        job.ordered.batches if batches is None else batches,
        said(name) if findings is None else findings,
    )


def printed_wrong(name: str, batches: Sequence[Batch] | None = None) -> list[Fault]:
    job = planned(name)
    texts = steps_json(job)["batches"]
    return list(misprints(texts, batches or job.ordered.batches, job.project))


@pytest.mark.parametrize("name", JOBS)
def test_whoever_does_what_the_steps_say_has_every_part_at_its_size(name: str) -> None:
    """With machine reach, carrying, kerfs, good edges, grain and match groups as the simulator minds them."""
    if any(finding.code == NO_ROOM for finding in said(name)):
        assert acted_out(name).faults, "there was room after all"
        return
    done = acted_out(name)
    assert not done.faults
    made = planned(name)
    from_boards = {mark for plan in made.worked.board_plans.values() for mark in plan.board_of}
    assert set(done.parts) == set(made.project.parts) - from_boards
    for key, plan in made.worked.board_plans.items():
        assert board_plan_faults(made.worked.board_problems[key], plan) == []
    assert len(set(map(id, done.parts.values()))) == len(done.parts)
    assert not printed_wrong(name)


@pytest.mark.parametrize("name", [name for name in JOBS if not name.startswith("odd")])
def test_sheet_pages_and_steps_name_the_same_saw(name: str) -> None:
    """The pages are drawn from the plan, the steps from the bench."""
    job = planned(name)
    hand = job.project.job.shop.hand_saw.name
    for material, plan in job.plans.items():
        for sheet in plan.sheets:
            for cut in sheet.cuts:
                step = job.work.by_key[cut_key(material, sheet.number, cut.order)]
                assert (cut.tool == hand) == (step.setting.machine is Machine.HAND_SAW), step.key


# Faults, each planted in a cut


def other_edge(cut: Operation) -> Operation:
    word = cut.hold.against.removesuffix(" edge")
    return replace(cut, hold=replace(cut.hold, against=f"{OPPOSITE[word]} edge"))


def thicker_blade(cut: Operation) -> Operation:
    blade = replace(cut.setting.cutter, width=cut.setting.cutter.width + F(1, 64))
    return replace(cut, setting=replace(cut.setting, cutter=blade))


def a_sixteenth_off(cut: Operation) -> Operation:
    """As told: the fence (for a cut by hand, the line) stands a sixteenth too far out."""
    setting = cut.setting
    if setting.machine is Machine.TABLE_SAW:
        setting = replace(setting, distance=setting.distance + F(1, 16))
    return replace(cut, setting=setting, makes=(cut.makes or F(0)) + F(1, 16))


def turned(cut: Operation) -> Operation:
    """The piece with its length where its width should be."""
    length, width, thick = cut.size
    return replace(cut, size=(width, length, thick))


FAULTS: dict[str, Callable[[Operation], Operation | None]] = {
    "another blade": thicker_blade,
    "a sixteenth off": a_sixteenth_off,
    "left out": lambda cut: None,
    "not its parts": lambda cut: replace(cut, parts=(*cut.parts, "Z9-L")),
    "turned": turned,
}
SMALL = ("odd job 5", "odd job 18")


def cuts_of(name: str) -> list[Operation]:
    batches = planned(name).ordered.batches
    return [one for batch in batches for one in batch.operations if one.kind.cuts_up_a_sheet]


def fed(name: str, key: str, fault: Callable[[Operation], Operation | None]) -> Iterator[Batch]:
    """The batches with a fault in one cut; of a whole setting, in all that is made on it."""
    for batch in planned(name).ordered.batches:
        made = [fault(one) if one.key == key else one for one in batch.operations]
        if kept := tuple(one for one in made if one is not None):
            yield replace(batch, operations=kept)


@pytest.mark.parametrize("fault", FAULTS)
@pytest.mark.parametrize("name", SMALL)
def test_a_fault_in_any_cut_at_all_comes_out(name: str, fault: str) -> None:
    square = {cut.key for cut in cuts_of(name) if cut.size[0] == cut.size[1]}
    for cut in cuts_of(name):
        if fault != "turned" or cut.key not in square:
            assert acted_out(name, list(fed(name, cut.key, FAULTS[fault]))).faults, cut


@pytest.mark.parametrize("name", SMALL)
def test_the_other_edge_is_noticed_wherever_it_matters(name: str) -> None:
    """It is all one where both edges are as good: the same piece is kept."""
    noticed = {
        cut.key for cut in cuts_of(name) if acted_out(name, list(fed(name, cut.key, other_edge))).faults
    }
    all_one = acted_out(name).either_way
    assert {cut.key for cut in cuts_of(name)} - noticed <= all_one
    assert len(noticed) > len(cuts_of(name)) / 2


@pytest.mark.parametrize("name", SMALL)
def test_cuts_in_another_order_are_noticed(name: str) -> None:
    """Each cut put off until right after the next that waits for it."""
    put_off = 0
    batches = planned(name).ordered.batches
    for cut in cuts_of(name):
        follower = next((one for one in cuts_of(name) if cut.key in one.after), None)
        if follower is not None:
            swapped = {cut.key: follower, follower.key: cut}
            other = [
                replace(batch, operations=tuple(swapped.get(one.key, one) for one in batch.operations))
                for batch in batches
            ]
            assert acted_out(name, other).faults, cut
            put_off += 1
    assert put_off > 10


@pytest.mark.parametrize(
    ("kind", "machine", "entry", "less"),
    [
        ("kerf", "table_saw", "kerf", F(1, 32)),
        ("kerf", "hand_saw", "kerf", F(1, 32)),
        ("reach", "table_saw", "rip_capacity", F(20)),
        ("reach", "hand_saw", "cut_length", F(80)),
        ("lift", "carry", "weight", F(25)),
        ("distance", "hand_saw", "base_offset", F(-1)),
        ("measured-from", "hand_saw", "clean_up", F(-1)),
    ],
)
def test_a_shop_that_is_not_the_one_planned_for_is_noticed(
    kind: str, machine: str, entry: str, less: F
) -> None:
    """The steps as they are, at machines and with a maker that have that much less."""
    name = "ferry-canteen"
    job = planned(name).project.job
    tool = getattr(job.shop, machine)
    planned_for = getattr(tool, entry) or NIOSH_CONSTANT  # no weight of the maker's own
    shop = replace(job.shop, **{machine: replace(tool, **{entry: planned_for - less})})
    done = acted_out(name, project=draw_up(replace(job, shop=shop)))
    assert kind in done.kinds, done.kinds


def test_what_the_job_says_of_itself_is_a_fault_when_it_does_not() -> None:
    silent = acted_out("ferry-canteen", findings=())
    assert len(silent.kinds) > 1 and silent.kinds <= {"lift", "reach", "match"}
    crying = [Finding("lift-for-two", "thin ply, sheets 1, 2", "", "")]
    assert "false-alarm" in acted_out("odd job 5", findings=crying).kinds


def test_a_part_taken_up_before_it_is_cut_is_noticed() -> None:
    batches = planned("odd job 5").ordered.batches
    last_first = [batches[-1], *batches[:-1]]
    assert "too-early" in acted_out("odd job 5", last_first).kinds


def test_a_matched_pair_sized_by_two_machines_is_noticed() -> None:
    job = planned("odd job 5")
    saw = job.project.job.shop.hand_saw
    by_hand = Setting(
        Machine.HAND_SAW, replace(cuts_of("odd job 5")[0].setting.cutter), Guide.STRAIGHTEDGE, saw.base_offset
    )
    for cut in cuts_of("odd job 5"):
        part = job.project.parts[cut.parts[0]] if len(cut.parts) == 1 else None
        if part is not None and part.match and cut.kind is OperationKind.CROSSCUT:
            batches = list(fed("odd job 5", cut.key, lambda one: replace(one, setting=by_hand)))
            assert "match" in acted_out("odd job 5", batches).kinds, cut
            return
    raise AssertionError("no such cut: choose another job")


@pytest.mark.parametrize(
    ("name", "forgotten"),
    [("odd job 18", "together"), ("odd job 3", "marked_from"), ("odd job 53", "marked_from")],
)
def test_matched_parts_cut_by_hand_each_from_the_rule_are_noticed(name: str, forgotten: str) -> None:
    """Two lines struck one after another are not one line, though they are of one length."""
    forget = {
        "together": lambda cut: replace(cut, together=()),
        "marked_from": lambda cut: replace(cut, marked_from=""),
    }[forgotten]
    batches = [
        replace(batch, operations=tuple(map(forget, batch.operations)))
        for batch in planned(name).ordered.batches
    ]
    assert acted_out(name, batches).kinds == {"match"}
    assert {fault.kind for fault in printed_wrong(name, batches)} == {"words"}


def test_a_pass_whose_pieces_are_not_there_at_one_time_is_noticed() -> None:
    batches = planned("odd job 18").ordered.batches
    for number, batch in enumerate(batches):
        if any(one.together for one in batch.operations):
            kept = replace(batch, operations=tuple(one for one in batch.operations if not one.together))
            put_off = [replace(batch, operations=(one,)) for one in batch.operations if one.together]
            later = [*batches[:number], kept, put_off[0], *batches[number + 1 :], *put_off[1:]]
            assert "pass" in acted_out("odd job 18", later).kinds
            return
    raise AssertionError("no such pass: choose another job")


def test_a_setting_made_again_from_the_rule_is_noticed() -> None:
    """Without a piece to set it from, matched parts come of two settings."""
    job = planned("pottery-studio")
    forgetful = [replace(batch, made_before=()) for batch in job.ordered.batches]
    assert "match" in acted_out("pottery-studio", forgetful).kinds
    telling = BatchWriter(job.project)
    texts = [{**asdict(telling.batch_text(batch)), "cautions": ["guard on, push"]} for batch in forgetful]
    assert {fault.kind for fault in misprints(texts, job.ordered.batches, job.project)} == {"again"}


@pytest.mark.parametrize("fault", [other_edge, a_sixteenth_off, turned])
def test_words_that_say_something_else_are_noticed(fault: Callable[[Operation], Operation]) -> None:
    """The words as printed beside cuts that are others."""
    for cut in cuts_of("odd job 18"):
        if cut.size[0] != cut.size[1] or fault is not turned:
            assert printed_wrong("odd job 18", list(fed("odd job 18", cut.key, fault))), cut
