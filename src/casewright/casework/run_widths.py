"""How the opening of a run is shared out among its cases and what closes its ends."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..sizes.affine import Affine, total
from ..sizes.ledger import Book, Share
from .job import Job, Run
from .size_names import CaseSizes, RunSizes


@dataclass(frozen=True)
class RunWidths:
    """The widths along a run from left to right: what closes the left end, the cases, the right end.

    `settled` gives the inputs that take what rounding leaves, by name, and what they come to.
    """

    left: Affine
    cases: tuple[Affine, ...]
    right: Affine
    settled: Mapping[str, Affine]


def share_opening(book: Book, job: Job, run: Run, sizes: RunSizes) -> RunWidths:
    """Enter the widths in a run that are left to be worked out, and give all of them.

    Cases without a width share what the opening leaves. A filler or gap that can take it gets what is
    left when they are rounded down to the rule's marks, so that equal shares are equal; where there is
    neither, some of them are a mark wider than others. A filler without a width takes what the cases leave.
    """
    left = sizes.left_filler if run.left else sizes.gap
    right = sizes.right_filler if run.right else sizes.gap
    cases = tuple(CaseSizes(spec.mark).width for spec in run.cases)
    _fill_rest(book, job, run, sizes, cases)
    shared = [index for index, spec in enumerate(run.cases) if spec.width is None]
    if not shared:
        return RunWidths(left, cases, right, {})
    given = total(width for index, width in enumerate(cases) if index not in shared)
    room = sizes.opening - left - right - given
    weights = tuple(run.cases[index].weight for index in shared)
    takes = bool(run.left or run.right or run.gap)
    if takes:
        weights = (*weights, Fraction(0))
    for place, index in enumerate(shared):
        share = Share(room, weights, place, job.rounding.step)
        book.enter(cases[index], share, f"{run.cases[index].mark} width")
    if not takes:
        return RunWidths(left, cases, right, {})
    remainder = Share(room, weights, len(shared), job.rounding.step)
    book.enter(sizes.remainder, remainder, f"what rounding its widths leaves of {run.name}")
    return _widen_ends(book, run, sizes, RunWidths(left, cases, right, {}))


def _fill_rest(book: Book, job: Job, run: Run, sizes: RunSizes, cases: tuple[Affine, ...]) -> None:
    """Enter the width of a filler that takes what the cases leave.

    A step of its own, though a plain sum: the strip is cut to what this says, so later errors in the
    opening are not the strip's as well.
    """
    for side, filler, own, other in (
        ("left", run.left, sizes.left_filler, sizes.right_filler if run.right else sizes.gap),
        ("right", run.right, sizes.right_filler, sizes.left_filler if run.left else sizes.gap),
    ):
        if filler and filler.width is None:
            rest = Share(sizes.opening - other - total(cases), (Fraction(1),), 0, job.rounding.step)
            book.enter(own, rest, f"{side} filler of {run.name}, in sight")


def _widen_ends(book: Book, run: Run, sizes: RunSizes, widths: RunWidths) -> RunWidths:
    """The widths with what rounding leaves given to the filler with more to scribe, or to both gaps alike."""
    scribe_left = run.left.scribe if run.left else Fraction(-1)
    scribe_right = run.right.scribe if run.right else Fraction(-1)
    if not run.left and not run.right:
        half = sizes.gap + sizes.remainder / 2
        words = f"gap at the {{}} end of {run.name}, with half of what rounding leaves"
        left = book.form(sizes.left_end, half, words.format("left"))
        right = book.form(sizes.right_end, half, words.format("right"))
        return RunWidths(left, widths.cases, right, {sizes.gap.name: left})
    if scribe_left >= scribe_right:
        words = f"left filler of {run.name}, in sight with what rounding leaves"
        left = book.form(sizes.left_end, sizes.left_filler + sizes.remainder, words)
        return RunWidths(left, widths.cases, widths.right, {sizes.left_filler.name: left})
    words = f"right filler of {run.name}, in sight with what rounding leaves"
    right = book.form(sizes.right_end, sizes.right_filler + sizes.remainder, words)
    return RunWidths(widths.left, widths.cases, right, {sizes.right_filler.name: right})
