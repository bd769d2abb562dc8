"""What changed between two texts of a job, line by line."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import unified_diff


@dataclass(frozen=True)
class Line:
    """A line of a comparison: `way` is `+` for new, `-` for gone, nothing for one that stayed."""

    way: str
    text: str


def compare_texts(before: str, after: str) -> tuple[Line, ...]:
    """The changed lines with a little of what stands around them; none where nothing changed."""
    lines = list(unified_diff(before.splitlines(), after.splitlines(), lineterm="", n=2))[2:]
    return tuple(
        Line("…", "") if line.startswith("@@") else Line(line[:1].strip(), line[1:]) for line in lines
    )
