"""What becomes of a case at the dry fit, joint by joint: the limits, and the worst of its joints.

Limits are common practice, no source, unless one is named.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from casewright.casework.parts.part import Role

from .closed_case import Closed, Effort
from .closing import CaseProgramme
from .geometry import CaseShape, Held, Piece, Slot, X, Y, Z
from .made_parts import Builds, MadeParts

Flags = NDArray[np.bool_]


class Verdict(IntEnum):
    """What a joint needs, the least first."""

    BY_HAND = 0
    CLAMP = 1
    EASE = 2
    RECUT = 3


@dataclass(frozen=True, slots=True)
class Limits:
    """Lengths in inches, forces in pounds. `hair` is a sheet of paper, what an end may stand off and still be
    home. `gap` and `step` are those of a custom grade: gap of wood to wood, ANSI/AWI 0620-2024 3.4.1.1(c);
    flushness of wood to wood as installed, Architectural Woodwork Standards 2009, 6.1.21.1.1."""

    hand: float = 15.0
    clamp: float = 300.0
    hair: float = 0.004
    tight_with_clamp: float = 0.004
    tight_to_ease: float = 0.020
    loose: float = 1 / 32
    gap: float = 0.031
    step: float = 0.025
    lean: float = 1 / 16
    rock: float = 1 / 32


CUSTOM_GRADE = Limits()

CLOSED = 1e-6  # inches: the programme's own rounding


@dataclass(frozen=True)
class CaseOutcome:
    """A case over all builds: the worst verdict of its joints and what shows, with the causes of each.

    `shown` is what shows as put together; `shown_drawn` what still does with short ends drawn home by clamps.
    """

    mark: str
    verdict: NDArray[np.int64]
    shown: Flags
    shown_drawn: Flags
    by_cause: Mapping[str, NDArray[np.int64]]
    shown_by_cause: Mapping[str, Flags]
    joints: int
    eased: Builds  # joints to ease in each build


def judge(shape: CaseShape, made: MadeParts, limits: Limits) -> CaseOutcome:
    """Put a case together in every build."""
    programme = CaseProgramme(shape, made)
    closed, lengths = _put_together(programme, limits)
    own = dict(_own_dados(shape, made))
    grooves = dict(_back_grooves(shape, made))
    rooms = dict(_back_rooms(shape, made, closed))
    causes = {
        "length": lengths,
        "dado": _worst([_tight(room, limits) for room in (*own.values(), *grooves.values())], made),
        "back": _worst([np.where(room < 0, Verdict.EASE, 0) for room in rooms.values()], made),
        "pins": _worst([np.where(rock > limits.rock, Verdict.EASE, 0) for rock in _rocks(shape, made)], made),
        "short": _worst(list(_engaged(shape, closed)), made),
    }
    gaps = _gaps(shape, closed)
    shown = {
        "gap": _any([gap > limits.gap for gap in gaps], made),
        "loose dado": _any([room > limits.loose + CLOSED for room in own.values()], made),
        "lean": _any([np.abs(lean) > limits.lean for lean in _leans(shape, closed)], made),
        "step": _any([step > limits.step for step in _steps(shape, made)], made),
    }
    drawn = _any([flags for name, flags in shown.items() if name != "gap"], made)
    drawn |= _still_open(programme, shown["gap"], limits)
    tight = [_tight(room, limits) for room in (*own.values(), *grooves.values())]
    eased = sum((one == Verdict.EASE).astype(float) for one in tight)
    eased = eased + sum((causes[name] == Verdict.EASE).astype(float) for name in ("length", "back", "pins"))
    return CaseOutcome(
        shape.mark,
        _worst(list(causes.values()), made),
        _any(list(shown.values()), made),
        drawn,
        causes,
        shown,
        len(shape.joints) + len(grooves),
        np.asarray(eased),
    )


def _put_together(programme: CaseProgramme, limits: Limits) -> tuple[Closed, NDArray[np.int64]]:
    """The case as it ends up, and its verdict by lengths.

    By hand if a hand's force closes it to a hair; with a clamp if one leaves no joint open by more than the
    grade's gap; else something is too long and is trimmed.
    """
    by_hand = programme.close(Effort(limits.hand, limits.hair))
    verdict = np.zeros(len(by_hand.unplaced), dtype=np.int64)
    left = np.flatnonzero(by_hand.unplaced > CLOSED)
    if not len(left):
        return by_hand, verdict
    clamped = programme.close(Effort(limits.clamp, limits.hair), left)
    still_open = clamped.unplaced > limits.gap - limits.hair
    verdict[left] = np.where(still_open, Verdict.EASE, Verdict.CLAMP)
    return by_hand.with_others(left, clamped), verdict


def _still_open(programme: CaseProgramme, shown: Flags, limits: Limits) -> Flags:
    still = np.zeros_like(shown)
    left = np.flatnonzero(shown)
    if len(left):
        drawn = programme.close(Effort(limits.clamp, limits.hair, draws=True), left)
        gaps = _gaps(programme.shape, drawn)
        still[left] = np.any([gap > limits.gap for gap in gaps], axis=0)
    return still


def _own_dados(shape: CaseShape, made: MadeParts) -> Iterator[tuple[str, Builds]]:
    """The room of each panel in its own dado, at its thickest place."""
    for joint in shape.joints:
        if joint.slot is not None and joint.held is Held.WALLS:
            piece = shape.pieces[joint.bar]
            across = X if shape.along[joint.bar] == Z else Z
            yield (
                f"{joint.bar} {joint.sign}",
                _room_in(made, piece, across, shape.pieces[joint.onto], joint.slot, f"end {joint.sign}"),
            )


def _back_grooves(shape: CaseShape, made: MadeParts) -> Iterator[tuple[str, Builds]]:
    """The same of the back in its grooves, which are behind everything."""
    if shape.back is not None:
        for piece, slot in _back_slots(shape):
            if not slot.rabbet:
                yield piece.mark, _room_in(made, shape.back, Y, piece, slot, piece.mark)


def _room_in(made: MadeParts, panel: Piece, across: int, onto: Piece, slot: Slot, place: str) -> Builds:
    nominal = slot.width - panel.size[across]
    return nominal + made.slot_width(onto, slot, panel.material) - made.thickest(panel, place)


def _tight(room: Builds, limits: Limits) -> NDArray[np.int64]:
    levels = (-limits.tight_to_ease, -limits.tight_with_clamp, 0.0)
    return np.asarray(Verdict.RECUT - np.searchsorted(levels, room, side="right"))


def _engaged(shape: CaseShape, closed: Closed) -> Iterator[NDArray[np.int64]]:
    """Cut again where less than half the depth of its dados holds a part, lying midway."""
    for joint in shape.joints:
        if joint.slot is not None and not joint.placing:
            yield np.where(_short(joint.bar, closed) > joint.slot.depth, Verdict.RECUT, 0)


def _short(bar: str, closed: Closed) -> Builds:
    return np.asarray(closed.gap[bar, -1] + closed.gap[bar, 1])


def _gaps(shape: CaseShape, closed: Closed) -> list[Builds]:
    """How much too short each part is that comes after those that place the case: all of it at one end."""
    bars = {joint.bar for joint in shape.joints if not joint.placing}
    return [_short(bar, closed) for bar in sorted(bars)]


def _leans(shape: CaseShape, closed: Closed) -> list[Builds]:
    """Out of plumb or level: parts held in dados at both ends."""
    held = [joint.bar for joint in shape.joints if joint.held is Held.WALLS]
    return [closed.lean[bar] for bar in sorted(set(held)) if held.count(bar) == 2]


def _back_slots(shape: CaseShape) -> list[tuple[Piece, Slot]]:
    return [(piece, slot) for piece in shape.pieces.values() for slot in piece.slots if slot.back]


def _back_rooms(shape: CaseShape, made: MadeParts, closed: Closed) -> Iterator[tuple[str, Builds]]:
    """The play of the back between the channels that hold it, sideways and up and down."""
    back = shape.back
    if back is None:
        return
    for axis in (X, Z):
        holding = [(piece, slot) for piece, slot in _back_slots(shape) if slot.face.axis.value == axis]
        if len(holding) != 2:
            continue
        room = -back.size[axis] - made.size(back, axis)
        moved: list[Builds] = []
        for piece, slot in holding:
            way = -slot.face.sign  # outward
            room = room + way * slot.floor - made.thickness(piece) / 2 + made.slot_depth(piece, slot)
            moved.append(way * np.array([closed.ends[piece.mark, -1], closed.ends[piece.mark, 1]]))
        yield f"back along {axis}", np.asarray(room + np.min(sum(moved), axis=0))


def _front_to_groove(made: MadeParts, piece: Piece, slot: Slot, back: Piece) -> Builds:
    """From a part's front edge to the front wall of its groove, off nominal."""
    wide = made.slot_width(piece, slot, back.material)
    return made.size(piece, Y) - made.slot_at(piece, slot) - wide


