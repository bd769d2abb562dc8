"""The one door in: `read_job(text)` gives the job, or every reason why not."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from ...casework.job import Job
from ...errors import JobError
from ...findings import Finding
from ...lengths.length import Unit
from ..catalogue import Stock, packaged_stock
from ..tables import JobTable
from .builder import Builder
from .key_places import nearest, places
from .schema_faults import findings_of, place_of
from .toml_text import read_text


def read_job(text: str, stock: Stock | None = None) -> Job:
    """The job that a job file's text says, on the stock that comes with the program or another.

    Raises JobError with every problem at once: what is no TOML, keys that mean nothing, values
    of the wrong sort, lengths that cannot be read, names that name nothing. Each finding has
    its line and column, the value, and the fix.
    """
    read = read_text(text)
    found = places(read.sound)
    unit = _unit(read.values)
    findings = list(read.faults)
    job = None
    try:
        said = JobTable.model_validate(read.values, context={"unit": unit})
    except ValidationError as error:
        # What a faulty line would have said is not missing: it is there and cannot be read.
        wrong = [one for one in error.errors() if not (read.faults and one["type"] == "missing")]
        findings += findings_of(wrong, JobTable, read.values, found)
    else:
        builder = Builder(said, stock or packaged_stock())
        job = builder.job()
        for fault in builder.faults:
            at = nearest(found, fault.path)
            place = place_of(fault.path, read.values)
            findings.append(Finding(fault.code, place, fault.text, fault.fix, line=at.line, column=at.column))
    if findings or job is None:
        raise JobError(tuple(sorted(findings, key=lambda finding: (finding.line or 0, finding.column or 0))))
    return job


def _unit(values: Mapping[str, Any]) -> Unit:
    """What a bare number counts; inches while the file does not say."""
    said = values.get("unit")
    return Unit(said) if said in [unit.value for unit in Unit] else Unit.INCH
