"""The master problem: cover the demand with columns at least price, as LP and as MIP."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import inf

import numpy as np

from ...solver import Answer, Ending, Solver
from ..parameters import WorkKind
from .columns import Column, Counts
from .instance import LargeObject
from .pricing import Duals
from .work_count import Count, uncounted


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

    def __init__(self, demand: Counts, bins: tuple[LargeObject, ...], count: Count = uncounted) -> None:
        self._count = count
        self._demand = demand
        self._bins = bins
        self._columns: list[Column] = []
        self._known: set[tuple[int, bytes]] = set()
        self._lp = Solver()
        self._values: Duals = np.zeros(0)
        for amount in demand:
            self._lp.add_row(float(amount), inf)
        for bin_ in bins:
            self._lp.add_row(-inf, inf if bin_.count is None else float(bin_.count))

    @property
    def columns(self) -> list[Column]:
        return self._columns

    def add(self, column: Column) -> bool:
        """Whether the column is new; one that is there already is not added again."""
        self._count(WorkKind.COLUMN, 1)
        if column.key in self._known:
            return False
        self._known.add(column.key)
        self._columns.append(column)
        rows = np.nonzero(column.counts)[0].astype(np.int32)
        values = column.counts[rows].astype(np.float64)
        rows = np.append(rows, np.int32(len(self._demand) + column.bin))
        price = float(self._bins[column.bin].price)
        self._lp.add_column(price, 0.0, inf, rows, np.append(values, 1.0))
        return True

    def solve(self) -> Relaxation | None:
        """The LP's optimum; None when it is proved that the columns cannot cover the demand within the stock.

        Raises SolverError when neither is proved.
        """
        answer = self._lp.answer("choosing cutting patterns")
        self._count_answer(answer)
        if answer.ending is Ending.INFEASIBLE:
            return None
        self._values = answer.values
        duals = answer.duals
        items = len(self._demand)
        return Relaxation(answer.cost, np.maximum(duals[:items], 0.0), np.maximum(-duals[items:], 0.0))

    def values(self) -> Duals:
        """How often the LP uses each column, by its last solution; columns added since are not used."""
        return np.append(self._values, np.zeros(len(self._columns) - len(self._values)))

    def release(self, places: Iterable[int]) -> None:
        """Undo `at_least` and `exactly` for these columns."""
        for place in places:
            self._lp.bound_column(place, 0.0, inf)

    def at_least(self, place: int, times: int) -> None:
        """From now on the LP uses that column so many times or more."""
        self._lp.bound_column(place, float(times), inf)

    def exactly(self, place: int, times: int) -> None:
        """From now on the LP uses that column exactly so many times."""
        self._lp.bound_column(place, float(times), float(times))

    def _count_answer(self, answer: Answer) -> None:
        size = len(self._demand) + len(self._bins) + len(self._columns)
        self._count(WorkKind.SIMPLEX, 35_000 + (15 + answer.iterations + 15 * answer.nodes) * size)

    def choose(self, most_cost: int, nodes: int) -> CoverChoice:
        """Columns that cover the demand for `most_cost` at most, by branch and bound.

        The cost is a constraint rather than an objective, and the first solution ends the run: any plan below
        the target will do, and a proof that there is none is worth as much.
        """
        mip = Solver(nodes=nodes, improvements=1)
        mip.take_model(self._lp)
        mip.make_integral(range(len(self._columns)))
        prices = [float(self._bins[column.bin].price) for column in self._columns]
        mip.add_row(-inf, float(most_cost), range(len(self._columns)), prices)
        answer = mip.answer("covering all parts with cutting patterns")
        self._count_answer(answer)
        if not answer.found:
            return CoverChoice(None, answer.ending is Ending.INFEASIBLE)
        times = np.rint(answer.values).astype(int)
        return CoverChoice([c for c, n in zip(self._columns, times, strict=True) for _ in range(n)], False)
