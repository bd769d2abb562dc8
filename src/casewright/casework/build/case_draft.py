"""A case while it is being drawn up: its parts, their features, and how they meet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from ...sizes.affine import NOTHING, Affine, size
from ...sizes.ledger import Book
from ..directions import Axis, Way
from ..job import CaseSpec
from ..parts.features import Channel, Feature
from ..parts.part import Hand, Lie, Part, Role
from .meetings import Mate, Meeting, Surface


def thickness_of(material: str) -> Affine:
    """The measured thickness of a sheet good."""
    return size(f"{material}.thickness")


@dataclass
class PartDraft:
    """A part that still takes features."""

    mark: str
    role: Role
    material: str
    length: Affine
    width: Affine
    thickness: Affine
    lie: Lie
    hand: Hand = Hand.NONE
    match: str | None = None
    optional: bool = False
    features: list[Feature] = field(default_factory=list)

    def size(self, axis: Axis) -> Affine:
        """How far it reaches along an axis of the case."""
        if axis is self.lie.length:
            return self.length
        return self.width if axis is self.lie.width else self.thickness

    def side(self, way: Way, words: str = "") -> Surface:
        """Its side that looks `way`, as a surface to meet."""
        at = self.size(way.axis) if way.sign > 0 else NOTHING
        return Surface(self.mark, way, at, words or f"{self.mark} {way.name.lower()}")

    def finish(self, case: str) -> Part:
        return Part(
            self.mark,
            self.role,
            case,
            self.material,
            self.length,
            self.width,
            self.thickness,
            self.lie,
            tuple(self.features),
            self.hand,
            self.match,
            self.optional,
        )


class CaseDraft:
    """Collects a case's ledger entries, parts and meetings while the joints are made."""

    def __init__(
        self, book: Book, spec: CaseSpec, rounding: Fraction, sheet_of: Mapping[str, str] | None = None
    ) -> None:
        self.book = book
        self.sheet_of = sheet_of or {}
        self.rounding = rounding
        self.spec = spec
        self.parts: dict[str, PartDraft] = {}
        self.mates: list[Mate] = []
        self._named = {
            name: self._construction(name)
            for name, value in vars(spec.construction).items()
            if isinstance(value, Fraction)
        }

    def _construction(self, name: str) -> Affine:
        value = getattr(self.spec.construction, name)
        if name in self.spec.chosen:
            return self.book.given(
                f"{self.spec.mark}.{name}", value, f"{name.replace('_', ' ')} of {self.spec.mark}"
            )
        return size(f"job.{name}")

    def of(self, name: str) -> Affine:
        """A dimension of the construction: this case's own, or the job's."""
        return self._named[name]

    def entry(self, name: str, form: Affine, words: str) -> Affine:
        """Enter a size of this case in the ledger under `MARK.name`."""
        return self.book.form(f"{self.spec.mark}.{name}", form, words)

    def part(
        self,
        short: str,
        role: Role,
        material: str,
        lie: Lie,
        length: Affine,
        width: Affine,
        *,
        hand: Hand = Hand.NONE,
        match: str | None = None,
        optional: bool = False,
    ) -> PartDraft:
        """Add a part; its three sizes go into the ledger under its mark."""
        mark = f"{self.spec.mark}-{short}"
        material = self.sheet_of.get(mark, material)
        draft = PartDraft(
            mark,
            role,
            material,
            self.book.form(f"{mark}.length", length, f"{mark} length"),
            self.book.form(f"{mark}.width", width, f"{mark} width"),
            self.book.form(
                f"{mark}.thickness",
                thickness_of(material),
                f"{mark} thickness",
            ),
            lie,
            hand,
            match,
            optional,
        )
        self.parts[mark] = draft
        return draft

    def channel(self, part: PartDraft, name: str, channel: Channel) -> Channel:
        """Cut a channel: its place, width and depth become sizes of the part in the ledger."""
        stem = f"{part.mark}.{name}"
        words = f"{part.mark} {name.replace('-', ' ')}"
        made = Channel(
            name,
            channel.kind,
            channel.face,
            channel.edge,
            self.book.form(f"{stem}.at", channel.at, f"{words} place"),
            self.book.form(f"{stem}.width", channel.width, f"{words} width"),
            self.book.form(f"{stem}.depth", channel.depth, f"{words} depth"),
        )
        part.features.append(made)
        return made

    def meet(
        self,
        name: str,
        meeting: Meeting,
        first: Surface,
        second: Surface,
        gap: Affine = NOTHING,
    ) -> None:
        """Record that two surfaces meet; the one that looks up the axis is put first."""
        if first.looks.sign < 0 and second.looks.sign > 0:
            first, second = second, first
        self.mates.append(
            Mate(f"{self.spec.mark}: {name}", meeting, first, second, NOTHING if gap is None else gap)
        )

    def flush(self, way: Way, first: PartDraft, second: PartDraft) -> None:
        """Bring the same side of two parts into one plane."""
        self.meet(
            f"{second.mark} flush with {first.mark}, {way.name.lower()}",
            Meeting.FLUSH,
            first.side(way),
            second.side(way),
        )

    def seat(self, part: PartDraft, way: Way, against: PartDraft) -> None:
        """Press the side of `part` that looks `way` against the side of `against` that faces it."""
        self.meet(
            f"{part.mark} against {against.mark}",
            Meeting.SEATED,
            part.side(way),
            against.side(way.opposite),
        )
