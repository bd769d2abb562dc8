"""Dovetailed corners of drawer boxes: how long they make the sides, and how the parts meet in them.

Tails are cut on the sides, pins on front and back. Both are cut down to a shoulder line, and there the parts
meet; end grain that shows stands proud until it is planed off. Half-blind tails end on the floors of their
sockets, behind the lap that hides them.
"""

from __future__ import annotations

from ....sizes.affine import NOTHING, Affine
from ...directions import Axis, Way
from ...front_choices import DrawerJoint
from ...parts.features.dovetails import DrawerPins, DrawerTails
from ...parts.part import PartName
from ...size_names import FeatureSizes, part_mark, thickness_of
from ..case_draft import CaseDraft, PartDraft
from ..meetings import Meeting, Surface


def past_the_ends(case: CaseDraft, number: str) -> Affine:
    """How much longer than the box the sides of the drawer of that `number` are sawn: shorter by the laps of
    half-blind dovetails, longer by what through ones leave proud."""
    if not case.spec.construction.drawer_joint.is_dovetailed:
        return NOTHING
    found = NOTHING
    for name, way in ((PartName.INNER_FRONT, Way.FRONT), (PartName.DRAWER_BACK, Way.BACK)):
        mark = part_mark(case.spec.mark, f"{name}{number}")
        thick = thickness_of(case.sheet_of.get(mark, case.spec.materials.drawer))
        found = found + (case.of("drawer_tail") - thick if _is_half_blind(case, way) else _proud(case))
    return found


def _is_half_blind(case: CaseDraft, way: Way) -> bool:
    """Whether the tails at the front or the back of a box, which looks `way`, are half blind."""
    joint = case.spec.construction.drawer_joint
    return joint is DrawerJoint.HALF_BLIND_DOVETAILS or (joint.has_laps and way is Way.FRONT)


def dovetail(case: CaseDraft, side: PartDraft, face: Way, end: PartDraft, way: Way) -> None:
    """Dovetail the `end` of a box that looks `way` to the side whose inner face looks `face`."""
    blind, form = _is_half_blind(case, way), case.book.form
    sizes, words = FeatureSizes(side.mark, f"tails-{way.word}"), f"shoulder line of {side.mark}, {way.word}"
    proud = NOTHING if blind else _proud(case)
    line = form(sizes.line, case.of("drawer_tail") if blind else end.thickness + proud, words)
    foot = side.size(Axis.Z) - end.size(Axis.Z)  # a lower back is flush with the sides above
    tails = DrawerTails(sizes.name, way, face, line, proud, foot, end.size(Axis.Z), not blind)
    side.features.append(tails)
    at, opposite = _proud(case), face.opposite
    sizes, words = (
        FeatureSizes(end.mark, f"pins-{opposite.word}"),
        f"shoulder line of {end.mark}, {opposite.word}",
    )
    between = form(sizes.line, side.thickness + at, words)
    deep = form(sizes.depth, line if blind else end.thickness, f"depth of the sockets in {end.mark}")
    pins = DrawerPins(sizes.name, opposite, way.opposite, between, at, NOTHING, end.size(Axis.Z), True, deep)
    end.features.append(pins)
    shoulder = Surface(side.mark, way, tails.shoulder(side), _shoulder(side, way))
    case.meet(f"shoulder of {side.mark} against {end.mark}", Meeting.SEATED, shoulder, end.side(way.opposite))
    shoulder = Surface(end.mark, opposite, pins.shoulder(end), _shoulder(end, opposite))
    case.meet(f"shoulder of {end.mark} against {side.mark}", Meeting.SEATED, shoulder, side.side(face))
    if blind:
        floor = Surface(end.mark, way.opposite, pins.floor(end), f"floor of the sockets in {end.mark}")
        tip = side.side(way, f"tails of {side.mark}, {way.word}")
        case.meet(f"tails of {side.mark} in the sockets of {end.mark}", Meeting.SEATED, tip, floor)


def _shoulder(part: PartDraft, way: Way) -> str:
    """What the shoulder of a part is called at the end that looks `way`."""
    return f"shoulder of {part.mark}, {way.word}"


def _proud(case: CaseDraft) -> Affine:
    return case.of("drawer_proud")
