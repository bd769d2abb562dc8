"""One question before the first tick of a batch, where a mistake is likely: which of a pair is in hand, which
way the grain runs, or for which of two parts the fence is set. No more than one a batch."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from ...casework.parts.part import DRAWER_BOX, FACE_FRAME, Role
from ...repair.prevention.easily_turned import WrongTurn
from ...repair.prevention.saw_check import Likeness
from ...workshop.operations import Operation
from ...workshop.order.batches import Batch
from ..jobs.worked_job import PlannedJob

LOOKS: Mapping[Role, str] = {
    **dict.fromkeys((Role.LEFT_SIDE, Role.RIGHT_SIDE, Role.DIVIDER), "upright"),
    **dict.fromkeys((Role.BOTTOM, Role.TOP, Role.FIXED_SHELF, Role.ADJUSTABLE_SHELF), "board"),
    **dict.fromkeys((Role.FRONT_STRETCHER, Role.BACK_STRETCHER, Role.MOUNTING_STRIP), "strip"),
    **dict.fromkeys((Role.TOE_KICK, Role.PLINTH_FRONT, Role.PLINTH_BACK, Role.PLINTH_END), "strip"),
    **dict.fromkeys((*FACE_FRAME, Role.DOOR_STILE, Role.DOOR_RAIL), "strip"),
    **dict.fromkeys(DRAWER_BOX, "drawer part"),
    **dict.fromkeys((Role.DOOR, Role.DOOR_PANEL, Role.DRAWER_FRONT, Role.FIXED_FRONT), "front"),
    Role.BACK: "back",
    Role.FILLER: "filler",
}
"""What parts look like while they are bare pieces: a person confuses only what looks alike (common practice,
no source)."""


@dataclass(frozen=True)
class TapQuestion:
    """What is asked, the answers to tap, which of them is right, and what to do after another."""

    text: str
    answers: tuple[str, ...]
    right: str
    otherwise: str


def question_of(planned: PlannedJob, batch: Batch) -> TapQuestion | None:
    """The question that a batch gives most reason for; None where nothing is likely to go wrong."""
    for find in (_of_a_pair, _of_holes, _of_the_grain, _of_twins):
        if found := next(find(planned, batch), None):
            return found
    return None


def _of_a_pair(planned: PlannedJob, batch: Batch) -> Iterator[TapQuestion]:
    """A left and its right on one setting, one with this edge first and the other with that."""
    by_piece = {one.piece: one for one in batch.operations if one.hold.leads and batch.setting is not None}
    for pair in planned.worked.easily_turned:
        if pair.how is not WrongTurn.HAND:
            continue
        for left, right in zip(pair.first, pair.second, strict=True):
            one, other = by_piece.get(left), by_piece.get(right)
            if one is None or other is None or one.hold.leads == other.hold.leads:
                continue
            asked = one if _even(batch) else other
            yield TapQuestion(
                f"{left} or {right}? {_lying(asked)}, the {asked.hold.leads} goes first. Which one is that?",
                (left, right),
                asked.piece,
                f"Stop. {left} goes {one.hold.leads} first, {right} {other.hold.leads} first. Open the two "
                "like a book, the faces that look into the case up and the front edges together; mark the "
                "front edges and cut then.",
            )


def _of_holes(planned: PlannedJob, batch: Batch) -> Iterator[TapQuestion]:
    """Rows of holes in a side whose mate is bored as its mirror image. Seen from inside with its lower end
    down, a left side has its front edge on the left."""
    bored = {one.piece for one in batch.operations if one.holes}
    for pair in planned.worked.easily_turned:
        for left, right in zip(pair.first, pair.second, strict=False):
            here = [mark for mark in (left, right) if mark in bored]
            if not here or planned.project.parts[left].role is not Role.LEFT_SIDE:
                continue
            mark = here[0] if _even(batch) else here[-1]
            yield TapQuestion(
                f"{mark} lies with the face that looks into the case up, its lower end toward you. On which "
                "hand is its front edge?",
                ("left", "right"),
                "left" if mark == left else "right",
                f"Stop. The front edge of {left} is then on your left, that of {right} on your right. Bored "
                "alike, one of them is waste: mark inside and front edge on both, and bore then.",
            )


def _even(batch: Batch) -> bool:
    """So that the right answer is not always the first one."""
    return sum(batch.key.encode()) % 2 == 0


def _lying(one: Operation) -> str:
    return f"With its {one.hold.down} down and its {one.hold.against} against the fence"


def _cuts_to_size(batch: Batch) -> Iterator[tuple[Operation, str]]:
    return ((one, mark) for one in batch.operations if one.makes for mark in one.sizes)


def _of_the_grain(planned: PlannedJob, batch: Batch) -> Iterator[TapQuestion]:
    """A nearly square part that comes to size in this batch."""
    here = {mark for _, mark in _cuts_to_size(batch)}
    for one in planned.worked.easily_turned:
        mark = next((mark for mark in one.first if mark in here), None)
        if one.how is not WrongTurn.GRAIN or mark is None or one.sizes[0] == one.sizes[1]:
            continue
        long, wide = (planned.project.printed(size) for size in one.sizes)
        yield TapQuestion(
            f"{mark} is nearly square, {long} by {wide}. Along which does its grain run?",
            tuple(f"along the {size}" for size in sorted((long, wide))),
            f"along the {long}",
            f"Stop. The grain runs along the {long}. Draw an arrow along it, and measure both ways first.",
        )


def _look(planned: PlannedJob, mark: str) -> str:
    """What a part looks like in the hand: nobody takes a board for a strip."""
    return LOOKS[planned.project.parts[mark].role]


def _of_twins(planned: PlannedJob, batch: Batch) -> Iterator[TapQuestion]:
    """A part whose twin by a hair is cut at another setting, where the two look alike too."""
    cuts = [(mark, one.makes) for one, mark in _cuts_to_size(batch)]
    here = {mark for mark, _ in cuts}
    for alike in planned.worked.look_alikes:
        if alike.likeness is not Likeness.CLOSE:
            continue
        sides = ((alike.first, alike.sizes[0]), (alike.second, alike.sizes[1]))
        for (marks, size), (others, twin) in (sides, sides[::-1]):
            mark = next((mark for mark, makes in cuts if mark in marks and makes == size), None)
            look = _look(planned, mark) if mark else ""
            others = tuple(other for other in others if mark and _look(planned, other) == look)
            if mark is None or not others or here & set(others):
                continue
            set_to, other = (planned.project.printed(one) for one in (size, twin))
            if set_to == other:
                continue
            word = alike.dimension.value
            yield TapQuestion(
                f"The {word} set here is {set_to}. Is that {mark} or {others[0]}?",
                tuple(sorted((mark, others[0]))),
                mark,
                f"Stop. {mark} is {set_to}, {others[0]} is {other}: a hair apart. Look at the mark on the "
                "piece and set the fence anew before you cut.",
            )
