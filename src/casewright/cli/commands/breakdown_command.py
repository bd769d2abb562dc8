"""`casewright breakdown PROBLEM.json --seconds N --json`."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

from ...app.sheets.any_problem import break_down
from ...errors import PlanError
from ...findings import Finding
from ..number_arguments import count, seconds, seed
from ..printing import add_progress, reporter

EXAMPLE = """\
for example:
  casewright breakdown problem.json --seconds 10 --json > plan.json
"""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("problem", help="the problem, a JSON file; - reads it from standard input")
    parser.add_argument("--seconds", type=seconds, default=2.0, metavar="N", help="how long to search (2)")
    parser.add_argument("--json", action="store_true", help="print the answer as JSON")
    parser.add_argument(
        "--seed",
        type=seed,
        default=0,
        metavar="N",
        help="seed of the search: a different number may find a different plan (0)",
    )
    parser.add_argument("--cores", type=count, default=1, metavar="N", help="processor cores to use (1)")
    add_progress(parser)


def run(arguments: argparse.Namespace) -> int:
    result = break_down(
        _read(arguments.problem),
        arguments.seconds,
        arguments.seed,
        arguments.cores,
        reporter(arguments),
    )
    print(json.dumps(result.answer, ensure_ascii=False) if arguments.json else result.words)
    return 0 if result.complete else 1


def _read(name: str) -> str:
    try:
        return sys.stdin.read() if name == "-" else Path(name).read_text(encoding="utf-8")
    except OSError as fault:
        raise PlanError((Finding("file", name, f"It cannot be read: {fault.strerror}."),)) from None
    except UnicodeDecodeError:
        raise PlanError((Finding("file", name, "The file is not UTF-8 text."),)) from None
    except ValueError:  # a null character in the name
        raise PlanError((Finding("file", name, "This is not a valid file name."),)) from None
