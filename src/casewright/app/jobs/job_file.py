"""Job files on disk, and their schema."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from ...errors import JobError
from ...findings import Finding
from ...jobfile.job_schema import job_schema


def load(name: str) -> str:
    """The text of a job file; JobError when it cannot be read."""
    try:
        return Path(name).read_text(encoding="utf-8-sig")
    except OSError as fault:
        text, fix = f"it cannot be read: {fault.strerror}.", "Give the path of a job file."
    except UnicodeDecodeError:
        text, fix = "the file is not UTF-8 text.", "Save it as UTF-8 text."
    except ValueError:  # a null character in the name
        text, fix = "this is not a valid file name.", "Give the path of a job file."
    raise JobError((Finding("file", name, text, fix),))


def schema() -> dict[str, Any]:
    """The published JSON schema of a job file."""
    return job_schema()
