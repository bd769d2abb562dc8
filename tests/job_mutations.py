"""Seeded mutations of the examples: of their text, and of the values in it. The same seed, the same texts."""

from __future__ import annotations

import random
import re
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import tomlkit

EXAMPLES = [
    path.read_text(encoding="utf-8")
    for path in sorted((Path(__file__).parents[1] / "examples").glob("*.toml"))
]
ODD_VALUES: list[Any] = [
    *(True, 0, 1, -1, 7, 3.5, -2.5, 10**30, 1e308, float("nan"), float("inf")),
    *("", " ", "rest", "27 3/8", "695 mm", "1/0", "B1", "base", "=1+1", "\x07", "é" * 90, "0.0000001"),
    *([], [1], ["a", 2], [[]], [{}], {}, {"a": 1}, {"share": 2}, {"share": 0}, {"width": "rest"}),
]
ODD_TOKENS = [
    "[",
    "]",
    "{",
    "}",
    "=",
    '"',
    "'",
    "\n",
    "#",
    ",",
    '"""',
    "[[x]]",
    "[runs]",
    "[shop]",
    "nan",
    "é",
]
KEYS = [
    "width",
    "bays",
    "cases",
    "runs",
    "mark",
    "kind",
    "fixed",
    "adjustable",
    "name",
    "use",
    "sheet",
    "lift",
]
_TOKEN = re.compile(r"\w+|\s+|.", re.DOTALL)


def mutants(seed: int) -> Iterator[str]:
    """Job files without end, each an example with one to three changes."""
    chance = random.Random(seed)
    while True:
        text = chance.choice(EXAMPLES)
        for _ in range(chance.choice([1, 1, 2, 3])):
            change = chance.choice(_CHANGES)
            text = change(text, chance)
        yield text


def _change_value(text: str, chance: random.Random) -> str:
    """Any value, table or list of the file with another in its place, dropped, doubled or renamed."""
    try:
        values = tomllib.loads(text)
    except (ValueError, RecursionError):
        return _change_token(text, chance)
    holder, key = chance.choice(list(_places(values)))
    match chance.randrange(6):
        case 0 | 1 | 2:
            holder[key] = chance.choice(ODD_VALUES)
        case 3:
            del holder[key]
        case 4 if isinstance(holder, dict):
            holder[chance.choice(KEYS)] = holder.pop(key)
        case 4:
            holder.append(holder[key])
        case _:
            one = holder[key]
            holder[key] = one[0] if isinstance(one, list) and one else [one]
    try:
        return tomlkit.dumps(values)
    except Exception:  # what tomlkit cannot write is no text of a job file
        return text


def _places(values: Any) -> Iterator[tuple[Any, Any]]:
    for key in list(values) if isinstance(values, dict) else range(len(values)):
        yield values, key
        if isinstance(values[key], dict | list):
            yield from _places(values[key])


def _change_token(text: str, chance: random.Random) -> str:
    tokens = _TOKEN.findall(text) or [" "]
    at = chance.randrange(len(tokens))
    match chance.randrange(5):
        case 0:
            del tokens[at]
        case 1:
            tokens.insert(at, tokens[at])
        case 2:
            other = chance.randrange(len(tokens))
            tokens[at], tokens[other] = tokens[other], tokens[at]
        case 3:
            tokens[at] = chance.choice(ODD_TOKENS)
        case _:
            tokens = tokens[: max(at, 4)]
    return "".join(tokens)


def _change_heading(text: str, chance: random.Random) -> str:
    """A table for a list of them, or the other way about."""
    headings = list(re.finditer(r"(?m)^\[.*\]$", text))
    if not headings:
        return text
    found = chance.choice(headings)
    said = found[0]
    other = said[1:-1] if said.startswith("[[") else f"[{said}]"
    return text[: found.start()] + other + text[found.end() :]


def _change_number(text: str, chance: random.Random) -> str:
    numbers = list(re.finditer(r"(?<=[= ])\d+(?:\.\d+)?(?=[,\]\n ])", text))
    if not numbers:
        return text
    found = chance.choice(numbers)
    near = str(float(found[0]) * chance.choice([0.1, 0.5, 1.1, 2, 10, 25.4]))
    other = chance.choice(["0", "1", "-3", "0.01", "99999", near, near, near])
    return text[: found.start()] + other + text[found.end() :]


_CHANGES: list[Callable[[str, random.Random], str]] = [
    *(_change_number,) * 5,
    _change_value,
    _change_token,
    _change_heading,
]
