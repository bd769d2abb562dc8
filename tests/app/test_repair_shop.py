"""A spoiled part from the shop's record to the job that goes on, and back again."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction as F
from io import BytesIO
from itertools import count, pairwise
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from app.identities import identity
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.papers.label_files import make_labels, usual_stock
from casewright.app.repair.carry_out import carry_out
from casewright.app.repair.made_in_shop import made_in_shop
from casewright.app.repair.repair_page import FoundWays, look
from casewright.app.repair.repair_record import amiss, record_of, task_of
from casewright.app.repair.shop_repair import choose, labels_of_choice, last_choice, undo_choice
from casewright.app.repair.spoiled_report import DamageTyped, Report, report, withdraw
from casewright.app.sheets.plan_keeping import FileShelf
from casewright.app.sheets.sheets_page import sheets_view
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import BenchRecord, hand_out
from casewright.app.shop.shop_work import work_json
from casewright.app.views.parts_page import lines
from casewright.casework.directions import Way
from casewright.errors import JobError
from casewright.findings import Weight
from casewright.lengths.length import Unit
from casewright.packet.pages.fitting_pages import back_page
from casewright.planner.plan import PieceRole
from casewright.record.shop_state import Status
from casewright.repair.facts import Origin
from casewright.repair.harm import Harm, HarmKind
from casewright.repair.ways.way import Mend, ServeAs, WayKind
from planned_once import planned_once
from web_bench import JOB

_numbers = count(91)


def handed_out(folder: Path, text: str) -> KeptJobs:
    """A shop's file with one job whose work is handed out."""
    saved = KeptJobs.open(folder / "shop.sqlite3")
    saved.start(text)
    plans = planned_once(text, 0.5).plans
    hand_out(saved.file, "larder", 1, plans, "issue-first", saved.clock())
    return saved


@pytest.fixture
def saved(tmp_path: Path) -> Iterator[KeptJobs]:
    yield handed_out(tmp_path, JOB)


def spoil(saved: KeptJobs, mark: str = "B1-L", length: str = "33 1/2", **more: object) -> FoundWays:
    report(saved, "larder", record_of(saved, "larder"), Report(mark, length, **more), identity)  # type: ignore[arg-type]
    return look(task_of(record_of(saved, "larder")))


def number_of(found: FoundWays, kind: WayKind) -> int:
    return next(line.number for line in found.lines if line.kind == kind.value)


def wood(heard: BenchRecord) -> int:
    """How many times over the wood of the job's plans is counted; never more than once a sheet."""
    assert heard.floor is not None
    return sum(len(plan.sheets) for plan in heard.floor.plans.values())


def test_a_part_cut_again_is_again_to_be_cut_and_every_tick_keeps_its_meaning(saved: KeptJobs) -> None:
    before = record_of(saved, "larder")
    assert before.floor is not None
    found = spoil(saved)
    assert amiss(record_of(saved, "larder")) == ("B1-L",)
    number = next(
        line.number for line in found.lines if line.kind in (WayKind.RECUT.value, WayKind.BUY.value)
    )
    choose(saved, "larder", record_of(saved, "larder"), found, number, identity)
    heard = record_of(saved, "larder")
    assert heard.floor is not None and heard.state is not None
    assert heard.state.status("B1-L") is Status.TO_CUT
    assert heard.state.parts["B1-L"].begun_again == 1
    assert amiss(heard) == ()
    assert [finding for finding in heard.state.findings if finding.weight is Weight.WARN] == []
    places = [piece.item for plan in heard.floor.plans.values() for _, piece in plan.parts()]
    assert sorted(mark for mark in places if mark) == sorted(heard.floor.project.parts)
    # Whatever the record knows is now exactly what is left to be made, each from one blank.
    asked = task_of(heard)
    assert look(asked).options == ()
    held = [mark for blank in asked.facts.blanks for mark in blank.planned]
    assert len(held) == len(set(held))
    assert set(held) == {part.mark for part in asked.facts.to_make(asked.project)}
    assert not asked.facts.spoiled


