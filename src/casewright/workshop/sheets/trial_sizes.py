"""Sizes other than those of a job, to be tried for what they save in sheets: each one that a maker would
choose from a rule, the nearest to the job's own first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import count, takewhile
from math import ceil

from ...lengths.length import MM, Mark, Unit
from ...lengths.quantities import KILOGRAMS_IN_A_POUND
from ...lengths.rounding import nearest
from ...planner.plan import Piece, Plan, SheetPlan

MOST = Fraction(3, 4)
"""Inches by which cases may become shallower or lower: with more, they are other cases. Common practice, no
source."""

LEAST_STRIP, STRIP_GIVES = Fraction(5, 2), 1
"""Inches that a mounting strip or stretcher keeps at least, so that two screws hold in it, and by which it
may become narrower. Common practice, no source."""

WIDEST_CASE = Fraction(36)
"""Inches to which a case may be widened where another is left out: shelves of 3/4 in sheets sag beyond that.
Common practice, no source."""

NUDGE, NUDGES = 2, 4
"""By how many round marks a case that shares a run is made wider or narrower at a time, and how often: up to
2 in, which a row of doors hides. Our judgement."""

TRIES = 3
"""How often a carrying limit is raised by a step before it is done without."""

LARGEST_OFFCUT = Fraction(1, 2)
"""Share of a sheet; who has a larger piece has a sheet. Our judgement."""

OFFCUT_TRIES = 6


def everyday(unit: Unit) -> tuple[Fraction, Fraction]:
    """The marks of a rule that sizes are chosen on, in inches, and the coarser ones that are liked better."""
    return (MM, 5 * MM) if unit is Unit.MM else (Fraction(1, 16), Fraction(1, 4))


def is_round(size: Fraction, mark: Mark) -> bool:
    """Whether a size lies on one of the marks that are liked better."""
    return (size / everyday(mark.unit)[1]).denominator == 1


def smaller_sizes(size: Fraction, mark: Mark) -> tuple[Fraction, ...]:
    """The everyday sizes a little below one: those of a depth or height."""
    return tuple(_below(size, everyday(mark.unit)[0], max(size - MOST, Fraction(0))))


def narrower_strips(width: Fraction, mark: Mark) -> tuple[Fraction, ...]:
    """The round sizes below the width of a strip that nobody sees."""
    return tuple(_below(width, everyday(mark.unit)[1], max(width - STRIP_GIVES, LEAST_STRIP)))


def _below(size: Fraction, step: Fraction, least: Fraction) -> Iterator[Fraction]:
    first = ceil(size / step) - 1
    return takewhile(lambda one: one > 0 and one >= least, (step * (first - n) for n in count()))


def half_trim(trim: Fraction) -> Fraction:
    """Half of what is usually trimmed off a sheet: many edges need no more."""
    return trim / 2


def longer_carries(length: Fraction, longest: Fraction, unit: Unit) -> tuple[Fraction, ...]:
    """Lengths beyond the carrying limit, a foot or 300 mm more each time, then that of the longest sheet."""
    return _raised(length, longest, 300 * MM if unit is Unit.MM else Fraction(12))


def heavier_carries(weight: Fraction, heaviest: Fraction, unit: Unit) -> tuple[Fraction, ...]:
    """Weights beyond the carrying limit in pounds, 10 lb or 5 kg more each time, then any."""
    return _raised(
        weight, Fraction(ceil(heaviest)), 5 / KILOGRAMS_IN_A_POUND if unit is Unit.MM else Fraction(10)
    )


def _raised(limit: Fraction, most: Fraction, step: Fraction) -> tuple[Fraction, ...]:
    """Limits above one, and `most` last."""
    if limit >= most:
        return ()
    return (*(one for n in range(1, TRIES + 1) if (one := limit + n * step) < most), most)


def may_be_shared_by_one_less(widths: Sequence[Fraction]) -> bool:
    """Whether cases of these widths may be one fewer, their width shared by the others."""
    return len(widths) > 1 and sum(widths, Fraction(0)) / (len(widths) - 1) <= WIDEST_CASE


def nudged_widths(width: Fraction, mark: Mark) -> tuple[tuple[Fraction, ...], tuple[Fraction, ...]]:
    """Round widths above that of a case that shares a run, then those below, the nearest first."""
    step = everyday(mark.unit)[1]
    middle = nearest(width, step)
    return (
        tuple(middle + n * NUDGE * step for n in range(1, NUDGES + 1)),
        tuple(middle - n * NUDGE * step for n in range(1, NUDGES + 1)),
    )


def offcut_sizes(plan: Plan, offered: Iterable[str], unit: Unit) -> tuple[tuple[Fraction, Fraction], ...]:
    """Sizes of an offcut that might spare one of the bought sheets, `offered` by name; the smallest first.

    The last holds what lies on the sheet with least on it, as it lies there; the others are narrower or
    shorter. Length along the grain, then width, in whole inches or centimetres.
    """
    names = frozenset(offered)
    sheets = [sheet for sheet in plan.sheets if sheet.bin in names and sheet.parts]
    if not sheets:
        return ()
    least = min(sheets, key=_area)
    step = 10 * MM if unit is Unit.MM else Fraction(1)
    length, width = _round_up(_extent(least.parts), step)
    if length * width > LARGEST_OFFCUT * least.root.area:
        return ()
    sizes = {(length, width)}
    for n in range(1, OFFCUT_TRIES):
        sizes |= {
            _round_up((length * n / OFFCUT_TRIES, width), step),
            _round_up((length, width * n / OFFCUT_TRIES), step),
        }
    return tuple(sorted(sizes, key=lambda one: (one[0] * one[1], one)))


def _round_up(size: tuple[Fraction, Fraction], step: Fraction) -> tuple[Fraction, Fraction]:
    return ceil(size[0] / step) * step, ceil(size[1] / step) * step


def _extent(parts: Sequence[Piece]) -> tuple[Fraction, Fraction]:
    """How long and wide a piece must be in which these parts lie as they do."""
    return (
        max(one.x + one.length for one in parts) - min(one.x for one in parts),
        max(one.y + one.width for one in parts) - min(one.y for one in parts),
    )


def _area(sheet: SheetPlan) -> Fraction:
    length, width = _extent(sheet.parts)
    return length * width


def yard_sizes(unit: Unit) -> tuple[tuple[Fraction, Fraction], ...]:
    """Sheets that some yards have besides the usual: five feet square, and five by ten. Common practice, no
    source."""
    side = 1525 * MM if unit is Unit.MM else Fraction(60)
    return (side, side), (2 * side, side)


def priced_by_area(
    price: Fraction, size: tuple[Fraction, Fraction], of: tuple[Fraction, Fraction]
) -> Fraction:
    """The price of a sheet of one size at the rate of a sheet of another, in whole money."""
    return Fraction(ceil(price * size[0] * size[1] / (of[0] * of[1])))
