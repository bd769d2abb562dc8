"""What stores hold that were written before pydantic read them: `stored.json` is from the code of then."""

from __future__ import annotations

import json
from fractions import Fraction as F
from pathlib import Path
from typing import Any

from casewright.findings import Finding, Weight
from casewright.planner.plan import Cut, Figures, PieceRole, PlanStatus, Purpose, Unplaced
from casewright.planner.problem import Direction, Edge
from casewright.record import events as e
from casewright.record.event_json import KINDS, from_plain, to_plain
from casewright.record.events import Event
from casewright.record.handed_out import issued_from_plain, issued_to_plain

STORED: dict[str, list[Any]] = json.loads(Path(__file__).with_name("stored.json").read_text(encoding="utf-8"))

HAPPENED: list[e.Happening] = [
    e.Claimed(("B1-L", "B1-R")),
    e.Released(()),
    e.SettingMade("ply 1 cut 1", F(1331, 64)),
    e.Done(("ply 1 cut 1", "B1-L dado-bottom")),
    e.Measured("B1-L.length", F(13970, 127), "tape"),
    e.Measured("ply.thickness", F(45, 64)),
    e.Spoiled("B1-L", 'split at the dado, "0.7" deep — ½ gone'),
    e.Assembled("B1", ("B1-L", "B1-R", "B1-B")),
    e.FoundOffcut("rack 4", "ply", F(165, 4), F(12)),
    e.Lost("rack 4"),
    e.Stocked("ply", 3),
    e.TimeTaken(("ply 1 cut 1",), 12.25),
    e.TimeTaken((), 0.0),
    e.Decided("again", (("B1.width", F(195, 8)), ("B1.toe", F(-1, 8))), ("B1-L",), ("B1-B",)),
    e.Decided("as it is"),
    e.Undo("e3"),
    e.Tested("strip 1", F(2003, 1000), F(2)),
    e.DryFitted("B1: B1-K in the groove of B1-R", "eased"),
    e.Flawed("ply", 2, F(30), F(97, 8), F(4), F(3)),
]


def test_every_kind_of_event_means_what_it_meant() -> None:
    assert {type(what) for what in HAPPENED} == set(KINDS.values())
    read = [from_plain(plain) for plain in STORED["events"]]
    assert [event.what for event in read] == HAPPENED
    assert read[4] == Event("e4", "bench two", 28, HAPPENED[4], "2026-11-29T10:00:00Z")
    assert (read[1].bench, read[3].at, read[15].seq) == ("saw", "", 2**53)


def test_events_are_written_as_they_were() -> None:
    assert [json.dumps(to_plain(from_plain(plain))) for plain in STORED["events"]] == [
        json.dumps(plain) for plain in STORED["events"]
    ]


def test_a_plan_handed_out_means_what_it_meant() -> None:
    issued = issued_from_plain(STORED["issues"][0])
    plan = issued.plans["ply"]
    assert (issued.revision, plan.status) == (3, PlanStatus.IMPOSSIBLE)
    assert (plan.bound, plan.bound_sheets) == (F(66), 2)
    assert plan.figures == Figures(2, F(66), F(1753447, 524288), F(2115, 2), 4, 12, 3, F(6093, 8128))
    assert plan.unplaced == (Unplaced("shelf", 1), Unplaced("top", 1))
    [doubt] = plan.findings
    assert doubt == Finding("limit-bent", "sheet 2", doubt.text, "Carry it with a helper.", Weight.WARN)
    rack, ply = plan.sheets
    assert (rack.number, rack.bin, ply.number, ply.bin) == (1, "rack", 2, "ply")
    assert rack.cuts[0] == Cut(
        1, "table saw", Direction.CROSSCUT, F(137, 4), F(1, 8), F(137, 4), Edge.LEFT, Purpose.SIZE
    )
    assert sorted(piece.item or "" for _, piece in plan.parts()) == ["side", "side", "side", "top"]
    assert {(piece.length, piece.width) for piece in rack.pieces(PieceRole.PART)} == {(F(137, 4), F(93, 4))}


def test_plans_are_written_as_they_were() -> None:
    newest, older = STORED["issues"]
    assert json.dumps(issued_to_plain(issued_from_plain(newest))) == json.dumps(newest)
    again = issued_to_plain(issued_from_plain(older))
    assert again["plans"]["thin"].pop("findings") == []  # they were not kept at first
    assert again == older