def test_a_moved_size_is_a_revision_and_keeps_the_part(saved: KeptJobs) -> None:
    found = spoil(saved)
    number = number_of(found, WayKind.MOVE)
    chosen = choose(saved, "larder", record_of(saved, "larder"), found, number, identity)
    assert chosen.revision == 2
    heard = record_of(saved, "larder")
    assert heard.floor is not None and heard.state is not None
    assert heard.state.status("B1-L") is not Status.SPOILED
    project = heard.floor.project
    assert project.dimensions(project.parts["B1-L"])[0] * 2 == 67
    assert heard.state.decisions[-1].inputs
    assert "put right" in saved.history("larder")[0].note
    assert "# measured on Tuesday, twice" in saved.take("larder").revision.text
    assert look(task_of(heard)).options == ()


def test_what_was_chosen_can_be_undone_and_the_part_is_spoiled_again(saved: KeptJobs) -> None:
    found = spoil(saved)
    before = record_of(saved, "larder")
    choose(saved, "larder", before, found, number_of(found, WayKind.MOVE), identity)
    undo_choice(saved, "larder", record_of(saved, "larder"), identity)
    heard = record_of(saved, "larder")
    assert heard.state is not None and heard.floor is not None and before.floor is not None
    assert heard.state.status("B1-L") is Status.SPOILED
    assert heard.floor.plans == before.floor.plans
    assert saved.take("larder").revision.text == JOB
    assert last_choice(heard) is None
    assert [line.why for line in look(task_of(heard)).lines] == [line.why for line in found.lines]
    with pytest.raises(JobError, match="no way has been chosen"):
        undo_choice(saved, "larder", heard, identity)


def test_two_choices_are_undone_one_after_the_other(saved: KeptJobs) -> None:
    first = spoil(saved)
    choose(saved, "larder", record_of(saved, "larder"), first, number_of(first, WayKind.MOVE), identity)
    second = spoil(saved, "B2-TK", length="10")
    choose(saved, "larder", record_of(saved, "larder"), second, 1, identity)
    undo_choice(saved, "larder", record_of(saved, "larder"), identity)
    assert amiss(record_of(saved, "larder")) == ("B2-TK",)
    undo_choice(saved, "larder", record_of(saved, "larder"), identity)
    assert set(amiss(record_of(saved, "larder"))) == {"B1-L", "B2-TK"}
    assert saved.take("larder").revision.text == JOB


def test_a_choice_whose_cuts_are_made_is_not_undone(saved: KeptJobs) -> None:
    found = spoil(saved)
    number = next(
        line.number for line in found.lines if line.kind in (WayKind.RECUT.value, WayKind.BUY.value)
    )
    choose(saved, "larder", record_of(saved, "larder"), found, number, identity)
    heard = record_of(saved, "larder")
    assert heard.floor is not None and heard.state is not None
    # The last that frees it: those before it may be cuts of a sheet that were planned anyway.
    key = [step.key for step in heard.floor.work.by_part["B1-L"] if step.kind.cuts_up_a_sheet][-1]
    sent = {"id": "tick", "bench": "saw", "seq": 99, "kind": "done", "steps": [key]}
    assert not receive(saved.file, "larder", [sent], Unit.INCH, saved.clock()).refused
    with pytest.raises(JobError, match="cutting has begun on the new plan"):
        undo_choice(saved, "larder", record_of(saved, "larder"), identity)


def test_only_what_the_maker_marked_optional_is_left_out(saved: KeptJobs) -> None:
    kinds = [line.kind for line in spoil(saved, "B2-A1", length="5").lines]
    assert kinds and WayKind.GIVE_UP.value not in kinds


