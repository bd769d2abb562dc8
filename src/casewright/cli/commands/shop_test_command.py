"""`casewright shop-test JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.learning.figures_in_file import lines_of, results_of_lines, sheet_for
from ...app.learning.shop_test_sheet import TrialResults, TrialSheet
from ..job_input import read_job_text
from ..printing import print_json
from ..shop_figures_printing import print_figures, write_if_asked


def run(arguments: argparse.Namespace) -> int:
    text = read_job_text(arguments.job)
    worked = open_job(text)
    lines = [*arguments.read, *(lines_of(arguments.readings) if arguments.readings else ())]
    if not lines:
        _show(sheet_for(worked), arguments)
        return 0
    results = results_of_lines(worked, lines)
    if arguments.json and not arguments.yes:
        print_json({**results.figures.as_json(), "sled": results.sled, "thickness": results.thickness})
    else:
        _tell(results)
        write_if_asked(results.figures.edits, text, arguments)
    return 1 if results.figures.findings else 0


def _show(sheet: TrialSheet, arguments: argparse.Namespace) -> None:
    if arguments.json:
        print_json([cut.as_json() for cut in sheet.cuts])
        return
    print(f"The shop's test, about {sheet.minutes} minutes. Read by caliper; leave empty what you skip.")
    for number, cut in enumerate(sheet.cuts, 1):
        print(f"\n{number}. {cut.title} ({cut.minutes} min)")
        for step in cut.steps:
            print(f"   {step}")
        if cut.caution:
            print(f"   ! {cut.caution}")
        for blank in cut.blanks:
            print(f"   {blank.name} = ________  {blank.words}")


def _tell(results: TrialResults) -> None:
    print_figures(results.figures)
    for sentence in (results.sled, results.thickness):
        if sentence:
            print(f"\n{sentence}")
