"""Any rectangle problem, read from JSON.

Plain numbers count the problem's `unit`; texts are lengths as makers write them. The models here
are the form of the file: `casewright schema problem` publishes it.
"""

from __future__ import annotations

import copy
import json
from fractions import Fraction
from typing import Annotated, Any, cast

from pydantic import (
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    PlainValidator,
    Strict,
    ValidationError,
    ValidationInfo,
    ValidatorFunctionWrapHandler,
    WithJsonSchema,
    WrapValidator,
    model_validator,
)
from pydantic_core import ErrorDetails

from ..errors import LengthError, PlanError
from ..findings import Finding, refusals
from ..lengths.did_you_mean import did_you_mean
from ..lengths.length import Unit, parse_length
from ..validation import Path, Reason, choices, input_error, reason_given, table_at
from .problem import (
    DEFAULT_GOALS,
    Bin,
    FirstCut,
    Goal,
    Item,
    Keep,
    Limits,
    PatternKind,
    Problem,
    Saw,
    SawKind,
    Trim,
)
from .problem_faults import faults

Json = Any
ZERO = Fraction(0)


def _number(value: Json) -> Fraction:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise input_error("field", f"{_shown(value)} is no number.", "Write a number.")
    if value != value or value in (float("inf"), float("-inf")):
        raise input_error("field", f"{value} is no number one can cut.", "Write a number.")
    if abs(value) > 10**12 or 0 < abs(value) < 1e-9:
        raise input_error("field", f"{_shown(value)} is out of all measure.", "Check the number.")
    return Fraction(repr(value))


def _length(value: Json, info: ValidationInfo) -> Fraction:
    """A length in the problem's unit, which the context names."""
    if not isinstance(value, str):
        return _number(value)
    unit = cast("Unit", info.context)
    try:
        return parse_length(value, unit) / unit.length
    except LengthError as fault:
        raise input_error("length", str(fault), "") from None


def _text(value: Json) -> str:
    if isinstance(value, bool) or not isinstance(value, str | int):
        raise input_error("field", f"{_shown(value)} is no name.", "Write a text.")
    if not str(value).isascii() and any("\ud800" <= sign <= "\udfff" for sign in str(value)):
        raise input_error("field", f"{_shown(value)} holds half a character.", "Write a text in UTF-8.")
    return str(value)


def _whole(value: Json) -> Json:
    return int(value) if isinstance(value, float) and value.is_integer() else value


LENGTH = {
    "type": ["number", "string"],
    "description": "A length: a plain number counts the problem's unit, a text is read as makers write it "
    "(27 3/8, 1' 11 1/4\", 597 mm).",
}
NAME = {"type": ["string", "integer"], "description": "A whole number is taken as a text."}

Length = Annotated[Fraction, PlainValidator(_length), WithJsonSchema(LENGTH)]
Number = Annotated[Fraction, PlainValidator(_number), WithJsonSchema({"type": "number"})]
Name = Annotated[str, PlainValidator(_text), WithJsonSchema(NAME)]
Whole = Annotated[int, Strict(), BeforeValidator(_whole)]
YesNo = Annotated[bool, Strict()]


def _least(least: int) -> dict[str, Any]:
    """For the schema only: `faults` says it in words, by the names of items and bins."""
    return {"minimum": least}


