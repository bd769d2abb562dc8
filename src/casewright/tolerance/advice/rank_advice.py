"""Advice on how to improve the fit, ranked by how much each change gains in the error model."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from ...casework.size_names import owner_of
from ..chains.made_sizes import SizeKind
from ..outcomes.gap_spread import Fit, GapSpread, spread_of
from ..tolerance_wording import gap_text, parts_text, rule_text, sizes_text
from .method_changes import Change, ChangeKind, changes_for

LEAST = 0.002  # of a gap's chance; a smaller gain is not worth a sentence


@dataclass(frozen=True)
class GapChange:
    """One gap before and after a change."""

    before: GapSpread
    after: GapSpread

    @property
    def gain(self) -> float:
        """By how much its chance of not closing falls."""
        return self.before.chance - self.after.chance


@dataclass(frozen=True)
class Advice:
    """One change with all the gaps it alters, the most improved first.

    `gain` is by how many the expected number of gaps that do not close falls.
    """

    change: Change
    text: str
    gaps: tuple[GapChange, ...]

    @property
    def gain(self) -> float:
        return sum(better.gain for better in self.gaps)

    @property
    def best(self) -> GapChange:
        return self.gaps[0]


def advise(fit: Fit, limit: float = 0.01) -> tuple[Advice, ...]:
    """Changes that bring gaps likelier than `limit` to fail nearer to closing, the best first.

    Of the same change by different amounts (more or less play) the one that gains most is
    kept; changes that gain nothing, or lose elsewhere what they gain here, are left out.
    """
    weighed = [weigh(fit, change) for change in changes_for(fit, fit.at_risk(limit))]
    best: dict[tuple[ChangeKind, tuple[str, ...]], Advice] = {}
    for advice in weighed:
        key = (advice.change.kind, advice.change.sizes)
        if advice.gain > LEAST and (key not in best or advice.gain > best[key].gain):
            best[key] = advice
    return tuple(sorted(best.values(), key=lambda advice: -advice.gain))


def with_change(fit: Fit, change: Change) -> Fit:
    """The fit when the change is made."""
    project = fit.project.given(change.inputs) if change.inputs else fit.project
    after = Fit(project, change.method, fit.made, fit.gaps, {}, fit.facts, 0)
    model = after.error_model()
    touched = _touched(fit, change)
    spreads = {name: spread_of(model, fit.gaps[name]) for name in touched}
    return replace(after, spreads={**fit.spreads, **spreads}, worked=len(spreads))


def weigh(fit: Fit, change: Change) -> Advice:
    """What a change does to every gap it touches."""
    after = with_change(fit, change)
    gaps = [
        GapChange(fit.spreads[name], after.spreads[name])
        for name in fit.gaps
        if fit.spreads[name] is not after.spreads[name]
    ]
    gaps.sort(key=lambda better: -better.gain)
    return Advice(change, TELL[change.kind](fit, change), tuple(gaps))


def _touched(fit: Fit, change: Change) -> dict[str, None]:
    """The gaps whose spread a change may alter."""
    names = set(change.sizes)
    if change.inputs or change.kind is ChangeKind.MEASURE_SHEET:
        names |= set(fit.project.sizes.ledger.downstream(frozenset(names)))
    found = dict.fromkeys(gap for name in sorted(names) for gap in fit.touches.get(name, ()))
    # A size fitted to one gap takes up that gap's errors, and carries them into its other gaps.
    for _ in change.method.fitted:
        for name, fitted in change.method.fitted.items():
            if fitted.gap in found:
                found.update(dict.fromkeys(fit.touches[name]))
    return found


def _one_setting(fit: Fit, change: Change) -> str:
    made = fit.made[change.sizes[0]]
    what = sizes_text(fit, change.sizes)
    number = rule_text(fit.project, fit.error_model().mean(made.name))
    return f"Cut {what} on one setting, at {number}."


def _measure_sheet(fit: Fit, change: Change) -> str:
    sheet = fit.project.job.sheets[owner_of(change.sizes[0])]
    return (
        f"Measure the {sheet.name} with a caliper before packing the dado stack, and let the plan follow it."
    )


def _fit_last(fit: Fit, change: Change) -> str:
    made = fit.made[change.sizes[0]]
    tool = change.tool.value if change.tool else "rule"
    if made.kind in (SizeKind.PLACE, SizeKind.PIN):
        return f"Mark {sizes_text(fit, change.sizes)} at the dry fit, with a {tool}, where it is to go."
    marks = parts_text(fit.project, (fit.made[name].part for name in change.sizes))
    return f"Cut {marks} to {made.kind.value} after the dry fit, to a direct measurement with a {tool}."


def _other_edge(fit: Fit, change: Change) -> str:
    return f"Measure {sizes_text(fit, change.sizes)} from the other edge."


def _prove(fit: Fit, change: Change) -> str:
    what = "depth" if fit.made[change.sizes[0]].kind is SizeKind.DEPTH else "width"
    return (
        f"Cut a test piece and measure the {what} with a caliper before cutting "
        f"{sizes_text(fit, change.sizes)}."
    )


def _more_play(fit: Fit, change: Change) -> str:
    ((name, value),) = change.inputs.items()
    now = gap_text(fit.project, fit.project.sizes.of(name))
    return f"Make the {fit.project.sizes.ledger[name].words} {gap_text(fit.project, value)} instead of {now}."


def _other_mark(fit: Fit, change: Change) -> str:
    name = change.sizes[0]
    now = fit.error_model().mean(name)
    beside = change.method.nudged[name] - fit.method.nudged.get(name, 0)
    numbers = f"{rule_text(fit.project, now + beside)} instead of {rule_text(fit.project, now)}"
    return f"Set {sizes_text(fit, change.sizes)} to the next mark on the other side: {numbers}."


TELL: dict[ChangeKind, Callable[[Fit, Change], str]] = {
    ChangeKind.ONE_SETTING: _one_setting,
    ChangeKind.MEASURE_SHEET: _measure_sheet,
    ChangeKind.FIT: _fit_last,
    ChangeKind.OTHER_EDGE: _other_edge,
    ChangeKind.TEST_PIECE: _prove,
    ChangeKind.PLAY: _more_play,
    ChangeKind.OTHER_MARK: _other_mark,
}
