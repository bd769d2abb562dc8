"""Doors, drawers, hinges and slides in forms: what is asked, what holds meanwhile, and what a button does."""

from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy
from fractions import Fraction as F
from pathlib import Path
from typing import Any

import pytest

from casewright.app.editing import arrangement
from casewright.app.editing.followed import follow_edit, follow_path
from casewright.app.editing.form_fields import keys_at
from casewright.app.editing.form_groups import Group
from casewright.app.editing.forms import SentForm, case_form, construction_form, kind_form, submit_form
from casewright.app.editing.front_forms import hardware_form
from casewright.app.editing.text_edits import DropEntry, SetEntry, apply_edits, look_up
from casewright.app.editing.unit_change import UnitChange, change_unit
from casewright.app.jobs.kept_jobs import KeptJobs, OpenedRevision
from casewright.app.jobs.worked_job import open_job
from casewright.casework.size_names import CaseSizes
from casewright.jobfile.read.toml_text import values_of
from web_bench import JOB

DRESSER = (
    JOB.replace("bays = [{ fixed = [10], adjustable = 1 }]", "bays = [{}]  # drawers, later").replace(
        "bays = [{ adjustable = 1 }, { adjustable = 2 }]",
        'bays = [{ adjustable = 1, fronts = [{ kind = "door", hung = "right" }] }, '
        '{ fronts = [{ kind = "drawer" }, { kind = "drawer" }, { kind = "drawer", height = 6 }] }]',
    )
    + """
[hinges.cup]
like = "full overlay"

[slides.side]
like = "side mount"
"""
)
B1, B2 = ("runs", 0, "cases", 0), ("runs", 0, "cases", 1)


def usual(groups: tuple[Group, ...]) -> dict[str, str]:
    return {field.name: field.usual for group in groups for field in group.fields}


def test_a_case_asks_for_each_front_of_each_bay_from_below() -> None:
    form = case_form(open_job(DRESSER), "B2")
    fronts = [group for group in form if "front" in group.title and group.fields[0].path[-3] == "fronts"]
    assert [group.title for group in fronts] == [
        "Bay 1, front 1, from below",
        *(f"Bay 2, front {place}, from below" for place in (1, 2, 3)),
    ]
    asked = [[field.path[-1] for field in group.fields] for group in fronts]
    assert asked[0] == ["kind", "height", "hung"]
    assert asked[1:] == [["kind", "height", "hung", "box_height"]] * 3, "a drawer has a box"
    assert [group.fronts for group in form if group.bay is not None] == [1, 3]
    single = case_form(
        open_job(apply_edits(DRESSER, arrangement.add_front(values_of(DRESSER), "B1", 0))), "B1"
    )
    assert "Front 1, from below" in [group.title for group in single]


def test_an_empty_height_shows_what_the_ledger_says_also_of_an_only_front() -> None:
    job = open_job(DRESSER)
    sizes, shown = job.needed().sizes, usual(case_form(job, "B2"))
    at = "runs.0.cases.1.bays"
    # One door before the whole bay; 30 3/8 is 34 1/2 less 4 of toe kick, less 1/8 at the top.
    assert shown[f"{at}.0.fronts.0.height"] == "30 3/8" and sizes.of(CaseSizes("B2").front(1, 1)) == F(243, 8)
    # Two drawers share what 6 and two gaps of 1/8 leave.
    assert sizes.of(CaseSizes("B2").front(2, 1)) == (F(243, 8) - 6 - F(1, 4)) / 2
    assert shown[f"{at}.1.fronts.0.height"] == shown[f"{at}.1.fronts.1.height"] == "12 1/16"
    # The box of the middle one has half a gap above and below it, less the 1/2 its slides leave free.
    assert shown[f"{at}.1.fronts.1.box_height"] == "11 11/16"
    bare = open_job(DRESSER.partition("[slides")[0])
    assert usual(case_form(bare, "B2"))[f"{at}.1.fronts.1.box_height"] == "", "no slides, no box"


