"""The published JSON schema of a job file: `schema.json`, and how it is made from the model."""

from __future__ import annotations

from importlib.resources import files
from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from .tables import JobTable

DIALECT = "https://json-schema.org/draft/2020-12/schema"


class _Plain(GenerateJsonSchema):
    """TOML has no null: an entry that may be left out is simply not required. Defaults are the manual's."""

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])


def job_schema() -> dict[str, Any]:
    """The schema as the model says it."""
    return {"$schema": DIALECT, **JobTable.model_json_schema(schema_generator=_Plain)}


def published_schema() -> str:
    """The text of the schema that is published with the program."""
    return files("casewright.jobfile").joinpath("schema.json").read_text(encoding="utf-8")
