"""Adding, moving and taking out what a job is made up of, from runs to drawers: each as edits of its text."""

from __future__ import annotations

import re
from collections.abc import Mapping
from itertools import count
from typing import Any

from ...casework.front_choices import FrontKind
from ...errors import JobError
from ...findings import Finding
from ...jobfile.read.edging_entries import BARE
from .text_edits import AddEntry, DropEntry, Edit, MoveEntry, Path, SetEntry, look_up

_TABLES = ("bays", "construction", "made_of", "edged", "fitted_with")
MAKERS_KEYS = ("mark", "kind", "width", "height", "depth", *_TABLES)

USUAL_STICKS: Mapping[str, int] = {"in": 96, "mm": 2400}
"""How long the sticks of a new edging are until the maker says, by the job's unit. Common practice, no
source."""


def case_path(values: Mapping[str, Any], mark: str) -> Path:
    """Where the case marked `mark` stands in the text; KeyError when there is none."""
    for run, table in enumerate(values.get("runs", ())):
        for index, case in enumerate(table.get("cases", ())):
            if case.get("mark") == mark:
                return ("runs", run, "cases", index)
    raise KeyError(mark)


def copy_case(values: Mapping[str, Any], mark: str) -> tuple[list[Edit], str]:
    """Another case like this one, to the right of it; also gives its mark."""
    path = case_path(values, mark)
    new_mark = next_mark(values, mark)
    copied = {key: entry for key, entry in look_up(values, path).items() if key in MAKERS_KEYS}
    return [AddEntry(path[:-1], {**copied, "mark": new_mark}, _index(path) + 1)], new_mark


def drop_case(values: Mapping[str, Any], mark: str) -> list[Edit]:
    """Take a case out, and with the last of its cases the run."""
    path = case_path(values, mark)
    if len(look_up(values, path[:-1])) == 1:
        return drop_run(values, _index(path[:2]))
    return [DropEntry(path)]


def move_case(values: Mapping[str, Any], mark: str, steps: int) -> list[Edit]:
    """Move a case along its run, to the right for positive `steps`; at the end it stays."""
    path = case_path(values, mark)
    place = min(max(_index(path) + steps, 0), len(look_up(values, path[:-1])) - 1)
    return [] if place == path[-1] else [MoveEntry(path, place)]


def add_bay(values: Mapping[str, Any], mark: str) -> list[Edit]:
    """One more bay at the right of a case; a case that names none has one already."""
    path = (*case_path(values, mark), "bays")
    first: list[Edit] = [] if look_up(values, path) else [AddEntry(path, {})]
    return [*first, AddEntry(path, {})]


def drop_bay(values: Mapping[str, Any], mark: str, index: int) -> list[Edit]:
    """Take a bay out; the last one is only emptied."""
    path = (*case_path(values, mark), "bays")
    bays = look_up(values, path) or []
    if not 0 <= index < len(bays):
        return []
    return [DropEntry((*path, index))] if len(bays) > 1 else [SetEntry(path, None)]


def add_front(values: Mapping[str, Any], mark: str, bay: int) -> list[Edit]:
    """One more front on top of those before a bay, which takes its share: a door where there is none yet,
    else a drawer. KeyError where there is no such bay."""
    bays = (*case_path(values, mark), "bays")
    if not 0 <= bay < len(look_up(values, bays) or [{}]):
        raise KeyError(bay)
    first: list[Edit] = [] if look_up(values, bays) else [AddEntry(bays, {})]
    fronts: Path = (*bays, bay, "fronts")
    kind = FrontKind.DRAWER if look_up(values, fronts) else FrontKind.DOOR
    return [*first, AddEntry(fronts, {"kind": kind.value})]


def drop_front(values: Mapping[str, Any], mark: str, bay: int) -> list[Edit]:
    """Take the top front of a bay out, if it has one."""
    path: Path = (*case_path(values, mark), "bays", bay, "fronts")
    fronts = look_up(values, path) or []
    if not fronts:
        return []
    return [DropEntry((*path, len(fronts) - 1))] if len(fronts) > 1 else [SetEntry(path, None)]


