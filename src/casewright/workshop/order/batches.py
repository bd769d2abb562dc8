"""The order of the work: batches on one setting, with as few changes of setting and cutter as possible.

Best-first search with a bound (A*: Hart, Nilsson and Raphael 1968) proves the least; where that
would take too long a beam search gives a good order and the bound says how much could still be saved.
The effort is counted in search points, so the same job gives the same order.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

from ..operations import Guide, Operation, OperationKind, Setting
from .fence_changes import with_fence_kept_on
from .turn_search import FREE, Costs, SearchPoint, Turns, enter, next_points, start

USUAL_COSTS = Costs(change=2, tool_change=8)
"""Minutes, our assumption: to set a fence and check it on a test piece; to change the cutter as well."""

_KINDS = tuple(OperationKind)

PROVE = 2_000
BEAM, BEAM_WORK = 24, 8_000
"""The widest beam, and what width times operations may come to."""


@dataclass(frozen=True)
class Batch:
    """Operations done on one setting, one after another. `setting` is None for work that needs
    none; `new_setting` and `new_cutter` tell what the machine needs before it, `made_before` what was made
    at the same distance in earlier batches."""

    setting: Setting | None
    operations: tuple[Operation, ...]
    new_setting: bool = False
    new_cutter: bool = False
    made_before: tuple[Operation, ...] = ()

    @property
    def key(self) -> str:
        """A stable name: its first operation's."""
        return self.operations[0].key


@dataclass(frozen=True)
class WorkOrder:
    """Batches in order; `minutes` go into changes, and no order of this work needs fewer than `bound`."""

    batches: tuple[Batch, ...]
    minutes: int
    bound: int

    @property
    def proved(self) -> bool:
        return self.minutes == self.bound

    @property
    def operations(self) -> tuple[Operation, ...]:
        """Every operation in the order in which it is done."""
        return tuple(one for batch in self.batches for one in batch.operations)

    @property
    def settings(self) -> int:
        return sum(batch.new_setting for batch in self.batches)

    @property
    def cutters(self) -> int:
        return sum(batch.new_cutter for batch in self.batches)

    def statement(self) -> str:
        """What is proved, in one sentence."""
        made = f"{self.settings} settings with {self.cutters} changes of cutter"
        if self.proved:
            return f"{made}; no order of this work spends less time on changes."
        return f"{made}; another order might save up to {self.minutes - self.bound} minutes of changes."


