"""The published JSON schema of a job file: `schema.json`, and how it is made from the model."""

from __future__ import annotations

from importlib.resources import files
from typing import Any

from ..validation import schema_of
from .tables import JobTable


def job_schema() -> dict[str, Any]:
    """The schema as the model says it."""
    return schema_of(JobTable)


def published_schema() -> str:
    """The text of the schema that is published with the program."""
    return files("casewright.jobfile").joinpath("schema.json").read_text(encoding="utf-8")