def add_run(values: Mapping[str, Any], name: str, opening: Any) -> list[Edit]:
    """A run of one base case that takes the whole opening, along a wall of its own until the maker says
    where it stands: at the beginning of another run's wall it would stand in that run."""
    case = {"mark": next_mark(values, "B1"), "kind": "base"}
    return [AddEntry(("runs",), {"name": name, "wall": name, "opening": opening, "cases": [case]})]


def drop_run(values: Mapping[str, Any], index: int) -> list[Edit]:
    """Take a run out with its cases. Raises JobError for the only one, KeyError for one that is not."""
    if not 0 <= index < len(values.get("runs", ())):
        raise KeyError(index)
    if len(values.get("runs", ())) < 2:
        raise JobError(
            (
                Finding(
                    "last-run",
                    "runs",
                    "a job needs at least one run, and this is its only one.",
                    "Add another run first, or remove the whole job from the list.",
                ),
            )
        )
    return [DropEntry(("runs", index))]


def add_material(values: Mapping[str, Any], sheet: str) -> tuple[list[Edit], str]:
    """Another material from the shop's list, under a key made from its name; also gives the key."""
    key = _free(_stem(sheet, "sheet"), (*values.get("materials", ()), *values.get("edging", ())))
    return [SetEntry(("materials", key, "sheet"), sheet)], key


def drop_material(key: str) -> list[Edit]:
    """Take a material out; reading the text says where it is still used."""
    return [DropEntry(("materials", key))]


def add_edging(values: Mapping[str, Any], name: str, thickness: Any) -> tuple[list[Edit], str]:
    """Another edging, in sticks of the usual length, under a key made from its name; also gives the key."""
    key = _free(_stem(name, "edging"), (*values.get("materials", ()), *values.get("edging", ()), BARE))
    table = {"name": name, "thickness": thickness, "stick": USUAL_STICKS.get(str(values.get("unit")), 96)}
    return [SetEntry(("edging", key, entry), value) for entry, value in table.items()], key


def drop_edging(key: str) -> list[Edit]:
    """Take an edging out; reading the text says where it is still used."""
    return [SetEntry(("edging", key), None)]


def add_fitting(values: Mapping[str, Any], table: str, like: str) -> tuple[list[Edit], str]:
    """Other `hinges` or `slides` from the shop's list, under a key made from their name; also gives the key.

    What the job's only ones were used for, they are used for still: it is then written down, where until
    now it went without saying.
    """
    known = values.get(table, {})
    key = _free(_stem(like, table), known)
    edits: list[Edit] = [SetEntry((table, key, "like"), like)]
    fitted: Path = ("fitted_with", table.removesuffix("s"))
    if len(known) == 1 and look_up(values, fitted) is None:
        edits.append(SetEntry(fitted, next(iter(known))))
    return edits, key


def drop_fitting(table: str, key: str) -> list[Edit]:
    """Take hinges or slides out; reading the text says where they are still used."""
    return [SetEntry((table, key), None)]


def next_mark(values: Mapping[str, Any], mark: str) -> str:
    """A mark of the same letters that no case has yet: the number after the highest."""
    letters = re.match(r"[A-Za-z]+", mark)
    stem = letters[0] if letters else "C"
    taken = [str(case.get("mark", "")) for run in values.get("runs", ()) for case in run.get("cases", ())]
    numbers = [int(found[1]) for one in taken if (found := re.fullmatch(rf"{stem}(\d+)", one))]
    return f"{stem}{max(numbers, default=0) + 1}"


def _stem(name: str, otherwise: str) -> str:
    """A name as the beginning of a key."""
    stem = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:24] or otherwise
    return stem if stem[0].isalpha() else f"m-{stem}"


def _free(stem: str, taken: Any) -> str:
    names = (stem if number == 1 else f"{stem}-{number}" for number in count(1))
    return next(name for name in names if name not in taken)


def _index(path: Path) -> int:
    index = path[-1]
    assert isinstance(index, int)
    return index