def test_only_a_single_door_has_a_side_it_is_hung_at() -> None:
    left = open_job(DRESSER.replace(', hung = "right"', ""))
    shown = usual(case_form(left, "B2"))
    assert shown["runs.0.cases.1.bays.0.fronts.0.hung"] == "left"
    assert shown["runs.0.cases.1.bays.1.fronts.0.hung"] == ""


def test_what_a_case_is_fitted_with_is_the_only_one_or_the_one_chosen() -> None:
    job = open_job(DRESSER)
    fitted = usual(hardware_form(job))
    assert (fitted["fitted_with.hinge"], fitted["fitted_with.slide"]) == ("cup", "side")
    assert usual(case_form(job, "B2"))["runs.0.cases.1.fitted_with.divider_hinge"] == "cup"
    two = open_job(DRESSER + '\n[hinges.half]\nlike = "half overlay"\n')
    assert usual(hardware_form(two))["fitted_with.hinge"] == ""
    chosen = open_job(
        DRESSER + '\n[hinges.half]\nlike = "half overlay"\n[base.fitted_with]\nhinge = "half"\n'
    )
    assert usual(case_form(chosen, "B2"))["runs.0.cases.1.fitted_with.hinge"] == "half"
    (field,) = [
        field for group in kind_form(chosen, "base") for field in group.fields if field.path[-1] == "hinge"
    ]
    assert (field.typed, field.choices) == ("half", ("cup", "half"))


def test_a_job_without_hinges_and_slides_is_not_asked_which() -> None:
    for form in (
        case_form(open_job(JOB), "B1"),
        kind_form(open_job(JOB), "base"),
        hardware_form(open_job(JOB)),
    ):
        assert not [field for group in form for field in group.fields if "fitted_with" in field.path]


@pytest.mark.parametrize("wrong", ['width = "wide"', "colour = 3"])
def test_a_job_that_cannot_be_drawn_up_still_shows_its_fronts_and_hinges(wrong: str) -> None:
    broken = open_job(DRESSER.replace("width = 24", wrong).replace('like = "full overlay"', 'like = "fulll"'))
    assert broken.project is None
    kinds = [field for group in case_form(broken, "B2") for field in group.fields if "fronts" in field.path]
    assert [field.typed for field in kinds if field.path[-1] == "kind"] == ["door", *["drawer"] * 3]
    assert [group.title for group in hardware_form(broken) if group.key] == [
        "fulll (cup)",
        "side mount (side)",
    ]


def test_figures_of_bought_hardware_are_those_of_its_sheet() -> None:
    """A cup of 35 mm is no 1 3/8 in, and no drill is bought by that."""
    figures = usual(hardware_form(open_job(DRESSER)))
    assert figures["hinges.cup.cup"] == "35 mm" and figures["hinges.cup.cup_edge"] == "3 mm; 8 mm"
    assert figures["slides.side.lengths"].startswith("10; 12; 14")
    odd = usual(hardware_form(open_job(DRESSER + '[slides.own]\nlike = "side mount"\nbehind = "1/3"\n')))
    assert (odd["slides.own.lower"], odd["slides.own.behind"]) == ("1/2", "1/3")


def test_every_entry_of_hinges_and_slides_but_the_chart_can_be_filled_in() -> None:
    names = {field.path[1:] for group in hardware_form(open_job(DRESSER)) for field in group.fields}
    for path in (("hinges", "cup"), ("slides", "side")):
        missing = {key for key in keys_at(path) if (path[1], key) not in names}
        assert missing == ({"chart"} if path[0] == "hinges" else set())


