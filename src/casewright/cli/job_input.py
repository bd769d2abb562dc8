"""Reading job files for the commands; a failure is reported in one sentence."""

from __future__ import annotations

import sys

from ..app.jobs.job_file import load
from ..errors import JobError
from ..findings import Finding


def read_job_text(name: str) -> str:
    """The job file's text; JobError when it cannot be read."""
    if name != "-":
        return load(name)
    try:
        return sys.stdin.buffer.read().decode("utf-8-sig")
    except UnicodeDecodeError:
        finding = Finding("file", "standard input", "the input is not UTF-8 text.", "Send UTF-8 text.")
        raise JobError((finding,)) from None
