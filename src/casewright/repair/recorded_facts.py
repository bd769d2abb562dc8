"""The facts of a job, read from the shop's record."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from ..casework.project import Project
from ..planner.plan import PieceRole, Plan
from ..record.shop_state import State, Status
from ..workshop.operations import cut_key
from .facts import AsCut, Blank, Facts, Origin, facts_after


def facts_now(project: Project, plans: Mapping[str, Plan], state: State) -> Facts:
    """What is finished, spoiled and on hand, from the cuts ticked off and everything else recorded.

    A measured part has its measured size. Lost parts and offcuts are left out. A spoiled or lost part
    counts as sawn, whether its last cut was ticked off or not.
    """
    gone = state.with_status(Status.SPOILED, Status.LOST)
    facts = facts_after(project, plans, state.done | cuts_to_free(plans, gone))
    finished = {
        mark: _measured(project, state, mark, cut)
        for mark, cut in facts.finished.items()
        if state.status(mark) not in (Status.SPOILED, Status.LOST, Status.GIVEN_UP)
    }
    spoiled = {
        mark: _measured(project, state, mark, AsCut(*project.dimensions(project.parts[mark])[:2]))
        for mark in state.with_status(Status.SPOILED)
    }
    found = tuple(
        Blank(one.name, one.material, one.length, one.width, Origin.OFFCUT) for one in state.offcuts
    )
    facts = replace(
        facts,
        finished=finished,
        spoiled=spoiled,
        blanks=(*facts.blanks, *found),
        assembled=frozenset(
            project.parts[mark].case for mark in state.with_status(Status.ASSEMBLED) if mark in project.parts
        ),
    )
    return facts.without(state.lost).give_up(state.with_status(Status.GIVEN_UP))


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


def _measured(project: Project, state: State, mark: str, cut: AsCut) -> AsCut:
    readings = state.facts()
    worked = any(
        f"{mark} {feature.name}" in key for key in state.done for feature in project.parts[mark].features
    )
    part = project.parts[mark]
    length = readings.get(part.length.name, cut.length)
    return AsCut(length, readings.get(part.width.name, cut.width), worked)