class _Table(BaseModel):
    """A table that refuses fields it does not know; a field that is null counts as absent."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    @model_validator(mode="before")
    @classmethod
    def _null_is_absent(cls, data: Json) -> Json:
        if not isinstance(data, dict):
            return data
        return {name: value for name, value in data.items() if value is not None}


class EdgesJson(_Table):
    left: Length = ZERO
    right: Length = ZERO
    near: Length = ZERO
    far: Length = ZERO


def _edges(said: Json, edges: ValidatorFunctionWrapHandler, info: ValidationInfo) -> EdgesJson:
    """One length stands for all four."""
    if isinstance(said, dict):
        return cast("EdgesJson", edges(said))
    one = _length(said, info)
    return EdgesJson.model_construct(left=one, right=one, near=one, far=one)


TrimJson = Annotated[
    EdgesJson,
    WrapValidator(_edges, json_schema_input_type=Length | EdgesJson),
    Field(description="What comes off each edge before it counts as good, the kerf within it; absent: 0."),
]


class ItemJson(_Table):
    name: Name
    length: Length
    width: Length
    count: Whole = Field(1, description="Absent: 1.", json_schema_extra=_least(1))
    may_turn: YesNo = Field(False, description="It may lie across the grain; absent: false.")
    match: Name | None = Field(
        None, description="Parts with one mark must come out equal: they are cut on one setting."
    )


class BinJson(_Table):
    name: Name
    length: Length
    width: Length
    count: Whole | None = Field(
        None, description="How many are at hand; absent: as many as wanted.", json_schema_extra=_least(0)
    )
    price: Number | None = Field(
        None,
        description="What using one costs (for an offcut: what it is worth); absent: its area.",
        json_schema_extra=_least(0),
    )
    trim: TrimJson | None = Field(None, description="As for the problem; absent: the problem's.")
    offcut: YesNo = Field(False, description="It comes from the rack; absent: false.")
    weight: Number | None = Field(
        None,
        description="Of one whole sheet, in the unit of limits.weight.",
        json_schema_extra={"exclusiveMinimum": 0},
    )


class HandSawJson(_Table):
    """A hand-held saw along a straightedge, for the first cuts; absent: whole sheets go to the table saw."""

    kerf: Length
    clean_up: Length = Field(
        ZERO, description="What the table saw takes off an edge the hand-held saw cut; absent: 0."
    )


class LimitsJson(_Table):
    """What one person carries to the table saw."""

    weight: Number | None = None
    length: Length | None = None


class KeepJson(_Table):
    """The smallest leftover worth keeping; absent: a sixteenth of the sheet's width by an eighth of its
    length."""

    short: Length
    long: Length


class ProblemJson(_Table):
    """Rectangles wanted, sheets to cut them from, and how the shop cuts. Length runs along x, with the
    grain. A field that is null counts as absent."""

    bins: list[BinJson] = Field(json_schema_extra={"minItems": 1})
    items: list[ItemJson] = Field(json_schema_extra={"minItems": 1})
    kerf: Length = Field(ZERO, description="Of the table saw; absent: 0.")
    trim: TrimJson = EdgesJson()
    unit: Unit = Field(Unit.INCH, description="What plain numbers count; absent: in.")
    hand_saw: HandSawJson | None = None
    limits: LimitsJson = LimitsJson()
    goals: list[Goal] = Field(
        list(DEFAULT_GOALS),
        description="The most important first.",
        json_schema_extra={"minItems": 1, "uniqueItems": True},
    )
    stages: Whole | None = Field(
        None,
        description="The most changes of cutting direction; a last cut that only frees a part is not "
        "counted.",
        json_schema_extra=_least(1),
    )
    first_cut: FirstCut = Field(FirstCut.ANY, description="Absent: any.")
    keep: KeepJson | None = None
    reach: Length | None = Field(
        None, description="The greatest distance of the table saw's fence; absent: no limit."
    )


def read_problem(text: str) -> Problem:
    """The problem a JSON text describes; a field that is null counts as absent.

    Raises PlanError with every fault found, each with its place in the text.
    """
    try:
        data = json.loads(text)
    except json.JSONDecodeError as fault:
        said = f"It is not JSON: {fault.msg}."
        finding = Finding("json", "the file", said, line=fault.lineno, column=fault.colno)
        raise PlanError((finding,)) from None
    except (RecursionError, ValueError):
        said = "It is nested too deeply, or holds a number of thousands of digits."
        raise PlanError((Finding("json", "the file", said),)) from None
    try:
        return _problem(_validated(data))
    except ValidationError as error:
        wrong = error.errors(include_url=False)
    raise PlanError((*map(_finding, wrong), *_further_faults(data, wrong)))


def _validated(data: Json) -> ProblemJson:
    said = data.get("unit") if isinstance(data, dict) else None
    unit = next((unit for unit in Unit if unit.value == said), Unit.INCH)
    return ProblemJson.model_validate(data, context=unit)


def _problem(said: ProblemJson) -> Problem:
    trim = Trim(**vars(said.trim))
    saw = said.hand_saw
    return Problem(
        tuple(Item(**vars(item)) for item in said.items),
        tuple(_bin(row, trim) for row in said.bins),
        Saw("table saw", SawKind.TABLE_SAW, said.kerf, reach=said.reach),
        Saw("hand saw", SawKind.HAND_SAW, saw.kerf, saw.clean_up) if saw else None,
        Limits(said.limits.weight, said.limits.length),
        PatternKind(said.stages, said.first_cut),
        tuple(said.goals),
        Keep(said.keep.short, said.keep.long) if said.keep else None,
    )


def _bin(row: BinJson, trim: Trim) -> Bin:
    area = row.length * row.width
    return Bin(
        row.name,
        row.length,
        row.width,
        row.count,
        row.price,
        trim if row.trim is None else Trim(**vars(row.trim)),
        row.offcut,
        row.weight / area if row.weight is not None and area > 0 else None,
    )


_NO_NAME = "without a name"
_NO_BOX = {"name": _NO_NAME, "length": 0, "width": 0}
_STAND_INS: dict[str, Json] = {"bins": _NO_BOX, "items": _NO_BOX, "goals": Goal.CUTS.value}
"""What takes the place of an entry of each list that cannot be read."""


def _further_faults(data: Json, wrong: list[ErrorDetails]) -> tuple[Finding, ...]:
    """What is also wrong with the rest, so that all faults come in one go.

    What could not be read is left out, or a stand-in takes its place where something must be there;
    of the sheet or part that it belongs to no more is said.
    """
    if not isinstance(data, dict):
        return ()
    rest = copy.deepcopy(data)
    spoilt: set[Path] = set()
    for error in wrong:
        path = error["loc"]
        _mend(rest, path)
        if path[0] in _STAND_INS and error["type"] != "extra_forbidden":
            spoilt.add(path[:1] if path[0] == "goals" else path[:2])
    silent = [_named(path, rest) for path in spoilt]
    return tuple(
        fault
        for fault in refusals(faults(_problem(_validated(rest))))
        if not any(fault.place == name or fault.place.startswith(f"{name}.") for name in silent)
    )


def _mend(rest: Json, path: Path) -> None:
    *way, field = path
    here = rest
    for step in way:
        here = here[step]
    table = table_at(ProblemJson, tuple(way))
    if table is None:
        here[field] = copy.copy(_STAND_INS[str(way[0])])
    elif field in table.model_fields and table.model_fields[str(field)].is_required():
        here[field] = [] if table is ProblemJson else _NO_NAME if field == "name" else 0
    else:
        here.pop(field, None)


def _named(path: Path, rest: Json) -> str:
    """As `faults` names it: a sheet or a part by its own name."""
    return f"{path[0]}.{rest[path[0]][path[1]]['name']}" if len(path) > 1 else str(path[0])


def _finding(error: ErrorDetails) -> Finding:
    path = error["loc"]
    place = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path)
    code, text, fix = reason_given(error) or _reason(error, path)
    return Finding(code, place.removeprefix(".") or "the problem", text, fix)


def _reason(error: ErrorDetails, path: Path) -> Reason:
    """What a fault that pydantic found is called, and how to mend it."""
    shown = _shown(error["input"])
    match error["type"]:
        case "missing":
            return "missing-field", "It is missing.", "Give it."
        case "extra_forbidden":
            fix = did_you_mean(str(path[-1]), _fields(path[:-1]))
            return "unknown-field", "There is no such field.", fix
        case "model_type" | "model_attributes_type":
            return "field", f"{shown} is no object.", f"Write {{...}} with {', '.join(_wanted(path))}."
        case "list_type" if path == ("goals",):
            return "field", f"{shown} is no list.", "List goals, the most important first."
        case "list_type":
            return "field", f"{shown} is no list.", "Write [...] with one entry for each."
        case "enum":
            return "field", f"{shown} is not known here.", did_you_mean(str(error["input"]), choices(error))
        case "int_type":
            return "field", f"{shown} is no whole number.", "Write a whole number."
        case "bool_type":
            return "field", f"{shown} is neither true nor false.", "Write true or false."
        case other:
            raise AssertionError(f"{other} is a fault that none of the models has")


def _fields(path: Path) -> list[str]:
    table = table_at(ProblemJson, path)
    return list(table.model_fields) if table else []


def _wanted(path: Path) -> list[str]:
    """The fields that the table at `path` needs, or those that it may have."""
    table = table_at(ProblemJson, path)
    fields = table.model_fields if table else {}
    return [name for name, field in fields.items() if field.is_required()] or list(fields)


def _shown(value: Json) -> str:
    text = json.dumps(value)
    return text if len(text) <= 40 else f"{text[:37]}..."
