"""What a new job can start from: the finished examples, or one run in a measured opening."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import tomlkit

from ..errors import StoreError
from ..measure.lengths import Unit
from .document import values_of
from .form import Kind, as_said

# Sheets of the shop's list that a new job starts with: for cases, and for backs.
SHEETS = {
    Unit.INCH: ("hardwood ply 3/4", "hardwood ply 1/4"),
    Unit.MM: ("birch ply 18", "birch ply 6.5"),
}

FOLDER = Path(__file__).parents[3] / "examples"


@dataclass(frozen=True)
class Example:
    """A finished job to look at and to change."""

    key: str
    name: str
    text: str


def examples() -> tuple[Example, ...]:
    """The examples that came with the program; none where it was installed without them."""
    texts = {path.stem: path.read_text(encoding="utf-8") for path in sorted(FOLDER.glob("*.toml"))}
    return tuple(Example(key, str(values_of(text).get("job", key)), text) for key, text in texts.items())


def example(key: str) -> str:
    """An example's text; StoreError when there is none by that key."""
    for one in examples():
        if one.key == key:
            return one.text
    raise StoreError(f"There is no example {key!r}; the list of jobs shows those there are.")


def blank(name: str, unit: str, opening: str) -> str:
    """The text of a job with one run of one base case, which takes the whole opening.

    Whatever was typed goes into the text as it stands; reading it says what is wrong with it.
    """
    case, back = SHEETS[Unit.MM if unit == Unit.MM.value else Unit.INCH]
    document = tomlkit.document()
    document.add("job", name.strip() or "New job")
    document.add("unit", unit)
    document.add("materials", {"case": {"sheet": case}, "back": {"sheet": back}})
    document.add("made_of", {"case": "case", "back": "back"})
    first = {"mark": "B1", "kind": "base", "bays": [{"adjustable": 1}]}
    wide = as_said(opening, Kind.LENGTH)
    document.add("runs", [{"name": "first run", "opening": "" if wide is None else wide, "cases": [first]}])
    return tomlkit.dumps(document)