def test_a_part_left_out_is_gone_from_the_job_and_from_the_work(tmp_path: Path) -> None:
    marked = JOB.replace('job = "Larder"', 'job = "Larder"\noptional = ["B2-A1"]')
    saved = handed_out(tmp_path, marked)
    found = spoil(saved, "B2-A1", length="5")
    number = number_of(found, WayKind.GIVE_UP)
    choose(saved, "larder", record_of(saved, "larder"), found, number, identity)
    heard = record_of(saved, "larder")
    assert heard.floor is not None and heard.state is not None
    gone = heard.state.decisions[-1].given_up
    assert len(gone) == 1 and gone[0] not in heard.floor.project.parts
    assert 'left_out = ["' + gone[0] in saved.take("larder").revision.text
    assert [finding for finding in heard.state.findings if finding.weight is Weight.WARN] == []


def test_a_mended_part_is_good_and_asks_for_nothing_more(saved: KeptJobs) -> None:
    """A toe kick a little narrow serves as it is: the choice sets the report aside."""
    found = spoil(saved, "B1-TK", length="", width="3 7/8")
    assert found.lines[0].kind == WayKind.USE.value
    choose(saved, "larder", record_of(saved, "larder"), found, 1, identity)
    heard = record_of(saved, "larder")
    assert heard.state is not None and heard.state.status("B1-TK") is not Status.SPOILED
    assert amiss(heard) == () and look(task_of(heard)).options == ()
    undo_choice(saved, "larder", heard, identity)
    assert amiss(record_of(saved, "larder")) == ("B1-TK",)


def test_a_part_taken_back_is_good_again(saved: KeptJobs) -> None:
    spoil(saved)
    withdraw(saved, "larder", record_of(saved, "larder"), "B1-L", identity)
    heard = record_of(saved, "larder")
    assert amiss(heard) == () and heard.state is not None
    assert "B1-L.length" not in heard.state.facts()


def test_a_worked_part_is_no_blank(saved: KeptJobs) -> None:
    found = spoil(saved, "B1-L", length="", cut=("dado-bottom",))
    assert found.asked.facts.spoiled["B1-L"].worked
    assert all(
        blank.origin is not Origin.SPOILED for blank in found.asked.facts.remnants(found.asked.project)
    )


def test_a_lost_part_is_cut_again(saved: KeptJobs) -> None:
    found = spoil(saved, "B1-TK", lost=True)
    assert found.options and "B1-TK" in found.lines[0].why
    assert amiss(record_of(saved, "larder")) == ("B1-TK",)


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (Report("B9-L", "3"), "no part with this mark"),
        (Report("B1-L", "35"), "larger than the"),
        (Report("B1-L", "970"), "larger than a sheet"),
        (Report("B1-L", "soon"), "B1-L.length"),
        (Report("B1-L"), "the planned size"),
        (Report("B1-L", "0"), "greater than zero"),
    ],
)
def test_what_makes_no_sense_is_refused_in_one_sentence_and_nothing_is_kept(
    saved: KeptJobs, said: Report, words: str
) -> None:
    heard = record_of(saved, "larder")
    with pytest.raises(JobError, match=words):
        report(saved, "larder", heard, said, identity)
    assert record_of(saved, "larder").place == heard.place


def test_a_job_changed_since_its_work_was_handed_out_is_not_overwritten(saved: KeptJobs) -> None:
    found = spoil(saved)
    saved.rewrite("larder", JOB.replace("62 1/2", "63"), "wider", 1)
    with pytest.raises(JobError, match="revision 2"):
        choose(saved, "larder", record_of(saved, "larder"), found, 1, identity)


def test_wood_is_counted_once_after_a_choice(saved: KeptJobs) -> None:
    """Area at hand after the choice: what was there, less what is cut up anew, plus what is bought."""
    heard = record_of(saved, "larder")
    assert heard.floor is not None
    found = spoil(saved)
    for line in found.lines:
        option = found.option(line.number)
        if option.kind is WayKind.BUY:
            continue
        choose(saved, "larder", record_of(saved, "larder"), found, line.number, identity)
        after = record_of(saved, "larder")
        assert after.floor is not None
        for material, plan in after.floor.plans.items():
            old = heard.floor.plans[material]
            leaves = [
                piece.area
                for sheet in plan.sheets
                for piece in sheet.root.walk()
                if not piece.children and piece.role is not PieceRole.WASTE
            ]
            assert sum(leaves) <= sum(sheet.root.area for sheet in old.sheets)
        undo_choice(saved, "larder", after, identity)


