"""A cure: parts that come right without being cut again."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.parts.part import Part
from ...casework.project import Project
from ..facts import AsCut
from ..price import Seen
from .way import Action, WayKind


@dataclass(frozen=True)
class PartCure:
    """Parts that come right by these actions; pieces that it `touches` serve for nothing else."""

    kind: WayKind
    saves: frozenset[str]
    actions: tuple[Action, ...]
    seen: Seen = Seen.NOTHING
    touches: frozenset[str] = frozenset()


@dataclass(frozen=True)
class Lack:
    """A spoiled part, and how much of its length and width is missing (less than zero: it is larger)."""

    part: Part
    cut: AsCut
    short: Fraction
    narrow: Fraction

    @property
    def sized(self) -> bool:
        """Whether no size of it is less than planned."""
        return self.short <= 0 and self.narrow <= 0


def lack_of(project: Project, mark: str, cut: AsCut) -> Lack:
    """What a spoiled part lacks."""
    part = project.parts[mark]
    length, width, _ = project.dimensions(part)
    return Lack(part, cut, length - cut.length, width - cut.width)


def one_part(kind: WayKind, lack: Lack, actions: tuple[Action, ...], seen: Seen = Seen.NOTHING) -> PartCure:
    """A cure that touches no part but the spoiled one."""
    mark = frozenset({lack.part.mark})
    return PartCure(kind, mark, actions, seen, mark)