def _steps(shape: CaseShape, made: MadeParts) -> Iterator[Builds]:
    """Steps at the front edges: where the back's grooves are not in line, where a shelf meets the back."""
    back = shape.back
    grooves = {piece.mark: (piece, slot) for piece, slot in _back_slots(shape) if not slot.rabbet}
    if back is None or not grooves:
        return
    play = {mark: np.maximum(room, 0.0) for mark, room in _back_grooves(shape, made)}
    fronts = {mark: _front_to_groove(made, piece, slot, back) for mark, (piece, slot) in grooves.items()}
    sides = [mark for mark in grooves if shape.along[mark] == Z]
    for mark in grooves:
        if mark not in sides:
            for side in sides:
                apart = fronts[mark] - fronts[side]
                yield np.asarray(np.abs(apart) - np.where(apart > 0, play[side], play[mark]))
    wall = min(slot.low for _, slot in grooves.values())
    for piece in shape.pieces.values():
        if piece.role in (Role.FIXED_SHELF, Role.DIVIDER):
            clear = wall - piece.end(Y, 1)
            room = np.min([fronts[side] + play[side] for side in sides], axis=0)
            yield np.asarray(made.size(piece, Y) - clear - room)


def _rocks(shape: CaseShape, made: MadeParts) -> Iterator[Builds]:
    """How far the fourth pin of a shelf is from the plane of three: each row of holes is a cut of its own."""
    for shelf in shape.on_pins:
        rows = [made.draw(made.method.shop.cut, shelf.mark, "pin row", str(row)) for row in range(4)]
        yield np.abs(rows[0] - rows[1] - rows[2] + rows[3])


def _worst(verdicts: list[NDArray[np.int64]], made: MadeParts) -> NDArray[np.int64]:
    nothing = np.zeros(made.builds, dtype=np.int64)
    return np.asarray(np.max([nothing, *verdicts], axis=0))


def _any(flags: list[Flags], made: MadeParts) -> Flags:
    nothing = np.zeros(made.builds, dtype=bool)
    return np.asarray(np.any([nothing, *flags], axis=0))