def test_only_ways_that_cost_the_same_are_called_tied(saved: KeptJobs) -> None:
    found = spoil(saved)
    costs = [option.cost.key() for option in found.options]
    assert [line.tied for line in found.lines] == [costs.count(cost) > 1 for cost in costs]
    assert not all(line.tied for line in found.lines)


def tick(saved: KeptJobs, *keys: str) -> None:
    name = identity()
    sent = {"id": name, "bench": "saw", "seq": next(_numbers), "kind": "done", "steps": list(keys)}
    assert not receive(saved.file, "larder", [sent], Unit.INCH, saved.clock()).refused


def own_steps(heard: BenchRecord, mark: str) -> dict[str, str]:
    """The features of a part by the steps that cut them."""
    assert heard.floor is not None
    return {step.key: step.feature for step in heard.floor.work.by_part[mark] if step.feature}


def test_a_piece_that_serves_as_another_part_brings_its_ticks(saved: KeptJobs) -> None:
    """B1's left side is made as a right one, and its right side is still to cut: they change places. What is
    cut in the piece is ticked of the part it serves as, and the other is to do, on the sheet and off it."""
    before = record_of(saved, "larder")
    found = spoil(saved, "B1-L", length="", wrong=("mirrored",))
    spoiled = record_of(saved, "larder").state
    assert spoiled is not None
    reported = spoiled.done
    number = number_of(found, WayKind.ROLES)
    option = found.option(number)
    serves = {one.mark: one.piece for one in option.actions if isinstance(one, ServeAs)}
    spoiled_serves_as = next(mark for mark, piece in serves.items() if piece == "B1-L")
    assert spoiled_serves_as != "B1-L"
    choose(saved, "larder", record_of(saved, "larder"), found, number, identity)
    heard = record_of(saved, "larder")
    assert heard.state is not None and amiss(heard) == ()
    done = heard.state.done
    assert own_steps(heard, spoiled_serves_as).keys() <= done
    assert not {key for key in own_steps(heard, "B1-L") if key in done}
    assert heard.state.status(spoiled_serves_as) is Status.CUT
    assert heard.state.status("B1-L") is Status.TO_CUT
    assert [one for one in heard.state.findings if one.weight is Weight.WARN] == []
    asked = task_of(heard)
    assert set(asked.facts.finished) == {spoiled_serves_as}
    undo_choice(saved, "larder", heard, identity)
    back = record_of(saved, "larder")
    assert back.floor is not None and before.floor is not None and back.state is not None
    assert back.floor.plans == before.floor.plans and amiss(back) == ("B1-L",)
    assert back.state.done == reported
    assert look(task_of(back)).lines == found.lines


def test_a_filled_channel_is_to_be_cut_again(saved: KeptJobs) -> None:
    found = spoil(saved, "B1-L", length="", wrong=("dado-F11:wrong end",), cut=("groove-back",))
    option = found.option(number_of(found, WayKind.FILL))
    assert any(isinstance(one, Mend) for one in option.actions)
    choose(saved, "larder", record_of(saved, "larder"), found, number_of(found, WayKind.FILL), identity)
    heard = record_of(saved, "larder")
    assert heard.state is not None
    steps = own_steps(heard, "B1-L")
    assert {steps[key] for key in steps if key in heard.state.done} == {"groove-back"}
    assert heard.state.status("B1-L") is Status.IN_HAND  # it is off its sheet, and is not cut again


def cut_features(heard: BenchRecord, mark: str) -> set[str]:
    assert heard.state is not None
    return {feature for key, feature in own_steps(heard, mark).items() if key in heard.state.done}


