"""Where an entry of an older text stands in a newer one: cases keep their identity while others come and go.

A form or a program names an entry by its place in the revision it has read. Other devices may have put
cases in, taken them out, moved or renamed them since. The way through the revisions between is followed
step by step, because one step seldom changes more than one entry of a list.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from operator import eq
from typing import Any

from .text_edits import AddEntry, DropEntry, Edit, MoveEntry, Path, SetEntry, look_up

NAMES = ("mark", "name")
STACKED = "fronts"
"""The list whose entries stand one on the other and have no names: what comes or goes there is on top."""


def follow_path(path: Path, texts: Sequence[Mapping[str, Any]]) -> Path | None:
    """The path that names in the last of `texts` what `path` names in the first, or None where it is gone.

    `texts` are the values of consecutive revisions. A path that leads to nothing yet is followed as far as
    it leads: an entry that is set for the first time goes to the table it was meant for.
    """
    for before, after in pairwise(texts):
        if before == after:
            continue
        next_path = _one_step(path, before, after)
        if next_path is None:
            return None
        path = next_path
    return path


def follow_edit(edit: Edit, texts: Sequence[Mapping[str, Any]]) -> Edit | None:
    """The same edit on the last of `texts`, or None where it would meet what its maker has not seen.

    That is where the entry is gone, or has another value than the one that was to be changed (unless both
    made it the same); for an entry put in, moved or taken out, also where its list is another by now.
    """
    before, after = texts[0], texts[-1]
    path = follow_path(edit.path, texts)
    if path is None:
        return None
    seen, now = look_up(before, edit.path), look_up(after, path)
    match edit:
        case SetEntry(_, value):
            return replace(edit, path=path) if now in (seen, value) else None
        case DropEntry():
            return replace(edit, path=path) if now == seen else None
        case AddEntry(_, _, index):
            return replace(edit, path=path) if index is None or _called(now) == _called(seen) else None
        case MoveEntry():
            same = _called(look_up(before, edit.path[:-1])) == _called(look_up(after, path[:-1]))
            return replace(edit, path=path) if same else None


def _one_step(path: Path, before: Mapping[str, Any], after: Mapping[str, Any]) -> Path | None:
    followed: list[str | int] = []
    for place, step in enumerate(path):
        old, new = look_up(before, path[:place]), look_up(after, tuple(followed))
        if isinstance(step, int) and isinstance(old, list) and isinstance(new, list):
            index = _matches(old, new).get(step)
            if path[place - 1] == STACKED and all(map(eq, old, new)):
                index = step if step < len(new) else None
            if index is None:
                # A place after the last entry names none, so no entry of the list can have taken it away.
                if step < len(old):
                    return None
                index = step
            followed.append(index)
        else:
            gone = isinstance(old, Mapping) and step in old and isinstance(new, Mapping) and step not in new
            if gone and place < len(path) - 1:
                return None
            followed.append(step)
    return tuple(followed)


def _matches(old: Sequence[Any], new: Sequence[Any]) -> dict[int, int]:
    """Which entry of `new` each entry of `old` has become: one of its name; failing that an equal one under
    another name; failing that the only one left at its place."""
    if old == new:
        return {index: index for index in range(len(old))}
    pairs: dict[int, int] = {}
    for key_of in (_name, _content):
        left, free = _unpaired(old, new, pairs)
        olds, news = _places(key_of, old, left), _places(key_of, new, free)
        # A key that several share pairs them in their order, but only if none has come or gone.
        for key, places in olds.items():
            if len(places) == len(news.get(key, ())):
                pairs |= zip(places, news[key], strict=True)
    left, free = _unpaired(old, new, pairs)
    if left == free and (len(left) == 1 or all(_name(old[index]) is None for index in left)):
        pairs |= zip(left, free, strict=True)
    return pairs


def _unpaired(
    old: Sequence[Any], new: Sequence[Any], pairs: Mapping[int, int]
) -> tuple[list[int], list[int]]:
    taken = set(pairs.values())
    left = [index for index in range(len(old)) if index not in pairs]
    return left, [index for index in range(len(new)) if index not in taken]


def _places(
    key_of: Callable[[Any], str | None], entries: Sequence[Any], places: Iterable[int]
) -> dict[str, list[int]]:
    """Those of the places whose entries have a key, by it."""
    found: dict[str, list[int]] = {}
    for place in places:
        if (key := key_of(entries[place])) is not None:
            found.setdefault(key, []).append(place)
    return found


def _name(entry: Any) -> str | None:
    found = (entry.get(key) for key in NAMES) if isinstance(entry, Mapping) else ()
    return next((name for name in found if isinstance(name, str) and name), None)


def _called(entries: Any) -> list[str | None]:
    return [_name(entry) for entry in entries] if isinstance(entries, list) else []


def _content(entry: Any) -> str:
    """What an entry holds beside its name."""
    plain = entry
    if isinstance(entry, Mapping):
        plain = {key: value for key, value in entry.items() if key not in NAMES}
    return json.dumps(plain, sort_keys=True, default=str)
