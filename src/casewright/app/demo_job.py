"""A finished example put into a shop's file, to be looked at and changed."""

from __future__ import annotations

from pathlib import Path

from .choices import EXAMPLE_SHOWN
from .jobs.kept_jobs import KeptJobs
from .new_job.examples import example


def put_in(file: Path, key: str = EXAMPLE_SHOWN) -> str:
    """Put the example of that key into the shop's file, once; gives the job's id there.

    Raises StoreError when there is no such example or the file cannot be used.
    """
    text = example(key)
    saved = KeptJobs.open(file)
    for row in saved.list():
        # A job begun from this example is shown as it is now, with what was changed since.
        if saved.history(row.id)[-1].text == text:
            return row.id
    return saved.start(text, f"the example {key}").id
