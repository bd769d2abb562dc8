"""Arguments that several commands take."""

from __future__ import annotations

import argparse


def add_job_argument(parser: argparse.ArgumentParser) -> None:
    """The argument of every command that reads a job."""
    parser.add_argument("job", help="the job, a TOML file; - reads it from standard input")


def add_json(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help="print the result as JSON")


def add_progress(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "--progress",
        action="store_true",
        help="print progress on standard error even where it is not a terminal",
    )
