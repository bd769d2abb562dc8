"""HiGHS, the solver of linear and integer programmes: models are solved and results checked here only.

HiGHS keeps a scheduler for each thread that calls it, with as many workers as the first solve in that
thread asked for. A later solve there that asks for a different number ends at once with an error status
and no answer, so one default solve anywhere in a process would break every solve of ours after it.
Therefore each solve runs in a new thread, which has no scheduler yet: no other solve can disturb it, it
disturbs no other, and nothing need be reset while another solve may be running. A thread costs 0.1 ms;
a typical solve of the planner takes 5 ms.

Always one worker: with more, which of several equally good answers is found depends on the machine.

Q. Huangfu, J. A. J. Hall: Parallelizing the dual revised simplex method. Mathematical Programming
Computation 10 (2018).
"""

from __future__ import annotations

import threading
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from math import inf, isfinite
from typing import Any

import highspy
import numpy as np
from highspy import HighsModelStatus as Status
from numpy.typing import ArrayLike, NDArray

from .errors import LibraryError, SolverError, library_call

WORKERS = 1


class Ending(Enum):
    """How a solve ended."""

    OPTIMAL = "optimal"
    INFEASIBLE = "infeasible"
    LIMIT = "limit"  # of nodes or improvements; there are `values` if any answer was found


_ENDINGS = {
    Status.kOptimal: Ending.OPTIMAL,
    Status.kInfeasible: Ending.INFEASIBLE,
    Status.kIterationLimit: Ending.LIMIT,
    Status.kSolutionLimit: Ending.LIMIT,
}


@dataclass(frozen=True, slots=True)
class Answer:
    """The result of a solve. It has values unless the model is infeasible or a limit came first.

    `iterations` of the simplex method and `nodes` of branch and bound are what it took.
    """

    ending: Ending
    cost: float
    iterations: int
    nodes: int
    _solution: Any

    @property
    def found(self) -> bool:
        """Whether any answer was found."""
        return self._solution is not None

    @property
    def values(self) -> NDArray[np.float64]:
        """The value of each column."""
        return np.array(self._solution.col_value)

    @property
    def duals(self) -> NDArray[np.float64]:
        """The dual value of each row of a linear programme."""
        return np.array(self._solution.row_dual)


class Solver(highspy.Highs):
    """A model for HiGHS, silent and on one thread. Build it, then call `answer`, as often as needed.

    `nodes` limits the search of an integer programme, and `improvements` how many better answers it
    looks for. There is no limit of time: what is found would depend on the load of the machine. With
    `to_the_end` an integer programme is searched until nothing better is left; HiGHS otherwise stops when
    it is within a ten-thousandth of the best.
    """

    def __init__(
        self, *, nodes: int | None = None, improvements: int | None = None, to_the_end: bool = False
    ) -> None:
        with library_call("HiGHS", "starting"):
            super().__init__()  # type: ignore[no-untyped-call]
        self._set("threads", WORKERS)
        if nodes is not None:
            self._set("mip_max_nodes", nodes)
        if improvements is not None:
            self._set("mip_max_improving_sols", improvements)
        if to_the_end:
            self._set("mip_rel_gap", 0.0)

    def enableCallbacks(self) -> None:
        # Called by the constructor just before HiGHS would print its first line: the terminal belongs
        # to our caller.
        self.setOptionValue("output_flag", False)
        super().enableCallbacks()  # type: ignore[no-untyped-call]

    def add_row(self, low: float, high: float, columns: ArrayLike = (), values: ArrayLike = ()) -> None:
        """A row `low <= values * columns <= high`."""
        places = np.asarray(columns, dtype=np.int32)
        _checked(self.addRow(low, high, len(places), places, np.asarray(values, dtype=np.float64)), "a row")

    def add_column(
        self, price: float, low: float, high: float, rows: ArrayLike = (), values: ArrayLike = ()
    ) -> None:
        """A column between `low` and `high`, with these values in these rows."""
        places = np.asarray(rows, dtype=np.int32)
        made = self.addCol(price, low, high, len(places), places, np.asarray(values, dtype=np.float64))
        _checked(made, "a column")

    def bound_column(self, column: int, low: float, high: float) -> None:
        """Change the bounds of a column."""
        _checked(self.changeColBounds(column, low, high), "a bound")

    def price_column(self, column: int, price: float) -> None:
        """Change the price of a column."""
        _checked(self.changeColCost(column, price), "a price")

    def make_integral(self, columns: Sequence[int]) -> None:
        """Restrict these columns to whole numbers."""
        whole = np.full(len(columns), highspy.HighsVarType.kInteger)
        made = self.changeColsIntegrality(len(columns), np.array(columns, dtype=np.int32), whole)
        _checked(made, "whole columns")

    def take_model(self, other: Solver) -> None:
        """Replace the model by a copy of another solver's."""
        _checked(self.passModel(other.getModel()), "a model")

    def answer(self, task: str, *, least: Any = None) -> Answer:
        """Solve the model; `least` replaces what is minimised.

        `task` completes "failed while ...", as in "looking for the fewest measurements". Raises SolverError
        if HiGHS ends in any way but an optimum, a proof that there is no answer, or a limit we set.
        """
        if least is not None:
            with library_call("HiGHS", task):
                self.setObjective(least, highspy.ObjSense.kMinimize)
        state = self._run(task)
        status = self.getModelStatus()
        if state == highspy.HighsStatus.kOk and status == Status.kModelEmpty:
            return self._without_columns()
        ending = _ENDINGS.get(status)
        if state == highspy.HighsStatus.kError or ending is None:
            raise SolverError("HiGHS", task, f"it ended with {state.name} and {status.name}")
        info = self.getInfo()
        feasible = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
        if ending is Ending.OPTIMAL and not (feasible and isfinite(info.objective_function_value)):
            raise SolverError("HiGHS", task, "it reported an optimum without an answer")
        return Answer(
            ending,
            info.objective_function_value,
            max(0, info.simplex_iteration_count),
            max(0, info.mip_node_count),
            self.getSolution() if feasible else None,
        )

    def _without_columns(self) -> Answer:
        """HiGHS reports a model without columns only as empty; its rows may still be infeasible."""
        model = self.getLp()
        bounds = zip(model.row_lower_, model.row_upper_, strict=True)
        if all(low <= 0 <= high for low, high in bounds):
            return Answer(Ending.OPTIMAL, 0.0, 0, 0, self.getSolution())
        return Answer(Ending.INFEASIBLE, inf, 0, 0, None)

    def _run(self, task: str) -> highspy.HighsStatus:
        """One run in a thread of its own; the top of this file says why."""
        ended: list[highspy.HighsStatus | BaseException] = []

        def solve() -> None:
            try:
                ended.append(self.run())
            except BaseException as fault:  # raised in the thread that waits
                ended.append(fault)

        # A daemon thread, so that stopping the program does not wait for a solve.
        thread = threading.Thread(target=solve, name="HiGHS", daemon=True)
        try:
            thread.start()
        except RuntimeError as fault:
            raise SolverError("HiGHS", task, fault) from fault
        thread.join()
        (outcome,) = ended
        if isinstance(outcome, BaseException):
            raise SolverError("HiGHS", task, outcome) from outcome
        return outcome

    def _set(self, option: str, value: float) -> None:
        _checked(self.setOptionValue(option, value), f"its option {option}")


def _checked(status: highspy.HighsStatus, what: str) -> None:
    if status == highspy.HighsStatus.kError:
        raise LibraryError("HiGHS", f"taking {what}", "HiGHS rejected it")
