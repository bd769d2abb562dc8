"""One row for each way a finding comes about: an input that provokes it, and a near miss that does not.

Each layer keeps its rows with its tests, in `tests/LAYER/test_findings_of_LAYER.py`;
`tests/test_every_finding.py` holds every code in the source against them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass

import pytest

from casewright.errors import JobError, PlanError, RecordError
from casewright.findings import Finding, Weight

Provoke = Callable[[], Iterable[Finding]]


@dataclass(frozen=True)
class Row:
    """A finding to be provoked: its code, its place, what its text names and what its fix speaks of.

    `near` is as close to `wrong` as an input comes that is sound in this respect. An empty `fix`
    asks that there is none: some findings are read by programs only.
    """

    code: str
    place: str
    names: str
    fix: str
    wrong: Provoke
    near: Provoke
    weight: Weight = Weight.REFUSE

    @property
    def id(self) -> str:
        return f"{self.code} {self.place}"


def each(rows: Iterable[Row]) -> pytest.MarkDecorator:
    """Run a test once for every row."""
    listed = list(rows)
    return pytest.mark.parametrize("row", listed, ids=[row.id for row in listed])


def check(row: Row) -> None:
    """The finding comes once, says what it should, and does not come for the near miss."""
    came = list(row.wrong())
    found = [one for one in _of(row, came) if row.names in plain(one.text)]
    assert row.names and len(found) == 1, f"{len(found)} findings {row.code} at {row.place}: {came}"
    text, fix = plain(found[0].text), plain(found[0].fix)
    assert found[0].weight is row.weight, found[0]
    assert row.fix in fix and bool(fix) is bool(row.fix), f"{fix!r} does not say {row.fix!r}"
    assert text.endswith((".", "?")), f"{text!r} is no sentence"
    assert not _of(row, row.near()), "the near miss has it too"


def plain(text: str) -> str:
    """A text with the spaces that keep a length on one line made plain."""
    return re.sub(r"\s", " ", text)


def told(work: Callable[[], object]) -> tuple[Finding, ...]:
    """What refuses the work; nothing where it is done."""
    try:
        work()
    except (JobError, PlanError, RecordError) as fault:
        return fault.findings
    return ()


def _of(row: Row, findings: Iterable[Finding]) -> list[Finding]:
    unique = dict.fromkeys(findings)
    return [one for one in unique if (one.code, one.place) == (row.code, row.place)]
