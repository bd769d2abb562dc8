"""What the commands print: JSON, tables and progress."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Sequence
from typing import Any


def reporter(arguments: argparse.Namespace) -> Callable[[str], None] | None:
    """A function that prints progress; None where nobody is watching."""
    if not (arguments.progress or sys.stderr.isatty()):
        return None
    return lambda line: print(line, file=sys.stderr, flush=True)


def print_json(value: Any) -> None:
    print(json.dumps(value, ensure_ascii=False, indent=2))


def print_table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
    """Print columns as wide as needed, all but the first and last right-aligned."""
    every = [heads, *rows]
    wide = [max(len(row[place]) for row in every) for place in range(len(heads))]
    for row in every:
        cells = [
            cell.ljust(wide[place]) if place in (0, len(row) - 1) else cell.rjust(wide[place])
            for place, cell in enumerate(row)
        ]
        print("  ".join(cells).rstrip())
