"""A case put together: a linear programme over panels that shift, lean and bend.

Seen from the front every panel is a bar. Its unknowns are a shift along itself and one across at each end
(inches from nominal); where forces act across it, it bends (bending.py). At each joint an end may not pass
the floor or the face it meets, nor leave the walls of its dado. There the maker pulls (`pull`, by hand or by
a clamp) and wood pushes back (`push`). Every bar is in balance along, across and in turning.

What is least: first how far joints that place the case stay open beyond a hair, then how far the others do,
then the force of the pulls. The left side stands plumb and the bottom lies level, as the back holds them.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from math import inf
from typing import Any

import numpy as np
from numpy.typing import NDArray

from casewright.casework.parts.part import Role
from casewright.errors import SolverError
from casewright.solver import Answer, Solver

from .bars import SAME_PLACE, Bar, Form
from .closed_case import Closed, Effort
from .geometry import CaseShape, Held, Joint
from .made_parts import Builds, MadeParts

OPEN, UNPLACED, PULL, PUSH = 1.0, 100.0, 1e-4, 1e-6
"""What an inch of opening, of opening beyond a hair at a placing joint, a pound pulled and a pound
pushed cost: 15 lb are pulled rather than leave 0.00002 in of a placing joint open, or
0.0015 in of another."""


TOUCH, TOUCH_FORCE = 1e-5, 1e-3
"""Inches, and pounds, above which two parts are taken to be apart, and to push."""

MOST_TRIED = 60
"""Answers looked at for one build; then the best so far stands. Few builds take more than five."""

CLOSE_COST = 1e-9


class CaseProgramme:
    """The programme of one case; its rows' bounds are set for each build."""

    def __init__(self, shape: CaseShape, made: MadeParts) -> None:
        self.shape, self.made = shape, made
        self.columns = 0
        self.costs: list[float] = []
        self.lows: list[float] = []
        self.rows: list[tuple[Form, Builds | float, float | Builds]] = []  # form, low, high
        self.pulls: list[tuple[int, bool]] = []  # column, at a placing joint
        self.excess: list[int] = []
        self.hairs: list[
            tuple[int, Builds | float]
        ] = []  # rows with an opening that must stay a hair, and its error
        self.ends: dict[tuple[str, int], list[tuple[Form, Builds]]] = defaultdict(list)
        self.pushes: dict[tuple[str, int], list[int]] = defaultdict(list)
        self.drawn: dict[tuple[str, int], list[int]] = defaultdict(list)  # columns of pulls along the bar
        self.contacts: dict[int, tuple[int, Form, Builds]] = {}  # by column of push: row of the room
        self.too_long: set[int] = set()  # those at joints that do not place
        self.bars = self._make_bars()
        joined = [self._forces_at(joint) for joint in shape.joints]
        for joint, forces in zip(shape.joints, joined, strict=True):
            self._contact(joint, forces)
        self._balance()

    # Columns ------------------------------------------------------------------------------------------

    def _column(self, cost: float, low: float) -> int:
        self.costs.append(cost)
        self.lows.append(low)
        self.columns += 1
        return self.columns - 1

    def _make_bars(self) -> dict[str, Bar]:
        places: dict[str, list[float]] = defaultdict(list)
        for joint in self.shape.joints:
            places[joint.onto].append(self._where(joint))
        bars = {}
        for mark, axis in self.shape.along.items():
            piece = self.shape.pieces[mark]
            stiffness = self.made.stocks[piece.material].errors.stiffness
            bars[mark] = Bar(piece, axis, self.columns, places[mark], stiffness)
            for _ in range(3):
                self._column(0.0, -inf)
        return bars

    def _where(self, joint: Joint) -> float:
        """How far along the bar that is met a joint lies: at the middle of the thickness that meets it."""
        onto = self.shape.pieces[joint.onto]
        axis = self.shape.along[joint.onto]
        bar = self.shape.pieces[joint.bar]
        return bar.corner[axis] + bar.size[axis] / 2 - onto.corner[axis]

    # Forces -------------------------------------------------------------------------------------------

    def _forces_at(self, joint: Joint) -> dict[str, int]:
        """The columns of a joint's forces, entered with the two bars they act on."""
        bar, onto = self.bars[joint.bar], self.bars[joint.onto]
        node, end = onto.node(self._where(joint)), bar.node(bar.long if joint.sign > 0 else 0.0)
        push, pull = self._column(PUSH, 0.0), self._column(PULL, 0.0)
        self.pulls.append((pull, joint.placing))
        self.pushes[joint.bar, joint.sign].append(push)
        self.drawn[joint.bar, joint.sign].append(pull)
        for column, sign in ((push, joint.sign), (pull, -joint.sign)):
            onto.across_forces.append((node, column, sign))
            bar.along_forces.append((column, -sign))
        forces = {"push": push, "pull": pull}
        if joint.held is not Held.FREE:
            for name, sign in (("up", 1), ("down", -1)):
                pulled = joint.held is Held.FLUSH or (
                    joint.held is Held.SHOULDER and sign == self._to_shoulder(joint)
                )
                column = self._column(PULL if pulled else PUSH, 0.0)
                if pulled:
                    self.pulls.append((column, True))
                bar.across_forces.append((end, column, sign))
                onto.along_forces.append((column, -sign))
                forces[name] = column
        return forces

    def _to_shoulder(self, joint: Joint) -> int:
        """Which way across itself a panel is pressed on the shoulder of its rabbet."""
        assert joint.slot is not None
        return -joint.slot.edge

    # Rows ---------------------------------------------------------------------------------------------

    def _row(self, form: Form, low: Builds | float, high: Builds | float = inf) -> int:
        self.rows.append((form, low, high))
        return len(self.rows) - 1

    def _contact(self, joint: Joint, forces: Mapping[str, int]) -> None:
        made, slot = self.made, joint.slot
        bar, onto = self.bars[joint.bar], self.bars[joint.onto]
        # The end on the floor: the room between them, in the direction of the end.
        error = -made.thickness(onto.piece) / 2
        if slot is not None:
            error = error + made.slot_depth(onto.piece, slot)
        if joint.sign > 0:
            error = error - made.size(bar.piece, bar.axis)
        room = _scaled(onto.moved(self._where(joint)), joint.sign)
        room[bar.shift] -= joint.sign
        self.ends[joint.bar, joint.sign].append((room, error))
        self._touch(forces["push"], room, error)
        if joint.placing:
            self._keep_shut(room, error)
        else:
            self.too_long.add(forces["push"])
            for column, times in room.items():
                self.costs[column] += OPEN * times
        if joint.held is Held.FREE:
            return
        across = bar.moved(bar.long if joint.sign > 0 else 0.0)
        across[onto.shift] -= 1.0
        self._hold(joint, across, forces)

    def _keep_shut(self, room: Form, error: Builds) -> None:
        """An opening may be no more than a hair, and what it is beyond that costs most."""
        over = self._column(UNPLACED, 0.0)
        self.excess.append(over)
        shut = dict(room)
        shut[over] = -1.0
        self.hairs.append((self._row(shut, -inf, 0.0), error))

    def _touch(self, push: int, room: Form, error: Builds) -> None:
        """A room that is never less than none, and the push where there is none."""
        self.contacts[push] = self._row(room, -error), room, error

    def _hold(self, joint: Joint, across: Form, forces: Mapping[str, int]) -> None:
        """What keeps an end from moving across itself, against the bar that it meets."""
        made, slot = self.made, joint.slot
        bar, onto = self.bars[joint.bar], self.bars[joint.onto]
        low, high = bar.piece.corner[bar.across], bar.piece.end(bar.across, 1)
        if slot is None:
            error = self._line(joint)
            self._keep_shut(across, error)
            self._keep_shut(_scaled(across, -1), -error)
            return
        thick = made.thickest(bar.piece, f"end {joint.sign}")
        at, wide = made.slot_at(onto.piece, slot), made.slot_width(onto.piece, slot, bar.piece.material)
        if slot.edge < 0:
            low_wall, high_wall = at, at + wide
        else:
            high_wall = made.size(onto.piece, onto.axis) - at
            low_wall = high_wall - wide
        if joint.held is Held.SHOULDER:
            if slot.edge < 0:
                name, room, error = "down", _scaled(across, -1), (slot.high - high) + high_wall - thick / 2
            else:
                name, room, error = "up", across, (low - slot.low) - low_wall - thick / 2
            self._touch(forces[name], room, error)
            self._keep_shut(room, error)
            return
        below, above = (low - slot.low) - thick / 2 - low_wall, (slot.high - high) + high_wall - thick / 2
        # A panel too thick for its dado is judged by itself; here it lies midway in it.
        tight = np.minimum(below + above, 0.0) / 2
        self._touch(forces["up"], across, below - tight)
        self._touch(forces["down"], _scaled(across, -1), above - tight)

    def _line(self, joint: Joint) -> Builds:
        """Flush with the end of the upright, or on a line laid out on it: how far the place is off."""
        made, bar, onto = self.made, self.bars[joint.bar].piece, self.bars[joint.onto].piece
        axis = self.shape.along[joint.onto]
        if abs(bar.end(axis, 1) - onto.end(axis, 1)) < SAME_PLACE:
            return made.thickness(bar) / 2 - made.size(onto, axis)
        if abs(bar.corner[axis] - onto.corner[axis]) < SAME_PLACE:
            return -made.thickness(bar) / 2
        return made.draw(made.method.shop.rule, bar.mark, "line", str(joint.sign))

    def _balance(self) -> None:
        for bar in self.bars.values():
            role = bar.piece.role
            if role is Role.LEFT_SIDE:
                for column in (bar.shift, bar.low, bar.high):
                    self._row({column: 1.0}, 0.0, 0.0)
                continue
            along: Form = defaultdict(float)
            for column, sign in bar.along_forces:
                along[column] += sign
            self._row(along, 0.0, 0.0)
            across: Form = defaultdict(float)
            turning: Form = defaultdict(float)
            for node, column, sign in bar.across_forces:
                across[column] += sign
                turning[column] += sign * bar.places[node] / bar.long
            self._row(across, 0.0, 0.0)
            if role is Role.BOTTOM:
                self._row({bar.low: 1.0, bar.high: -1.0}, 0.0, 0.0)
            else:
                self._row(turning, 0.0, 0.0)

    # Solving ------------------------------------------------------------------------------------------

    def close(self, effort: Effort, builds: NDArray[np.intp] | None = None) -> Closed:
        """Put these builds together (all, if none are named) with that effort."""
        chosen = np.arange(self.made.builds) if builds is None else builds
        low, high = self._bounds(effort, chosen)
        solver = self._solver(effort)
        model: Any = solver  # its stubs do not know that rows can be changed
        rows = np.arange(len(self.rows), dtype=np.int32)
        values = np.empty((len(chosen), self.columns))
        for number, build in enumerate(chosen):
            model.changeRowsBounds(len(rows), rows, low[number], high[number])
            values[number] = self._settled(solver, effort, build)
        return self._read(values, chosen)

    def _settled(self, solver: Solver, effort: Effort, build: int) -> NDArray[np.float64]:
        """The best answer in which nothing pushes where nothing touches.

        A linear programme cannot ask for that, and would prop sides apart with a shelf that is too short. So
        where an answer has such a push, two follow: one without the push, and one where the two parts touch.
        """
        model: Any = solver
        best, found = inf, None
        waiting: list[tuple[frozenset[int], frozenset[int]]] = [(frozenset(), frozenset())]
        tried = 0
        while waiting and (tried < MOST_TRIED or found is None):
            apart, touching = waiting.pop()
            tried += 1
            for column in apart:
                solver.bound_column(column, 0.0, 0.0)
            for column in touching:
                row, _, error = self.contacts[column]
                model.changeRowBounds(row, -error[build], -error[build])
            answer = self._answer(solver)
            for column in apart:
                solver.bound_column(column, 0.0, effort.force if column in self.too_long else inf)
            for column in touching:
                row, _, error = self.contacts[column]
                model.changeRowBounds(row, -error[build], inf)
            if not answer.found or answer.cost >= best - CLOSE_COST:
                continue
            prop = self._prop(answer.values, build, apart | touching)
            if prop is None:
                best, found = answer.cost, answer.values
            else:
                waiting += [(apart, touching | {prop}), (apart | {prop}, touching)]
        assert found is not None, f"{self.shape.mark} cannot be put together without props"
        return found

    def _answer(self, solver: Solver) -> Answer:
        """Once more from nothing where the last answer led the solver astray."""
        task = f"putting {self.shape.mark} together"
        try:
            return solver.answer(task)
        except SolverError:
            cold: Any = solver
            cold.clearSolver()
            return solver.answer(task)

    def _prop(self, answer: NDArray[np.float64], build: int, settled: frozenset[int]) -> int | None:
        """The push that is farthest from where it touches."""
        worst, prop = TOUCH, None
        for column, (_, room, error) in self.contacts.items():
            if column not in settled and answer[column] > TOUCH_FORCE:
                open_ = sum(times * answer[one] for one, times in room.items()) + error[build]
                if open_ > worst:
                    worst, prop = open_, column
        return prop

    def _bounds(
        self, effort: Effort, chosen: NDArray[np.intp]
    ) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        low, high = np.empty((2, len(chosen), len(self.rows)))
        for number, (_, least, most) in enumerate(self.rows):
            low[:, number] = least[chosen] if isinstance(least, np.ndarray) else least
            high[:, number] = most[chosen] if isinstance(most, np.ndarray) else most
        for number, error in self.hairs:
            high[:, number] = effort.hair - (error[chosen] if isinstance(error, np.ndarray) else error)
        return low, high

    def _solver(self, effort: Effort) -> Solver:
        solver = Solver()
        pulled = dict(self.pulls)
        for column in range(self.columns):
            most = inf
            if column in pulled:
                most = effort.force if pulled[column] or effort.draws else 0.0
            elif column in self.too_long:
                most = effort.force
            solver.add_column(self.costs[column], self.lows[column], most)
        for form, _, _ in self.rows:
            solver.add_row(-inf, inf, list(form), list(form.values()))
        return solver

    def _read(self, values: NDArray[np.float64], chosen: NDArray[np.intp]) -> Closed:
        def worth(form: Form) -> Builds:
            return np.asarray(values[:, list(form)] @ np.array(list(form.values())))

        gap = {
            end: np.max([worth(form) + error[chosen] for form, error in met], axis=0)
            for end, met in self.ends.items()
        }
        ends = {
            (mark, sign): worth(bar.moved(bar.long if sign > 0 else 0.0))
            for mark, bar in self.bars.items()
            for sign in (-1, 1)
        }
        return Closed(
            values,
            values[:, self.excess].max(axis=1),
            gap,
            {mark: ends[mark, 1] - ends[mark, -1] for mark in self.bars},
            {end: values[:, columns].max(axis=1) for end, columns in self.pushes.items()},
            {end: values[:, columns].max(axis=1) for end, columns in self.drawn.items()},
            ends,
        )


def _scaled(form: Form, times: float) -> Form:
    return defaultdict(float, {column: times * value for column, value in form.items()})
