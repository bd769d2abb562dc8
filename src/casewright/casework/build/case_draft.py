"""A case while it is being drawn up: its parts, their features, and how they meet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from ...sizes.affine import NOTHING, Affine
from ...sizes.ledger import Book
from ..directions import Axis, Way
from ..front_choices import FrontLie
from ..job import CONSTRUCTION_SIZES, Bay, CaseSpec
from ..parts.covered_edge import CoveredEdge
from ..parts.features.channel import Channel
from ..parts.features.feature import Feature
from ..parts.part import Hand, Lie, Part, PartName, Role, with_edging
from ..size_names import CaseSizes, FeatureSizes, PartSizes, construction_size, part_mark, thickness_of
from .edged_edges import EdgingChoice
from .fittings import FittingChoice
from .meetings import Mate, Meeting, Surface

_FOR_THE_JOB = {field: construction_size(field) for field in CONSTRUCTION_SIZES}


@dataclass(frozen=True, slots=True)
class ShelvesOnPins:
    """A clear height with shelves on pins: its bay and its level in that bay, both counted from 1, its
    height, and the marks of its shelves."""

    bay: int
    level: int
    height: Affine
    shelves: tuple[str, ...]


@dataclass
class PartDraft:
    """A part to which features can still be added."""

    mark: str
    role: Role
    material: str
    length: Affine
    width: Affine
    thickness: Affine
    lie: Lie
    hand: Hand = Hand.NONE
    match: str | None = None
    edges: tuple[CoveredEdge, ...] = ()
    features: list[Feature] = field(default_factory=list)

    def size(self, axis: Axis) -> Affine:
        """Its size along an axis of the case, as it is worked: with the edging that goes on first."""
        if axis is self.lie.thickness:
            return self.thickness
        cut = self.length if axis is self.lie.length else self.width
        return with_edging(cut, self.edges, axis)

    @property
    def deep(self) -> Affine:
        """Its size from front to back."""
        return self.size(Axis.Y)

    def side(self, way: Way, words: str = "") -> Surface:
        """Its side that faces `way`, as a surface that can meet another."""
        at = self.size(way.axis) if way.sign > 0 else NOTHING
        return Surface(self.mark, way, at, words or f"{self.mark} {way.word}")

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
            edges=self.edges,
        )


class CaseDraft:
    """Collects the ledger entries, parts and meetings of a case while its joints are drawn up."""

    def __init__(
        self,
        book: Book,
        spec: CaseSpec,
        sheet_of: Mapping[str, str],
        edging: EdgingChoice,
        fittings: FittingChoice,
    ) -> None:
        self.book = book
        self.sheet_of = sheet_of
        self.edging = edging
        self.fittings = fittings
        self.spec = spec
        self.sizes = CaseSizes(spec.mark)
        self.on_pins: list[ShelvesOnPins] = []
        self.parts: dict[str, PartDraft] = {}
        self.mates: list[Mate] = []
        self._own = {field: self.sizes.construction(field) for field in spec.chosen}

    def of(self, field: str) -> Affine:
        """A size of the construction: the case's own if it sets one, otherwise the job's."""
        return self._own.get(field) or _FOR_THE_JOB[field]

    @property
    def has_frame(self) -> bool:
        """Whether a face frame stands before the case."""
        return self.spec.construction.has_frame

    @property
    def front_strip(self) -> Affine:
        """What is glued over the front of the whole case at the end: its parts are shallower by it."""
        if self.has_frame:
            return thickness_of(self.spec.materials.frame)
        return self.front_edging

    @property
    def front_edging(self) -> Affine:
        """What of that is edging, between whose strips shelves may come forward."""
        return NOTHING if self.has_frame else self.edging.front_strip(self.spec.edged)

    def behind_fronts(self, bay: Bay) -> Affine:
        """How far inset doors and drawers stand into a bay, behind the front edges of its sides."""
        if not bay.fronts or self.spec.construction.fronts is not FrontLie.INSET:
            return NOTHING
        into = thickness_of(self.spec.materials.front)
        if self.has_frame:
            into = into - self.front_strip
        return into if self.book.value(into) > 0 else NOTHING

    @property
    def front_stretcher(self) -> PartDraft:
        """The stretcher at the front; KeyError in a case whose top is a panel."""
        return self.parts[part_mark(self.spec.mark, PartName.FRONT_STRETCHER)]

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
    ) -> PartDraft:
        """Add a part and enter its three sizes in the ledger under its mark.

        `length` and `width` are those it is worked to; the panel is cut smaller by the edging it gets first.
        """
        mark = part_mark(self.spec.mark, short)
        material = self.sheet_of.get(mark, material)
        sizes = PartSizes(mark)
        edges = self.edging.edges(self.spec.edged, mark, role)
        over = {axis: with_edging(NOTHING, edges, axis) for axis in (lie.length, lie.width)}
        draft = PartDraft(
            mark,
            role,
            material,
            self.book.form(sizes.length, length - over[lie.length], f"{mark} length"),
            self.book.form(sizes.width, width - over[lie.width], f"{mark} width"),
            self.book.form(
                sizes.thickness,
                thickness_of(material),
                f"{mark} thickness",
            ),
            lie,
            hand,
            match,
            edges,
        )
        self.parts[mark] = draft
        return draft

    def channel(self, part: PartDraft, name: str, channel: Channel) -> Channel:
        """Cut a channel into a part and enter its position, width and depth in the ledger."""
        sizes = FeatureSizes(part.mark, name)
        words = f"{part.mark} {name.replace('-', ' ')}"
        made = Channel(
            name,
            channel.kind,
            channel.face,
            channel.edge,
            self.book.form(sizes.at, channel.at, f"{words} place"),
            self.book.form(sizes.width, channel.width, f"{words} width"),
            self.book.form(sizes.depth, channel.depth, f"{words} depth"),
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
        """Record that two surfaces meet, the one that faces up the axis first."""
        if first.looks.sign < 0 and second.looks.sign > 0:
            first, second = second, first
        self.mates.append(
            Mate(f"{self.spec.mark}: {name}", meeting, first, second, NOTHING if gap is None else gap)
        )

    def flush(self, way: Way, first: PartDraft, second: PartDraft) -> None:
        """Bring the same sides of two parts flush."""
        self.meet(
            f"{second.mark} flush with {first.mark}, {way.word}",
            Meeting.FLUSH,
            first.side(way),
            second.side(way),
        )

    def seat(self, part: PartDraft, way: Way, against: PartDraft) -> None:
        """Press the side of `part` that faces `way` against the side of `against` that faces it."""
        self.meet(
            f"{part.mark} against {against.mark}",
            Meeting.SEATED,
            part.side(way),
            against.side(way.opposite),
        )
