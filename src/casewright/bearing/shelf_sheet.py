"""The list of shelves as every way in shows it: lines of text, no figure to be worked out."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from .hanging_sheet import Doubt


@dataclass(frozen=True)
class ShelfTold:
    """Shelves alike, by their `marks`: what they are, how far they span between what carries them, what they
    are made of and hold, and how far they sag. The `figure` they are judged by allows so much;
    `later` says of those that meet it at once that they do not after years, `fix` what would mend those that
    do not meet it."""

    marks: tuple[str, ...]
    what: str
    span: str
    section: str
    load: str
    at_once: str
    after_years: str
    allowed: str
    figure: str
    meets: bool
    later: str
    fix: str

    @property
    def verdict(self) -> str:
        """Whether they meet their figure; that they are safe is not said."""
        said = "meets" if self.meets else "does not meet"
        return f"{said}; {self.later}" if self.later else said


@dataclass(frozen=True)
class ShelfSheet:
    """All there is to say of what a job's shelves bear, those that do not meet their figure first; `doubts`
    are those of which it cannot be said."""

    shelves: tuple[ShelfTold, ...]
    doubts: tuple[Doubt, ...]
    assumptions: tuple[str, ...]

    @property
    def by_figure(self) -> tuple[tuple[str, tuple[ShelfTold, ...]], ...]:
        """Every figure that shelves are held against, with those shelves."""
        found: dict[str, list[ShelfTold]] = {}
        for one in self.shelves:
            found.setdefault(one.figure, []).append(one)
        return tuple((figure, tuple(those)) for figure, those in found.items())

    @property
    def asks_for_thought(self) -> bool:
        """Whether some shelf does not meet its figure, at once or after years, or is in doubt."""
        return not self.settled or any(one.later for one in self.shelves)

    @property
    def settled(self) -> bool:
        """Whether every shelf meets its figure and nothing is in doubt."""
        return all(one.meets for one in self.shelves) and not self.doubts

    def plain(self) -> dict[str, Any]:
        """The list as JSON."""
        return asdict(self)
