"""What is printed as a sum adds up: in every example the printed terms come to the printed total."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from functools import cache
from typing import Any

import pytest

from casewright.app.jobs.worked_job import open_job
from casewright.app.views.job_views import JobView, Row
from casewright.casework.parts.part import Role
from casewright.casework.printed_sums import rounding_in
from casewright.casework.project import Project, draw_up
from casewright.lengths.length import Mark, parse_length
from casewright.packet.pages.fitting_pages import MINUS, back_page
from casewright.sizes.ledger import explain
from example_files import EXAMPLES

NAMES = tuple(sorted(path.stem for path in EXAMPLES.glob("*.toml")))


@cache
def drawn(name: str) -> Project:
    return open_job((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")).needed()


def read(project: Project, text: str) -> F:
    plain = text.removeprefix("~").replace("\u00a0", " ").replace("\u2009", " ")
    return parse_length(plain, project.rule.unit)


def added(project: Project, rows: tuple[Row, ...]) -> F:
    """What the printed rows of a sum come to, by a reader who has only the print."""
    total = F(0)
    for row in rows:
        times = F(row.times.split()[0]) if row.times else F(1)
        total += times * read(project, row.size.text) * (1 if row.sign == "+" else -1)
    return total


@pytest.mark.parametrize("name", NAMES)
def test_every_sum_that_is_shown_adds_up_as_printed(name: str) -> None:
    project = drawn(name)
    view, sums, rounded = JobView(project), 0, 0
    for size in project.sizes.ledger:
        told = view.explained(size)
        if told.how == "sum" or told.share:
            total = told.shared if told.share else told.size.text
            assert added(project, told.rows) == read(project, total), (size, told.sentence)
            sums += 1
        found = rounding_in(project, explain(project.sizes, size), project.sizes.values[size])
        if told.how == "sum" and found:
            assert f"{'+' if found.amount > 0 else '-'} {found.words} " in f"+ {told.sentence}"
            rounded += 1
    assert sums > 400 and rounded > 20


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("mark", [Mark.SIXTEENTH, Mark.THIRTY_SECOND, Mark.HALF_MILLIMETRE])
def test_the_sum_of_each_back_adds_up_as_printed(name: str, mark: Mark) -> None:
    """On the marks of other rules too, where more is rounded."""
    project = draw_up(replace(drawn(name).job, mark=mark))
    rows: Any = back_page(project, project.cases, {})
    assert len(rows) == sum(part.role is Role.BACK for part in project) > 5
    seen = 0
    for row in rows:
        if depths := row["depths"]:
            terms = [read(project, one) for one in (row["room"], *depths)]
            total = sum(terms, -read(project, row["play"]))
            if rounding := row["rounded"]:
                sign, amount = rounding.split(" ", 1)
                total += read(project, amount) * (-1 if sign == MINUS else 1)
            assert total == read(project, row["width"]), row
            seen += 1
    assert seen
