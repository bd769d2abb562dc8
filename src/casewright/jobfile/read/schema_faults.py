"""Validation errors from pydantic, turned into findings a maker can act on."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from ...findings import AtField, Finding
from ...lengths.did_you_mean import did_you_mean
from ...lengths.fractions_text import quoted
from ...validation import Path, choices, given_at_field, reason_given, table_at
from ..catalogue import Catalogue
from ..table import NAME, NOTES, SEEN
from .key_places import Place, nearest_place
from .misplaced import where_it_belongs

_EXPECTED = {
    "bool_type": "true or false, without quotes",
    "int_type": "a whole number, without quotes",
    "string_type": "text in quotes",
    "list_type": "a list in square brackets",
    "dict_type": "a table",
    "model_type": "a table",
    "model_attributes_type": "a table",
}

_TYPED = {
    "bool_type": AtField("{typed} is neither yes nor no.", "Choose yes or no."),
    "int_type": AtField("{typed} is not a whole number.", "Enter a whole number, such as 2."),
    "string_type": AtField("{typed} is not a text.", "Enter a text."),
}
"""What a form says of a value of the wrong kind; tables and lists are none of its fields."""

_LIMITS = {
    "greater_than_equal": "Enter {ge} or more.",
    "less_than_equal": "Enter {le} or less.",
    "string_too_long": "Use no more than {max_length} characters.",
    "too_long": "List no more than {max_length}.",
    "too_short": "List at least {min_length}.",
}


def findings_of(
    errors: Iterable[ErrorDetails],
    model: type[BaseModel],
    values: Mapping[str, Any],
    found: Mapping[Path, Place],
    stock: Catalogue,
) -> list[Finding]:
    """One finding for each error of validating `values` as `model`; `stock` holds what may be named."""
    return [_finding(error, model, values, found, stock) for error in errors]


def _finding(
    error: ErrorDetails,
    model: type[BaseModel],
    values: Mapping[str, Any],
    found: Mapping[Path, Place],
    stock: Catalogue,
) -> Finding:
    path = tuple(part for part in error["loc"] if part != "[key]")
    code, text, fix = _words(error, path, model, stock)
    at = nearest_place(found, path)
    place, at_field = place_of(path, values), _at_field(error, path, model)
    return Finding(code, place, text, fix, line=at.line, column=at.column, at_field=at_field)


def place_of(path: Path, values: Mapping[str, Any]) -> str:
    """The path in a maker's terms: cases by their marks, runs by their names."""
    words: list[str] = []
    here: Any = values
    for step in path:
        here = _inside(here, step)
        if isinstance(step, int):
            name = (here.get("mark") or here.get("name")) if isinstance(here, dict) else None
            words[-1] = f"{words[-1]}.{name}" if isinstance(name, str) and name else f"{words[-1]}[{step}]"
            if words[-1].startswith("cases.") and isinstance(name, str):
                words = words[-1:]
        else:
            words.append(str(step)[:60])
    return ".".join(words) or "file"


def _inside(values: Any, step: str | int) -> Any:
    if isinstance(values, dict):
        return values.get(step)
    if isinstance(values, list) and isinstance(step, int) and step < len(values):
        return values[step]
    return None


def _words(error: ErrorDetails, path: Path, model: type[BaseModel], stock: Catalogue) -> tuple[str, str, str]:
    """Code, text and fix."""
    if (said := reason_given(error)) is not None:
        return said
    kind, value, context = error["type"], error["input"], error.get("ctx", {})
    key = str(path[-1]) if path else "file"
    if kind == "missing":
        about = _description(model, path)
        return "missing", f"“{key}” is missing.", f"Add {key}: {about}" if about else f"Add {key}."
    if kind == "extra_forbidden":
        return (
            "unknown-key",
            f"{quoted(key)} is not a known key here.",
            where_it_belongs(key, value, model, path[:-1]) or _instead(key, _keys_at(model, path[:-1])),
        )
    if kind == "enum":
        text = f"{quoted(value)} is not one of the choices."
        return "not-a-choice", text, _instead(str(value), choices(error))
    if kind == "string_pattern_mismatch":
        return (
            "bad-name",
            f"{quoted(value)} cannot be used as a name here.",
            _fitting_fix(str(value), path, stock) or _pattern_fix(str(context.get("pattern"))),
        )
    if kind in _EXPECTED and (shape := _wrong_shape(value, path, model)) is not None:
        return shape
    if kind in _EXPECTED:
        return "wrong-type", f"{quoted(value)} is the wrong kind of value.", f"Write {_EXPECTED[kind]}."
    if kind in _LIMITS:
        return "out-of-range", f"{quoted(value)} is out of range.", _LIMITS[kind].format(**context)
    text = str(error["msg"])
    return "out-of-range", f"{quoted(value)} cannot be used.", f"{text[:1].upper()}{text[1:].rstrip('.')}."


