"""`casewright costs JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import PlannedJob, open_job
from ...app.money.compared_jobs import (
    MOST_AGAINST,
    ComparedJob,
    compared,
    comparison_json,
    comparison_rows,
    planned_like,
)
from ...app.money.costs_json import costs_json
from ...app.money.quote_file import write_quote
from ...app.money.told_costs import told_costs
from ...errors import CasewrightError
from ..job_input import read_job_text
from ..planned_job import planned_job
from ..printing import print_json, print_table, reporter


def run(arguments: argparse.Namespace) -> int:
    if len(arguments.against) > MOST_AGAINST:
        raise CasewrightError(
            f"--against names {len(arguments.against)} jobs; compare with at most {MOST_AGAINST} at a time."
        )
    if arguments.against and arguments.quote:
        raise CasewrightError(
            "--quote writes the quote of one job, --against compares several; give one of them at a time."
        )
    planned = planned_job(open_job(read_job_text(arguments.job)), arguments)
    if arguments.against:
        return _against(planned, arguments)
    if arguments.quote:
        write_quote(planned, arguments.quote, over=arguments.force)
    if arguments.json:
        print_json(costs_json(planned))
    else:
        _tell(planned)
    return 0 if planned.costs.is_complete else 1


def _tell(planned: PlannedJob) -> None:
    told = told_costs(planned)
    rows: list[tuple[str, ...]] = []
    for group in told.groups:
        rows.append((group.title, "", group.total, ""))
        rows += [(f"  {line.what}", line.amount, line.money, line.follows) for line in group.lines]
    print_table(("", "how much", "money", "what it follows from"), rows)
    print()
    print_table(("", "money", ""), [(words, money, "") for words, money in told.sums])
    for note in ("", *told.notes):
        print(note)


def _against(planned: PlannedJob, arguments: argparse.Namespace) -> int:
    report = reporter(arguments)
    others = []
    for name in arguments.against:
        worked = open_job(read_job_text(name))
        others.append((name, planned_like(planned, worked, report, seconds=arguments.seconds)))
    jobs = compared(planned, others)
    if arguments.json:
        print_json(comparison_json(jobs))
    else:
        _compare(jobs)
    return 0 if all(one.planned.costs.is_complete for one in jobs) else 1


def _compare(jobs: tuple[ComparedJob, ...]) -> None:
    rows = [(name, *figures, "") for name, figures in comparison_rows(jobs)]
    print_table(("", *(one.name for one in jobs), ""), rows)
    for one in jobs[1:]:
        print(f"\n{one.name}:")
        for line in one.otherwise or ("nothing else is otherwise",):
            print(f"  {line}")
