"""`casewright shop-figures JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.learning.figures_in_file import dry_fits_of_record, figures_of_record
from ..job_input import read_job_text
from ..printing import print_json
from ..shop_figures_printing import print_figures, write_if_asked


def run(arguments: argparse.Namespace) -> int:
    text = read_job_text(arguments.job)
    figures = figures_of_record(open_job(text), arguments.record)
    fits = dry_fits_of_record(arguments.record)
    if arguments.json and not arguments.yes:
        print_json({**figures.as_json(), "dry_fits": {one.role: one.sentence for one in fits.lines}})
    else:
        print_figures(figures)
        for one in fits.lines:
            few = f"; {one.not_yet}" if one.not_yet else ""
            print(f"\nAt the dry fit, {one.role}: {one.sentence}{few}.")
        write_if_asked({**figures.edits, **fits.edits}, text, arguments)
    return 1 if figures.findings else 0
