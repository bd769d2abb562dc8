"""A job file's text with its figures in the other unit. Comments, order and everything else stay.

Figures that say their own unit, such as "695 mm" in a job in inches, mean the same in either and stay.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from ...errors import LengthError
from ...lengths.fractions_text import mixed
from ...lengths.length import MM, Mark, Unit, parse_length
from ...lengths.rounding import nearest
from ..job_schema import job_schema
from ..read.entries import BARE_WEIGHT, BARE_WEIGHT_PER_AREA
from ..read.key_places import Path, find_values
from ..read.schema_faults import place_of
from ..read.toml_text import values_of
from .literals import Literal, length_literal

SMALL, HAIR = Fraction(1), Fraction(1, 100)
"""Inches. Lengths from SMALL up are read off a rule, those below it off a caliper; below HAIR they are
deviations."""

RULE, CALIPER, DEVIATION = (
    {Unit.MM: MM / 10, Unit.INCH: Fraction(1, 64)},
    {Unit.MM: MM / 100, Unit.INCH: Fraction(1, 1000)},
    {Unit.MM: MM / 1000, Unit.INCH: Fraction(1, 10_000)},
)
"""The finest mark that makes sense of each: a tenth of a millimetre, 1/64 in, and so on."""

_MARKS = {
    Mark.SIXTEENTH: Mark.MILLIMETRE,
    Mark.THIRTY_SECOND: Mark.HALF_MILLIMETRE,
    Mark.SIXTY_FOURTH: Mark.TENTH_MILLIMETRE,
}
OTHER_MARK = {**_MARKS, **{metric: inches for inches, metric in _MARKS.items()}}
"""The mark of a rule in the other unit that is used for the same work."""

_WEIGHTS = {
    ("carry", "weight"): BARE_WEIGHT,
    ("hinges", "weight"): BARE_WEIGHT,
    ("loads", "load"): BARE_WEIGHT_PER_AREA,
    ("loads_of", "load"): BARE_WEIGHT_PER_AREA,
    ("materials", "weight"): BARE_WEIGHT_PER_AREA,
    ("worktop", "weight"): BARE_WEIGHT_PER_AREA,
}


@dataclass(frozen=True)
class RewrittenLength:
    """A figure as it stood in the text and as it stands now; `off_by` inches of rounding between them."""

    place: str
    before: str
    after: str
    off_by: Fraction


@dataclass(frozen=True)
class RewrittenText:
    """A text in the other unit, with every length that was written anew."""

    text: str
    lengths: tuple[RewrittenLength, ...] = ()

    @property
    def rounded(self) -> tuple[RewrittenLength, ...]:
        """Those that could not be written exactly."""
        return tuple(one for one in self.lengths if one.off_by)


def in_other_unit(text: str, unit: Unit, *, exactly: bool = False) -> RewrittenText:
    """The text with its unit and every figure changed to `unit`, to the finest mark that makes sense.

    With `exactly` nothing is rounded: what has no exact figure in inches keeps its millimetres. Raises
    JobError when the text is no TOML.
    """
    write: Callable[[Fraction, Unit], Literal] = length_literal if exactly else _on_a_mark
    values = values_of(text)
    old = _unit_of(values)
    changed = _unit_and_marks(values, unit)
    lengths = []
    for path, said in _lengths(values):
        if (value := _without_unit(said, old)) is not None:
            changed[path] = new = write(value, unit)
            off = parse_length(new, unit) - value
            lengths.append(RewrittenLength(place_of(path, values), str(said), str(new), off))
    for (holder, key), units in _WEIGHTS.items():
        for path, said in _numbers(values):
            if path[-1] == key and holder in path and isinstance(said, int | float):
                changed[path] = f"{said} {units[old]}"
    return RewrittenText(_with_values(text, changed), tuple(lengths))


def read_anew(text: str, unit: Unit) -> RewrittenText:
    """The text with the same figures, to be read in `unit`. Raises JobError when the text is no TOML."""
    return RewrittenText(_with_values(text, _unit_and_marks(values_of(text), unit)))


def _unit_of(values: Mapping[str, Any]) -> Unit:
    said = values.get("unit")
    return Unit(said) if said in [one.value for one in Unit] else Unit.INCH


def _unit_and_marks(values: Mapping[str, Any], unit: Unit) -> dict[Path, Literal]:
    changed: dict[Path, Literal] = {("unit",): unit.value}
    for key in ("mark", "rounding"):
        mark = next((one for one in Mark if one.value == values.get(key)), None)
        if mark is not None and mark.unit is not unit:
            changed[(key,)] = OTHER_MARK[mark].value
    return changed


def _without_unit(said: Any, unit: Unit) -> Fraction | None:
    """The length in inches of a figure that depends on the job's unit; None for any other value."""
    try:
        value = parse_length(said, unit)
    except LengthError:
        return None
    try:
        return None if parse_length(said, unit.other) == value else value
    except LengthError:  # a fraction of a millimetre is no length, so the figure is one of inches
        return value


def _on_a_mark(value: Fraction, unit: Unit) -> Literal:
    size = abs(value)
    steps = RULE if size >= SMALL else CALIPER if size >= HAIR else DEVIATION
    if unit is Unit.INCH and 64 % value.denominator == 0:
        return mixed(value) if value.denominator > 1 else int(value)
    length = nearest(value, steps[unit])
    if unit is Unit.INCH and steps is RULE:
        return mixed(length) if length.denominator > 1 else int(length)
    figure = float(length / unit.length)
    return int(figure) if figure == int(figure) else figure


def _with_values(text: str, changed: Mapping[Path, Literal]) -> str:
    """The text with other values at those paths; an entry that is not there stays out."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    source, spans = text.encode("utf-8"), find_values(text)
    at = sorted((spans[path], value) for path, value in changed.items() if path in spans)
    pieces, done = [], 0
    for (begin, end), value in at:
        pieces += [source[done:begin], json.dumps(value, ensure_ascii=False).encode("utf-8")]
        done = end
    return b"".join([*pieces, source[done:]]).decode("utf-8")


@cache
def _schema() -> Mapping[str, Any]:
    return job_schema()


def _lengths(values: Mapping[str, Any]) -> Iterator[tuple[Path, Any]]:
    """Every value of the job that may be a length, by the schema of a job file."""
    for path, said in _numbers(values):
        if path[-1] != "weight":
            yield path, said


def _numbers(values: Mapping[str, Any]) -> Iterator[tuple[Path, Any]]:
    """Every value that may be a number with a unit: a length, or a weight."""
    yield from _within(values, _schema(), ())


def _within(value: Any, node: Mapping[str, Any], path: Path) -> Iterator[tuple[Path, Any]]:
    for one in _choices(node):
        if isinstance(value, dict):
            other = next(iter(one.get("patternProperties", {}).values()), one.get("additionalProperties"))
            for key, inner in value.items():
                inside = one.get("properties", {}).get(key, other)
                if isinstance(inside, dict):
                    yield from _within(inner, inside, (*path, key))
        elif isinstance(value, list):
            if isinstance(one.get("items"), dict):
                for index, inner in enumerate(value):
                    yield from _within(inner, one["items"], (*path, index))
        elif one.get("type") == ["string", "number"]:
            yield path, value


def _choices(node: Mapping[str, Any]) -> Iterator[Mapping[str, Any]]:
    """The schema with references followed and alternatives apart."""
    if "$ref" in node:
        yield from _choices(_schema()["$defs"][node["$ref"].rsplit("/", 1)[1]])
    elif "anyOf" in node:
        for one in node["anyOf"]:
            yield from _choices(one)
    else:
        yield node
