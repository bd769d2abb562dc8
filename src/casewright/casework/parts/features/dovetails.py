"""The ends of a drawer box's parts that are dovetailed: tails on its sides, pins on its front and back.

Tails and pins are laid out at the bench, or cut with a jig: how many there are and how wide is not told here.
What is told is the shoulder line that they are cut down to. A solid has one tail in the middle half of the
height, which takes as much wood away as the real ones; a drawing has the shoulder line alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ....sizes.affine import NOTHING, Affine
from ....sizes.ledger import Sizes
from ...directions import Box, Span, Way, box, third_axis
from .feature import FeatureDefaults, FeatureSize, Sized, Writer, measured_from, place_from


@dataclass(frozen=True, slots=True)
class _Dovetails(FeatureDefaults):
    """The end of a part that looks towards `face`: its shoulder line is `line` in from the end as it is sawn,
    of which `proud` is planed off when the box is glued. `inner` is the face that looks into the box. The
    joint begins `foot` above the lower edge and is `high`. `by_stock` says that the line is struck by the
    thickness of what is joined there. A kind of it says what is cut: tails or pins."""

    word: ClassVar[str]

    name: str
    face: Way
    inner: Way
    line: Affine
    proud: Affine
    foot: Affine
    high: Affine
    by_stock: bool

    @property
    def kind_words(self) -> str:
        return "dovetailed end"

    @property
    def edges(self) -> tuple[Way, ...]:
        return (self.face,)

    @property
    def bench_joint(self) -> bool:
        return True

    @property
    def stands_out(self) -> bool:
        return True

    @property
    def _line(self) -> FeatureSize:
        return FeatureSize(self.line, "to the shoulder line", self.face, self.word, self.by_stock)

    @property
    def _height(self) -> tuple[FeatureSize, ...]:
        return (FeatureSize(self.foot, "above the lower edge"), FeatureSize(self.high, "high"))

    def shoulder(self, part: Sized) -> Affine:
        """Where the shoulder line is, from the part's low corner."""
        return place_from(self.face, part.size(self.face.axis), self.line)

    def drawn(self, part: Sized) -> tuple[Box, ...]:
        return (self._piece(part, NOTHING, self.line, self.foot, self.foot + self.high),)

    def _planed(self, part: Sized) -> Box:
        """What stands proud until the box is glued, over the whole end."""
        across = third_axis(self.face.axis, self.inner.axis)
        return self._piece(part, NOTHING, self.proud, NOTHING, part.size(across))

    def _piece(
        self, part: Sized, near: Affine, far: Affine, low: Affine, high: Affine, deep: Affine | None = None
    ) -> Box:
        """From `near` to `far` in from the end, from `low` to `high` above the lower edge, `deep` from the
        inner face or right through."""
        thick = part.size(self.inner.axis)
        return box(
            {
                self.face.axis: measured_from(self.face, part.size(self.face.axis), near, far),
                third_axis(self.face.axis, self.inner.axis): Span(low, high),
                self.inner.axis: measured_from(self.inner, thick, NOTHING, deep or thick),
            }
        )

    def called(self, sizes: Sizes, tag: str) -> str:
        """`tails`."""
        return self.word

    def callout(self, sizes: Sizes, write: Writer, stock: Writer, tag: str) -> str:
        """`tails, shoulder line ~1/2 (.503) in from the end, 1/32 of it planed off`."""
        line, proud = sizes.of(self.line), sizes.of(self.proud)
        said = f"{self.word}, shoulder line {stock(line) if self.by_stock else write(line)} in from the end"
        return f"{said}, {write(proud)} of it planed off" if proud else said


@dataclass(frozen=True, slots=True)
class DrawerTails(_Dovetails):
    """The tails at one end of a drawer side."""

    word: ClassVar[str] = "tails"

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        return (self._line, FeatureSize(self.proud, "left proud"), *self._height)

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        quarter, top = self.high / 4, self.foot + self.high
        beside = ((self.foot, self.foot + quarter), (top - quarter, top))
        return (
            self._planed(part),
            *(self._piece(part, NOTHING, self.line, low, high) for low, high in beside),
        )


@dataclass(frozen=True, slots=True)
class DrawerPins(_Dovetails):
    """The pins at one end of a box's front or back, between sockets for the tails, which go `depth` into it
    from its inner face: right through, or half blind."""

    word: ClassVar[str] = "pins"

    depth: Affine

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        deep = FeatureSize(self.depth, "deep")
        return (self._line, FeatureSize(self.proud, "left proud"), deep, *self._height)

    def floor(self, part: Sized) -> Affine:
        """Where the floor of half-blind sockets is, from the part's low corner."""
        return place_from(self.inner, part.size(self.inner.axis), self.depth)

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        quarter, top = self.high / 4, self.foot + self.high
        socket = self._piece(part, NOTHING, self.line, self.foot + quarter, top - quarter, self.depth)
        return (self._planed(part), socket)
