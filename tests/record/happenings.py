"""A small work order and random records for the tests of the shop's record."""

from __future__ import annotations

from fractions import Fraction as F

from hypothesis import strategies as st

from casewright.record import events as e
from casewright.record.events import Event
from casewright.workshop.operations import Cutter, Guide, Hold, Machine, Operation, OperationKind, Setting

BLADE = Cutter("table saw blade", F(1, 8))
SIZE = (F(30), F(20), F(3, 4))
PARTS = ("B1-L", "B1-R", "B1-B")
REACH = F(52)


def operation(
    key: str, kind: OperationKind, parts: tuple[str, ...], after: tuple[str, ...] = (), distance: F = F(20)
) -> Operation:
    setting = Setting(Machine.TABLE_SAW, BLADE, Guide.FENCE, distance)
    return Operation(
        key,
        kind,
        parts[0] if parts else key,
        parts,
        setting,
        Hold("front edge", "face", "upper end", True),
        SIZE,
        F(30),
        after,
    )


WORK = (
    operation("ply 1 cut 1", OperationKind.RIP, ("B1-L", "B1-R")),
    operation("ply 1 cut 2", OperationKind.CROSSCUT, ("B1-L",), ("ply 1 cut 1",)),
    operation("ply 1 cut 3", OperationKind.CROSSCUT, ("B1-R",), ("ply 1 cut 1",)),
    operation("B1-L dado-bottom", OperationKind.DADO, ("B1-L",), ("ply 1 cut 2",)),
    operation("B1-R dado-bottom", OperationKind.DADO, ("B1-R",), ("ply 1 cut 3",)),
    operation("B1-B rip", OperationKind.RIP, ("B1-B",)),
    operation("B1 dry fit", OperationKind.DRY_FIT, (), ("B1-L dado-bottom", "B1-R dado-bottom")),
)
STEPS = tuple(step.key for step in WORK)

parts = st.sampled_from(PARTS)
names = st.text("abc B1-", min_size=1, max_size=6).filter(str.strip)
lengths = st.fractions(0, 100, max_denominator=64)
harms = st.one_of(
    st.builds(e.RecordedHarm, st.sampled_from(("end", "face", "small")), names),
    st.builds(e.RecordedHarm, st.just("damage"), side=st.sampled_from(("front", "up")), long=lengths),
)


def happenings(ids: st.SearchStrategy[str]) -> st.SearchStrategy[e.Happening]:
    """Anything that can happen; undos are of events drawn from `ids`."""
    some_parts = st.lists(parts, max_size=3).map(tuple)
    some_steps = st.lists(st.sampled_from((*STEPS, "no such step")), max_size=4).map(tuple)
    return st.one_of(
        st.builds(e.Claimed, some_parts),
        st.builds(e.Released, some_parts),
        st.builds(e.SettingMade, st.sampled_from(STEPS), lengths),
        st.builds(e.Done, some_steps),
        st.builds(e.Done, some_steps),
        st.builds(e.Measured, names, lengths, names),
        st.builds(e.Spoiled, st.one_of(parts, names), names, st.lists(harms, max_size=2).map(tuple)),
        st.builds(e.Assembled, names, some_parts),
        st.builds(e.FoundOffcut, names, names, lengths, lengths),
        st.builds(e.Flawed, names, st.integers(0, 9), lengths, lengths, lengths, lengths),
        st.builds(e.Lost, st.one_of(parts, names)),
        st.builds(e.Stocked, names, st.integers(0, 20)),
        st.builds(e.TimeTaken, some_steps, st.floats(0, 600)),
        st.builds(
            e.Decided,
            names,
            st.lists(st.tuples(names, lengths), max_size=2).map(tuple),
            some_parts,
            not_done=some_steps,
            turned=some_parts,
        ),
        st.builds(e.Tested, names, lengths, lengths),
        st.builds(e.DryFitted, names, st.sampled_from(("by hand", "clamp", "eased", "remade"))),
        st.builds(e.Undo, ids),
        st.builds(e.Undo, ids),
    )


@st.composite
def records(draw: st.DrawFn) -> list[Event]:
    """Events of three benches, each with its own id."""
    count = draw(st.integers(0, 14))
    ids = [f"e{number}" for number in range(count)]
    what = happenings(st.sampled_from([*ids, "unheard of"]))
    return [
        Event(
            identity, draw(st.sampled_from(("saw", "bench", "tablet"))), draw(st.integers(1, 8)), draw(what)
        )
        for identity in ids
    ]
