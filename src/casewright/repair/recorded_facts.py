"""The facts of a job, read from the shop's record."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace

from ..boards.board_plan import BoardPlan
from ..casework.directions import Way
from ..casework.parts.part import Part
from ..casework.project import Project
from ..planner.plan import PieceRole, Plan
from ..record.events import HarmName, RecordedHarm, Side
from ..record.shop_state import State, Status
from ..workshop.boards.board_work import NO_BOARDS
from ..workshop.operations import cut_key
from .boards_begun import boards_in_hand, cut_of_boards
from .facts import AsCut, Blank, Facts, Origin, begun_of_piece, is_of_boards, made_as, with_harms
from .flaws import Flaw
from .harm import CUT_AMISS, Harm, HarmKind
from .sheets_begun import facts_after


def facts_now(
    project: Project, plans: Mapping[str, Plan], state: State, boards: Mapping[str, BoardPlan] = NO_BOARDS
) -> Facts:
    """What is finished, spoiled and on hand, from the cuts ticked off and everything else recorded.

    A measured part has its measured size, a spoiled one what is said to be wrong with it too. Lost parts and
    offcuts are left out. A spoiled or lost part counts as sawn, whether its last cut was ticked off or not.
    A case is glued up once a part of it is, spoiled or not.
    """
    gone = state.with_status(Status.SPOILED, Status.LOST)
    facts = facts_after(project, plans, state.done | cuts_to_free(plans, gone), flaws_recorded(state))
    # Of a part that was cut where a fault lies, the record itself says whether it is good.
    freed = {**facts.finished, **{mark: replace(cut, harms=()) for mark, cut in facts.spoiled.items()}}
    come_off = state.with_status(Status.IN_HAND, Status.CUT, Status.ASSEMBLED)
    freed |= cut_of_boards(project, boards, state.done, come_off)
    finished = {
        mark: _measured(project, state, mark, cut)
        for mark, cut in freed.items()
        if state.status(mark) not in (Status.SPOILED, Status.LOST, Status.GIVEN_UP)
    }
    spoiled = {mark: _spoiled(project, state, mark) for mark in state.with_status(Status.SPOILED)}
    found = tuple(
        Blank(one.name, one.material, one.length, one.width, Origin.OFFCUT) for one in state.offcuts
    )
    facts = replace(
        facts,
        finished=finished,
        spoiled=spoiled,
        blanks=(*facts.blanks, *found),
        assembled=cases_glued(project, state),
        boards=boards_in_hand(boards, state.done, gone, finished),
    )
    return facts.without(state.lost).give_up(state.with_status(Status.GIVEN_UP))


def flaws_recorded(state: State) -> tuple[Flaw, ...]:
    """The faults found in sheets, as far as they can be."""
    return tuple(
        Flaw(one.material, one.sheet, one.x, one.y, one.length, one.width)
        for one in state.flaws.values()
        if min(one.length, one.width) > 0
    )


def without_a_place(project: Project, plans: Mapping[str, Plan], state: State) -> tuple[str, ...]:
    """The parts still to be cut whose place a fault of their sheet reaches."""
    if not state.flaws:
        return ()
    facts = facts_now(project, plans, state)
    planned = {mark for blank in facts.blanks for mark in blank.planned}
    bad = (*facts.spoiled, *state.with_status(Status.SPOILED, Status.LOST))
    return tuple(
        part.mark
        for part in facts.to_make(project)
        if part.mark not in {*planned, *bad} and not is_of_boards(project, part)
    )


def cases_glued(project: Project, state: State) -> frozenset[str]:
    """The cases of which some part is built in."""
    return frozenset(
        project.parts[mark].case
        for mark, part in state.parts.items()
        if part.within and part.status is not Status.LOST and mark in project.parts
    )


def cuts_to_free(plans: Mapping[str, Plan], marks: Iterable[str]) -> frozenset[str]:
    """The keys of all cuts that it takes to free these parts from their sheets."""
    freed = frozenset(marks)
    keys: set[str] = set()
    for material, plan in plans.items():
        for sheet in plan.sheets:
            for piece in sheet.root.walk():
                if any(one.item in freed for one in piece.walk() if one.role is PieceRole.PART):
                    keys |= {cut_key(material, sheet.number, cut.order) for cut in piece.cuts}
    return frozenset(keys)


def harms_recorded(project: Project, part: Part, recorded: Iterable[RecordedHarm]) -> tuple[Harm, ...]:
    """What is recorded as wrong with a part, as far as it is about a feature that the part has, a side of it,
    a material or another part of the job: the job may have lost it since."""
    features = {feature.name for feature in part.features}
    ways = {way.name.lower(): way for way in Way}
    found: list[Harm] = []
    for one in recorded:
        fault = HarmKind[one.fault.upper()]
        side = ways.get(one.side)
        about = one.feature if fault in CUT_AMISS else ""
        known = {
            HarmKind.DAMAGE: side is not None,
            HarmKind.MIRRORED: True,
            HarmKind.LEFT_OUT: True,
            HarmKind.MATERIAL: one.material in project.job.sheets,
            HarmKind.MADE_AS: one.other in project.parts,
        }.get(fault, about in features)
        if known and min(one.long, one.deep) >= 0:
            found.append(Harm(fault, about, side, one.long, one.deep, one.by, one.material, one.other))
    return tuple(found)


def recorded_harm(harm: Harm) -> RecordedHarm:
    """What is wrong with a part, as the record keeps it."""
    fault: HarmName = harm.fault.name.lower()  # type: ignore[assignment]  # a test compares the names
    side: Side = harm.side.name.lower() if harm.side else ""  # type: ignore[assignment]  # as above
    return RecordedHarm(fault, harm.feature, side, harm.long, harm.deep, harm.by, harm.material, harm.other)


def features_cut(part: Part, done: Collection[str]) -> frozenset[str]:
    """The features of a part of which some pass or hole is ticked off."""
    own = [key.removeprefix(f"{part.mark} ") for key in done if key.startswith(f"{part.mark} ")]
    return frozenset(
        one.name
        for one in part.features
        if any(key == one.name or key.startswith(f"{one.name} ") for key in own)
    )


def _spoiled(project: Project, state: State, mark: str) -> AsCut:
    part = project.parts[mark]
    harms = harms_recorded(project, part, state.parts[mark].harms)
    size = project.dimensions(made_as(project, harms) or part)[:2]
    cut = _measured(project, state, mark, AsCut(*size))
    begun = begun_of_piece(project, part, harms, features_cut(part, state.done))
    return with_harms(project, cut, harms, begun)


def _measured(project: Project, state: State, mark: str, cut: AsCut) -> AsCut:
    readings = state.facts()
    part = project.parts[mark]
    length = readings.get(part.length.name, cut.length)
    begun = features_cut(part, state.done)
    return AsCut(length, readings.get(part.width.name, cut.width), bool(begun), begun=begun)
