"""The order of operations as a search: which setting a machine takes next, and what must follow.

Operations are numbered; each has a label (its setting) on a machine, and each label a tool (its
cutter). Entering a label costs `change`; if its tool differs from the one in the machine it
costs `tool_change` more. A machine keeps its setting while others work. This is a sequencing
problem with precedence and two levels of set-up.

Three facts keep the search small, each by moving work forward and comparing costs:
- whatever is ready at the setting a machine stands at is done at once;
- what needs no setting is done as soon as it is ready;
- a setting whose remaining operations are all ready, with the tool now in the machine, is taken
  next, if the machine can do no more where it stands: it must be entered once anyway, and one entry
  suffices. The same holds for the first setting after a change of tool.

A machine that waits for another one (a hole first, then the next cut at the same fence) may do more
where it stands, and then it is left a choice to wait.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .repeated_settings import extra_entries

MachineLabels = tuple[int, ...]  # the label each machine stands at, -1 for none
FREE = -1  # the label of an operation that needs no setting


@dataclass(frozen=True)
class Costs:
    """What it costs to change: the minutes of a new setting, and those a new cutter takes besides."""

    change: int
    tool_change: int


class Turns:
    """The problem: labels by operation, waits by operation, machine and tool by label."""

    def __init__(
        self,
        labels: Sequence[int],
        waits: Sequence[Sequence[int]],
        machine_of: Sequence[int],
        tool_of: Sequence[int],
        costs: Costs,
    ) -> None:
        self.labels = tuple(labels)
        self.waits = tuple(tuple(each) for each in waits)
        self.machine_of = tuple(machine_of)
        self.tool_of = tuple(tool_of)
        self.machines = max(machine_of, default=-1) + 1
        self.costs = costs
        count = len(self.labels)
        self.opens: list[list[int]] = [[] for _ in range(count)]
        for operation, waiting in enumerate(self.waits):
            for other in waiting:
                self.opens[other].append(operation)
        self.waits_for = [sum(1 << other for other in set(waiting)) for waiting in self.waits]
        self.with_label: dict[int, int] = defaultdict(int)
        for operation, label in enumerate(self.labels):
            self.with_label[label] |= 1 << operation
        order = self._topological()
        self.leaves = self._leaves(order)
        self._labels_left = _Blocks(self, order, self.labels, len(self.machine_of))
        tools = [FREE if label == FREE else tool_of[label] for label in self.labels]
        self._tools_left = _Blocks(self, order, tools, max(tool_of, default=-1) + 1)
        first = np.array([number for number, waiting in enumerate(self.waits) if not waiting], dtype=np.intp)
        self.least = costs.change * self._fewest(order, self.labels, self._labels_left, first)
        self.least += costs.tool_change * self._fewest(order, tools, self._tools_left, first)
        """No order of all the work costs less than this."""

    def _fewest(
        self, order: Sequence[int], labels: Sequence[int], blocks: _Blocks, first: NDArray[np.intp]
    ) -> int:
        """The fewest entries of labels (settings, or tools) that any order of all the work needs."""
        if not blocks.kinds or not len(first):
            return 0
        least = [int(runs) - 1 for runs in blocks.outside[first].max(axis=0)]
        again = extra_entries(self._reaches(order, labels, blocks), least)
        return blocks.kinds + sum(again)

    def _reaches(self, order: Sequence[int], labels: Sequence[int], blocks: _Blocks) -> list[frozenset[int]]:
        """For every label, the others on its machine with something that waits for something of it."""
        later = [0] * len(labels)
        found = [0] * blocks.kinds
        for operation in reversed(order):
            for opened in self.opens[operation]:
                later[operation] |= later[opened]
                if labels[opened] != FREE:
                    later[operation] |= 1 << labels[opened]
            if labels[operation] != FREE:
                found[labels[operation]] |= later[operation]
        machines = blocks.machine_of
        return [
            frozenset(
                other
                for other in range(blocks.kinds)
                if found[label] >> other & 1 and other != label and machines[other] == machines[label]
            )
            for label in range(blocks.kinds)
        ]

    def _leaves(self, order: Sequence[int]) -> list[int]:
        """For every operation, those it waits for (however far back) that make its own machine leave
        its setting, as bits."""
        on_machine: dict[int, int] = defaultdict(int)
        for label, operations in self.with_label.items():
            if label != FREE:
                on_machine[self.machine_of[label]] |= operations
        before = [0] * len(self.labels)
        for operation in order:
            for other in self.waits[operation]:
                before[operation] |= before[other] | 1 << other
        return [
            0 if label == FREE else waits & on_machine[self.machine_of[label]] & ~self.with_label[label]
            for label, waits in zip(self.labels, before, strict=True)
        ]

    def may_do_more(self, label: int, done: int) -> bool:
        """Whether a machine at this setting can do more there once other machines have worked."""
        left = self.with_label[label] & ~done
        while left:
            lowest = left & -left
            if not self.leaves[lowest.bit_length() - 1] & ~done:
                return True
            left ^= lowest
        return False

    def _topological(self) -> list[int]:
        left = [len(waiting) for waiting in self.waits]
        ready = [operation for operation, count in enumerate(left) if count == 0]
        for operation in ready:
            for later in self.opens[operation]:
                left[later] -= 1
                if left[later] == 0:
                    ready.append(later)
        if len(ready) < len(self.labels):
            raise ValueError("operations wait for each other in a cycle")
        return ready

    def bound(self, ready: Iterable[int], standing: MachineLabels) -> int:
        """No order of what is left costs less: each setting is entered at least as often as a chain
        of waiting operations leaves it and comes back, and each tool likewise."""
        first = np.fromiter(ready, dtype=np.intp)
        if not len(first):
            return 0
        tools = tuple(FREE if label == FREE else self.tool_of[label] for label in standing)
        return self.costs.change * self._labels_left.entries(
            first, standing
        ) + self.costs.tool_change * self._tools_left.entries(first, tools)


class _Blocks:
    """How often each label must still be entered, by the longest alternation along a waiting chain.

    `inside[u, s]` counts the runs of label s on a chain that begins at operation u when the
    machine already stands at s, `outside[u, s]` when it does not. Operations on other machines
    do not break a run.
    """

    def __init__(self, turns: Turns, order: Sequence[int], labels: Sequence[int], kinds: int) -> None:
        count = len(labels)
        self.kinds = kinds
        machine_of_label = np.full(kinds, -1, dtype=np.int64)
        for operation, label in enumerate(labels):
            if label != FREE:
                machine_of_label[label] = turns.machine_of[turns.labels[operation]]
        self.machine_of = machine_of_label
        self.inside: NDArray[np.int16] = np.zeros((count, kinds), dtype=np.int16)
        self.outside: NDArray[np.int16] = np.zeros((count, kinds), dtype=np.int16)
        for operation in reversed(order):
            later = turns.opens[operation]
            if later:
                inside = self.inside[later].max(axis=0)
                outside = self.outside[later].max(axis=0)
            else:
                inside = np.zeros(kinds, dtype=np.int16)
                outside = inside
            label = labels[operation]
            if label != FREE:
                same = machine_of_label == machine_of_label[label]
                own = inside[label]
                inside = np.where(same, outside, inside)  # another setting of this machine breaks the run
                outside = outside.copy()
                inside[label], outside[label] = own, own + 1
            self.inside[operation], self.outside[operation] = inside, outside

    def entries(self, ready: NDArray[np.intp], standing: Sequence[int]) -> int:
        needed = self.outside[ready].max(axis=0)
        for label in standing:
            if label != FREE:
                needed[label] = self.inside[ready, label].max()
        return int(needed.sum())


@dataclass(frozen=True, slots=True)
class SearchPoint:
    """A point of the search: what is done (a bit an operation), where the machines stand, the cost
    so far, what is ready, and the settings entered in their order."""

    done: int
    standing: MachineLabels
    cost: int
    ready: frozenset[int]
    entered: tuple[int, ...] = ()


def start(turns: Turns) -> SearchPoint:
    """Nothing set, everything done that needs no setting."""
    ready = frozenset(operation for operation, waits in enumerate(turns.waits) if not waits)
    return _advance(turns, SearchPoint(0, (-1,) * turns.machines, 0, ready))


def _advance(turns: Turns, spot: SearchPoint) -> SearchPoint:
    """Do everything that is ready where the machines stand, and what that makes ready."""
    done, ready = spot.done, set(spot.ready)
    standing = set(spot.standing) | {FREE}
    doable = [operation for operation in ready if turns.labels[operation] in standing]
    while doable:
        operation = doable.pop()
        ready.discard(operation)
        done |= 1 << operation
        for later in turns.opens[operation]:
            if not turns.waits_for[later] & ~done:
                ready.add(later)
                if turns.labels[later] in standing:
                    doable.append(later)
    return SearchPoint(done, spot.standing, spot.cost, frozenset(ready), spot.entered)


def enter(turns: Turns, spot: SearchPoint, label: int) -> SearchPoint:
    """Set a machine to `label` and do what that allows."""
    machine = turns.machine_of[label]
    before = spot.standing[machine]
    same_tool = before != -1 and turns.tool_of[before] == turns.tool_of[label]
    cost = spot.cost + turns.costs.change + (0 if same_tool else turns.costs.tool_change)
    standing = (*spot.standing[:machine], label, *spot.standing[machine + 1 :])
    return _advance(turns, SearchPoint(spot.done, standing, cost, spot.ready, (*spot.entered, label)))


def next_points(turns: Turns, spot: SearchPoint) -> Iterator[SearchPoint]:
    """The points worth trying next; one alone where a setting can be finished (see above)."""
    waiting: dict[int, int] = defaultdict(int)
    for operation in spot.ready:
        waiting[turns.labels[operation]] += 1
    left = {label: (turns.with_label[label] & ~spot.done).bit_count() for label in waiting}
    whole = {label: count == left[label] for label, count in waiting.items()}
    groups: dict[tuple[int, int], list[int]] = defaultdict(list)
    for label in sorted(waiting):
        groups[turns.machine_of[label], turns.tool_of[label]].append(label)
    choices: list[int] = []
    for (machine, tool), labels in groups.items():
        complete = [label for label in labels if whole[label]]
        stands = spot.standing[machine]
        same_tool = stands != -1 and turns.tool_of[stands] == tool
        if complete and same_tool and not turns.may_do_more(stands, spot.done):
            yield enter(turns, spot, complete[0])
            return
        choices.extend(complete[:1] or labels)
    for label in choices:
        yield enter(turns, spot, label)
