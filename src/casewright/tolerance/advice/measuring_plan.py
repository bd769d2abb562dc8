"""The few readings worth taking, in the order of the work, each with the line or blank to write it on.

A reading counts by the minutes that it saves at the dry fit, by the same weighing as any other advice, not
by bringing every gap under some limit.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from ...casework.size_names import owner_of
from ...shop.measuring_tools import MeasuringTool
from ..chains.made_sizes import SizeKind
from ..outcomes.gap_spread import Fit
from ..tolerance_wording import parts_text, sizes_text
from .advice_wording import gain_text, part_list, two_sheets_text, whole_text
from .change import READINGS, ChangeKind
from .rank_advice import Advice, AdviceList, advise


@dataclass(frozen=True)
class Measurement:
    """One thing to measure, in words: what, when, and where to write it down. `advice` is what it buys."""

    what: str
    when: str
    write_on: str
    tool: MeasuringTool
    gain: str
    advice: Advice


@dataclass(frozen=True)
class MeasuringPlan:
    """What to measure, in the order of the work; `weighed` is the advice behind it."""

    measurements: tuple[Measurement, ...]
    weighed: AdviceList
    whole: str


ORDER = (ChangeKind.MEASURE_SHEETS, ChangeKind.DEPTH_PIECE, ChangeKind.MATCH, ChangeKind.FIT)
"""The readings as the work meets them: sheets, test pieces, finished parts, the case put together dry."""


def plan_measurements(fit: Fit) -> MeasuringPlan:
    """The few readings that save more minutes than they take."""
    found = advise(fit, READINGS)
    ordered = sorted(found.listed, key=lambda one: ORDER.index(one.change.kind))
    return MeasuringPlan(
        tuple(_measurement(one) for one in ordered), found, whole_text(found, "further reading")
    )


def _measurement(advice: Advice) -> Measurement:
    tool = advice.change.tool
    assert tool is not None, f"{advice.change.kind} is taken with a tool"
    what, when, write_on = _WORDS[advice.change.kind](advice)
    return Measurement(what, when, write_on, tool, gain_text(advice), advice)


def _sheets(advice: Advice) -> tuple[str, str, str]:
    key = owner_of(advice.change.sizes[0])
    sheet = advice.before.project.job.sheets[key].name
    return (
        f"{two_sheets_text(advice)}, the thickness of each in three places away from the edges",
        "before the dado stack is packed",
        f"beside {sheet} in the buying list, then in the job as readings of {key}",
    )


def _depth(advice: Advice) -> tuple[str, str, str]:
    return (
        "the depth of the channel in a test piece",
        f"before cutting {sizes_text(advice.before, advice.change.sizes)}",
        "on the settings page, beside the cutter's height",
    )


def _matched(advice: Advice) -> tuple[str, str, str]:
    fit, change = advice.before, advice.change
    kind = fit.made[change.sizes[0]].kind.value
    measured = parts_text(fit.project, (fit.made[name].part for name in change.sizes))
    return (
        f"the {kind} of {measured}",
        f"once cut, before {parts_text(fit.project, change.mates)}",
        _blanks(part_list(fit, change.mates), len(change.mates)),
    )


def _fitted(advice: Advice) -> tuple[str, str, str]:
    fit, change = advice.before, advice.change
    made = fit.made[change.sizes[0]]
    parts = parts_text(fit.project, (fit.made[name].part for name in change.sizes))
    if made.kind in (SizeKind.PLACE, SizeKind.PIN):
        what, when = f"where {sizes_text(fit, change.sizes)} is to go", "at the dry fit, before it is cut"
    else:
        what, when = f"the space for {parts}", f"at the dry fit, before cutting to {made.kind.value}"
    return (
        what,
        when,
        _blanks(part_list(fit, (fit.made[name].part for name in change.sizes)), len(change.sizes)),
    )


def _blanks(marks: str, count: int) -> str:
    return f"on the blank labelled {marks}" if count == 1 else f"each on its own blank, by its label: {marks}"


_WORDS: Mapping[ChangeKind, Callable[[Advice], tuple[str, str, str]]] = {
    ChangeKind.MEASURE_SHEETS: _sheets,
    ChangeKind.DEPTH_PIECE: _depth,
    ChangeKind.MATCH: _matched,
    ChangeKind.FIT: _fitted,
}