def test_each_entry_of_the_construction_stands_once_and_doors_and_drawers_together() -> None:
    form = construction_form(open_job(JOB))
    made = [field.path for group in form for field in group.fields if field.path[0] == "construction"]
    assert sorted(str(path[-1]) for path in made) == sorted(keys_at(("construction",)))
    (doors,) = [group for group in form if group.title == "Doors and drawers"]
    assert {field.path[-1] for field in doors.fields} == {
        *("fronts", "front_gap", "front_lap", "front_top", "front_off", "front_grain", "drawer_grain"),
        *("door", "door_stile", "door_rail", "door_tongue", "panel_play"),
        *("drawer_joint", "drawer_bottom", "drawer_cut", "drawer_tongue", "drawer_up", "drawer_play"),
        *("drawer_tail", "drawer_proud", "drawer_pitch"),
    }


@pytest.mark.parametrize("bays", ["bays = [{}]  # drawers, later", "# no bays named"])
def test_the_first_front_is_a_door_and_the_next_a_drawer_and_they_go_from_the_top(bays: str) -> None:
    bare = DRESSER.replace("bays = [{}]  # drawers, later", bays)
    text = bare
    for kinds in (["door"], ["door", "drawer"], ["door", "drawer", "drawer"]):
        text = apply_edits(text, arrangement.add_front(values_of(text), "B1", 0))
        assert [front["kind"] for front in look_up(values_of(text), (*B1, "bays", 0, "fronts"))] == kinds
    assert bays.rpartition("#")[2] in text  # the maker's comment stays
    for left in (["door", "drawer"], ["door"]):
        text = apply_edits(text, arrangement.drop_front(values_of(text), "B1", 0))
        assert [front["kind"] for front in look_up(values_of(text), (*B1, "bays", 0, "fronts"))] == left
    text = apply_edits(text, arrangement.drop_front(values_of(text), "B1", 0))
    assert look_up(values_of(text), (*B1, "bays")) == [{}]
    assert arrangement.drop_front(values_of(text), "B1", 0) == []
    with pytest.raises(KeyError):
        arrangement.add_front(values_of(text), "B1", 1)


def test_a_second_hinge_leaves_the_first_where_it_hangs() -> None:
    before = open_job(DRESSER).needed().parts
    edits, key = arrangement.add_fitting(values_of(DRESSER), "hinges", "half overlay")
    text = apply_edits(DRESSER, edits)
    assert key == "half-overlay" and values_of(text)["fitted_with"] == {"hinge": "cup"}
    assert open_job(text).needed().parts == before
    again, other = arrangement.add_fitting(values_of(text), "hinges", "half overlay")
    assert other == "half-overlay-2" and len(again) == 1


def test_a_copied_case_keeps_what_it_is_fitted_with() -> None:
    text = apply_edits(DRESSER, [SetEntry((*B2, "fitted_with", "slide"), "side")])
    edits, mark = arrangement.copy_case(values_of(text), "B2")
    copied = look_up(values_of(apply_edits(text, edits)), ("runs", 0, "cases", 2))
    assert copied["mark"] == mark and copied["fitted_with"] == {"slide": "side"}


def stack(*fronts: Mapping[str, Any]) -> dict[str, Any]:
    bay = {"fronts": list(fronts)}
    return {"runs": [{"name": "a", "cases": [{"mark": "B1", "bays": [deepcopy(bay)]}]}]}


DRAWER, LOW = {"kind": "drawer"}, {"kind": "drawer", "height": 6}
FRONTS = ("runs", 0, "cases", 0, "bays", 0, "fronts")


@pytest.mark.parametrize(
    ("before", "after", "place", "now"),
    [
        ((DRAWER, DRAWER), (DRAWER, DRAWER, DRAWER), 0, 0),  # put on top, whoever looks like whom
        ((DRAWER, DRAWER), (DRAWER, DRAWER, DRAWER), 1, 1),
        ((DRAWER, DRAWER, DRAWER), (DRAWER, DRAWER), 1, 1),
        ((DRAWER, DRAWER, DRAWER), (DRAWER, DRAWER), 2, None),
        ((DRAWER, DRAWER, DRAWER), (DRAWER, LOW, DRAWER), 2, 2),  # another was made lower
        ((DRAWER, DRAWER, DRAWER), (DRAWER, LOW, DRAWER), 1, 1),
        ((LOW, DRAWER), (DRAWER,), 0, None),  # taken out in the text, from below
        ((LOW, DRAWER), (DRAWER,), 1, 0),
    ],
)
def test_a_front_is_followed_while_others_come_and_go(
    before: tuple[Mapping[str, Any], ...],
    after: tuple[Mapping[str, Any], ...],
    place: int,
    now: int | None,
) -> None:
    found = follow_path((*FRONTS, place, "height"), [stack(*before), stack(*after)])
    assert found == (None if now is None else (*FRONTS, now, "height"))


