"""A new job from what a form sends: a name, a measured opening, and what sort of cases fill it."""

from __future__ import annotations

from ...errors import JobError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...lengths.length import Unit
from ..choices import KINDS
from .new_job_file import Wish, new_job


def job_in_opening(name: str, unit: str, opening: str, kind: str) -> str:
    """The text of a job of equal cases that fill the opening.

    Raises LengthError when the opening is no length, JobError when the unit or the kind is none
    or no cases can fill it.
    """
    units = [one.value for one in Unit]
    refused = tuple(
        Finding("no-such-choice", place, f"“{said}” is not one of the choices.", did_you_mean(said, known))
        for place, said, known in (("unit", unit, units), ("kind", kind, list(KINDS)))
        if said not in known
    )
    if refused:
        raise JobError(refused)
    return new_job(Wish(name.strip() or "New job", Unit(unit), opening, kind)).text