def test_a_dado_that_a_turn_puts_right_is_not_cut_again(saved: KeptJobs) -> None:
    """The way names it, for it holds while nothing else is cut into the part."""
    found = spoil(saved, "B1-L", length="", wrong=("groove-back:wrong edge",))
    number = number_of(found, WayKind.TURN)
    assert "groove-back" in " ".join(found.lines[number - 1].steps)
    choose(saved, "larder", record_of(saved, "larder"), found, number, identity)
    assert cut_features(record_of(saved, "larder"), "B1-L") == {"groove-back"}


def test_a_dado_too_shallow_is_cut_again_and_one_too_wide_is_not(saved: KeptJobs) -> None:
    wrong = ("dado-F11:too shallow", "dado-bottom:too large")
    found = spoil(saved, "B1-L", length="", wrong=wrong)
    number = number_of(found, WayKind.MIXED)
    choose(saved, "larder", record_of(saved, "larder"), found, number, identity)
    assert cut_features(record_of(saved, "larder"), "B1-L") == {"dado-bottom"}


@pytest.mark.parametrize(
    "said",
    [
        {"length": "33 1/2"},
        {"length": "", "wrong": ("mirrored",)},
        {"length": "", "wrong": ("dado-F11:wrong end",), "cut": ("groove-back",)},
        {"length": "", "wrong": ("groove-back:wrong edge",)},
        {"length": "", "wrong": ("dado-F11:too far:1/2",), "cut": ("dado-bottom", "notch-toe")},
    ],
    ids=["short", "mirrored", "filled", "turned", "matched"],
)
def test_the_shop_and_the_plan_file_tell_alike_what_is_cut(
    saved: KeptJobs, tmp_path: Path, said: dict[str, Any]
) -> None:
    """Of every way: the features ticked in the shop are those that the file of the changed job calls made."""
    found = spoil(saved, "B1-L", **said)
    told: set[frozenset[str]] = set()
    for line in found.lines:
        choose(saved, "larder", record_of(saved, "larder"), found, line.number, identity)
        heard = record_of(saved, "larder")
        assert heard.floor is not None and heard.state is not None
        out = str(tmp_path / f"way-{line.number}.toml")
        carry_out(found, line.number, JOB, out, over=False)
        own = {step.key for mark in heard.floor.project.parts for step in heard.floor.work.own_features(mark)}
        in_file = FileShelf.beside(out).made().steps & own
        assert heard.state.done & own == in_file, line.what
        told.add(frozenset(in_file))
        undo_choice(saved, "larder", heard, identity)
    assert len(told) > 1 or said["length"], "some way keeps what is cut, and some does not"


def test_what_is_wrong_and_where_reaches_the_facts(saved: KeptJobs) -> None:
    damaged = (DamageTyped("front edge", "2", "1/4"), DamageTyped())
    found = spoil(
        saved, "B1-L", length="", wrong=("dado-F11:wrong end",), damaged=damaged, cut=("notch-toe",)
    )
    cut = found.asked.facts.spoiled["B1-L"]
    assert cut.begun == frozenset({"dado-F11", "notch-toe"})
    assert cut.harms == (
        Harm(HarmKind.END, "dado-F11"),
        Harm(HarmKind.DAMAGE, side=Way.FRONT, long=F(2), deep=F(1, 4)),
    )
    withdraw(saved, "larder", record_of(saved, "larder"), "B1-L", identity)
    after = record_of(saved, "larder").state
    assert after is not None and not after.done and task_of(record_of(saved, "larder")).facts.spoiled == {}


