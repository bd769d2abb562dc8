"""`casewright new FILE`."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ...app.choices import KINDS
from ...app.new_job.new_job_file import Wish, new_job
from ...app.papers.write_whole import write_whole
from ...errors import CasewrightError
from ...lengths.length import Unit
from ..printing import print_json


def run(arguments: argparse.Namespace) -> int:
    unit = Unit(
        arguments.unit or _ask("Inches or millimetres? Write in or mm", "in", [u.value for u in Unit])
    )
    opening = arguments.opening or _ask("How wide is the opening?", None, None)
    kind = arguments.kind or _ask(f"Which kind of cases? {', '.join(KINDS)}", "base", list(KINDS))
    name = arguments.name or Path(arguments.file).stem.replace("-", " ") or "New job"
    begun = new_job(Wish(name, unit, opening, kind, arguments.cases))
    write_whole(arguments.file, begun.text.encode(), over=arguments.force)
    if arguments.json:
        print_json({"file": arguments.file, "findings": [one.plain for one in begun.worked.all_findings]})
        return 0
    for finding in begun.worked.all_findings:
        print(finding)
    print(f"{arguments.file} is written. Edit it, then run: casewright check {arguments.file}")
    return 0


def _ask(question: str, usual: str | None, allowed: list[str] | None) -> str:
    """An answer from the terminal; what is usual where nobody can be asked."""
    if not sys.stdin.isatty():
        if usual is None:
            raise CasewrightError(f'{question} Enter it with --opening, as in --opening "10\' 4 1/2".')
        return usual
    while True:
        try:
            said = input(f"{question}{f' [{usual}]' if usual else ''}: ").strip() or (usual or "")
        except EOFError:
            raise CasewrightError("No answer was entered; nothing was written.") from None
        if said and (allowed is None or said in allowed):
            return said
