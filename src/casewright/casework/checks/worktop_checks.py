"""Worktops that have nothing to lie on, or that would not lie level."""

from __future__ import annotations

from collections.abc import Iterator

from ...findings import Finding
from ...lengths.in_a_sentence import few
from ..job import Job
from .pin_checks import printed_length


def check_worktops(job: Job) -> Iterator[Finding]:
    """A finding for each worktop on a run without base cases, or with base cases of several heights."""
    for run in job.runs:
        if run.worktop is None:
            continue
        place = f"runs.{run.name}.worktop"
        if not run.under_worktop:
            text = f"{run.name} has no base case that a worktop could lie on."
            fix = "Leave worktop out, or make its cases base cases."
            yield Finding("no-case-for-worktop", place, text, fix)
            continue
        highest = max(spec.height for spec in run.under_worktop)
        lower = [spec.mark for spec in run.under_worktop if spec.height < highest]
        if lower:
            text = (
                f"the worktop would not lie level: {few(lower)} {'is' if len(lower) == 1 else 'are'} lower "
                f"than the highest base case of {run.name}, {printed_length(job, highest)}."
            )
            fix = f"Make every base case of {run.name} as high, or put the lower ones in a run of their own."
            yield Finding("worktop-not-level", place, text, fix)
