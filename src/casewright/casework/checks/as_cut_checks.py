"""Checks of parts that are used at the size they came out with, although they are drawn larger."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ...findings import Finding
from ...lengths.length import show
from ...sizes.ledger import Sizes
from ..job import Job
from ..parts.part import Part
from ..size_names import owner_of, read_name

MOST_LACKING = Fraction(1)
"""By how much a part may be smaller than drawn and still be used (inches): a slip of the rule by a whole inch
spoils any part (common practice, no source)."""


def check_as_cut(job: Job, parts: Mapping[str, Part], sizes: Sizes) -> Iterator[Finding]:
    """A finding for each size under `as_cut` that the part as it is now drawn cannot be used with.

    `sizes` are those of the job as drawn.
    """
    for name, cut in job.as_cut.items():
        if owner_of(name) not in parts:
            continue
        drawn, size = sizes.of(name), read_name(name)
        said = f"{size.owner} was cut to a {size.what} of {_text(job, cut)}, but is drawn {_text(job, drawn)}"
        place = f"as_cut.{name}"
        if cut > drawn + job.mark.step / 2:
            fix = "Trim it to size and remove this entry."
            yield Finding(
                "as-cut-larger", place, f"{said}: a part that is too large is no use as it is.", fix
            )
        elif cut < drawn - MOST_LACKING:
            fix = "Measure it again; or remove this entry, and the part is made as it is drawn."
            yield Finding("as-cut-far-off", place, f"{said}: that is too far off to be used.", fix)


def _text(job: Job, length: Fraction) -> str:
    return show(length, job.mark, unit=True).plain