def test_a_part_of_a_glued_case_is_reported_with_what_is_wrong_and_where(saved: KeptJobs) -> None:
    sent = {
        "id": "glue",
        "bench": "saw",
        "seq": 80,
        "kind": "assembled",
        "name": "B1",
        "parts": ["B1-L", "B1-R"],
    }
    assert not receive(saved.file, "larder", [sent], Unit.INCH, saved.clock()).refused
    with pytest.raises(JobError, match="already built into B1"):
        spoil(saved, "B1-L", length="33")
    found = spoil(saved, "B1-L", length="", damaged=(DamageTyped("front edge", "2", "1/4"),))
    assert "B1" in found.asked.facts.assembled
    assert WayKind.RECUT.value not in {line.kind for line in found.lines}
    [step] = [step for line in found.lines for step in line.steps if "let in a strip" in step]
    assert 'is damaged, 1/4" in from it, and let in a strip 2" long' in step
    choose(saved, "larder", record_of(saved, "larder"), found, number_of(found, WayKind.LET_IN), identity)
    heard = record_of(saved, "larder")
    assert heard.state is not None and heard.state.status("B1-L") is Status.ASSEMBLED


@pytest.mark.parametrize(
    ("said", "code", "place"),
    [
        ({"wrong": ("dado-zz:wrong end",)}, "no-such-feature", "B1-L"),
        ({"wrong": ("dado-F11:sideways",)}, "how-is-it-wrong", "feature dado-F11"),
        ({"wrong": ("dado-F11::1/8",)}, "how-is-it-wrong", "feature dado-F11"),
        ({"wrong": ("dado-F11:too near:-1/8",)}, "out-too-far", "feature dado-F11"),
        ({"wrong": ("made of:teak",)}, "no-such-material", "B1-L"),
        ({"wrong": ("not in",)}, "not-glued", "B1-L"),
        ({"wrong": ("dado-F11:wrong end", "dado-F11:too far")}, "wrong-in-two-ways", "B1-L"),
        ({"wrong": ("mirrored", "dado-F11:wrong end")}, "wrong-in-two-ways", "B1-L"),
        ({"wrong": ("mirrored",), "lost": True}, "spoiled-and-lost", "B1-L"),
        ({"damaged": (DamageTyped("", "2", "1/4"),)}, "where-is-it-damaged", "damage 1"),
        ({"damaged": (DamageTyped(), DamageTyped("front edge", "2", ""))}, "damage-size", "damage 2"),
        ({"damaged": (DamageTyped("front edge", "2", "far"),)}, "damage-size", "damage 1"),
        ({"damaged": (DamageTyped("front edge", "2", "40"),)}, "damage-off-the-part", "damage 1"),
    ],
)
def test_what_is_wrong_is_refused_at_its_field_and_nothing_is_kept(
    saved: KeptJobs, said: dict[str, Any], code: str, place: str
) -> None:
    heard = record_of(saved, "larder")
    with pytest.raises(JobError) as caught:
        spoil(saved, "B1-L", length="", **said)
    assert [(one.code, one.place) for one in caught.value.findings] == [(code, place)]
    assert record_of(saved, "larder").place == heard.place


def test_a_back_that_is_centred_has_its_new_size_on_every_list_label_and_page(saved: KeptJobs) -> None:
    heard = record_of(saved, "larder")
    assert heard.floor is not None
    drawn = heard.floor.project.dimensions(heard.floor.project.parts["B1-K"])[:2]
    found = spoil(saved, "B1-K", "", width="22 13/16")
    choose(saved, "larder", record_of(saved, "larder"), found, number_of(found, WayKind.CENTRE), identity)
    after = record_of(saved, "larder")
    assert after.floor is not None
    project, now = after.floor.project, (drawn[0], drawn[1] - F(3, 16))
    assert "as_cut" in saved.take("larder").revision.text
    assert project.dimensions(project.parts["B1-K"])[:2] == now
    assert after.floor.worked.needed_shown().part("B1-K").width.text.split() == ["22", "13/16"]
    [line] = [line for line in lines(after.floor.worked) if "B1-K" in line.marks]
    assert line.exact[:2] == tuple(map(str, now))
    label = make_labels(after.floor, usual_stock(project), only=["B1-K"])
    words = "".join(page.extract_text() for page in PdfReader(BytesIO(label)).pages).split()
    assert ("22", "13/16") in pairwise(words)
    backs: list[Any] = back_page(project, ["B1"], {})
    [back] = [one for one in backs if one["mark"] == "B1-K"]
    assert back["width"].split() == ["22", "13/16"] == back["size"].split()[:2]
    # The sheets are cut as they were planned, so the plan stands, and the part is no longer amiss.
    assert after.floor.worked.problems == heard.floor.worked.problems
    assert not amiss(after) and facts_of_back(after) == now
    assert labels_of_choice(saved, "larder", after) == ("B1-K",)
    undo_choice(saved, "larder", after, identity)
    again = record_of(saved, "larder")
    assert again.floor is not None
    assert again.floor.project.dimensions(again.floor.project.parts["B1-K"])[:2] == drawn


