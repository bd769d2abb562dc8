"""Where an entry of an older text stands in a newer one: cases keep their identity while others come and go.

A form or a program names an entry by its place in the revision it has read. Other devices may have put
cases in, taken them out, moved or renamed them since. The way through the revisions between is followed
step by step, because one step seldom changes more than one entry of a list.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

from .text_edits import AddEntry, DropEntry, Edit, MoveEntry, Path, SetEntry, look_up

NAMES = ("mark", "name")


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
    pairs: dict[int, int] = {}
    for same in (_name, _unnamed):
        left = [index for index in range(len(old)) if index not in pairs]
        free = [index for index in range(len(new)) if index not in pairs.values()]
        pairs |= _pairs_by(same, [(index, old[index]) for index in left], [(i, new[i]) for i in free])
    left = [index for index in range(len(old)) if index not in pairs]
    free = [index for index in range(len(new)) if index not in pairs.values()]
    if left == free and (len(left) == 1 or all(_name(old[index]) is None for index in left)):
        pairs |= dict(zip(left, free, strict=True))
    return pairs


def _pairs_by(same: Any, old: list[tuple[int, Any]], new: list[tuple[int, Any]]) -> Iterator[tuple[int, int]]:
    """Entries of one key on either side, in their order where several share it; a name only if unique."""
    for index, entry in old:
        key = same(entry)
        if key is None:
            continue
        olds = [i for i, other in old if same(other) == key]
        news = [i for i, other in new if same(other) == key]
        if len(olds) == len(news):
            yield index, news[olds.index(index)]


def _name(entry: Any) -> str | None:
    found = (entry.get(key) for key in NAMES) if isinstance(entry, Mapping) else ()
    return next((name for name in found if isinstance(name, str) and name), None)


def _called(entries: Any) -> list[str | None]:
    return [_name(entry) for entry in entries] if isinstance(entries, list) else []


def _unnamed(entry: Any) -> Any:
    if isinstance(entry, Mapping):
        return {key: value for key, value in entry.items() if key not in NAMES}
    return [entry]
