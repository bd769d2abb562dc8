"""The finished examples that a new job can start from."""

from __future__ import annotations

import sys
from dataclasses import dataclass
from pathlib import Path

from ..store.jobs import NoSuchJob
from .document import values_of

FOLDERS = (
    Path(__file__).parents[3] / "examples",  # in the project's own folder
    Path(sys.prefix) / "share" / "casewright" / "examples",  # where an install puts them
)


@dataclass(frozen=True)
class Example:
    """A finished job to look at and to change."""

    key: str
    name: str
    text: str


def examples() -> tuple[Example, ...]:
    """The examples that came with the program; none where it was installed without them."""
    folder = next((folder for folder in FOLDERS if folder.is_dir()), FOLDERS[0])
    texts = {path.stem: path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.toml"))}
    return tuple(Example(key, str(values_of(text).get("job", key)), text) for key, text in texts.items())


def example(key: str) -> str:
    """An example's text; NoSuchJob when there is none by that key."""
    for one in examples():
        if one.key == key:
            return one.text
    raise NoSuchJob(f"There is no example {key!r}; the list of jobs shows those there are.")
