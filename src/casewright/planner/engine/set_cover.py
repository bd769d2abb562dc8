"""The cheapest cover of the demand, once every pattern that a cheaper plan can use has been enumerated.

Enumeration is possible only when the bound is close to the next cheaper cost: then a pattern that wastes
much, against the best duals, cannot be part of a cheaper plan. The cover is a set-covering MIP; it gives a
better plan or proves that there is none.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from ..parameters import DEFAULT_PARAMETERS, PricingEffort, SearchParameters, WorkKind
from .column_generation import ColumnGeneration
from .columns import Column, Counts
from .instance import LargeObject
from .master_problem import CoverChoice, MasterProblem
from .work_count import Count, uncounted

AT_ONCE = 2000


def cheapest_cover(
    bounding: ColumnGeneration,
    bins: tuple[LargeObject, ...],
    demand: Counts,
    target: int,
    effort: PricingEffort,
    seconds: float | None,
    parameters: SearchParameters = DEFAULT_PARAMETERS,
    count: Count = uncounted,
) -> CoverChoice | None:
    """Columns of a plan of `target` at most, or a proof that there is none, or neither; None if the
    patterns that matter could not all be enumerated.

    Unless the effort includes worthless items, only the kinds with a positive dual must be covered. If even
    those fit no cheaper plan, all of them cannot. This needs far fewer patterns: 341 in place of more than
    10,000 for one plan that was proved no other way. A cover of those kinds alone is not yet a plan of the
    whole.
    """
    each = None if seconds is None else seconds / 2
    columns, complete = bounding.enumerate(target, parameters.within(effort, each))
    for column in columns:
        bounding.master.add(column)
    if not complete:
        return None
    count(WorkKind.COMPARISON, len(columns) ** 2 * int(demand.sum()))
    needed = demand if effort.worthless else np.where(bounding.worthy(), demand, 0)
    master = MasterProblem(needed, bins, count)
    for column in drop_dominated(columns):
        master.add(column)
    choice = master.choose(target, parameters.nodes_within(each))
    if choice.columns is not None and not _covers(choice.columns, demand):
        return CoverChoice(None, False)
    return choice


def _covers(columns: list[Column], demand: Counts) -> bool:
    return bool((sum((column.counts for column in columns), np.zeros_like(demand)) >= demand).all())


def drop_dominated(columns: list[Column]) -> list[Column]:
    """The columns that no other column of the same kind of bin contains: the others can never be needed."""
    kept: list[Column] = []
    for bin_ in {column.bin for column in columns}:
        same = [column for column in columns if column.bin == bin_]
        same.sort(key=lambda column: -int(column.counts.sum()))
        ones = _unary(np.array([column.counts for column in same]))
        sizes = ones.sum(axis=1)
        for start in range(0, len(same), AT_ONCE):
            part = ones[start : start + AT_ONCE]
            # One matrix product counts the items that each two columns share: a column lies within another if
            # it shares all of its own. Blocks keep the product small enough for memory.
            within = part @ ones.T >= sizes[start : start + AT_ONCE, None]
            within &= sizes[None, :] > sizes[start : start + AT_ONCE, None]
            kept += [same[start + place] for place in np.nonzero(~within.any(axis=1))[0]]
    return kept


def _unary(counts: NDArray[np.int64]) -> NDArray[np.float32]:
    """Counts in unary, a column for each kind and number: whether a pattern holds that many of the kind."""
    most = counts.max(axis=0)
    parts = [counts >= number for number in range(1, int(most.max(initial=0)) + 1)]
    used = [part[:, most >= number] for number, part in enumerate(parts, 1)]
    return np.concatenate([*used, np.zeros((len(counts), 1), dtype=bool)], axis=1).astype(np.float32)