def test_a_part_used_as_it_was_cut_and_then_lost_is_made_as_it_is_drawn(saved: KeptJobs) -> None:
    heard = record_of(saved, "larder")
    assert heard.floor is not None
    drawn = heard.floor.project.dimensions(heard.floor.project.parts["B1-K"])
    found = spoil(saved, "B1-K", "", width="22 13/16")
    choose(saved, "larder", record_of(saved, "larder"), found, number_of(found, WayKind.CENTRE), identity)
    report(saved, "larder", record_of(saved, "larder"), Report("B1-K", lost=True), identity)
    found = look(task_of(record_of(saved, "larder")))
    choose(saved, "larder", record_of(saved, "larder"), found, 1, identity)
    after = record_of(saved, "larder").floor
    assert after is not None and not after.project.job.as_cut
    assert "as_cut" not in saved.take("larder").revision.text
    assert after.project.dimensions(after.project.parts["B1-K"]) == drawn


def facts_of_back(heard: BenchRecord) -> tuple[F, F]:
    cut = task_of(heard).facts.finished["B1-K"]
    return cut.length, cut.width


def test_the_papers_of_the_shop_know_what_is_cut_and_what_need_not_be_bought(saved: KeptJobs) -> None:
    heard = record_of(saved, "larder")
    assert heard.floor is not None
    before = made_in_shop(heard.floor, heard)
    assert before.begun(heard.floor.plans) == frozenset()
    found = spoil(saved, "B1-K", "", width="22 13/16")
    choose(saved, "larder", record_of(saved, "larder"), found, number_of(found, WayKind.CENTRE), identity)
    after = record_of(saved, "larder")
    assert after.floor is not None
    made = made_in_shop(after.floor, after)
    [(material, number)] = made.begun(after.floor.plans)
    assert (material, made.sheets) == ("thin", (f"thin {number}",))
    assert made.mends == ("Centre B1-K so that it laps alike on both sides, and pin it there.",)
    [thin] = [
        one for one in after.floor.purchases_left(made.begun(after.floor.plans)) if one.material == "thin"
    ]
    assert (thin.sheets, thin.here) == (0, 1)
    [_, view] = sheets_view(after.floor, made)
    assert view.buy == "Nothing to buy. Already here and begun: 1."


def test_a_cut_that_is_changed_says_so_on_every_tablet(saved: KeptJobs) -> None:
    found = spoil(saved, "B1-K", length="", wrong=("made of:thin:0.27",))
    choose(saved, "larder", record_of(saved, "larder"), found, number_of(found, WayKind.MATCH), identity)
    heard = record_of(saved, "larder")
    steps = [step for batch in work_json(heard)["batches"] for step in batch["steps"]]
    changed = {step["piece"]: step["changed"] for step in steps if step["changed"]}
    assert {"B1-L", "B1-R"} <= set(changed)
    assert all(words.startswith("Changed: Set the dado stack to B1-K") for words in changed.values())
    assert heard.floor is not None
    assert {one.mark for one in made_in_shop(heard.floor, heard).changes} == set(changed)
    undo_choice(saved, "larder", heard, identity)
    heard = record_of(saved, "larder")
    assert not any(step["changed"] for batch in work_json(heard)["batches"] for step in batch["steps"])
