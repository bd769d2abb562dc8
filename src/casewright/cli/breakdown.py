"""`casewright breakdown PROBLEM.json --seconds N --json`."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

from ..app.breakdown import break_down
from ..errors import PlanError
from ..findings import Finding


def add_arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("problem", help="the problem, a JSON file; - reads it from standard input")
    parser.add_argument("--seconds", type=_seconds, default=2.0, metavar="N", help="how long to search (2)")
    parser.add_argument("--json", action="store_true", help="print the answer as JSON")
    parser.add_argument("--seed", type=int, default=0, metavar="N", help="another search for another N (0)")
    parser.add_argument("--cores", type=_cores, default=1, metavar="N", help="processor cores to use (1)")


def run(arguments: argparse.Namespace) -> int:
    watched = sys.stderr.isatty()
    result = break_down(
        _read(arguments.problem),
        arguments.seconds,
        arguments.seed,
        arguments.cores,
        (lambda line: print(line, file=sys.stderr)) if watched else None,
    )
    print(json.dumps(result.answer, ensure_ascii=False) if arguments.json else result.words)
    return 0 if result.complete else 1


def _read(name: str) -> str:
    try:
        return sys.stdin.read() if name == "-" else Path(name).read_text(encoding="utf-8")
    except OSError as fault:
        raise PlanError((Finding("file", name, f"It cannot be read: {fault.strerror}."),)) from None
    except UnicodeDecodeError:
        raise PlanError((Finding("file", name, "It is no text in UTF-8."),)) from None


def _seconds(text: str) -> float:
    seconds = float(text)
    if not 0 <= seconds <= 86_400:
        raise argparse.ArgumentTypeError(f"{text} is not between 0 and 86400")
    return seconds


def _cores(text: str) -> int:
    cores = int(text)
    if not 1 <= cores <= 64:
        raise argparse.ArgumentTypeError(f"{text} is not between 1 and 64")
    return cores
