"""The mark for each length that lies between two, chosen so that the chains of a job come out least wrong.

Rounding each length to its nearest mark gave chains a bias: a divider was 1/32 too long on average with
every saw set right. Here lengths that share chains are chosen together, by integer programmes: first that
no run grows beyond its opening, then the least worst bias, then the least sum of biases, then as near to
the exact lengths as that leaves. Lengths that share no chain never sway each other, so a change to one case
does not move the numbers of cases that have nothing in common with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import floor, inf

from ...errors import SolverError
from ...sizes.affine import ZERO
from .chain_sums import ChainSum

MISSED = 1e-6
"""How far, in marks, an aim may be missed while the next one is sought: HiGHS's own tolerance."""

NODES = 2000
"""Nodes of each search. The examples need one at most; eighty chains of sixty lengths at random take 2 s."""

KEPT_WARM = 512
"""Groups whose choice is kept: the next revision of a job asks for most of them again."""


@dataclass(frozen=True, slots=True)
class _Row:
    """A chain, all in marks: its terms by column, its bias with every column at its lower mark, its room."""

    terms: tuple[tuple[int, Fraction], ...]
    lowest: Fraction
    room: Fraction | None

    @property
    def of_run(self) -> bool:
        return self.room is not None

    def order(self) -> tuple[object, ...]:
        return self.terms, self.lowest, self.of_run, self.room or ZERO


@dataclass(frozen=True, slots=True)
class _Group:
    """Lengths that share chains, as columns: how far, in marks, each lies past its lower mark."""

    past: tuple[Fraction, ...]
    rows: tuple[_Row, ...]


def choose_marks(
    sums: Iterable[ChainSum],
    step: Fraction,
    down: frozenset[Fraction] = frozenset(),
    kept: Mapping[Fraction, Fraction] | None = None,
) -> Mapping[Fraction, Fraction]:
    """A number for each exact length in `sums` and in `down`: its mark below or above, by `step`.

    Lengths in `down` go to the mark below, those in `kept` to the number they have already. A length of less
    than one mark goes up, for no saw is set to nothing.
    """
    chains = tuple(dict.fromkeys(sums))
    lengths = {exact for one in chains for exact, _ in one.terms} | down
    numbers = {
        exact: max(floor(exact / step), 1) * step for exact in lengths if exact < step or exact in down
    }
    numbers |= {exact: number for exact, number in (kept or {}).items() if exact in lengths}
    free = sorted(lengths - numbers.keys())
    for columns, group in _groups(free, chains, numbers, step):
        ups = _choice(group)
        numbers |= {exact: (floor(exact / step) + up) * step for exact, up in zip(columns, ups, strict=True)}
    return numbers


def _groups(
    free: list[Fraction], chains: tuple[ChainSum, ...], settled: Mapping[Fraction, Fraction], step: Fraction
) -> Iterator[tuple[list[Fraction], _Group]]:
    """The free lengths in groups that share no chain, each group with its chains, alike ones once."""
    leads = {exact: exact for exact in free}

    def lead(exact: Fraction) -> Fraction:
        while leads[exact] != exact:
            exact = leads[exact]
        return exact

    unsettled = [(one, [exact for exact, _ in one.terms if exact in leads]) for one in chains]
    for _, lengths in unsettled:
        for exact in lengths[1:]:
            leads[lead(exact)] = lead(lengths[0])
    columns: dict[Fraction, list[Fraction]] = {}
    for exact in free:
        columns.setdefault(lead(exact), []).append(exact)
    rows: dict[Fraction, dict[_Row, None]] = {}
    for one, lengths in unsettled:
        if lengths:
            place = {exact: index for index, exact in enumerate(columns[lead(lengths[0])])}
            rows.setdefault(lead(lengths[0]), {})[_row(one, place, settled, step)] = None
    for first, members in columns.items():
        past = tuple(exact / step - floor(exact / step) for exact in members)
        # Sorted, so that the order in which cases are drawn has no say between equally good choices.
        yield members, _Group(past, tuple(sorted(rows[first], key=_Row.order)))


