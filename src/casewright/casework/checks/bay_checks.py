"""Bays that their case has no room for, said of the bay to blame before any shelf that suffers from it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...findings import Finding, Weight
from ...lengths.in_a_sentence import listed
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..job import Job
from ..size_names import thickness_of
from .pin_checks import printed_length


def check_bays(job: Job, case: Case, sizes: Sizes) -> Iterator[Finding]:
    """A finding for each bay wider than its case inside, or else for the widths that do not come to that.

    A case without any room inside is another finding's affair.
    """
    inside, bays = sizes.of(case.inside), case.spec.bays
    if inside <= 0:
        return
    place = f"cases.{case.mark}.bays"
    room = printed_length(job, inside)
    widths = {number: bay.width for number, bay in enumerate(bays, 1) if bay.width is not None}
    wider = [number for number, width in widths.items() if width > inside]
    for number in wider:
        text = (
            f"{_name(number, case)} is {printed_length(job, widths[number])} wide; "
            f"{case.mark} is only {room} wide inside."
        )
        fix = f"Make the bay narrower, or {case.mark} wider."
        yield Finding("bay-too-wide", f"{place}[{number - 1}].width", text, fix)
    if wider or not widths:
        return
    dividers = (len(bays) - 1) * sizes.of(thickness_of(case.spec.materials.case))
    filled = sum(widths.values(), Fraction(0)) + dividers
    taken = printed_length(job, filled)
    sharing = [_name(number, case) for number in range(1, len(bays) + 1) if number not in widths]
    if sharing and filled >= inside:
        widest = max(widths, key=lambda number: widths[number])
        text = (
            f"the bays with a width and the dividers take {taken} of the {room} inside {case.mark}: "
            f"nothing is left for {listed(sharing)}."
        )
        fix = f"Make a bay narrower; the widest is bay {widest}, {printed_length(job, widths[widest])}."
        yield Finding("nothing-for-bays", f"{place}[{widest - 1}].width", text, fix)
    elif not sharing and filled != inside and bays[1:]:
        text = f"bays and dividers add up to {taken}, but the inside width is {room}."
        fix = "Leave out the width of one bay so that it takes the rest."
        yield Finding("bays-do-not-fill", place, text, fix)
    elif not sharing and filled != inside:
        text = f"the only bay of {case.mark} is to be {taken} wide, but takes all of the {room} inside."
        fix = f"Leave out its width, or make {case.mark} narrower."
        yield Finding("bay-takes-all", f"{place}[0].width", text, fix, Weight.WARN)


def _name(number: int, case: Case) -> str:
    return f"bay {number}" if len(case.spec.bays) > 1 else f"the only bay of {case.mark}"
