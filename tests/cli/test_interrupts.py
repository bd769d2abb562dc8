"""Ctrl-C at any moment ends the program with one line and exit code 130."""

from __future__ import annotations

import signal
import subprocess
import sys
from functools import partial
from pathlib import Path

import pytest

STUDIO = str(Path(__file__).parents[2] / "examples" / "pottery-studio.toml")

# Runs the program, interrupted as soon as a certain module is looked for.
SCRIPT = """
import signal, sys

moment, how, *sys.argv[1:] = sys.argv[1:]

class Interrupt:
    def find_spec(self, name, path=None, target=None):
        if name == moment:
            sys.meta_path.remove(self)
            if how == "raise":
                raise KeyboardInterrupt
            signal.raise_signal(signal.SIGINT)

sys.meta_path.insert(0, Interrupt())
from casewright.cli.__main__ import program
code = program()
print("came to its end")
sys.exit(code)
"""

MOMENTS = (
    "casewright.cli.main",
    "argparse",
    "casewright.findings",
    "casewright.cli.arguments.check_arguments",
    "casewright.cli.commands.check_command",
    "casewright.jobfile.tables",
    "pydantic.main",
    "numpy.linalg",
    "highspy",
    "casewright.solids.solid_check",  # the command is at work by then
    "manifold3d",
)


def interrupted(moment: str, how: str, heeded: bool = True) -> subprocess.CompletedProcess[str]:
    # A test run in the background of a shell ignores interrupts, and so would the program it starts.
    answer = partial(signal.signal, signal.SIGINT, signal.SIG_DFL if heeded else signal.SIG_IGN)
    return subprocess.run(
        [sys.executable, "-c", SCRIPT, moment, how, "check", STUDIO],
        capture_output=True,
        text=True,
        timeout=120,
        preexec_fn=answer,
    )


@pytest.mark.parametrize("how", ["signal", "raise"])
@pytest.mark.parametrize("moment", MOMENTS)
def test_an_interrupt_while_importing_ends_it_in_one_line(moment: str, how: str) -> None:
    done = interrupted(moment, how)
    assert (done.returncode, done.stdout, done.stderr) == (130, "", "stopped.\n")


def test_where_interrupts_are_ignored_they_stay_so() -> None:
    done = interrupted("casewright.jobfile.tables", "signal", heeded=False)
    assert done.returncode in (0, 1) and "came to its end" in done.stdout
    assert done.stderr == ""
