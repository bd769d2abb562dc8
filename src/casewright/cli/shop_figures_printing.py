"""The shop's figures as two commands print and write them."""

from __future__ import annotations

import argparse
from collections.abc import Mapping

from ..app.editing.text_edits import SetEntry
from ..app.learning.figures_in_file import write_figures
from ..app.learning.shop_figures import ShopFigures
from ..errors import CasewrightError
from .printing import print_table


def print_figures(figures: ShopFigures) -> None:
    """Each figure before and after, what the scales are off by, and what was left out."""
    if figures.lines:
        rows = [
            (line.words, line.before, line.after, f"{line.on}{f'; {line.use}' if line.use else ''}")
            for line in figures.lines
        ]
        print_table(("standard deviation of", "now", "from your readings", "on"), rows)
    else:
        print("No caliper readings of cut parts yet: casewright shop-test shows how to take some.")
    for sentence in (figures.start, *figures.scales):
        if sentence:
            print(f"\n{sentence}")
    if figures.unused:
        print(f"\n{figures.unused} of {figures.readings} readings teach nothing: slips, or not by caliper.")
    for finding in figures.findings:
        print(finding)


def write_if_asked(edits: Mapping[str, SetEntry], text: str, arguments: argparse.Namespace) -> None:
    """Write the figures into the job file after `--yes`; else say what was not done."""
    if not edits:
        return
    names = ", ".join(edits)
    if not arguments.yes:
        print(f"\nNothing was changed. To write {names} into {arguments.job}, add --yes.")
        return
    if arguments.job == "-":
        raise CasewrightError("a job from standard input cannot be written; use the name of a job file.")
    write_figures(arguments.job, text, edits.values())
    print(f"\nWritten into {arguments.job}: {names}.")
