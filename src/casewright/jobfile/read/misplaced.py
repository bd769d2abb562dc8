"""Keys that are written in the wrong table, or by another word than the job file has for the thing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, get_args, get_origin

from pydantic import BaseModel

from ...lengths.did_you_mean import is_nearly
from ...validation import Path, bare, table_at

MOST_PLACES = 2  # a word that belongs in more tables than these, `width`, says nothing of which is meant

TYPED_ALIKE = 0.85
"""So alike, from 0 to 1, a key of the table at hand was meant: `openings` in a run."""

WRITTEN_FOR_THE_MAKER = frozenset({"as_cut"})
"""Tables that putting right writes into the file: nobody who misplaces a `width` means one of them."""

OTHER_WORDS: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys(("cabinet", "cabinets", "case", "carcases", "boxes"), ("cases",)),
    **dict.fromkeys(("shelf", "shelves"), ("fixed", "adjustable")),
    **dict.fromkeys(("bay", "divisions"), ("bays",)),
    **dict.fromkeys(("openings", "run", "rooms"), ("runs",)),
    **dict.fromkeys(("sheets", "sheet_goods", "material", "panels", "plywood", "stock"), ("materials",)),
    **dict.fromkeys(("fillers", "filler"), ("left_filler", "right_filler")),
    **dict.fromkeys(("machines", "tools", "saws"), ("shop",)),
    **dict.fromkeys(("offcuts", "pieces"), ("rack",)),
    **dict.fromkeys(("joints", "joinery"), ("construction",)),
    **dict.fromkeys(("name", "title", "project"), ("job",)),
}
"""What makers call things that the job file calls otherwise. Judgement; common practice, no source."""


def where_it_belongs(key: str, value: Any, model: type[BaseModel], here: Path) -> str:
    """A sentence that says where an unknown `key` of the table `here` belongs; empty where no one can tell.

    Where its `value` is a table, or a list of them, so is what it is taken for.
    """
    inside = tuple(str(step) for step in here if isinstance(step, str))
    homes = _homes(key, model, inside)
    several = isinstance(value, list) and any(isinstance(one, dict) for one in value)
    if isinstance(value, dict) or several:
        homes = [home for home in homes if any(home.headings(key))]
    if homes:
        return _said((key,), homes)
    table = table_at(model, here)
    if table and is_nearly(key, table.model_fields, TYPED_ALIKE):
        return ""
    names = OTHER_WORDS.get(key.lower(), ())
    return _said(names, _homes(names[0], model, inside)) if names else ""


def _said(names: Sequence[str], homes: Sequence[_Table]) -> str:
    if not homes or len(homes) > MOST_PLACES:
        return ""
    quoted = " or ".join(f"“{name}”" for name in names)
    own = [heading for home in homes for heading in home.headings(names[0])]
    if own:
        parent = homes[0].heading
        below = f", below the {parent} it stands in" if parent.startswith("[[") else ""
        return f"Write {' or '.join(own)} instead{below}."
    if not homes[0].path:
        return f"Write {quoted}, above the first heading."
    return f"Write {quoted} under {' or '.join(home.heading for home in homes)}."


def _homes(key: str, model: type[BaseModel], inside: tuple[str, ...]) -> list[_Table]:
    """The tables with that key: those within the table at hand if there are any; of them the outermost.

    None where half the file has that key, and nothing says which table was meant.
    """
    having = [
        table
        for table in _tables(model)
        if key in table.model.model_fields and not WRITTEN_FOR_THE_MAKER.intersection(table.keys)
    ]
    if not inside and len({table.model for table in having}) > MOST_PLACES:
        return []
    within = [table for table in having if table.keys[: len(inside)] == inside]
    having = within or having
    least = min((len(table.keys) for table in having), default=0)
    return [table for table in having if len(table.keys) == least]


@dataclass(frozen=True)
class _Table:
    """A table of the job file: its model, and the keys that lead to it, each with what holds the next."""

    path: tuple[tuple[str, str], ...]
    model: type[BaseModel]

    @property
    def keys(self) -> tuple[str, ...]:
        return tuple(key for key, _ in self.path)

    @property
    def heading(self) -> str:
        """`[shop]`, `[[runs]]`, `[materials.KEY]`."""
        words = ".".join(f"{key}.KEY" if held == "dict" else key for key, held in self.path)
        return f"[[{words}]]" if self.path and self.path[-1][1] == "list" else f"[{words}]"

    def headings(self, key: str) -> Iterator[str]:
        """The heading of the table under that key, if it is one."""
        return (table.heading for table in _inner(self, key))


@cache
def _tables(model: type[BaseModel]) -> tuple[_Table, ...]:
    """Every table that a job file may have, the outer ones first."""
    found = [_Table((), model)]
    for table in found:  # it grows as inner tables are found
        for key in table.model.model_fields:
            found.extend(_inner(table, key))
    return tuple(found)


def _inner(table: _Table, key: str) -> Iterator[_Table]:
    held = bare(table.model.model_fields[key].annotation)
    origin = get_origin(held)
    if origin in (list, dict):
        held = bare(get_args(held)[-1])
    if isinstance(held, type) and issubclass(held, BaseModel):
        yield _Table((*table.path, (key, origin.__name__ if origin else "")), held)