def _row(
    one: ChainSum, place: Mapping[Fraction, int], settled: Mapping[Fraction, Fraction], step: Fraction
) -> _Row:
    lowest = sum(
        (k * (settled.get(exact, floor(exact / step) * step) - exact) for exact, k in one.terms), ZERO
    )
    terms = tuple((place[exact], k) for exact, k in one.terms if exact in place)
    return _Row(terms, lowest / step, None if one.room is None else one.room / step)


@lru_cache(maxsize=KEPT_WARM)
def _choice(group: _Group) -> tuple[int, ...]:
    """For each column 1 to go to the upper mark, 0 to the lower."""
    # HiGHS is loaded only for a job that has chains to choose for.
    from ...solver import Solver

    count, chains = len(group.past), len(group.rows)
    ups, off = range(count), range(count, count + chains)
    beyond, in_cases, worst, together, moved = aims = range(count + chains, count + chains + 5)
    solver = Solver(nodes=NODES, to_the_end=True)
    for column in range(aims.stop):
        solver.add_column(0.0, -inf if column == moved else 0.0, 1.0 if column in ups else inf)
    solver.make_integral(ups)
    for row, own in zip(group.rows, off, strict=True):
        columns, factors = [column for column, _ in row.terms], [float(k) for _, k in row.terms]
        lowest = float(row.lowest)
        # However the chain is out, `own` is at least that much, and the worst at least `own`.
        solver.add_row(-inf, -lowest, [*columns, own], [*factors, -1.0])
        solver.add_row(-lowest, inf, [*columns, own], [*factors, 1.0])
        solver.add_row(0.0, inf, [worst if row.of_run else in_cases, own], [1.0, -1.0])
        if row.room is not None:
            solver.add_row(-lowest - float(row.room), inf, [*columns, beyond], [*factors, 1.0])
    solver.add_row(0.0, inf, [together, *off], [1.0, *[-1.0] * chains])
    pulls = [-_pull(past, place, count) for place, past in enumerate(group.past)]
    solver.add_row(0.0, inf, [moved, *ups], [1.0, *pulls])
    chosen = [int(2 * past >= 1) for past in group.past]
    for aim in aims:
        if aim in (beyond, worst) and not any(row.of_run for row in group.rows):
            continue
        solver.price_column(aim, 1.0)
        try:
            found = solver.answer("choosing the marks that sizes are set to")
        except SolverError:  # numbers a little less well chosen are better than none
            break
        if not found.found:  # what was reached before is all there is, by HiGHS's own tolerances
            break
        chosen = [round(found.values[column]) for column in ups]
        if aim != moved:
            # From the rounded columns: HiGHS's own figure is that of columns which are nearly whole.
            reached = dict(zip(aims, _reached(group, chosen), strict=False))[aim]
            solver.price_column(aim, 0.0)
            solver.bound_column(aim, 0.0, float(reached) + MISSED)
    return tuple(chosen)


def _reached(group: _Group, ups: list[int]) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """By how much these columns miss each aim, exactly: beyond the room, worst in cases, worst of runs, all
    together."""
    biases = [(row, row.lowest + sum(k * ups[column] for column, k in row.terms)) for row in group.rows]
    return (
        max((max(-bias - row.room, ZERO) for row, bias in biases if row.room is not None), default=ZERO),
        max((abs(bias) for row, bias in biases if not row.of_run), default=ZERO),
        max((abs(bias) for row, bias in biases if row.of_run), default=ZERO),
        sum((abs(bias) for _, bias in biases), ZERO),
    )


def _pull(past: Fraction, place: int, count: int) -> float:
    """What it costs to go up: less than nothing where the upper mark is nearer.

    Of two ways that are equally near, the one with the greater lengths up is taken, so that there is one.
    """
    return float(1 - 2 * past) - 1e-4 * (1 + place / count)
