"""`casewright shop-figures JOB`."""

from __future__ import annotations

import argparse

from ...app.jobs.worked_job import open_job
from ...app.learning.figures_in_file import figures_of_record
from ..job_input import read_job_text
from ..printing import print_json
from ..shop_figures_printing import print_figures, write_if_asked


def run(arguments: argparse.Namespace) -> int:
    text = read_job_text(arguments.job)
    figures = figures_of_record(open_job(text), arguments.record)
    if arguments.json and not arguments.yes:
        print_json(figures.as_json())
    else:
        print_figures(figures)
        write_if_asked(figures, text, arguments)
    return 1 if figures.findings else 0
