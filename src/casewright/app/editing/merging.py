"""What a form sends back, joined with what others have changed since it was opened.

The form holds every field, and most of them nobody touched. So each field is compared with what it held
when the page was made: only what the maker changed is his, and an entry that he and another device both
changed is asked about. Nothing that was typed and nothing that was saved is replaced unseen.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from .form_fields import Field, FieldKind, parse_typed

NO_VALUE = "the default"


@dataclass(frozen=True)
class SentField:
    """A field as the browser sent it. `seen` is what it held when the page was made.

    `settled` is the other device's value that the maker has read before he said that his shall stand, None
    while he was not asked; `yields` says that he takes the other's.
    """

    typed: str
    seen: str
    settled: str | None = None
    yields: bool = False


def joined(now: Iterable[Field], sent: Mapping[str, SentField]) -> tuple[Field, ...]:
    """The fields `now` of the newest revision, with what the maker changed put in.

    `sent` is by the fields' names. Where another device changed the same entry to something else, the field
    keeps what the maker typed and says so in `theirs`.
    """
    return tuple(_joined(field, sent[field.name]) if field.name in sent else field for field in now)


def _joined(field: Field, sent: SentField) -> Field:
    typed = sent.typed.replace("\r\n", "\n")
    if sent.yields or _same(typed, sent.seen, field.kind):
        return field
    settled = sent.settled is not None and _same(sent.settled, field.typed, field.kind)
    if settled or _same(field.typed, sent.seen, field.kind) or _same(field.typed, typed, field.kind):
        return replace(field, typed=typed)
    words = (
        f"Another device changed this from {sent.seen or NO_VALUE} to {field.typed or NO_VALUE} since this "
        f"page was opened; here it says {typed.strip() or NO_VALUE}. Choose which stands."
    )
    return replace(field, typed=typed, theirs=field.typed, faults=(*field.faults, words))


def _same(one: str, other: str, kind: FieldKind) -> bool:
    """Whether two texts of a field stand for one value: `2 share` and `2 shares`, `10;12` and `10; 12`."""
    values = [parse_typed(text.replace("\r\n", "\n"), kind) for text in (one, other)]
    return bool(values[0] == values[1])