def _at_field(error: ErrorDetails, path: Path, model: type[BaseModel]) -> AtField:
    """How the error is said at the field of a form; empty where the file's words serve there too."""
    kind = error["type"]
    if kind == "missing":
        return empty_field(_description(model, path))
    if kind in _TYPED:
        return _TYPED[kind]
    if kind in _LIMITS and isinstance(error["input"], list):
        return AtField("{typed} are too many or too few.")
    if kind == "string_pattern_mismatch" and str(error.get("ctx", {}).get("pattern")).startswith("^[a-z]["):
        return AtField("{typed} is not one of the choices.", "Choose a material of the job.")
    return given_at_field(error)


def empty_field(about: str = "", otherwise: str = "") -> AtField:
    """What is said at a field that must be filled in; `otherwise` is what else would do."""
    what = f" the {about[4:].rstrip('.')}" if about.startswith("the ") else f": {about.rstrip('.')}"
    return AtField("“{label}” is empty.", f"Enter{what if about else ' it'}{otherwise}.")


def _wrong_shape(value: Any, path: Path, model: type[BaseModel]) -> tuple[str, str, str] | None:
    """Where tables belong, one heading for another is the usual slip; None where no table belongs."""
    heading = ".".join(str(step) for step in path if isinstance(step, str))
    several = table_at(model, (*path, 0)) is not None
    if several and isinstance(value, dict):
        text = f"{quoted(heading)} is a single table, but there may be several of them."
        return "wrong-type", text, f"Write its heading in double brackets: [[{heading}]]."
    if several or (path and isinstance(path[-1], int) and table_at(model, path) is not None):
        text = f"{quoted(value)} is not a table, and {quoted(heading)} is a list of tables."
        return "wrong-type", text, f"Write each of them as a table of its own, under [[{heading}]]."
    if table_at(model, path) is None:
        return None
    if isinstance(value, list):
        text = f"{quoted(heading)} is a list, but there is only one of it."
        return "wrong-type", text, f"Write it as one table, its heading in single brackets: [{heading}]."
    text = f"{quoted(value)} is not a table."
    return "wrong-type", text, f"Write {quoted(heading)} as a table, with its entries under [{heading}]."


def _fitting_fix(value: str, path: Path, stock: Catalogue) -> str:
    """What to write where a case is fitted with something by its name in the catalogue, which is no key."""
    if "fitted_with" not in path:
        return ""
    table, key, listed = (
        ("slides", "side", stock.slides) if path[-1] == "slide" else ("hinges", "cup", stock.hinges)
    )
    if value not in listed:
        return ""
    like = json.dumps(value, ensure_ascii=False)
    return f'Add [{table}.{key}] with like = {like}, and write {path[-1]} = "{key}" here.'


def _pattern_fix(pattern: str) -> str:
    if pattern.startswith("^[a-z]["):
        return "Use lower-case letters, digits, dashes and underscores, starting with a letter: birch-ply."
    if pattern == NAME:
        return (
            "Enter a name with at least one visible character and no tabs, line breaks or control characters."
        )
    if pattern in (SEEN, NOTES):
        return "Remove the control characters, which no paper shows."
    return "Use up to six letters and digits, starting with a letter: B1."


def _instead(said: str, allowed: list[str]) -> str:
    """A suggestion: the nearest of the allowed names, or all of them."""
    return did_you_mean(said, allowed) if allowed else "Remove it."


def _keys_at(model: type[BaseModel], path: Path) -> list[str]:
    table = table_at(model, path)
    return list(table.model_fields) if table else []


def _description(model: type[BaseModel], path: Path) -> str:
    table = table_at(model, path[:-1])
    field = table.model_fields.get(str(path[-1])) if table else None
    text = (field.description or "") if field else ""
    return text[:1].lower() + text[1:]
