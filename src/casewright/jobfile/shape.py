"""A faulty job file's values brought into shape: tables where tables belong, lists where lists belong."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, get_args, get_origin

from pydantic import BaseModel

from ..validation import bare
from .tables import JobTable


def in_shape(values: Mapping[str, Any]) -> dict[str, Any]:
    """The values without any that have the wrong shape, so that a faulty job file can still be shown.

    Anything else in a list of tables counts as an empty table, so that the tables after it keep their
    numbers. Single values stay as they are: the form fields show what is wrong with them.
    """
    return _table(values, JobTable)


def _table(values: Mapping[str, Any], model: type[BaseModel]) -> dict[str, Any]:
    kinds = {key: bare(field.annotation) for key, field in model.model_fields.items()}
    shaped = {key: _value(value, kinds[key]) if key in kinds else value for key, value in values.items()}
    return {key: value for key, value in shaped.items() if value is not None}


def _value(value: Any, kind: Any) -> Any:
    """The value if it has the shape of its annotation, otherwise None."""
    origin = get_origin(kind)
    if _is_table(kind):
        return _table(value, kind) if isinstance(value, dict) else None
    if origin is list and _is_table(inner := get_args(kind)[0]):
        if not isinstance(value, list):
            return None
        return [_table(one, inner) if isinstance(one, dict) else {} for one in value]
    if origin is dict:
        if not isinstance(value, dict):
            return None
        return {key: one for key in value if (one := _value(value[key], get_args(kind)[1])) is not None}
    return value


def _is_table(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, BaseModel)
