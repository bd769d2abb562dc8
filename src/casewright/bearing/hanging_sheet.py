"""The hanging page as every way in shows it: lines of text, no figure to be worked out."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from ..lengths.in_a_sentence import with_capital


@dataclass(frozen=True)
class ScrewRowTold:
    """Rows of screws with the same places: their heights above the floor, from above, and the places from the
    case's own left side."""

    heights: tuple[str, ...]
    places: tuple[str, ...]


@dataclass(frozen=True)
class CaseTold:
    """A case to hang. `screws` is empty where they are not worked out; `shims` say what goes behind its
    strips at which place from its left side."""

    mark: str
    lower_edge: str
    marks: tuple[str, ...]
    rows: tuple[ScrewRowTold, ...]
    screws: str
    empty: str
    full: str
    lifted: str
    lift: str
    shims: tuple[str, ...]


@dataclass(frozen=True)
class Doubt:
    """Something in the way of hanging: what it is, and what to do or whom to ask."""

    text: str
    fix: str


@dataclass(frozen=True)
class RowTold:
    """Cases that hang side by side. `verdict` holds their screws against the published values; it is empty
    where nothing can be said, and `doubts` say why. `studs` are the middles of those behind it, from the
    wall's left end."""

    title: str
    wall: str
    level: str
    studs: tuple[str, ...]
    doubts: tuple[Doubt, ...]
    verdict: str
    meets: bool
    drills: str
    first: str
    joins: tuple[str, ...]
    shims: str
    cases: tuple[CaseTold, ...]


@dataclass(frozen=True)
class OffsetTold:
    """A place of a cut line: how far up the part, how wide it is left there, how much comes off."""

    up: str
    width: str
    off: str


@dataclass(frozen=True)
class ScribeTold:
    """A part that is cut to the wall's line: as it is cut before, which edge goes, the offsets, and the file
    that holds the line at full size."""

    mark: str
    size: str
    words: str
    offsets: tuple[OffsetTold, ...]
    doubts: tuple[Doubt, ...]
    file: str


@dataclass(frozen=True)
class StandTold:
    """A case on the floor: how it is fixed to the wall, what holds it with everything open (empty where
    nothing opens), its weight as it is carried, and who lifts it."""

    mark: str
    fixed: str
    held: str
    lifted: str
    lift: str

    @property
    def words(self) -> str:
        """How it is fixed and what that bears, as sentences."""
        return f"{self.fixed} {with_capital(self.held)}." if self.held else self.fixed


@dataclass(frozen=True)
class HangingSheet:
    """All there is to say where a job's cases are hung and stood; no rows where none hang."""

    cautions: tuple[str, ...]
    method: tuple[str, ...]
    rows: tuple[RowTold, ...]
    assumptions: tuple[str, ...]
    stands: tuple[StandTold, ...]
    scribes: tuple[ScribeTold, ...]
    not_read: str

    @property
    def settled(self) -> bool:
        """Whether every row meets the design values and nothing is in doubt."""
        said = (*(row.doubts for row in self.rows), *(one.doubts for one in self.scribes))
        return all(row.meets for row in self.rows) and not any(said)

    def plain(self) -> dict[str, Any]:
        """The page as JSON."""
        return asdict(self)
