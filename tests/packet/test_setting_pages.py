"""The settings in the packet: every channel, notch and row of holes once, with what the rule is set to."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from functools import cache
from itertools import pairwise
from typing import Any

from casework.drawer_jobs import SLIDES, with_drawers
from casewright.casework.front_choices import DoorKind, DrawerJoint, Front, FrontKind
from casewright.casework.project import draw_up
from casewright.drawings.kit.lettering import caliper_text, dimension_text, shown_length
from casewright.findings import Finding, Weight
from casewright.packet.pages.setting_pages import setting_pages
from casewright.workshop.batch_wording import BatchText, BatchWriter
from casewright.workshop.operations import Machine, OperationKind
from casewright.workshop.order.batches import WorkOrder, order
from casewright.workshop.work import Work, work
from drawings.shown_jobs import plans, project
from workshop.test_fronts_at_the_bench import doored


@cache
def made() -> Work:
    return work(project(), plans())


@cache
def ordered() -> WorkOrder:
    return order(made().operations)


@cache
def told() -> tuple[BatchText, ...]:
    writer = BatchWriter(project())
    return tuple(writer.batch_text(batch) for batch in ordered().batches)


@cache
def pages() -> Any:
    return setting_pages(project(), made(), ordered(), told())


def rows() -> list[dict[str, Any]]:
    return [row for group in pages()["groups"] for row in group["rows"]]


def test_every_worked_operation_is_in_one_row() -> None:
    worked = [
        operation
        for operation in made().operations
        if not operation.kind.cuts_up_a_sheet and operation.setting.machine is not Machine.BENCH
    ]
    assert {operation.kind for operation in worked} >= {
        OperationKind.DADO,
        OperationKind.GROOVE,
        OperationKind.NOTCH,
        OperationKind.BORE,
    }
    assert sum(row["count"] for row in rows()) == len(worked)
    said = {
        (hold["what"], mark)
        for row in rows()
        for hold in row["holds"]
        for way in hold["ways"]
        for mark in way["marks"]
    }
    assert said == {(operation.kind.value, operation.piece) for operation in worked}


def holes_told(figures: str) -> int:
    """How many holes come of `6 1/4": 6 + 3`, of `9 holes, the first at 6"` or `one hole at 6"`."""
    if ": " in figures:
        return sum(int(count) for count in figures.rpartition(": ")[2].split(" + "))
    return 1 if figures.startswith("one hole") else int(figures.split()[0])


def test_every_hole_of_every_row_is_told_once() -> None:
    ways = [way for row in rows() for hold in row["holds"] if hold["what"] == "bore" for way in hold["ways"]]
    bored = [one for one in made().operations if one.kind is OperationKind.BORE]
    assert bored and sum(len(way["marks"]) for way in ways) == len(bored)
    assert sum(len(way["marks"]) * holes_told(way["row"]) for way in ways) == sum(one.holes for one in bored)


def test_rows_have_the_numbers_of_the_whole_order_and_no_cutter_stands_twice_in_a_row() -> None:
    """Regression: the packet ordered its settings anew, so that its third was another than the tablet's."""
    batches = ordered().batches
    numbers = [row["number"] for row in rows()]
    assert numbers == sorted(set(numbers))
    for row in rows():
        pieces = {operation.piece for operation in batches[row["number"] - 1].operations}
        assert {mark for hold in row["holds"] for way in hold["ways"] for mark in way["marks"]} <= pieces
    heads = [(group["machine"], group["cutter"]) for group in pages()["groups"]]
    assert all(one != other for one, other in pairwise(heads))


def test_the_bottoms_dado_is_set_to_the_kick_height() -> None:
    """Common practice: the fence stands at the toe kick's height, and both hands go through there."""
    height = project().sizes.of("B1-L.dado-bottom.at")
    (row,) = [
        row
        for row in rows()
        if any(
            hold["what"] == "dado" and "B1-L" in way["marks"] for hold in row["holds"] for way in hold["ways"]
        )
        and row["distances"][0]["value"] == dimension_text(height, project().rule)
    ]
    held = {mark: way["lies"] for hold in row["holds"] for way in hold["ways"] for mark in way["marks"]}
    assert held["B1-L"].startswith("Lower end against the fence, inside face down")
    assert held["B1-L"] != held["B1-R"], "the hands go through the other way round"


