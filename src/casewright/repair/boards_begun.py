"""How far the boards of a job are cut, by the steps that are done and the parts that came of them."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from ..boards.board_plan import BoardPlan
from ..boards.cut_once_more import BoardsInHand
from ..casework.project import Project
from ..workshop.boards.board_work import (
    board_crosscut_key,
    board_of_step,
    glued_planing_key,
    part_crosscut_key,
    planing_key,
)
from ..workshop.boards.glue_up_work import panel_crosscut_key, panel_of_step
from .facts import AsCut


def boards_in_hand(
    plans: Mapping[str, BoardPlan],
    done: Collection[str],
    no_good: Collection[str] = (),
    good: Collection[str] = (),
) -> dict[str, BoardsInHand]:
    """The boards of each material once the steps whose keys are in `done` are done. The parts that are
    `no_good`, spoiled or lost, have come off their boards, whether that was ticked off or not; so have the
    `good` ones that are cut."""
    return {
        material: BoardsInHand(
            plan,
            frozenset(_begun(material, plan, done, {*no_good, *good})),
            not {planing_key(material), glued_planing_key(material)}.isdisjoint(done),
            plan.marks.intersection(no_good),
        )
        for material, plan in plans.items()
    }


def cut_of_boards(
    project: Project, plans: Mapping[str, BoardPlan], done: Collection[str], cut: Collection[str] = ()
) -> dict[str, AsCut]:
    """The parts of boards that are cut to their size, as planned: by the steps that are `done`, and those
    that are known to be `cut`."""
    keys = {
        key: part.of_part
        for material, plan in plans.items()
        for one in plan.boards
        for part in one.parts
        for key in (
            part_crosscut_key(material, one.number, part.of_part),
            panel_crosscut_key(material, part.of_part),
        )
    }
    marks = dict.fromkeys(mark for key, mark in keys.items() if key in done or mark in cut)
    return {mark: AsCut(*project.dimensions(project.parts[mark])[:2]) for mark in marks}


def crosscuts_made(boards: Mapping[str, BoardsInHand]) -> Iterator[str]:
    """The keys of the first cuts of the boards that are begun: nothing comes off a board without them."""
    for material, hand in boards.items():
        for number in sorted(hand.begun):
            first = min(length.later for length in hand.plan.numbered(number).lengths)
            yield board_crosscut_key(material, number, first)


def _begun(material: str, plan: BoardPlan, done: Collection[str], cut: Collection[str]) -> Iterator[int]:
    steps = [named for key in done if (named := board_of_step(key)) is not None]
    numbers = {number for key, number in steps if key == material}
    glued = [of for key in done if (of := panel_of_step(key)) is not None]
    panels = {mark for key, mark in glued if key == material}
    for one in plan.boards:
        if one.number in numbers or not {*cut, *panels}.isdisjoint(one.marks):
            yield one.number
