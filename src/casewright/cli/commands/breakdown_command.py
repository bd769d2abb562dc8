"""`casewright breakdown PROBLEM.json --seconds N --json`."""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path

from ...app.sheets.any_problem import break_down
from ...errors import PlanError
from ...findings import Finding
from ..printing import reporter


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
