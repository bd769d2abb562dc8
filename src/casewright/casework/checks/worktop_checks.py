"""Worktops that have nothing to lie on, or that would not lie level."""

from __future__ import annotations

from collections.abc import Iterator

from ...findings import Finding
from ...lengths.in_a_sentence import few
from ..job import CaseKind, Job
from .pin_checks import printed_length


def check_worktops(job: Job) -> Iterator[Finding]:
    """A finding for each worktop on a run without base cases, or with base cases of several heights."""
    for run in job.runs:
        if run.worktop is None:
            continue
        place = f"runs.{run.name}.worktop"
        under = [spec for spec in run.cases if spec.kind is CaseKind.BASE]
        if not under:
            text = f"{run.name} has no base case that a worktop could lie on."
            yield Finding(
                "no-case-for-worktop", place, text, "Leave worktop out, or make its cases base cases."
            )
        highest = max((spec.height for spec in under), default=None)
        lower = [spec for spec in under if spec.height != highest]
        if highest is not None and lower:
            text = (
                f"the worktop would not lie level: {few([spec.mark for spec in lower])} "
                f"{'is' if len(lower) == 1 else 'are'} lower than the highest base case of {run.name}, "
                f"{printed_length(job, highest)}."
            )
            fix = f"Make every base case of {run.name} as high, or put the lower ones in a run of their own."
            yield Finding("worktop-not-level", place, text, fix)
