"""The command `casewright`.

Each command is a module of this package with `add_arguments(parser)` and `run(arguments)`, which
gives the exit code: 0 done, 1 done but something is missing, 2 bad input. Only the module of the
command asked for is imported, so that help comes at once.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Sequence
from dataclasses import asdict
from importlib import import_module
from typing import Any

from ..errors import CasewrightError
from ..findings import Finding

COMMANDS = {
    "breakdown": "plan the cutting of any rectangles from sheets, from a JSON problem",
}

BAD_INPUT = 2


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; gives its exit code."""
    words = list(sys.argv[1:] if argv is None else argv)
    chosen = next((word for word in words if not word.startswith("-")), None)
    arguments = _parser(chosen).parse_args(words)
    try:
        return int(arguments.run(arguments))
    except BrokenPipeError:  # whoever reads our output has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except CasewrightError as fault:
        return refuse(fault, as_json=getattr(arguments, "json", False))


def _parser(chosen: str | None) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="casewright",
        description="From a measured opening to cabinets whose every part fits.",
        epilog="Say 'casewright COMMAND --help' for what a command takes.",
    )
    commands = parser.add_subparsers(metavar="COMMAND", required=True)
    for name, summary in COMMANDS.items():
        command = commands.add_parser(name, help=summary, description=f"{summary[0].upper()}{summary[1:]}.")
        if name == chosen:
            module = import_module(f"casewright.cli.{name}")
            module.add_arguments(command)
            command.set_defaults(run=module.run)
    return parser


def refuse(fault: CasewrightError, *, as_json: bool) -> int:
    """Show why the command did nothing: every finding on a line of its own, or as JSON."""
    findings: tuple[Finding, ...] = getattr(fault, "findings", ())
    if as_json:
        listed: list[dict[str, Any]] = [{**asdict(f), "weight": f.weight.value} for f in findings]
        if not listed:
            listed = [{"code": "refused", "text": str(fault)}]
        print(json.dumps({"status": "refused", "findings": listed}, ensure_ascii=False))
    for line in [str(finding) for finding in findings] or [str(fault)]:
        print(line, file=sys.stderr)
    return BAD_INPUT


if __name__ == "__main__":
    sys.exit(main())
