"""Read a job file: `read_job(text)` returns the job, or raises with every reason it cannot."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from ...casework.job import Job
from ...errors import JobError
from ...findings import Finding
from ...lengths.length import Unit
from ..catalogue import Catalogue, packaged_catalogue
from ..tables import JobTable
from .builder import Builder
from .key_places import find_places, nearest_place
from .schema_faults import findings_of, place_of
from .toml_text import read_text


def read_job(text: str, stock: Catalogue | None = None) -> Job:
    """The job described by a job file's text. `stock` is the catalogue that names refer to; the packaged one
    if left out.

    Raises JobError with every problem at once: invalid TOML, unknown keys, values of the wrong kind,
    lengths that cannot be read, names of nothing. Each finding gives the line and column, the value,
    and the fix.
    """
    read = read_text(text)
    found = find_places(read.sound)
    unit = _unit(read.values)
    findings = list(read.faults)
    job = None
    stock = stock or packaged_catalogue()
    try:
        said = JobTable.model_validate(read.values, context={"unit": unit})
    except ValidationError as error:
        # An entry on a faulty line is not missing: it is there and cannot be read.
        wrong = [one for one in error.errors() if not (read.faults and one["type"] == "missing")]
        findings += findings_of(wrong, JobTable, read.values, found, stock)
    else:
        builder = Builder(said, stock)
        job = builder.job()
        for fault in builder.faults:
            at = nearest_place(found, fault.path)
            place = place_of(fault.path, read.values)
            findings.append(
                Finding(
                    fault.code,
                    place,
                    fault.text,
                    fault.fix,
                    line=at.line,
                    column=at.column,
                    at_field=fault.at_field,
                )
            )
    if findings or job is None:
        raise JobError(tuple(sorted(findings, key=lambda finding: (finding.line or 0, finding.column or 0))))
    return job


def _unit(values: Mapping[str, Any]) -> Unit:
    """The unit of a bare number; inches if the file does not name one."""
    said = values.get("unit")
    return Unit(said) if said in [unit.value for unit in Unit] else Unit.INCH
