"""Problems as data: what is wrong, where, and what would mend it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Weight(Enum):
    """How much a finding stops."""

    REFUSE = "refuse"  # no parts can be made of it
    WARN = "warn"  # it can be made; the maker should look first
    NOTE = "note"


@dataclass(frozen=True)
class Finding:
    """One problem, in one sentence a maker can act on.

    `code` is stable and in kebab case, `place` the field, part or case it concerns
    (`cases.B1.shelves[0].depth`), `text` names the value, `fix` what to change.
    `line` and `column` count from 1 where a file was read.
    """

    code: str
    place: str
    text: str
    fix: str = ""
    weight: Weight = Weight.REFUSE
    line: int | None = None
    column: int | None = None

    def __str__(self) -> str:
        where = f"line {self.line}, {self.place}" if self.line else self.place
        return f"{where}: {self.text}{' ' + self.fix if self.fix else ''}"


def refusals(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Those that stop the work."""
    return tuple(finding for finding in findings if finding.weight is Weight.REFUSE)
