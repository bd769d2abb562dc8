"""Any rectangle problem, read from JSON; `schema/problem.json` publishes the form.

Plain numbers count the problem's `unit`; texts are lengths as makers write them.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, TypeVar

from ..errors import LengthError, PlanError
from ..findings import Finding, refusals
from ..lengths.length import Unit, parse_length
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
Row = TypeVar("Row", Item, Bin)
Kind = TypeVar("Kind", Unit, FirstCut, Goal)

PROBLEM = ["bins", "items", "kerf", "trim", "unit", "hand_saw", "limits", "goals", "stages", "first_cut"]
PROBLEM += ["keep", "reach"]
ITEM = ["name", "length", "width", "count", "may_turn", "match"]
BIN = ["name", "length", "width", "count", "price", "trim", "offcut", "weight"]
EDGES = ("left", "right", "near", "far")


def read_problem(text: str) -> Problem:
    """The problem a JSON text describes; a field that is null counts as absent.

    Raises PlanError with every fault found, each with its place in the text.
    """
    try:
        data = json.loads(text)
    except json.JSONDecodeError as fault:
        finding = Finding(
            "json", "the file", f"It is not JSON: {fault.msg}.", line=fault.lineno, column=fault.colno
        )
        raise PlanError((finding,)) from None
    except (RecursionError, ValueError):
        raise PlanError(
            (
                Finding(
                    "json", "the file", "It is nested too deeply, or holds a number of thousands of digits."
                ),
            )
        ) from None
    reader = _Reader([], Unit.INCH, set())
    problem = reader.problem(data)
    if not reader.found:
        return problem
    meant = [fault for fault in faults(problem) if not reader.misread(fault)]
    raise PlanError((*reader.found, *refusals(tuple(meant))))


@dataclass
class _Reader:
    """Reads what it can and notes every fault on the way."""

    found: list[Finding]
    unit: Unit
    spoilt: set[str]  # what could not be read whole: nothing more is to be said about it

    def misread(self, fault: Finding) -> bool:
        return any(fault.place == name or fault.place.startswith(f"{name}.") for name in self.spoilt)

    def problem(self, data: Json) -> Problem:
        fields = self.fields(data, "the problem", PROBLEM, ("bins", "items"))
        self.unit = self.choice(fields, "unit", "", Unit, Unit.INCH)
        trim = self.trim(fields.get("trim", 0), "trim")
        self.spoilt |= {name for name in ("items", "bins") if not isinstance(fields.get(name), list)}
        items = self.rows(fields.get("items", []), "items", self.item)
        bins = self.rows(fields.get("bins", []), "bins", lambda row, at: self.bin(row, at, trim))
        reach = self.length(fields, "reach", "", None)
        kerf = self.length(fields, "kerf", "", Fraction(0)) or Fraction(0)
        return Problem(
            items,
            bins,
            Saw("table saw", SawKind.TABLE_SAW, kerf, reach=reach),
            self.hand_saw(fields.get("hand_saw")),
            self.limits(fields.get("limits")),
            PatternKind(
                self.whole(fields, "stages", "", None),
                self.choice(fields, "first_cut", "", FirstCut, FirstCut.ANY),
            ),
            self.goals(fields.get("goals")),
            self.keep(fields.get("keep")),
        )

    def item(self, row: Json, at: str) -> Item:
        fields = self.fields(row, at, ITEM, ("name", "length", "width"))
        return Item(
            self.name(fields, at),
            self.length(fields, "length", at, None) or Fraction(0),
            self.length(fields, "width", at, None) or Fraction(0),
            self.whole(fields, "count", at, 1) or 0,
            self.flag(fields, "may_turn", at),
            self.name(fields, at, "match") if fields.get("match") is not None else None,
        )

    def bin(self, row: Json, at: str, trim: Trim) -> Bin:
        fields = self.fields(row, at, BIN, ("name", "length", "width"))
        length = self.length(fields, "length", at, None) or Fraction(0)
        width = self.length(fields, "width", at, None) or Fraction(0)
        weight = self.number(fields, "weight", at)
        area = length * width
        return Bin(
            self.name(fields, at),
            length,
            width,
            self.whole(fields, "count", at, None),
            self.number(fields, "price", at),
            self.trim(fields["trim"], f"{at}.trim") if "trim" in fields else trim,
            self.flag(fields, "offcut", at),
            weight / area if weight is not None and area > 0 else None,
        )

    def hand_saw(self, data: Json) -> Saw | None:
        if data is None:
            return None
        fields = self.fields(data, "hand_saw", ["kerf", "clean_up"], ("kerf",))
        kerf = self.length(fields, "kerf", "hand_saw", Fraction(0)) or Fraction(0)
        clean_up = self.length(fields, "clean_up", "hand_saw", Fraction(0)) or Fraction(0)
        return Saw("hand saw", SawKind.HAND_SAW, kerf, clean_up)

    def limits(self, data: Json) -> Limits:
        if data is None:
            return Limits()
        fields = self.fields(data, "limits", ["weight", "length"], ())
        return Limits(self.number(fields, "weight", "limits"), self.length(fields, "length", "limits", None))

    def keep(self, data: Json) -> Keep | None:
        if data is None:
            return None
        fields = self.fields(data, "keep", ["short", "long"], ("short", "long"))
        short, long = (self.length(fields, side, "keep", Fraction(0)) for side in ("short", "long"))
        return Keep(short or Fraction(0), long or Fraction(0))

    def goals(self, data: Json) -> tuple[Goal, ...]:
        if data is None:
            return DEFAULT_GOALS
        if not isinstance(data, list):
            self.wrong("goals", f"{_shown(data)} is no list.", "List goals, the most important first.")
            return DEFAULT_GOALS
        read = [
            self.choice({"goal": value}, "goal", f"goals[{place}]", Goal, Goal.SHEET_MONEY)
            for place, value in enumerate(data)
        ]
        return tuple(read)

    def trim(self, data: Json, at: str) -> Trim:
        if not isinstance(data, dict):
            amount = self.length({"trim": data}, "trim", "", Fraction(0), at) or Fraction(0)
            return Trim.all_round(amount)
        fields = self.fields(data, at, list(EDGES), ())
        return Trim(*(self.length(fields, edge, at, Fraction(0)) or Fraction(0) for edge in EDGES))

    def fields(self, data: Json, at: str, known: list[str], needed: tuple[str, ...]) -> dict[str, Json]:
        if not isinstance(data, dict):
            self.wrong(
                at, f"{_shown(data)} is no object.", f"Write {{...}} with {', '.join(needed or known)}."
            )
            return {}
        fields: dict[str, Json] = {name: value for name, value in data.items() if value is not None}
        for name in fields:
            if name not in known:
                fix = f"Known here: {', '.join(known)}."
                self.wrong(_place(at, name), "There is no such field.", fix, "unknown-field")
        for name in needed:
            if name not in fields:
                self.wrong(_place(at, name), "It is missing.", "Give it.", "missing-field")
        return fields

    def rows(self, data: Json, at: str, read: Callable[[Json, str], Row]) -> tuple[Row, ...]:
        if not isinstance(data, list):
            self.wrong(at, f"{_shown(data)} is no list.", "Write [...] with one entry for each.")
            return ()
        result = []
        for place, row in enumerate(data):
            before = len(self.found)
            result.append(read(row, f"{at}[{place}]"))
            if any(fault.code != "unknown-field" for fault in self.found[before:]):
                self.spoilt |= {f"{at}.{result[-1].name}"}
        return tuple(result)

    def name(self, fields: dict[str, Json], at: str, field: str = "name") -> str:
        value = fields.get(field, "")
        if isinstance(value, bool) or not isinstance(value, str | int):
            self.wrong(_place(at, field), f"{_shown(value)} is no name.", "Write a text.")
        return str(value)

    def length(
        self, fields: dict[str, Json], field: str, at: str, default: Fraction | None, place: str | None = None
    ) -> Fraction | None:
        """A length in the problem's unit."""
        value = fields.get(field)
        if value is None:
            return default
        if not isinstance(value, str):
            return self.number(fields, field, at, place)
        try:
            return parse_length(value, self.unit) / self.unit.length
        except LengthError as fault:
            self.wrong(place or _place(at, field), str(fault), "", "length")
            return default

    def number(
        self, fields: dict[str, Json], field: str, at: str, place: str | None = None
    ) -> Fraction | None:
        value = fields.get(field)
        if value is None:
            return None
        if isinstance(value, bool) or not isinstance(value, int | float):
            self.wrong(place or _place(at, field), f"{_shown(value)} is no number.", "Write a number.")
            return None
        if value != value or value in (float("inf"), float("-inf")):
            self.wrong(place or _place(at, field), f"{value} is no number one can cut.", "Write a number.")
            return None
        if abs(value) > 10**12 or 0 < abs(value) < 1e-9:
            self.wrong(
                place or _place(at, field), f"{_shown(value)} is out of all measure.", "Check the number."
            )
            return None
        return Fraction(repr(value))

    def whole(self, fields: dict[str, Json], field: str, at: str, default: int | None) -> int | None:
        value = fields.get(field)
        if value is None:
            return default
        if isinstance(value, float) and value.is_integer():
            value = int(value)
        if isinstance(value, bool) or not isinstance(value, int):
            self.wrong(_place(at, field), f"{_shown(value)} is no whole number.", "Write a whole number.")
            return default
        return value

    def flag(self, fields: dict[str, Json], field: str, at: str) -> bool:
        value = fields.get(field, False)
        if not isinstance(value, bool):
            self.wrong(
                _place(at, field), f"{_shown(value)} is neither true nor false.", "Write true or false."
            )
        return value is True

    def choice(self, fields: dict[str, Json], field: str, at: str, kind: type[Kind], default: Kind) -> Kind:
        value = fields.get(field, default.value)
        for member in kind:
            if member.value == value:
                return member
        fix = f"Write one of {', '.join(str(member.value) for member in kind)}."
        self.wrong(at if field == "goal" else _place(at, field), f"{_shown(value)} is not known here.", fix)
        return default

    def wrong(self, place: str, text: str, fix: str, code: str = "field") -> None:
        self.found.append(Finding(code, place, text, fix))


def _place(at: str, field: str) -> str:
    return field if at in ("", "the problem") else f"{at}.{field}"


def _shown(value: Json) -> str:
    text = json.dumps(value)
    return text if len(text) <= 40 else f"{text[:37]}..."
