"""`casewright shelves JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.views.shelves_page import ShelfSheet, shelves_of
from ..job_input import read_job_text
from ..printing import print_json, print_table


def run(arguments: argparse.Namespace) -> int:
    sheet = shelves_of(open_job(read_job_text(arguments.job)))
    if arguments.json:
        print_json(sheet.plain())
    else:
        _print(sheet)
    return 0 if sheet.settled else 1


def _print(sheet: ShelfSheet) -> None:
    if not sheet.shelves:
        print("No shelf of this job can be judged." if sheet.doubts else "This job has no shelves.")
    else:
        _print_shelves(sheet)
    for doubt in sheet.doubts:
        print(f"! {doubt.text} {doubt.fix}")
    if sheet.assumptions:
        print("\nAssumptions")
    for line in sheet.assumptions:
        print(f"- {line}")


def _print_shelves(sheet: ShelfSheet) -> None:
    for figure, shelves in sheet.by_figure:
        print(f"Held against {figure}, under the assumptions below:")
        print_table(
            ("verdict", "span", "at once", "after years", "allowed", "load", "made of", "shelves"),
            [
                (
                    one.verdict,
                    one.span,
                    one.at_once,
                    one.after_years,
                    one.allowed,
                    one.load,
                    one.section,
                    f"{one.what}: {', '.join(one.marks)}",
                )
                for one in shelves
            ],
        )
        print()
    for one in sheet.shelves:
        if one.fix:
            print(f"! {', '.join(one.marks)}: {one.fix}")
