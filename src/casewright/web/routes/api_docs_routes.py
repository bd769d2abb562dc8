"""The page that describes the way in for programs, read off the same schema that programs get."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from fastapi import APIRouter, Request, Response

from ..rendering import page

router = APIRouter(prefix="/api", include_in_schema=False)


@dataclass(frozen=True)
class ApiCall:
    """A method and path, what it does, what its path and query hold, and the JSON schema of what is sent."""

    method: str
    path: str
    does: str
    parameters: tuple[str, ...]
    sent: str


@router.get("/docs")
def api_docs(request: Request) -> Response:
    """Every call, with what it takes."""
    return page(request, "api_docs/page.html", calls=tuple(api_calls(request.app.openapi())))


def api_calls(schema: Mapping[str, Any]) -> Iterator[ApiCall]:
    """The calls that an OpenAPI schema describes, in its order."""
    for path, methods in schema["paths"].items():
        for method, call in methods.items():
            parameters = tuple(f"{one['name']} (in the {one['in']})" for one in call.get("parameters", ()))
            body = call.get("requestBody", {}).get("content", {}).get("application/json", {}).get("schema")
            sent = json.dumps(_spelt_out(body, schema), indent=2) if body else ""
            does = call.get("description") or call.get("summary", "")
            yield ApiCall(method.upper(), path, does, parameters, sent)


def _spelt_out(part: Any, schema: Mapping[str, Any]) -> Any:
    """A part of a schema with what it refers to put in its place, so that it can be read by itself."""
    if isinstance(part, Mapping):
        if "$ref" in part:
            found: Any = schema
            for step in part["$ref"].removeprefix("#/").split("/"):
                found = found[step]
            return _spelt_out(found, schema)
        return {key: _spelt_out(value, schema) for key, value in part.items()}
    return [_spelt_out(one, schema) for one in part] if isinstance(part, list) else part
