"""The state of the shop from its events. Start at `fold`.

The fold first puts the events in the order all benches agree on, so the state is the same in
whatever order they arrive. What does not fit (a tick for a spoiled part, a step before what it
rests on) is kept and reported in a finding; it never stops the fold.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from copy import copy
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from ..casework.size_names import owner_of
from ..findings import Finding
from ..lengths.length import Mark, Rule
from ..workshop.operations import Machine, Operation, OperationKind
from . import record_wording as say
from .events import (
    Assembled,
    Claimed,
    Decided,
    Done,
    DryFitted,
    Event,
    Flawed,
    FoundOffcut,
    Happening,
    Lost,
    Measured,
    RecordedHarm,
    Released,
    SettingMade,
    Spoiled,
    Stocked,
    TimeTaken,
    Undo,
)
from .shop_state import PartState, RecordedReading, State, Status, Tick
from .undo import in_order, set_aside


def fold(
    events: Iterable[Event],
    parts: Iterable[str],
    operations: Iterable[Operation],
    reach: Fraction | None = None,
    rule: Rule = Mark.SIXTY_FOURTH,
) -> State:
    """The state after `events`.

    `parts` are the marks of the job's parts and `operations` what is planned for them; `reach`
    is how far the table saw's fence goes, in inches (None: not known). Lengths in
    findings are written on `rule`.
    """
    return begin_fold(parts, operations, reach, rule).on(tuple(events)).state


def begin_fold(
    parts: Iterable[str],
    operations: Iterable[Operation],
    reach: Fraction | None = None,
    rule: Rule = Mark.SIXTY_FOURTH,
    unreadable: Iterable[str] = (),
) -> Folded:
    """The state before the first event, to go on from. `unreadable` are the ids of entries that were heard
    and cannot be read: an undo of one of them leaves it out for good."""
    start = _Folding(tuple(parts), {operation.key: operation for operation in operations}, reach, rule)
    return Folded(start, start, frozenset(unreadable))


@dataclass(frozen=True, eq=False)
class Folded:
    """Events folded so far, so that those which come next are added without going through all again."""

    _start: _Folding
    _folding: _Folding
    unreadable: frozenset[str]
    events: tuple[Event, ...] = ()
    _undone: frozenset[str] = frozenset()
    _told: tuple[Finding, ...] = ()
    _last: tuple[int, str, str] = (-1, "", "")
    _ids: frozenset[str] = frozenset()

    def on(self, events: Sequence[Event]) -> Folded:
        """After all these `events`, which begin with those that were folded already."""
        new = sorted(events[len(self.events) :], key=lambda event: event.order)
        if not self._goes_on(new):
            return self._anew(tuple(events))
        folding = self._folding.copy()
        for event in new:
            folding.take(event)
        ids = self._ids | {event.id for event in new}
        last = new[-1].order if new else self._last
        return Folded(
            self._start, folding, self.unreadable, tuple(events), self._undone, self._told, last, ids
        )

    def _goes_on(self, new: Sequence[Event]) -> bool:
        """Whether these only follow what was folded. An undo, or an event that stands before another, may
        change what came of any event so far; so may one whose id was heard of before."""
        heard = self._ids | {event.what.event for event in self.events if isinstance(event.what, Undo)}
        return not new or (
            new[0].order > self._last
            and len({event.id for event in new}) == len(new)
            and not any(isinstance(event.what, Undo) or event.id in heard for event in new)
        )

    def _anew(self, events: tuple[Event, ...]) -> Folded:
        ordered, twice = in_order(events)
        undone, undoing = set_aside(ordered, self.unreadable)
        folding = self._start.copy()
        for event in ordered:
            if event.id not in undone:
                folding.take(event)
        last = max(event.order for event in events)
        ids = frozenset(event.id for event in ordered)
        told = (*twice, *undoing)
        return Folded(self._start, folding, self.unreadable, events, undone, told, last, ids)

    @cached_property
    def state(self) -> State:
        """The state of the shop after the events."""
        return self._folding.state(self._undone, max(self._last[0], 0), self._told)


_GROWING = (
    *("bench", "bad", "within", "given_up", "begun", "ticks", "settings", "minutes", "offcuts", "lost"),
    *("sheets", "decisions", "dry_fits", "findings", "strays", "flaws"),
)
"""What an event may change in a `_Folding`, readings aside."""


class _Folding:
    """The state while events are added one after another."""

    def __init__(
        self,
        marks: tuple[str, ...],
        operations: Mapping[str, Operation],
        reach: Fraction | None,
        rule: Rule,
    ) -> None:
        self.operations = operations
        self.reach = reach
        self.rule = rule
        self.bench = dict.fromkeys(marks, "")
        self.bad: dict[str, tuple[Status, str, str, tuple[RecordedHarm, ...]]] = {}
        self.within: dict[str, str] = {}
        self.given_up: set[str] = set()
        self.begun = dict.fromkeys(marks, 0)
        self.ticks: dict[str, Tick] = {}
        self.readings: dict[str, list[RecordedReading]] = defaultdict(list)
        self.settings: dict[str, Fraction] = {}
        self.minutes: list[tuple[tuple[str, ...], float]] = []
        self.offcuts: dict[str, FoundOffcut] = {}
        self.lost: list[str] = []
        self.sheets: dict[str, int] = {}
        self.decisions: list[Decided] = []
        self.dry_fits: dict[str, str] = {}
        self.flaws: dict[str, Flawed] = {}
        self.findings: list[Finding] = []
        self.strays: list[Finding] = []
        self.of_part: dict[str, list[str]] = defaultdict(list)
        self.freeing: dict[str, list[str]] = defaultdict(list)
        self.own: dict[str, list[str]] = defaultdict(list)
        for key, operation in operations.items():
            if operation.kind is not OperationKind.JOIN:
                for mark in operation.parts:
                    self.of_part[mark].append(key)
                    if operation.kind.cuts_up_a_sheet:
                        self.freeing[mark].append(key)
                if len(operation.parts) == 1:
                    self.own[operation.parts[0]].append(key)

    def copy(self) -> _Folding:
        """The same, to be taken further on its own; what the work is made of is shared."""
        other = copy(self)
        for name in _GROWING:
            setattr(other, name, copy(getattr(self, name)))
        other.readings = defaultdict(list, {name: list(read) for name, read in self.readings.items()})
        return other

    def take(self, event: Event) -> None:
        what: Happening = event.what
        if isinstance(what, Done):
            for step in what.steps:
                self._tick(event, step)
        elif isinstance(what, Claimed):
            for mark in what.parts:
                self._claim(event, mark)
        elif isinstance(what, Released):
            for mark in what.parts:
                if self._known(event, mark) and self.bench[mark] == event.bench:
                    self.bench[mark] = ""
        elif isinstance(what, SettingMade):
            self._set(event, what)
        elif isinstance(what, Measured):
            reading = RecordedReading(what.value, what.tool, event.bench, event.id)
            self.readings[what.name].append(reading)
        elif isinstance(what, Spoiled):
            if self._known(event, what.part):
                self.bad[what.part] = (Status.SPOILED, what.how, event.id, what.harms)
        elif isinstance(what, Assembled):
            self._assemble(event, what)
        elif isinstance(what, FoundOffcut):
            self.offcuts[what.name] = what
        elif isinstance(what, Flawed):
            self.flaws[event.id] = what
        elif isinstance(what, Lost):
            self._lose(event, what.name)
        elif isinstance(what, Stocked):
            self.sheets[what.material] = what.sheets
        elif isinstance(what, TimeTaken):
            self.minutes.append((what.steps, what.minutes))
        elif isinstance(what, Decided):
            self._decide(event, what)
        elif isinstance(what, DryFitted):
            # The last tap stands last: one joint may be tapped by a name of then and by its key of now.
            self.dry_fits.pop(what.joint, None)
            self.dry_fits[what.joint] = what.how

    def _known(self, event: Event, mark: str) -> bool:
        if mark in self.bench:
            return True
        self.strays.append(say.no_such_part(event, mark))
        return False

    def _tick(self, event: Event, step: str) -> None:
        operation = self.operations.get(step)
        if operation is None:
            self.strays.append(say.no_such_step(event, step))
            return
        spoiled = [mark for mark in operation.parts if mark in self.bad]
        # A cut that parts a sheet still counts for the other parts that come of it.
        if spoiled and len(spoiled) == len(operation.parts) and operation.kind is not OperationKind.JOIN:
            self.findings.append(say.tick_for_spoiled(event, operation, self.bad[spoiled[0]][0].value))
            return
        before = self.ticks.get(step)
        if before is not None:
            if before.bench != event.bench:
                self.findings.append(say.cut_twice(event, operation, before))
            return
        for mark in operation.parts:
            holder = self.bench.get(mark, "")
            if len(operation.parts) == 1 and holder and holder != event.bench:
                self.findings.append(say.held_elsewhere(event, operation, holder))
        missing = [self.operations[key] for key in operation.after if key in self.operations]
        missing = [needed for needed in missing if needed.key not in self.ticks]
        if missing:
            self.findings.append(say.out_of_order(event, operation, missing))
        self.ticks[step] = Tick(step, event.bench, event.id, event.at)
        if operation.kind is OperationKind.JOIN:
            self._assemble(event, Assembled(operation.piece, operation.parts))

    def _claim(self, event: Event, mark: str) -> None:
        if not self._known(event, mark):
            return
        holder = self.bench[mark]
        if holder and holder != event.bench:
            self.findings.append(say.claimed_twice(event, mark, holder))
        else:
            self.bench[mark] = event.bench

    def _set(self, event: Event, what: SettingMade) -> None:
        self.settings[what.setting] = what.distance
        planned = self.operations.get(what.setting)
        at_saw = planned is None or planned.setting.machine is Machine.TABLE_SAW
        if at_saw and self.reach is not None and what.distance > self.reach:
            self.findings.append(say.fence_beyond_rail(event, what, self.reach, self.rule))

    def _assemble(self, event: Event, what: Assembled) -> None:
        for mark in what.parts:
            if not self._known(event, mark):
                continue
            self.within[mark] = what.name
            if mark in self.bad:
                self.findings.append(say.assembled_spoiled(event, what, mark, self.bad[mark][0].value))
            else:
                open_ = [key for key in self.of_part[mark] if key not in self.ticks]
                if open_:
                    self.findings.append(say.assembled_early(event, what, mark, open_))

    def _lose(self, event: Event, name: str) -> None:
        self.lost.append(name)
        self.offcuts.pop(name, None)
        if name in self.bench:
            self.bad[name] = (Status.LOST, "", event.id, ())

    def _decide(self, event: Event, what: Decided) -> None:
        self.decisions.append(what)
        # Steps of the plan that this decision replaced are no longer known, and need not be.
        self.strays = [finding for finding in self.strays if finding.code != say.NO_SUCH_STEP]
        for mark in what.again:
            if self._known(event, mark):
                self.bad.pop(mark, None)
                self.within.pop(mark, None)
                self.bench[mark] = ""
                self.begun[mark] += 1
                # Readings of the old part do not apply to the new one.
                for name in [name for name in self.readings if owner_of(name) == mark]:
                    del self.readings[name]
                self._take_back(self.own[mark])
        self._take_back(what.not_done)
        for mark in what.given_up:
            # The job may no longer have the part; then earlier findings about it no longer apply.
            self.strays = [
                finding
                for finding in self.strays
                if (finding.code, finding.place) != (say.NO_SUCH_PART, mark)
            ]
            if mark in self.bench:
                self.given_up.add(mark)

    def _take_back(self, steps: Iterable[str]) -> None:
        """Steps of another piece than is meant from now on: neither they nor their order count any more."""
        gone = frozenset(steps)
        for key in gone:
            self.ticks.pop(key, None)
        self.findings = [
            one for one in self.findings if one.code != say.OUT_OF_ORDER or one.place not in gone
        ]

    def state(self, undone: frozenset[str], last: int, findings: tuple[Finding, ...]) -> State:
        return State(
            {mark: self._part(mark) for mark in self.bench},
            dict(self.ticks),
            {name: tuple(readings) for name, readings in self.readings.items()},
            dict(self.settings),
            tuple(self.minutes),
            tuple(self.offcuts.values()),
            tuple(self.lost),
            dict(self.sheets),
            tuple(self.decisions),
            undone,
            last,
            (*findings, *self.strays, *self.findings),
            dict(self.dry_fits),
            dict(self.flaws),
        )

    def _part(self, mark: str) -> PartState:
        status, how, event, harms = self.bad.get(mark, (self._progress(mark), "", "", ()))
        within = self.within.get(mark, "")
        return PartState(mark, status, self.bench[mark], how, self.begun[mark], within, event, harms)

    def _progress(self, mark: str) -> Status:
        if mark in self.given_up:
            return Status.GIVEN_UP
        if mark in self.within:
            return Status.ASSEMBLED
        keys = self.of_part[mark]
        if keys and all(key in self.ticks for key in keys):
            return Status.CUT
        out_of_sheet = self.freeing[mark]
        freed = bool(out_of_sheet) and all(key in self.ticks for key in out_of_sheet)
        begun = any(key in self.ticks for key in self.own[mark])
        return Status.IN_HAND if freed or begun else Status.TO_CUT
