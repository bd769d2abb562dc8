"""Findings for a shop's own figures and for plays that no maker would work with."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...findings import Finding, Weight
from ...shop.figure_limits import figure_limits
from ..job import Job
from ..movement import has_floating_back

_LEFT_OUT = "or leave it out for that of the starting shop"


def check_figures(job: Job) -> Iterator[Finding]:
    """Standard deviations that no saw or tool has, and plays that leave a joint without hold."""
    for name, limits in figure_limits()["deviations"].items():
        value = Fraction(getattr(job.shop.deviations, name))
        said, place = _figure(value, job), f"shop.deviations.{name}"
        if limits.most is not None and value > limits.most:
            text = (
                f"{said} is more than sizes can stray by: {limits.reason}; "
                f"the most is {_figure(limits.most, job)}."
            )
            fix = f"Enter the standard deviation of your own readings, {_LEFT_OUT}."
            yield Finding("figure-too-great", place, text, fix)
        elif value < limits.least:
            text = f"{said} is finer than any shop's; the least is about {_figure(limits.least, job)}."
            fix = f"Was it read in {job.unit.other.words}? Enter it with its unit, {_LEFT_OUT}."
            yield Finding("figure-too-small", place, text, fix, Weight.WARN)
    for case in (case for run in job.runs for case in run.cases):
        for name, limits in figure_limits()["plays"].items():
            value = getattr(case.construction, name)
            place, words = f"cases.{case.mark}.{name}", name.replace("_", " ")
            # Solid wood needs the play; whether its back laps its grooves still is told where it moves.
            asked = None if name == "back_play" and has_floating_back(job, case) else limits.asked
            for limit, weight in ((limits.most, Weight.REFUSE), (asked, Weight.WARN)):
                if limit is not None and value > limit:
                    text = f"a {words} of {_figure(value, job)} is too much: {limits.reason}."
                    fix = f"Enter {_figure(limit, job)} or less."
                    yield Finding("play-too-wide", place, text, fix, weight)
                    break


def _figure(length: Fraction, job: Job) -> str:
    """The figure as it was typed: what a caliper shows would turn a slip into nothing."""
    return f"{float(length / job.unit.length):g} {job.unit.value}"
