"""Which leaves of the packet are printed: all, those of one moment of the day, or those of one case."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Moment(Enum):
    """A moment of the day, in order: where the maker stands and what is needed there."""

    FRONT = "front"
    YARD = "yard"
    LABELS = "labels"
    MAPS = "maps"
    BOARDS = "boards"
    TRESTLES = "trestles"
    SAW = "saw"
    JOINTS = "joints"
    CASES = "cases"
    BACKS = "backs"
    HANGING = "hanging"
    SHELVES = "shelves"
    COSTS = "costs"

    @property
    def words(self) -> str:
        """What its pages are headed."""
        return _WORDS[self]


_WORDS = {
    Moment.FRONT: "Front and cautions",
    Moment.YARD: "At the yard",
    Moment.LABELS: "Labels",
    Moment.MAPS: "Sheet maps",
    Moment.BOARDS: "Rough boards",
    Moment.TRESTLES: "At the trestles",
    Moment.SAW: "At the table saw",
    Moment.JOINTS: "Joints, notches, holes and worked parts",
    Moment.CASES: "The cases",
    Moment.BACKS: "Backs, after the dry fit",
    Moment.HANGING: "Hanging and standing",
    Moment.SHELVES: "What the shelves bear",
    Moment.COSTS: "Money and hours, for the maker",
}


@dataclass(frozen=True)
class Leaves:
    """The `moments` to print and, where it is not empty, the one `case` to which they are cut down."""

    moments: tuple[Moment, ...] = tuple(Moment)
    case: str = ""

    @classmethod
    def of_case(cls, case: str) -> Leaves:
        """All that is needed where one case is put together: its worked parts, its leaf and its back."""
        return cls((Moment.CASES, Moment.BACKS), case)

    @property
    def every_moment(self) -> bool:
        """Whether they are the whole packet."""
        return not self.case and self.moments == tuple(Moment)

    @property
    def words(self) -> str:
        """What is on them."""
        return f"Case {self.case}" if self.case else "; ".join(moment.words for moment in self.moments)

    @property
    def stem(self) -> str:
        """The name of their file, without `.pdf`."""
        if self.case:
            return f"case-{self.case}"
        return f"moment-{'-'.join(moment.value for moment in self.moments)}"


EVERY_LEAF = Leaves()
