"""The master problem: cover the demand with columns at least price, as LP and as MIP (HiGHS).

Q. Huangfu, J. A. J. Hall: Parallelizing the dual revised simplex method. Mathematical Programming
Computation 10 (2018).
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import highspy
import numpy as np
from highspy import _core as highs

from .columns import Column, Counts
from .instance import LargeObject
from .pricing import Duals


@dataclass(frozen=True, slots=True)
class Relaxation:
    """An optimum of the LP over the columns at hand.

    `duals` price the items: what one more copy of each would cost. `stock` prices the bins in limited supply:
    what one more of each would save.
    """

    cost: float
    duals: Duals
    stock: Duals


@dataclass(frozen=True, slots=True)
class CoverChoice:
    """Columns that cover the demand, or None; `impossible` says it is proved that these columns have no
    cover."""

    columns: list[Column] | None
    impossible: bool


class MasterProblem:
    """The restricted master of column generation, kept as an LP that columns are added to.

    A row for each kind of item (at least the demand: surplus copies are simply not cut) and a row for each
    kind of bin (at most the stock).
    """

    def __init__(self, demand: Counts, bins: tuple[LargeObject, ...]) -> None:
        self._demand = demand
        self._bins = bins
        self._columns: list[Column] = []
        self._known: set[tuple[int, bytes]] = set()
        self._lp = _quiet()
        empty = np.array([], dtype=np.int32), np.array([], dtype=np.float64)
        for amount in demand:
            self._lp.addRow(float(amount), highspy.kHighsInf, 0, *empty)
        for bin_ in bins:
            stock = highspy.kHighsInf if bin_.count is None else float(bin_.count)
            self._lp.addRow(-highspy.kHighsInf, stock, 0, *empty)

    @property
    def columns(self) -> list[Column]:
        return self._columns

    def add(self, column: Column) -> bool:
        """Whether the column is new; one that is there already is not added again."""
        if column.key in self._known:
            return False
        self._known.add(column.key)
        self._columns.append(column)
        rows = np.nonzero(column.counts)[0].astype(np.int32)
        values = column.counts[rows].astype(np.float64)
        rows = np.append(rows, np.int32(len(self._demand) + column.bin))
        price = float(self._bins[column.bin].price)
        self._lp.addCol(price, 0.0, highspy.kHighsInf, len(rows), rows, np.append(values, 1.0))
        return True

    def solve(self) -> Relaxation | None:
        """The LP's optimum; None when the columns cannot cover the demand within the stock."""
        self._lp.run()
        if self._lp.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        duals = np.array(self._lp.getSolution().row_dual)
        items = len(self._demand)
        return Relaxation(
            self._lp.getInfo().objective_function_value,
            np.maximum(duals[:items], 0.0),
            np.maximum(-duals[items:], 0.0),
        )

    def values(self) -> Duals:
        """How often the LP uses each column."""
        return np.array(self._lp.getSolution().col_value)

    def release(self, places: Iterable[int]) -> None:
        """Undo `at_least` and `exactly` for these columns."""
        for place in places:
            self._lp.changeColBounds(place, 0.0, highspy.kHighsInf)

    def at_least(self, place: int, times: int) -> None:
        """From now on the LP uses that column so many times or more."""
        self._lp.changeColBounds(place, float(times), highspy.kHighsInf)

    def exactly(self, place: int, times: int) -> None:
        """From now on the LP uses that column exactly so many times."""
        self._lp.changeColBounds(place, float(times), float(times))

    def choose(self, most_cost: int, nodes: int, seconds: float | None) -> CoverChoice:
        """Columns that cover the demand for `most_cost` at most, by branch and bound.

        The cost is a constraint rather than an objective, and the first solution ends the run: any plan below
        the target will do, and a proof that there is none is worth as much.
        """
        mip = _quiet()
        mip.passModel(self._lp.getModel())
        if seconds is not None:
            mip.setOptionValue("time_limit", max(0.01, seconds))
        mip.setOptionValue("mip_max_nodes", nodes)
        mip.setOptionValue("mip_max_improving_sols", 1)
        count = len(self._columns)
        places = np.arange(count, dtype=np.int32)
        mip.changeColsIntegrality(count, places, np.full(count, highspy.HighsVarType.kInteger))
        prices = np.array([float(self._bins[column.bin].price) for column in self._columns])
        mip.addRow(-highspy.kHighsInf, float(most_cost), count, places, prices)
        mip.run()
        info = mip.getInfo()
        if info.primal_solution_status != highspy.SolutionStatus.kSolutionStatusFeasible:
            return CoverChoice(None, mip.getModelStatus() == highspy.HighsModelStatus.kInfeasible)
        times = np.rint(np.array(mip.getSolution().col_value)).astype(int)
        return CoverChoice([c for c, n in zip(self._columns, times, strict=True) for _ in range(n)], False)


def _quiet() -> Any:
    # Not highspy.Highs: its constructor writes a banner on the standard output, which is not ours to use.
    model = highs._Highs()
    model.setOptionValue("output_flag", False)
    model.setOptionValue("threads", 1)
    return model
