"""`casewright hang JOB`."""

from __future__ import annotations

import argparse
from collections.abc import Iterable

from ...app.jobs.worked_job import open_job
from ...app.views.hanging_page import Doubt, HangingSheet, RowTold, ScribeTold, hanging_of
from ..job_input import read_job_text
from ..printing import print_json, print_table


def run(arguments: argparse.Namespace) -> int:
    sheet = hanging_of(open_job(read_job_text(arguments.job)))
    if arguments.json:
        print_json(sheet.plain())
    else:
        _print(sheet)
    return 0 if sheet.settled else 1


def _print(sheet: HangingSheet) -> None:
    for caution in sheet.cautions:
        print(f"! {caution}")
    if not sheet.rows:
        print("\nNo case of this job hangs on a wall.")
    for row in sheet.rows:
        _print_row(row)
    _print_list(
        "On the floor", [f"- {one.mark}, {one.lifted}: {one.lift}. {one.words}" for one in sheet.stands]
    )
    _print_list("How it goes", [f"{number}. {step}" for number, step in enumerate(sheet.method, 1)])
    for scribe in sheet.scribes:
        _print_scribe(scribe)
    if sheet.not_read:
        print(f"\n{sheet.not_read}")
    _print_list("Assumptions", [f"- {line}" for line in sheet.assumptions])


def _print_row(row: RowTold) -> None:
    print(f"\n{row.title}\n{row.level}")
    _print_doubts(row.doubts)
    for line in (row.verdict, row.drills, row.first, *row.joins, row.shims):
        if line:
            print(line)
    print()
    print_table(
        ("case", "from its left side", "rows above the floor", "empty", "full", "lifted", "screws, shims"),
        [
            (
                case.mark,
                "  ".join(case.marks),
                "  ".join(height for screws in case.rows for height in screws.heights),
                case.empty,
                case.full,
                case.lifted,
                "; ".join((case.screws, *(f"shim {shim}" for shim in case.shims))),
            )
            for case in row.cases
        ],
    )
    for case in row.cases:
        print(f"{case.mark}: {case.lift}.")


def _print_scribe(scribe: ScribeTold) -> None:
    print(f"\n{scribe.mark}, {scribe.size}. {scribe.words} At full size: {scribe.file} of the packet.")
    _print_doubts(scribe.doubts)
    print_table(("up", "wide there", "comes off"), [(one.up, one.width, one.off) for one in scribe.offsets])


def _print_doubts(doubts: Iterable[Doubt]) -> None:
    for doubt in doubts:
        print(f"! {doubt.text} {doubt.fix}")


def _print_list(head: str, lines: list[str]) -> None:
    if lines:
        print(f"\n{head}")
    for line in lines:
        print(line)