def test_a_rounded_setting_says_its_exact_size_for_the_caliper() -> None:
    distances = [distance for row in rows() for distance in row["distances"]]
    assert any(distance["exact"] for distance in distances)
    for distance in distances:
        assert bool(distance["exact"]) == distance["value"].startswith("~")
    groove = project().sizes.of("B1-L.groove-back.at")
    if shown_length(groove, project().rule).rounded:
        assert caliper_text(groove, project().job.unit) in {distance["exact"] for distance in distances}


def test_where_a_cutter_is_not_as_wide_as_wanted_is_noted_with_the_settings_not_on_the_cover() -> None:
    """Regression: the notes crowded the cover, and its contents went to a page of their own."""
    note = Finding("stack-nearest", "B1-L.dado", "the stack is narrower.", "Prove it.", Weight.NOTE)
    doubt = Finding("beyond-the-rail", "B1-L cut", "the rail ends.", "By hand.", Weight.WARN)
    done = replace(made(), findings=(note, doubt))
    notes = setting_pages(project(), done, ordered(), told())["notes"]
    assert notes == [{"place": "B1-L.dado", "text": "the stack is narrower.", "fix": "Prove it."}]
    assert pages()["notes"] == []


def test_dovetails_are_told_at_the_bench_and_how_they_are_cut_once() -> None:
    """Each end of each drawer's four uprights, with no figure to set a machine to."""
    bank = (Front(FrontKind.DRAWER), Front(FrontKind.DRAWER, F(6)))
    joint = DrawerJoint.HALF_BLIND_IN_FRONT
    drawn = draw_up(with_drawers(SLIDES["side mount"], bank=bank, drawer_joint=joint))
    done = work(drawn, {})
    batches = order(done.operations, prove=0)
    writer = BatchWriter(drawn)
    told = tuple(writer.batch_text(batch) for batch in batches.batches)
    paper: Any = setting_pages(drawn, done, batches, told)
    shown = [group for group in paper["groups"] if group["machine"] == "Bench"]
    bench = [row for group in shown for row in group["rows"]]
    assert {group["cutter"] for group in shown} == {"by hand"}
    assert sum(row["count"] for row in bench) == 2 * 4 * 2 and not any(row["distances"] for row in bench)
    hints = [line for row in bench for line in row["hints"]]
    assert sum("two offcuts" in line for line in hints) == 1
    marks = [mark for row in bench for hold in row["holds"] for way in hold["ways"] for mark in way["marks"]]
    uprights = [f"B1-D{name}{number}" for name in "LRIK" for number in (1, 2)]
    assert sorted(marks) == sorted(uprights * 2)
    assert any("router" in danger for danger in paper["dangers"])


def test_a_stop_at_the_cutters_near_side_is_told_by_its_far_side() -> None:
    """Regression: for a tongue that begins at the end of its rail the paper had “0, stop to cutter”."""
    made = draw_up(doored(Front(FrontKind.TWO_DOORS), door=DoorKind.FRAME_AND_PANEL))
    done = work(made, {})
    found = order(done.operations, prove=0)
    writer = BatchWriter(made)
    printed: Any = setting_pages(made, done, found, tuple(writer.batch_text(one) for one in found.batches))
    distances = [one for group in printed["groups"] for row in group["rows"] for one in row["distances"]]
    assert not [one for one in distances if one["value"] == "0"]
    (stop,) = [one for one in distances if one["words"] == "stop to the cutter's far side"]
    (tongue,) = {one.setting.far_side for one in done.operations if one.kind is OperationKind.TONGUE}
    assert stop["value"] == dimension_text(tongue, made.rule)