def test_a_top_front_is_taken_out_only_as_it_was_seen() -> None:
    before = stack(DRAWER, DRAWER)
    assert follow_edit(DropEntry((*FRONTS, 1)), [before, stack(DRAWER, LOW)]) is None
    assert follow_edit(DropEntry((*FRONTS, 1)), [before, before]) == DropEntry((*FRONTS, 1))


@pytest.fixture
def saved(tmp_path: Path) -> KeptJobs:
    kept = KeptJobs.open(tmp_path / "shop.sqlite3")
    kept.start(DRESSER)
    return kept


def heights(saved: KeptJobs) -> list[Any]:
    fronts = look_up(values_of(saved.take("larder").revision.text), (*B2, "bays", 1, "fronts"))
    return [front.get("height") for front in fronts]


def send(saved: KeptJobs, typed: dict[str, str], based_on: int) -> bool:
    outcome = submit_form(
        saved, saved.take("larder"), lambda worked: case_form(worked, "B2"), SentForm(typed, based_on)
    )
    return outcome.kept


def test_a_height_typed_on_one_device_stays_when_another_adds_and_removes_fronts(saved: KeptJobs) -> None:
    at = "runs.0.cases.1.bays.1.fronts"
    for edits in (arrangement.drop_front, arrangement.add_front):
        now = saved.take("larder")
        saved.change("larder", edits(now.worked.values, "B2", 1), "another's", now.newest)
    assert send(saved, {f"{at}.0.height": "9"}, 1)
    assert heights(saved) == [9, None, None]
    # The top one that was seen is gone, and the new one on top is not taken for it.
    assert not send(saved, {f"{at}.2.height": "7"}, 1)
    assert heights(saved) == [9, None, None]


def test_two_devices_at_two_fronts_both_keep_theirs_and_at_one_are_asked(saved: KeptJobs) -> None:
    at = "runs.0.cases.1.bays.1.fronts"
    assert send(saved, {f"{at}.0.height": "9"}, 1) and send(saved, {f"{at}.2.height": "7"}, 1)
    assert heights(saved) == [9, None, 7]
    assert not send(saved, {f"{at}.0.height": "10"}, 1)
    assert heights(saved) == [9, None, 7]
    assert saved.history("larder")[0].note == "front 3: height 6 → 7"


def test_another_unit_converts_the_heights_of_fronts_and_the_figures_of_hardware(saved: KeptJobs) -> None:
    own = [
        SetEntry(("hinges", "cup", "cup_edge"), ["1/8", "5 mm"]),
        SetEntry(("slides", "side", "lengths"), [20]),
    ]
    saved.change("larder", own, "own figures", 1)
    before = saved.take("larder")
    after = change_unit(saved, before, UnitChange.CONVERT, before.newest)
    assert isinstance(after, OpenedRevision)
    values = values_of(after.revision.text)
    assert heights(saved)[2] == 152.4
    assert values["hinges"]["cup"]["cup_edge"] == [3.18, "5 mm"] and values["slides"]["side"]["lengths"] == [
        508
    ]
    assert usual(hardware_form(after.worked))["hinges.cup.cup"] == "35"
    job, old = after.worked.needed().job, before.worked.needed().job
    assert job.runs[0].cases[1].bays[1].fronts[2].height == old.runs[0].cases[1].bays[1].fronts[2].height == 6
