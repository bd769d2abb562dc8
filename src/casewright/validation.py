"""Validation errors from pydantic as findings, and JSON schemas made from its models.

The job file, the planner's JSON and the shop's record are each read by pydantic models; this is
what the three have in common.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import UnionType
from typing import Annotated, Any, LiteralString, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import ErrorDetails, PydanticCustomError, core_schema

from .findings import AS_IN_FILE, AtField

DIALECT = "https://json-schema.org/draft/2020-12/schema"

Path = tuple[str | int, ...]
Reason = tuple[str, str, str]
"""The code, the text and the fix of a finding."""


def input_error(
    code: LiteralString, text: str, fix: str, at_field: AtField = AS_IN_FILE
) -> PydanticCustomError:
    """An error for a validator to raise: what is wrong with the value, and how to correct it, in a file and
    at the field of a form."""
    said = {"text": text, "fix": fix, "at_field": at_field}
    return PydanticCustomError(code, "{text} {fix}", said)


def reason_given(error: ErrorDetails) -> Reason | None:
    """The code, text and fix of an `input_error`; None for one of pydantic's own errors."""
    context = error.get("ctx", {})
    return (error["type"], str(context["text"]), str(context["fix"])) if "fix" in context else None


def given_at_field(error: ErrorDetails) -> AtField:
    """How an `input_error` is said at a field; empty for one of pydantic's own errors."""
    said = error.get("ctx", {}).get("at_field")
    return said if isinstance(said, AtField) else AS_IN_FILE


def choices(error: ErrorDetails) -> list[str]:
    """The allowed values named by an error of type `enum`."""
    return re.findall(r"'([^']*)'", str(error.get("ctx", {}).get("expected", "")))


def table_at(model: type[BaseModel], path: Path) -> type[BaseModel] | None:
    """The model of the table at the end of a path; None if there is no table there."""
    here: Any = model
    for step in path:
        if isinstance(here, type) and issubclass(here, BaseModel) and step in here.model_fields:
            here = bare(here.model_fields[str(step)].annotation)
        elif get_origin(here) in (list, dict):
            here = bare(get_args(here)[-1])
        else:
            return None
    return here if isinstance(here, type) and issubclass(here, BaseModel) else None


def bare(annotation: Any) -> Any:
    """The annotation without `None` and without validators."""
    if get_origin(annotation) in (Annotated, Union, UnionType):
        return bare(get_args(annotation)[0])
    return annotation


class _WithoutNull(GenerateJsonSchema):
    """Optional entries are just not required: no null, and the description names the default."""

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])


def schema_of(model: type[BaseModel], *, written: bool = False) -> dict[str, Any]:
    """The JSON schema of the input of `model`, or with `written` of its output."""
    mode: Any = "serialization" if written else "validation"
    schema: Mapping[str, Any] = model.model_json_schema(schema_generator=_WithoutNull, mode=mode)
    return {"$schema": DIALECT, **schema}
