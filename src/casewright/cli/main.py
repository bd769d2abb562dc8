"""The command `casewright`.

Each command is two modules: in `arguments`, what it takes (`add_arguments(parser)`) and the `EXAMPLE` its
help ends with; in `commands`, `run(arguments)`, which gives the exit code. Only those of the command asked
for are imported, the second only to run it, so that help comes at once.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
import traceback
from collections.abc import Callable, Sequence
from importlib import import_module
from io import TextIOWrapper

from ..errors import CasewrightError, KernelError, LibraryError
from ..findings import Finding
from .stopping import stopped

COMMANDS = {
    "demo": "open a finished example in the browser and write its shop packet",
    "new": "write a job file to begin with, from a measured opening",
    "check": "list every error and warning in a job, before a saw starts",
    "parts": "list every part with its sizes",
    "explain": "explain where a size comes from",
    "plan": "plan the cutting of a job's sheets",
    "boards": "say how many board feet of solid wood to buy, and how sure that is",
    "fit": "say what happens at the dry fit, and what a measurement changes",
    "shop-test": "find out in 15 minutes how exactly your machines cut",
    "shop-figures": "list what your own readings say of your machines",
    "packet": "write the shop packet and all other files of a job into a folder",
    "hang": "say where cases hang: studs, screws, shims, and the cut lines of fillers",
    "shelves": "list every shelf with its load, how far it sags, and whether that meets its figure",
    "labels": "print a label for every part, on sheets or a roll of labels",
    "guard": "check a measured fence setting against the plan before cutting",
    "look-alikes": "list sizes that are easily confused",
    "slack": "list the parts that the plan's leftovers could replace",
    "savings": "find small changes that would save a sheet",
    "costs": "say what the job costs, line by line, and write a quote",
    "put-right": "find ways to finish the job when a part is spoiled",
    "steps": "list every setting and cut in order",
    "serve": "open the web app, to draw up and change jobs",
    "backup": "copy the file that holds the jobs, even while the web app is running",
    "restore": "go back to a backup, once you have seen what would be lost",
    "breakdown": "plan the cutting of any rectangles from sheets, described in JSON",
    "schema": "print the JSON schema of a job file",
}

FINE, LOOK, BAD_INPUT, OWN_FAULT = 0, 1, 2, 70

EPILOG = """\
to begin:
  casewright demo                  see a finished job
  casewright new studio.toml       write a job file; change it in any editor
  casewright check studio.toml     list what is wrong with it
  casewright packet studio.toml    write everything needed at the bench

Run 'casewright COMMAND --help' for the options of a command, with an example.

exit codes: 0 done, 1 done with findings to look at, 2 the input cannot be used,
70 a bug in casewright, 130 stopped by you
"""


def main(argv: Sequence[str] | None = None, at_work: Callable[[], None] | None = None) -> int:
    """Run one command; gives its exit code. Calls `at_work` once all is imported and its work begins."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # a terminal that has no × or ² still gets its answer
            stream.reconfigure(errors="backslashreplace")
    words = list(sys.argv[1:] if argv is None else argv)
    chosen = next((word for word in words if not word.startswith("-")), None)
    arguments = _parser(chosen).parse_args(words)
    try:
        command = import_module(f"casewright.cli.commands.{arguments.command.replace('-', '_')}_command")
        if at_work:
            at_work()
        return int(command.run(arguments))
    except BrokenPipeError:  # whoever reads our output has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINE
    except KeyboardInterrupt:
        return stopped()
    except (LibraryError, KernelError) as fault:
        if arguments.trace:
            traceback.print_exception(fault)
        print_refusal(fault, as_json=getattr(arguments, "json", False))
        return OWN_FAULT
    except CasewrightError as fault:
        return print_refusal(fault, as_json=getattr(arguments, "json", False))
    except Exception as fault:
        return _own_fault(fault, arguments)


def _parser(chosen: str | None) -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="casewright",
        description="From a measured opening to cabinets whose every part fits.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--trace", action="store_true", help="show where in the program a failure arose")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND", required=True)
    for name, summary in COMMANDS.items():
        command = commands.add_parser(
            name,
            help=summary,
            description=f"{summary[0].upper()}{summary[1:]}.",
            formatter_class=argparse.RawDescriptionHelpFormatter,
        )
        if name == chosen:
            module = import_module(f"casewright.cli.arguments.{name.replace('-', '_')}_arguments")
            command.epilog = module.EXAMPLE
            module.add_arguments(command)
    return parser


def print_refusal(fault: CasewrightError, *, as_json: bool) -> int:
    """Show why the command did nothing: every finding on a line of its own, or as JSON."""
    findings: tuple[Finding, ...] = getattr(fault, "findings", ())
    if as_json:
        every = findings or (Finding("refused", "input", str(fault)),)
        listed = [finding.plain for finding in every]
        print(json.dumps({"status": "refused", "findings": listed}, ensure_ascii=False))
    for line in [str(finding) for finding in findings] or [str(fault)]:
        print(line, file=sys.stderr)
    return BAD_INPUT


def _own_fault(fault: Exception, arguments: argparse.Namespace) -> int:
    """A fault of ours is said as such: the maker's files are as they were."""
    if arguments.trace:
        traceback.print_exception(fault)
    print(
        f"casewright stopped because of a bug ({type(fault).__name__}: {fault}). Your job is unchanged; "
        "please report it with the job file and what --trace, put before the command, shows.",
        file=sys.stderr,
    )
    return OWN_FAULT