def order(
    operations: Iterable[Operation], costs: Costs = USUAL_COSTS, prove: int = PROVE, beam: int | None = None
) -> WorkOrder:
    """The operations as batches.

    `prove` is how many points the proof may look at, `beam` how many partial orders the quick
    search keeps at a time (None: fewer, the more there is to do). ValueError when operations
    wait for each other in a cycle.
    """
    listed = tuple(operations)
    turns, settings = turns_of(listed, costs)
    if beam is None:
        beam = max(2, min(BEAM, BEAM_WORK // max(len(listed), 1)))
    best, bound = _prove(turns, _beam(turns, beam), prove)
    fenced = {at for at, setting in enumerate(settings) if setting.guide is Guide.SACRIFICIAL_FENCE}
    best = with_fence_kept_on(turns, best, fenced)
    batches = _with_made_before(_batches(listed, turns, settings, best.entered))
    return WorkOrder(tuple(batches), best.cost, bound)


def turns_of(operations: tuple[Operation, ...], costs: Costs) -> tuple[Turns, tuple[Setting, ...]]:
    """The search's problem, and the setting behind each of its labels."""
    labels: dict[Setting, int] = {}
    tools: dict[object, int] = {}
    machines: dict[object, int] = {}
    for operation in operations:
        setting = operation.setting
        if setting.machine.has_settings and setting not in labels:
            labels[setting] = len(labels)
            machines.setdefault(setting.machine, len(machines))
            tools.setdefault((setting.machine, setting.cutter), len(tools))
    turns = Turns(
        [labels.get(operation.setting, FREE) for operation in operations],
        list(_waits(operations)),
        [machines[setting.machine] for setting in labels],
        [tools[setting.machine, setting.cutter] for setting in labels],
        costs,
    )
    return turns, tuple(labels)


def _waits(operations: tuple[Operation, ...]) -> Iterator[list[int]]:
    """What each operation waits for in this order: doors and drawers are hung when the finish is dry, and so
    when nothing is left to saw, whatever case it is of."""
    place = {operation.key: number for number, operation in enumerate(operations)}
    others = [number for number, operation in enumerate(operations) if not operation.when_finished]
    for operation in operations:
        yield others if operation.when_finished else [place[key] for key in operation.after if key in place]


def _beam(turns: Turns, width: int) -> SearchPoint:
    """A good order: the `width` most promising partial orders are kept at every step."""
    level = [start(turns)]
    best: SearchPoint | None = None
    while level:
        seen: dict[tuple[int, tuple[int, ...]], SearchPoint] = {}
        for spot in level:
            if not spot.ready:
                best = spot if best is None or spot.cost < best.cost else best
                continue
            for later in next_points(turns, spot):
                known = seen.get((later.done, later.standing))
                if known is None or later.cost < known.cost:
                    seen[later.done, later.standing] = later
        ranked = [(spot.cost + turns.bound(spot.ready, spot.standing), spot) for spot in seen.values()]
        ranked.sort(key=lambda pair: (pair[0], -pair[1].done.bit_count()))
        level = [spot for worth, spot in ranked[:width] if best is None or worth < best.cost]
    assert best is not None, "the first point leads to an order, since nothing waits in a cycle"
    return best


def _prove(turns: Turns, best: SearchPoint, limit: int) -> tuple[SearchPoint, int]:
    """The best order known after `limit` points of the best-first search, and what is proved."""
    if best.cost == turns.least:
        return best, turns.least
    first = start(turns)
    count = 0
    waiting = [(turns.least, 0, count, first)]
    cheapest = {(first.done, first.standing): 0}
    while waiting:
        worth, _, _, spot = heapq.heappop(waiting)
        if worth >= best.cost:
            break
        if count >= limit:
            return best, max(worth, turns.least)
        for later in next_points(turns, spot):
            place = (later.done, later.standing)
            if later.cost >= cheapest.get(place, later.cost + 1):
                continue
            cheapest[place] = later.cost
            promise = later.cost + turns.bound(later.ready, later.standing)
            if not later.ready and later.cost < best.cost:
                best = later
            elif promise < best.cost:
                count += 1
                heapq.heappush(waiting, (promise, -later.done.bit_count(), count, later))
    return best, best.cost


def _batches(
    operations: tuple[Operation, ...], turns: Turns, settings: tuple[Setting, ...], entered: tuple[int, ...]
) -> Iterator[Batch]:
    """The batches as the search goes through them, each in the order its operations may be done."""
    spot = start(turns)
    yield from _run(operations, turns, settings, 0, spot.done, FREE)
    for label in entered:
        before, stood = spot.done, spot.standing[turns.machine_of[label]]
        spot = enter(turns, spot, label)
        new_cutter = stood == -1 or turns.tool_of[stood] != turns.tool_of[label]
        for number, batch in enumerate(_run(operations, turns, settings, before, spot.done, label)):
            yield batch if number else replace(batch, new_setting=True, new_cutter=new_cutter)


def _with_made_before(batches: Iterable[Batch]) -> Iterator[Batch]:
    """The batches, each that makes a setting again with what was made on it before; a fence and a stop at one
    distance give one size."""
    made: dict[Setting, tuple[Operation, ...]] = {}
    for batch in batches:
        if batch.setting is None:
            yield batch
            continue
        size = replace(batch.setting, guide=Guide.FENCE)
        before = made.get(size, ())
        yield replace(batch, made_before=before) if batch.new_setting else batch
        made[size] = (*before, *batch.operations)


def _run(
    operations: tuple[Operation, ...],
    turns: Turns,
    settings: tuple[Setting, ...],
    done: int,
    after: int,
    label: int,
) -> Iterator[Batch]:
    """What is done between `done` and `after`: first all that `label` allows, then the work at the
    other machines that this makes ready, and so on."""
    new = _numbers(after & ~done)
    turn = [label, *dict.fromkeys(turns.labels[number] for number in new if turns.labels[number] != label)]
    while new:
        for now in turn:
            made: list[Operation] = []
            while ready := [
                number
                for number in new
                if turns.labels[number] == now and not turns.waits_for[number] & ~done
            ]:
                if now == FREE:
                    ready = _next_by_hand(operations, ready, made)
                done |= sum(1 << number for number in ready)
                made.extend(operations[number] for number in ready)
                new = [number for number in new if not done >> number & 1]
            if made:
                yield from _split(made, None if now == FREE else settings[now])


def _next_by_hand(operations: tuple[Operation, ...], ready: list[int], made: list[Operation]) -> list[int]:
    """The next of what needs no setting: more of the same if there is any, so that a sheet is cut up before
    the next is laid out, and parts of one length are cut to it one after another, in one pass where they are
    clamped together."""
    titles = {number: _by_hand(operations[number]) for number in ready}
    same = _by_hand(made[-1]) if made else None
    title = same if same in titles.values() else min(titles.values())
    first = next(number for number in ready if titles[number] == title)
    return [
        number for number in ready if number == first or operations[number].key in operations[first].together
    ]


def _by_hand(operation: Operation) -> tuple[int, Fraction]:
    """What batch work without settings belongs to: its kind in the order of work, and the size it makes. A
    trim of what has not left the trestles goes with the cuts that part it: nobody lays a sheet out twice."""
    kind = operation.kind
    if kind is OperationKind.TRIM and operation.carried is None:
        kind = OperationKind.CARRY
    to_size = kind in (OperationKind.RIP, OperationKind.CROSSCUT, OperationKind.PLANE, OperationKind.FLUSH)
    return _KINDS.index(kind), (operation.makes or Fraction(0)) if to_size else Fraction(0)


def _numbers(bits: int) -> list[int]:
    """Which bits are set, least first."""
    found = []
    while bits:
        lowest = bits & -bits
        found.append(lowest.bit_length() - 1)
        bits ^= lowest
    return found


def _split(made: list[Operation], setting: Setting | None) -> Iterator[Batch]:
    """One batch a setting; work without settings goes by its kind, and cuts to size by the size."""
    if setting is not None:
        yield Batch(setting, tuple(made))
        return
    for _, some in groupby(made, key=_by_hand):
        yield Batch(None, tuple(some))
