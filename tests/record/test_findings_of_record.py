"""Every finding of what the benches say happened, and the nearest record without it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

from casewright.findings import Weight
from casewright.record import events as e
from casewright.record.event_json import from_plain
from casewright.record.events import Event
from casewright.record.fold import fold
from casewright.record.handed_out import issued_from_plain
from casewright.record.plan_of_record import PlanOfRecord, record_from_plain, record_to_plain
from casewright.workshop.operations import Machine, OperationKind
from finding_rows import Provoke, Row, check, each, told
from record.happenings import PARTS, REACH, WORK, operation

JOIN = operation("B1 join", OperationKind.JOIN, ("B1-L", "B1-B"))
STEPS = (*WORK, JOIN)
CUT = e.Done(("ply 1 cut 1",))
FREE = e.Done(("ply 1 cut 1", "ply 1 cut 2"))
ALL_OF_L = e.Done((*FREE.steps, "B1-L dado-bottom"))


def after(*what: e.Happening | tuple[str, e.Happening]) -> Provoke:
    """What is said after these, e1, e2 and so on; a pair names the bench, the rest are at the saw."""
    said = [each if isinstance(each, tuple) else ("saw", each) for each in what]
    return of(*(Event(f"e{seq}", bench, seq, happened) for seq, (bench, happened) in enumerate(said, 1)))


def of(*events: Event) -> Provoke:
    return lambda: fold(events, PARTS, STEPS, REACH).findings


def at(kind: Machine, distance: F) -> Provoke:
    """A setting noted at a machine of this kind."""
    step = replace(WORK[0], setting=replace(WORK[0].setting, machine=kind))
    event = Event("e1", "saw", 1, e.SettingMade(step.key, distance))
    return lambda: fold([event], PARTS, [step], REACH).findings


def sent(**fields: Any) -> Provoke:
    """An event as a tablet sends it, with some fields otherwise; None leaves one out."""
    plain = {"id": "e1", "bench": "saw", "seq": 1, "kind": "stocked", "material": "ply", "sheets": 3} | fields
    whole = {name: value for name, value in plain.items() if value is not None}
    return lambda: told(lambda: from_plain(whole))


def measured(value: Any) -> Provoke:
    return sent(kind="measured", name="B1-L.length", value=value)


KEPT: dict[str, Any] = record_to_plain(PlanOfRecord("Loft", "1a2b3c4d", 0, 2.0, {}, {}))


def kept(**entries: Any) -> Provoke:
    """A plan of record with other entries at its head."""
    return lambda: told(lambda: record_from_plain({**KEPT, **entries}, "loft.plan.json"))


EMPTY: dict[str, Any] = {"revision": 1, "plans": {}}
ONE, OTHER = (Event("e1", bench, 1, CUT) for bench in ("saw", "bench"))

ROWS = [
    Row(
        "event-malformed",
        "how",
        "“hammer”",
        '"by hand", "clamp", "eased" and "remade"',
        sent(kind="dry-fit", joint="B1: B1-K in B1-R", how="hammer"),
        sent(kind="dry-fit", joint="B1: B1-K in B1-R", how="clamp"),
    ),
    Row("plan-unreadable", "loft.plan.json", "newer version", "Update", kept(layout=5), kept()),
    Row("plan-unreadable", "loft.plan.json", "no sheet plan", "copy", kept(exact=None), kept()),
    Row("plan-unreadable", "loft.plan.json", "by hand", "copy", kept(plan="000000"), kept(readable=[])),
    Row("plan-unreadable", "loft.plan.json", "by hand", "copy", kept(seed=7), kept(seed=7, check=None)),
    Row("plan-unreadable", "loft.plan.json", "no sheet", "copy", kept(seconds=float("nan")), kept()),
    Row(
        "id-twice",
        "e1",
        "bench and saw",
        "Enter again at saw",
        of(ONE, OTHER),
        of(ONE, replace(OTHER, id="e2")),
        Weight.WARN,
    ),
    Row(
        "undo-of-nothing",
        "e1",
        "undoes e9",
        "takes effect when",
        after(e.Undo("e9")),
        after(CUT, e.Undo("e1")),
        Weight.NOTE,
    ),
    Row(
        "undo-too-early",
        "e1",
        "undoes e2",
        "Undo it again",
        after(e.Undo("e2"), CUT),
        after(CUT, e.Undo("e1")),
        Weight.WARN,
    ),
    Row("undo-too-early", "e1", "undoes e1", "Undo it again", after(e.Undo("e1")), after(CUT), Weight.WARN),
    Row(
        "no-such-part",
        "B9-L",
        "part B9-L",
        "from the list",
        after(e.Claimed(("B9-L",))),
        after(e.Claimed(("B1-L",))),
        Weight.WARN,
    ),
    Row(
        "no-such-part",
        "B9-L",
        "part B9-L",
        "from the list",
        after(e.Spoiled("B9-L")),
        after(e.Lost("B9-L")),
        Weight.WARN,
    ),  # lost may be an offcut
    Row(
        "no-such-step",
        "ply 9 cut 1",
        "ply 9 cut 1",
        "load the list",
        after(e.Done(("ply 9 cut 1",))),
        after(e.Done(("ply 9 cut 1",)), e.Decided("another plan")),
        Weight.WARN,
    ),
    Row(
        "tick-for-spoiled",
        "B1-L",
        "B1-L is spoiled",
        "Undo the tick",
        after(CUT, e.Spoiled("B1-L"), e.Done(("ply 1 cut 2",))),
        after(CUT, e.Spoiled("B1-R"), e.Done(("ply 1 cut 2",))),
        Weight.WARN,
    ),
    Row(
        "tick-for-spoiled",
        "B1-L",
        "B1-L is lost",
        "undo the entry that made it lost",
        after(CUT, e.Lost("B1-L"), e.Done(("ply 1 cut 2",))),
        after(e.Lost("B1-L"), CUT),
        Weight.WARN,
    ),  # the cut frees B1-R too
    Row(
        "cut-twice",
        "ply 1 cut 1",
        "saw and bench both",
        "B1-L and B1-R is spare",
        after(CUT, ("bench", CUT)),
        after(CUT, CUT),
        Weight.WARN,
    ),
    Row(
        "held-elsewhere",
        "B1-B",
        "bench bench has B1-B",
        "Ask at bench bench",
        after(("bench", e.Claimed(("B1-B",))), e.Done(("B1-B rip",))),
        after(e.Claimed(("B1-B",)), e.Done(("B1-B rip",))),
        Weight.WARN,
    ),
    Row(
        "out-of-order",
        "ply 1 cut 2",
        "before ply 1 cut 1",
        "check the part",
        after(e.Done(("ply 1 cut 2",))),
        after(FREE),
        Weight.WARN,
    ),
    Row(
        "claimed-twice",
        "B1-L",
        "saw claimed B1-L, which bench bench already",
        "stays with bench bench",
        after(("bench", e.Claimed(("B1-L",))), e.Claimed(("B1-L",))),
        after(("bench", e.Claimed(("B1-L",))), ("bench", e.Released(("B1-L",))), e.Claimed(("B1-L",))),
        Weight.WARN,
    ),
    Row(
        "beyond-the-rail",
        WORK[0].key,
        '52 1/64", but its rail ends at 52"',
        "Read the scale again",
        at(Machine.TABLE_SAW, REACH + F(1, 64)),
        at(Machine.TABLE_SAW, REACH),
        Weight.WARN,
    ),
    Row(
        "beyond-the-rail",
        WORK[0].key,
        '60"',
        "other edge",
        at(Machine.TABLE_SAW, F(60)),
        at(Machine.HAND_SAW, F(60)),
        Weight.WARN,
    ),
    Row(
        "assembled-spoiled",
        "B1-L",
        "B1-L is spoiled",
        "Undo one",
        after(ALL_OF_L, e.Spoiled("B1-L"), e.Assembled("B1", ("B1-L",))),
        after(ALL_OF_L, e.Spoiled("B1-R"), e.Assembled("B1", ("B1-L",))),
        Weight.WARN,
    ),
    Row(
        "assembled-early",
        "B1-L",
        "before B1-L dado-bottom",
        "glue is wet",
        after(FREE, e.Assembled("B1", ("B1-L",))),
        after(ALL_OF_L, e.Assembled("B1", ("B1-L",))),
        Weight.WARN,
    ),
    Row(
        "assembled-early",
        "B1-B",
        "before B1-B rip",
        "glue is wet",
        after(ALL_OF_L, e.Done((JOIN.key,))),
        after(ALL_OF_L, e.Done(("B1-B rip", JOIN.key))),
        Weight.WARN,
    ),
    Row("event-malformed", "event", "[]", "one object", lambda: told(lambda: from_plain([])), sent()),
    Row("event-malformed", "kind", "“sawn”", "stocked", sent(kind="sawn"), sent()),
    Row("event-malformed", "seq", "-1", "whole number", sent(seq=-1), sent(seq=0)),
    Row("event-malformed", "seq", "True", "whole number", sent(seq=True), sent(seq=1)),
    Row("event-malformed", "seq", "9007199254740993", "whole number", sent(seq=2**53 + 1), sent(seq=2**53)),
    Row("event-malformed", "bench", "“ ”", "not empty", sent(bench=" "), sent(bench="b")),
    Row("event-malformed", "sheets", "missing", "whole number", sent(sheets=None), sent(sheets=0)),
    Row("event-malformed", "material", "xxx", "text", sent(material="x" * 2_001), sent(material="x" * 2_000)),
    Row("event-malformed", "value", "34.5", "exact fraction", measured(34.5), measured("69/2")),
    Row("event-malformed", "value", "1/0", "exact fraction", measured("1/0"), measured("1/1")),
    Row(
        "event-malformed",
        "minutes",
        "nan",
        "number of minutes from 0 to 10,000,000",
        sent(kind="time", steps=[], minutes=float("nan")),
        sent(kind="time", steps=[], minutes=0),
    ),
    Row(
        "event-malformed",
        "parts",
        "“”",
        "names",
        sent(kind="claimed", parts=[""]),
        sent(kind="claimed", parts=["B1-L"]),
    ),
    Row(
        "event-malformed",
        "inputs",
        "“24”",
        "pairs",
        sent(kind="decided", title="x", inputs=[["B1.width", 24]]),
        sent(kind="decided", title="x", inputs=[["B1.width", "24"]]),
    ),
    Row(
        "issue-malformed",
        "shop",
        "'plans'",
        "Hand the work out again",
        lambda: told(lambda: issued_from_plain({"revision": 1})),
        lambda: told(lambda: issued_from_plain(EMPTY)),
    ),
]


@each(ROWS)
def test_each_is_said_of_the_wrong_record_and_not_of_its_neighbour(row: Row) -> None:
    check(row)
