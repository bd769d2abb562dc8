"""Problems as data: what is wrong, where, and what would mend it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import Enum
from typing import Any


class Weight(Enum):
    """How much a finding stops."""

    REFUSE = "refuse"  # no parts can be made of it
    WARN = "warn"  # it can be made; the maker should look first
    NOTE = "note"


@dataclass(frozen=True)
class AtField:
    """How a problem is said beside the field of a form, where a job file is spoken of in other words.

    Empty where the file's own words serve. `{label}` stands for what the field is called, `{typed}` for what
    was typed into it, in quotes.
    """

    text: str = ""
    fix: str = ""


AS_IN_FILE = AtField()


@dataclass(frozen=True)
class Finding:
    """One problem, in one sentence a maker can act on.

    `code` is stable and in kebab case, `place` the field, part or case it concerns
    (`cases.B1.shelves[0].depth`), `text` names the value, `fix` what to change.
    `line` and `column` count from 1 where a file was read. `at_field` is the second way of saying it, for
    one who fills in a form and sees no file.
    """

    code: str
    place: str
    text: str
    fix: str = ""
    weight: Weight = Weight.REFUSE
    line: int | None = None
    column: int | None = None
    at_field: AtField = AS_IN_FILE

    def __str__(self) -> str:
        where = f"line {self.line}, {self.place}" if self.line else self.place
        return f"{where}: {self.text}{' ' + self.fix if self.fix else ''}"

    @property
    def plain(self) -> dict[str, Any]:
        """The finding as plain values for JSON, in the words for the file."""
        return {
            "code": self.code,
            "place": self.place,
            "text": self.text,
            "fix": self.fix,
            "weight": self.weight.value,
            "line": self.line,
            "column": self.column,
        }

    def beside_field(self, label: str, typed: str) -> str:
        """The sentence that stands beside a field called `label`; `typed` is what was typed, in quotes."""
        text, fix = (
            words.replace("{label}", label).replace("{typed}", typed)
            for words in (self.at_field.text or self.text, self.at_field.fix or self.fix)
        )
        return f"{text[:1].upper()}{text[1:]} {fix}".strip()


def refusals(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Those that stop the work."""
    return tuple(finding for finding in findings if finding.weight is Weight.REFUSE)


def unrepeated(findings: Iterable[Finding]) -> Iterator[Finding]:
    """Each finding the first time it is met; a later one may lack its line."""
    seen: set[tuple[str, str, str]] = set()
    for finding in findings:
        key = (finding.code, finding.place, finding.text)
        if key not in seen:
            seen.add(key)
            yield finding
