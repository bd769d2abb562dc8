"""One change of the way of working, what it costs, and the fit when it is made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import Enum
from fractions import Fraction

from ...casework.project import Project
from ...casework.size_names import owner_of
from ...shop.measuring_tools import MeasuringTool
from ..chains.made_sizes import MadeSize, made_sizes
from ..errors.causes import CauseKind
from ..errors.way_of_working import TO_PLAN, Method
from ..outcomes.gap_spread import Fit, GapSpread, spread_of


class ChangeKind(Enum):
    """What kind of change it is."""

    TRY_PACKING = "try the dado stack in the stock"
    TRY_GROOVE = "try a groove in the stock"
    MEASURE_SHEETS = "measure the sheets"
    FIT = "cut to fit after the dry fit"
    MATCH = "cut to match a part that is measured"
    OTHER_EDGE = "measure from the other edge"
    DEPTH_PIECE = "prove a depth on a test piece"
    PLAY = "another play"


READINGS = frozenset({ChangeKind.MEASURE_SHEETS, ChangeKind.FIT, ChangeKind.MATCH, ChangeKind.DEPTH_PIECE})
"""The changes that begin with a reading."""


@dataclass(frozen=True)
class Change:
    """One thing done otherwise, once for all cases that have the same.

    `sizes` are the sizes it changes, `spends` the minutes it takes. It adds `method` to the way of working;
    `facts` are sizes then known, each with the deviation of its reading, `inputs` the job's inputs that it
    alters. `mates` are the parts that are cut to what is measured. `lessens` are the causes, by kind and
    what they are of, that it makes less, where it does nothing else.
    """

    kind: ChangeKind
    sizes: tuple[str, ...]
    spends: float
    method: Method = TO_PLAN
    facts: Mapping[str, float] = field(default_factory=dict)
    inputs: Mapping[str, Fraction] = field(default_factory=dict)
    tool: MeasuringTool | None = None
    mates: tuple[str, ...] = ()
    lessens: frozenset[tuple[CauseKind, str]] = frozenset()

    def and_(self, more: Change) -> Change:
        """Both as one change of the same kind."""
        return replace(
            self,
            sizes=tuple(dict.fromkeys((*self.sizes, *more.sizes))),
            spends=self.spends + more.spends,
            method=self.method.with_(more.method),
            facts={**self.facts, **more.facts},
            inputs={**self.inputs, **more.inputs},
            mates=tuple(dict.fromkeys((*self.mates, *more.mates))),
            lessens=self.lessens | more.lessens,
        )


def with_change(fit: Fit, change: Change) -> Fit:
    """The fit when the change is made. Only the gaps that it can alter are worked out again.

    Another play is weighed with the numbers that are chosen already; only lengths that are new get one.
    """
    project = fit.project.given(change.inputs) if change.inputs else fit.project
    after = replace(
        fit,
        project=project,
        method=fit.method.with_(change.method),
        made=_cut_again(fit, project) if change.inputs else fit.made,
        facts={**fit.facts, **change.facts},
    )
    model = after.error_model()
    again = {name: spread_of(model, fit.gaps[name]) for name in touched_by(fit, change)}
    changed = {name: spread for name, spread in again.items() if not _same(spread, fit.spreads[name])}
    after = after.worked_out(model, {**fit.spreads, **changed}, len(again))
    # Which gap needs which size, and what is cut on one setting, is as before.
    after.__dict__["touches"] = fit.touches
    if not change.method.settings:
        after.__dict__["settings"] = fit.settings
    return after


def touched_by(fit: Fit, change: Change) -> tuple[str, ...]:
    """The gaps that a change may alter."""
    if change.kind is ChangeKind.MEASURE_SHEETS:
        sheets = {owner_of(name) for name in change.facts}
        return tuple(
            name
            for name, spread in fit.spreads.items()
            if any(cause.kind is CauseKind.LOT and cause.what in sheets for cause in spread.errors)
        )
    names = set(change.sizes)
    if change.inputs or change.method.measured:
        names |= set(fit.project.sizes.ledger.downstream(frozenset(names)))
    found = dict.fromkeys(gap for name in sorted(names) for gap in fit.touches.get(name, ()))
    # A size fitted to one gap takes up that gap's errors, and carries them into its other gaps.
    fitted = {**fit.method.fitted, **change.method.fitted}
    for _ in fitted:
        for name, one in fitted.items():
            if one.gap in found:
                found.update(dict.fromkeys(fit.touches[name]))
    return tuple(found)


def _cut_again(fit: Fit, project: Project) -> Mapping[str, MadeSize]:
    """The made sizes when inputs have changed: a groove with more play may be one for the dado stack.

    What is made at one setting stays at one, by the name it had.
    """
    again = made_sizes(project)
    return {name: replace(one, how=again[name].how) for name, one in fit.made.items()}


def _same(one: GapSpread, other: GapSpread) -> bool:
    return one.mean == other.mean and one.bounds == other.bounds and one.errors == other.errors
