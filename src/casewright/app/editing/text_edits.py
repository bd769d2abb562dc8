"""Changing a job's text in place: the maker's comments, order and way of writing lengths stay.

A change is data: a list of edits, each naming a path through the text's tables. Nothing here
knows what the entries mean; reading the changed text says whether it is still a job.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Iterable, Mapping
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from ...errors import JobError, library_call
from ...findings import Finding
from ...jobfile.read.key_places import has_comments
from ...jobfile.read.toml_text import values_of
from ...jobfile.shape import in_shape
from ...jobfile.write.literals import inline_table

Path = tuple[str | int, ...]

INDEX = re.compile(r"[0-9]{1,5}")


@dataclass(frozen=True)
class SetEntry:
    """Set the entry at `path`, making the tables on the way; None takes the entry out."""

    path: Path
    value: Any


@dataclass(frozen=True)
class AddEntry:
    """Put a new entry into the list at `path`, before the one at `index` or at the end."""

    path: Path
    value: Mapping[str, Any]
    index: int | None = None


@dataclass(frozen=True)
class DropEntry:
    """Take the entry at `path` out of its list or table."""

    path: Path


@dataclass(frozen=True)
class MoveEntry:
    """Move the list entry at `path` to the place `index` of the same list."""

    path: Path
    index: int


Edit = SetEntry | AddEntry | DropEntry | MoveEntry


def apply_edits(text: str, edits: Iterable[Edit]) -> str:
    """The text after `edits`, in order.

    Raises JobError when the text is no TOML, or is written in a way that cannot be changed without losing
    its comments; KeyError with the path where that leads nowhere.
    """
    plain = deepcopy(dict(values_of(text)))
    for edit in edits:
        try:
            _apply(plain, edit)
        except (LookupError, TypeError, AttributeError):
            raise KeyError(".".join(str(step) for step in edit.path)) from None
        # What an edit means is settled on plain values. Where keeping the style would say anything else,
        # the text is written anew, unless that would take comments away.
        styled = _styled(text, edit, plain)
        if styled is None and has_comments(text):
            raise JobError((_cannot_keep_comments(edit.path),))
        text = styled or _anew(plain)
    return text


def _cannot_keep_comments(path: Path) -> Finding:
    return Finding(
        "comments-in-the-way",
        ".".join(str(step) for step in path),
        "the job file is written in a way that this entry cannot be changed in without losing comments.",
        "Change the entry in the text, or give its table a [heading] of its own there and try again.",
    )


def shaped_values_of(text: str) -> Mapping[str, Any]:
    """What a text says, without what has the wrong shape; nothing for a text that is no TOML.

    Pages walk these: a number where cases belong is a finding, and no reason for a page to break.
    """
    try:
        return in_shape(values_of(text))
    except JobError:
        return {}


def as_path(dotted: str) -> Path:
    """A path as forms and programs write it: `runs.0.cases.2.width`."""
    return tuple(int(step) if INDEX.fullmatch(step) else step for step in dotted.split("."))


def look_up(values: Any, path: Path) -> Any:
    """The value at `path`, or None where nothing is written."""
    for step in path:
        if isinstance(values, Mapping):
            values = values.get(step)
        elif isinstance(values, list) and isinstance(step, int) and 0 <= step < len(values):
            values = values[step]
        else:
            return None
    return values


def _styled(text: str, edit: Edit, meant: Mapping[str, Any]) -> str | None:
    """The edited text in the maker's own style, or None when that would not say what is `meant`.

    Tables that are missing get a heading; within one written with dotted keys that is no TOML, so there
    they are written in braces.
    """
    if isinstance(edit, SetEntry) and isinstance(edit.value, dict):
        edit = SetEntry(edit.path, inline_table(edit.value))
    for new_table in (dict, tomlkit.inline_table):
        try:
            document = tomlkit.parse(text)
            _apply(document, edit, new_table)
            said = tomlkit.dumps(document)
            if tomllib.loads(said) == meant:
                return said
        except (TOMLKitError, ValueError, TypeError, AttributeError, LookupError):
            continue
    return None


def _anew(values: Mapping[str, Any]) -> str:
    with library_call("tomlkit", "writing the job's text"):
        return tomlkit.dumps(values)


def _apply(document: Any, edit: Edit, new_table: Callable[[], Any] = dict) -> None:
    """Make an edit, on plain values or on tomlkit's document of them."""
    match edit:
        case SetEntry(path, None):
            _take_out(document, path)
        case SetEntry(path, value):
            _make_tables(document, path[:-1], new_table)[path[-1]] = value
        case AddEntry(path, value, index):
            entries = _make_tables(document, path[:-1], new_table).setdefault(path[-1], [])
            entries.insert(len(entries) if index is None else index, deepcopy(value))
        case DropEntry(path):
            del _there(document, path[:-1])[path[-1]]
        case MoveEntry(path, index):
            entries = _there(document, path[:-1])
            moved = entries[path[-1]]
            del entries[path[-1]]
            entries.insert(index, moved)


def _there(document: Any, path: Path) -> Any:
    here = document
    for step in path:
        here = here[step]
    return here


def _take_out(document: Any, path: Path) -> None:
    """Remove an entry, and with the last of its entries every table that only led to it."""
    try:
        table = _there(document, path[:-1])
        del table[path[-1]]
    except (KeyError, IndexError):
        return
    if not table and len(path) > 1 and isinstance(path[-2], str):
        _take_out(document, path[:-1])


def _make_tables(document: Any, path: Path, new_table: Callable[[], Any]) -> Any:
    here = document
    for step in path:
        if isinstance(step, str) and step not in here:
            here[step] = new_table()
        here = here[step]
    return here
