"""What pydantic finds wrong with a value, as our findings say it, and the schemas made from its models.

The job file, the planner's JSON and the shop's record are each read by pydantic models; what the
three have in common is here.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import UnionType
from typing import Annotated, Any, LiteralString, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import ErrorDetails, PydanticCustomError, core_schema

DIALECT = "https://json-schema.org/draft/2020-12/schema"

Path = tuple[str | int, ...]
Reason = tuple[str, str, str]
"""The code, the text and the fix of a finding."""


def refuse(code: LiteralString, text: str, fix: str) -> PydanticCustomError:
    """An error, for a validator to raise, that says what is wrong and how to mend it."""
    return PydanticCustomError(code, "{text} {fix}", {"text": text, "fix": fix})


def reason_given(error: ErrorDetails) -> Reason | None:
    """What a validator of ours said with `refuse`; None for an error of pydantic's own."""
    context = error.get("ctx", {})
    return (error["type"], str(context["text"]), str(context["fix"])) if "fix" in context else None


def choices(error: ErrorDetails) -> list[str]:
    """What an entry might have been, where an error of type `enum` says so."""
    return re.findall(r"'([^']*)'", str(error.get("ctx", {}).get("expected", "")))


def table_at(model: type[BaseModel], path: Path) -> type[BaseModel] | None:
    """The model of the table that a path leads to; None where it leads to no table."""
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
    """An annotation without its being optional, and without what says how it is read."""
    if get_origin(annotation) in (Annotated, Union, UnionType):
        return bare(get_args(annotation)[0])
    return annotation


class _WithoutNull(GenerateJsonSchema):
    """An entry that may be left out is simply not required; what stands for it, its description says."""

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])


def schema_of(model: type[BaseModel], *, written: bool = False) -> dict[str, Any]:
    """The JSON schema of what `model` reads, or with `written` of what it writes."""
    mode: Any = "serialization" if written else "validation"
    made: Mapping[str, Any] = model.model_json_schema(schema_generator=_WithoutNull, mode=mode)
    return {"$schema": DIALECT, **made}
