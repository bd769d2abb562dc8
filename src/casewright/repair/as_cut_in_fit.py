"""What the fit says of sizes as they were cut: which gaps of a case leave the range that they may lie in.

A gap is asked about alone, at the exact sizes of the plan with those that were cut put in. It is let pass by
half a mark of the rule, since nobody measures closer.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from ..casework.parts.part import Part
from ..casework.project import Project
from ..tolerance.chains.gaps import Gap, gaps_of
from ..tolerance.outcomes.bounds import Bounds, bounds_of


def gaps_spoiled(project: Project, case: str, cut: Mapping[str, Fraction]) -> tuple[str, ...]:
    """The gaps of a case that hold as it is planned, and do not with these sizes (inches, by ledger name)."""
    spoiled = []
    for gap in gaps_of(_alone(project, case)):
        if gap.place != case or not cut.keys() & set(gap.form.names):
            continue
        bounds = bounds_of(gap.limits, project.sizes)
        half = project.job.mark.step / 2
        if _holds(project, gap, bounds, {}, half) and not _holds(project, gap, bounds, cut, half):
            spoiled.append(gap.name)
    return tuple(spoiled)


def sizes_of_gaps(project: Project, case: str) -> frozenset[str]:
    """The names of all sizes that any gap of a case is made up of."""
    gaps = gaps_of(_alone(project, case))
    return frozenset(name for gap in gaps if gap.place == case for name in gap.form.names)


def may_be_narrower(project: Project, part: Part) -> Fraction | None:
    """By how much a part may be narrower than drawn before the fit asks for it to be cut again (inches); None
    where no gap says so."""
    found: list[Fraction] = []
    for gap in gaps_of(_alone(project, part.case)):
        high = bounds_of(gap.limits, project.sizes).again_high
        if high is not None and part.width.name in gap.form.names:
            found.append(high - project.sizes.of(gap.form))
    return min(found, default=None)


def _alone(project: Project, case: str) -> Project:
    """The project with one case only, so that no other gap is worked out."""
    run = project.run_of(case)
    return replace(project, runs=(replace(run, cases=(project.cases[case],)),))


def _holds(project: Project, gap: Gap, bounds: Bounds, cut: Mapping[str, Fraction], half: Fraction) -> bool:
    # A line that is laid out exactly is at nothing, and is no size of the ledger.
    values: dict[str, Fraction] = defaultdict(Fraction, {**project.sizes.values, **cut})
    value = gap.form.value(values)
    return (bounds.low is None or value >= bounds.low - half) and (
        bounds.high is None or value <= bounds.high + half
    )
