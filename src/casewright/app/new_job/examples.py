"""The finished examples that a new job can start from; they come with the program."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files

from ...jobfile.read.toml_text import values_of
from ...store.job_rows import NoSuchJob


@dataclass(frozen=True)
class Example:
    """A finished job to look at and to change."""

    key: str
    name: str
    text: str


def examples() -> tuple[Example, ...]:
    """The examples, by name of their file."""
    folder = files("casewright").joinpath("examples")
    texts = {
        file.name.removesuffix(".toml"): file.read_text(encoding="utf-8")
        for file in sorted(folder.iterdir(), key=lambda file: file.name)
        if file.name.endswith(".toml")
    }
    return tuple(Example(key, str(values_of(text).get("job", key)), text) for key, text in texts.items())


def example(key: str) -> str:
    """An example's text; NoSuchJob when there is none by that key."""
    for one in examples():
        if one.key == key:
            return one.text
    raise NoSuchJob(f"There is no example {key!r}; choose one from the list of jobs.")
