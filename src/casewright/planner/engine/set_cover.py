"""The cheapest cover of the demand by whole patterns, when all that can matter are at hand."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from ..parameters import DEFAULT_PARAMETERS, PricingEffort, SearchParameters
from .column_generation import ColumnGeneration
from .columns import Column, Counts
from .instance import LargeObject
from .master_problem import CoverChoice, MasterProblem

AT_ONCE = 2000


def cheapest_cover(
    bounding: ColumnGeneration,
    bins: tuple[LargeObject, ...],
    demand: Counts,
    best_cost: int,
    effort: PricingEffort,
    seconds: float | None,
    parameters: SearchParameters = DEFAULT_PARAMETERS,
) -> CoverChoice | None:
    """Columns that make a plan cheaper than `best_cost`, or a proof that there are none, or neither; None
    when not all patterns that matter are at hand.

    Unless the effort is to have the worthless too, the proof is about the kinds that have a worth in the
    bound alone: if even they fit into no cheaper plan, all of them do not.
    """
    each = None if seconds is None else seconds / 2
    columns, complete = bounding.enumerate(best_cost, parameters.within(effort, each))
    for column in columns:
        bounding.master.add(column)
    if not complete:
        return None
    master = MasterProblem(demand if effort.worthless else np.where(bounding.worthy(), demand, 0), bins)
    for column in drop_dominated(columns):
        master.add(column)
    choice = master.choose(best_cost - bounding.grain, parameters.cover_nodes, each)
    if choice.columns is not None and not _covers(choice.columns, demand):
        return CoverChoice(None, False)
    return choice


def _covers(columns: list[Column], demand: Counts) -> bool:
    return bool((sum((column.counts for column in columns), np.zeros_like(demand)) >= demand).all())


def drop_dominated(columns: list[Column]) -> list[Column]:
    """Those whose items are not all in another column of the same kind of bin."""
    kept: list[Column] = []
    for bin_ in {column.bin for column in columns}:
        same = [column for column in columns if column.bin == bin_]
        same.sort(key=lambda column: -int(column.counts.sum()))
        ones = _unary(np.array([column.counts for column in same]))
        sizes = ones.sum(axis=1)
        for start in range(0, len(same), AT_ONCE):
            part = ones[start : start + AT_ONCE]
            # Common items with each; a column lies within another if they have all of its items in common.
            within = part @ ones.T >= sizes[start : start + AT_ONCE, None]
            within &= sizes[None, :] > sizes[start : start + AT_ONCE, None]
            kept += [same[start + place] for place in np.nonzero(~within.any(axis=1))[0]]
    return kept


def _unary(counts: NDArray[np.int64]) -> NDArray[np.float32]:
    """For each kind and each number up to the most: whether a column holds so many."""
    most = counts.max(axis=0)
    parts = [counts >= number for number in range(1, int(most.max(initial=0)) + 1)]
    used = [part[:, most >= number] for number, part in enumerate(parts, 1)]
    return np.concatenate([*used, np.zeros((len(counts), 1), dtype=bool)], axis=1).astype(np.float32)
