"""Cases wider than the room there is for them, said of the case and the run before any part is drawn up."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from ...findings import Finding
from ...lengths.in_a_sentence import listed
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..job import CaseSpec, Filler, Job, Run
from .pin_checks import printed_length


def check_widths(job: Job) -> Iterator[Finding]:
    """A finding for each run whose given widths cannot stand in its opening, with the case to blame.

    Runs whose cases all have a width, none of them wider than the room by itself, are left to the room
    that is left over once they are drawn up.
    """
    for run in job.runs:
        yield from _run(job, run)


def _run(job: Job, run: Run) -> Iterator[Finding]:
    room = run.opening - _end(run, run.left) - _end(run, run.right)
    if room <= 0:
        text = f"the fillers and gaps leave nothing of the {printed_length(job, run.opening)} opening."
        yield Finding("no-room-for-cases", f"runs.{run.name}.opening", text, "Make a filler narrower.")
        return
    given = [spec for spec in run.cases if spec.width is not None]
    wider = [spec for spec in given if _width(spec) > room]
    for spec in wider:
        yield Finding(
            "case-too-wide",
            f"cases.{spec.mark}.width",
            f"{spec.mark} is {printed_length(job, _width(spec))} wide; "
            f"the opening of {run.name} has room for {printed_length(job, room)}.",
            f"Make {spec.mark} narrower, or correct the opening.",
        )
    sharing = [spec.mark for spec in run.cases if spec.width is None]
    taken = sum((_width(spec) for spec in given), Fraction(0))
    if sharing and not wider and taken >= room:
        widest = max(given, key=_width)
        yield Finding(
            "nothing-to-share",
            f"cases.{widest.mark}.width",
            f"the cases with a width take {printed_length(job, taken)} of the {printed_length(job, room)} "
            f"that {run.name} has room for: nothing is left for {listed(sharing)}.",
            f"Make a case narrower; the widest is {widest.mark}, {printed_length(job, _width(widest))}.",
        )


def check_shares(job: Job, runs: Iterable[tuple[Run, Sequence[Case]]], sizes: Sizes) -> Iterator[Finding]:
    """A finding for each run that leaves the cases without a width of their own less than their two sides."""
    for run, cases in runs:
        thin = [case for case in cases if case.spec.width is None and sizes.of(case.inside) <= 0]
        if thin:
            least = min(sizes.of(case.width) for case in thin)
            marks = listed(case.mark for case in thin)
            text = f"what {run.name} leaves for {marks} is {printed_length(job, least)} each"
            if not thin[1:]:
                text = f"what {run.name} leaves for {marks} is only {printed_length(job, least)}"
            given = [spec for spec in run.cases if spec.width is not None]
            widest = max(given, key=_width).mark if given else ""
            fix = f"Make another case narrower, such as {widest}." if widest else "Give the run fewer cases."
            yield Finding("share-too-small", f"runs.{run.name}", f"{text}, no wider than its sides.", fix)


def _end(run: Run, filler: Filler | None) -> Fraction:
    """What closes an end of the run, as far as that is given."""
    if filler is None:
        return run.gap
    return filler.width or Fraction(0)


def _width(spec: CaseSpec) -> Fraction:
    return spec.width or Fraction(0)
