"""Reading and writing for the commands: what goes wrong here is told in one sentence."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ..app.jobs import load
from ..errors import CasewrightError, JobError
from ..findings import Finding


def add_job(parser: argparse.ArgumentParser) -> None:
    """The arguments of every command that reads a job."""
    parser.add_argument("job", help="the job, a TOML file; - reads it from standard input")


def read_job_text(name: str) -> str:
    """The job file's text; JobError when it cannot be read."""
    if name != "-":
        return load(name)
    try:
        return sys.stdin.buffer.read().decode("utf-8-sig")
    except UnicodeDecodeError:
        finding = Finding("file", "standard input", "it is no text in UTF-8.", "Pass UTF-8 text on.")
        raise JobError((finding,)) from None


def write_new(name: str, text: str, *, over: bool) -> None:
    """Write a file that is not there yet, or, if `over`, one that is."""
    try:
        with Path(name).open("w" if over else "x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError:
        raise CasewrightError(
            f"{name} is there already; give another name, or --force to replace it."
        ) from None
    except (OSError, ValueError) as fault:
        why = fault.strerror if isinstance(fault, OSError) else "it is no name of a file"
        raise CasewrightError(f"{name} cannot be written: {why}; give another name.") from None
