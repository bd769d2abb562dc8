"""What refuses a form, said beside the field it is about, in the words of one who sees no file."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from ...findings import Finding
from ...jobfile.read.schema_faults import place_of
from ...lengths.fractions_text import quoted
from .form_fields import Field, field_label, longer_keys

WORDS = re.compile(r"“[^”]*”|[a-z]+(?:_[a-z]+)+")
"""What the maker typed, which stays as it is, and what may be the key of an entry."""

OWNER = re.compile(r"\bcases\.|\bruns\.|\[(?P<number>[0-9]+)\]|\.")


def with_faults(
    fields: Iterable[Field],
    values: Mapping[str, Any],
    findings: Iterable[Finding],
    changed: Sequence[int] = (),
) -> tuple[tuple[Field, ...], tuple[Finding, ...]]:
    """Each finding beside the field it names, and those that name none of them, their places in words.

    `values` are the edited job's: they give a path its name. A finding about a whole case names
    its field by the last word of its place, as in `cases.B1.toe_height`. One that names no field of the form
    stands at the only one of `changed`, the places of the fields typed in: the job could be built without it.
    """
    shown = list(fields)
    left = []
    for finding in findings:
        index = _field_of(finding.place, shown, values)
        if index is None and len(changed) == 1:
            index = changed[0]
        if index is None:
            left.append(_in_words(finding))
            continue
        field = shown[index]
        words = _with_labels(finding.beside_field(field.label, quoted(field.typed.strip())))
        shown[index] = replace(field, faults=(*field.faults, words))
    return tuple(shown), tuple(left)


def _field_of(place: str, fields: list[Field], values: Mapping[str, Any]) -> int | None:
    places = [place_of(field.path, values) for field in fields]
    for index, own in enumerate(places):
        if place == own or place.startswith((f"{own}[", f"{own}.")):
            return index
    owner, _, last = place.rpartition(".")
    for index, (own, field) in enumerate(zip(places, fields, strict=True)):
        if owner and field.path[-1] == last and own.startswith(f"{owner}."):
            return index
    return None


def _with_labels(words: str) -> str:
    """The sentence with the keys of entries as the forms name them: `pin_pitch` is “pin pitch” there."""
    keys = longer_keys()
    return WORDS.sub(lambda found: field_label(found[0]) if found[0] in keys else found[0], words)


def _in_words(finding: Finding) -> Finding:
    """A finding of no field, for the head of the form: where it is in words, and no line of the file."""
    _, _, key = finding.place.rpartition(".")
    where = OWNER.sub(_word_for, finding.place).strip(", ")
    said = _with_labels(finding.beside_field(field_label(key), quoted("")))
    return replace(finding, place=_with_labels(where), text=said, fix="", line=None, column=None)


def _word_for(found: re.Match[str]) -> str:
    """For a part of a place: nothing for the list it stands in, a number counted from 1, or a comma."""
    if found["number"] is not None:
        return f" {int(found['number']) + 1}"
    return ", " if found[0] == "." else ""
