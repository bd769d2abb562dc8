"""Joints of face frames that cannot be made in their stock, each with the sizes that would do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...findings import Finding
from ...lengths.told_lengths import told_at_least, told_at_most
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..build.joints.frame_ends import MORTISE_DEEPER, SHOULDER
from ..job import Construction, FaceFrame, Job
from ..parts.part import FACE_FRAME, Role
from .pin_checks import printed_length

WALL = Fraction(1, 8)
"""The least wood, inches, between a dowel hole or a mortise and the faces beside it, and beyond its floor.
Common practice, no source."""

TENON_LEAST = Fraction(1, 2)
"""A tenon narrower than this holds no better than glue on the end grain. Common practice, no source."""

DOWELS_APART = 4
"""A rail is so many times as wide as its dowels: two of them at its quarters then have half a diameter of
wood on either side. Common practice, no source; that it takes two is a magazine's rule, so that the rail
cannot turn."""


@dataclass(frozen=True)
class _Kind:
    """What the rails, or the mullions, are joined to: its entry of the construction, and the word for
    both."""

    entry: str
    words: str
    into: str
    met: str


_RAILS = _Kind("frame_rail", "rails", "frame_stile", "stiles")
_MULLIONS = _Kind("frame_mullion", "mullions", "frame_rail", "rails")


def check_frame_joints(job: Job, case: Case, sizes: Sizes) -> Iterator[Finding]:
    """Findings about the joints of the frame that is among a case's parts, if it has one."""
    members = [part for part in case.parts if part.role in FACE_FRAME]
    if not members:
        return
    made, thick = case.spec.construction, sizes.of(members[0].thickness)
    mullions = any(part.role is Role.MULLION for part in members)
    joints = _Joints(job, case.mark, made)
    if made.frame is FaceFrame.DOWELS:
        yield from joints.thin(thick, "frame_dowel", "dowels of")
    elif made.frame is FaceFrame.MORTISE_AND_TENON:
        yield from joints.thin(thick, "frame_mortise", "mortises of")
    for kind in (_RAILS, _MULLIONS)[: 2 if mullions else 1]:
        if made.frame is FaceFrame.DOWELS:
            yield from joints.narrow(kind, DOWELS_APART * made.frame_dowel, "two dowels side by side take")
            yield from joints.deep(kind, "frame_dowel_depth", Fraction(0), "dowel holes")
        elif made.frame is FaceFrame.MORTISE_AND_TENON:
            yield from joints.narrow(kind, TENON_LEAST + 2 * SHOULDER, "a tenon between its shoulders takes")
            yield from joints.deep(kind, "frame_tenon", MORTISE_DEEPER, "mortises")


@dataclass(frozen=True)
class _Joints:
    job: Job
    mark: str
    made: Construction

    def thin(self, thick: Fraction, entry: str, words: str) -> Iterator[Finding]:
        """A finding where too little is left before and behind what is cut into the thickness."""
        size, most = self._of(entry), thick - 2 * WALL
        if size > most:
            text = (
                f"{words} {self._text(size)} are too thick for the frame of {self.mark}, "
                f"{self._text(thick)} thick."
            )
            third, bound = self._text(thick / 3), told_at_most(most, self.job.mark)
            fix = f"Make {entry} a third of the thickness, {third}; {bound} at most."
            yield Finding("frame-thin-for-joint", f"cases.{self.mark}.{entry}", text, fix)

    def narrow(self, kind: _Kind, least: Fraction, words: str) -> Iterator[Finding]:
        """A finding where a rail or mullion is too narrow for its joint."""
        wide = self._of(kind.entry)
        if wide < least:
            takes, bound = f"{words} {self._text(least)}", told_at_least(least, self.job.mark)
            text = f"the {kind.words} of {self.mark} are {self._text(wide)} wide; {takes}."
            other = ", or frame_dowel smaller" if self.made.frame is FaceFrame.DOWELS else ""
            fix = f"Make {kind.entry} {bound} or more{other}, or join the frame another way."
            yield Finding("frame-narrow-for-joint", f"cases.{self.mark}.{kind.entry}", text, fix)

    def deep(self, kind: _Kind, entry: str, more: Fraction, words: str) -> Iterator[Finding]:
        """A finding where what is cut into an edge comes too near the edge opposite."""
        depth, wide = self._of(entry) + more, self._of(kind.into)
        if depth > wide - WALL:
            text = (
                f"{words} {self._text(depth)} deep go through the {kind.met} of {self.mark}, "
                f"{self._text(wide)} wide, or leave less than {self._text(WALL)}."
            )
            most, mark = wide - WALL - more, self.job.mark
            first = "Join the frame another way"
            if most > 0:
                first = f"Make {entry} {told_at_most(most, mark)} or less"
            fix = f"{first}, or {kind.into} {told_at_least(depth + WALL, mark)} or more."
            yield Finding("frame-joint-deep", f"cases.{self.mark}.{entry}", text, fix)

    def _of(self, entry: str) -> Fraction:
        size: Fraction = getattr(self.made, entry)
        return size

    def _text(self, length: Fraction) -> str:
        return printed_length(self.job, length)
