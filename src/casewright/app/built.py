"""The fit as the shop's record tells it: what is cut, what was measured, what no longer closes."""

from __future__ import annotations

from dataclasses import dataclass

from ..casework.project import Project
from ..findings import Finding
from ..fit.as_built import AsBuilt, Built, build
from ..fit.causes import Tool
from ..fit.cures import broken, cures
from ..fit.planned import planned_method
from ..fit.spread import Fit, fit
from ..fit.words import alike, length, off, sentence
from ..record.state import State, Status
from .shop import Floor, Heard

CUT = (Status.CUT, Status.ASSEMBLED)


@dataclass(frozen=True)
class AsItStands:
    """How the job closes with what the shop has cut and measured so far, in words."""

    cut: int
    readings: tuple[str, ...]
    broken: tuple[str, ...]
    cures: tuple[str, ...]
    findings: tuple[Finding, ...]


def as_it_stands(heard: Heard) -> AsItStands | None:
    """What the record says of the fit; None while no work is handed out."""
    if heard.floor is None or heard.state is None:
        return None
    built = built_of(heard.floor, heard.state)
    project = heard.floor.project
    return AsItStands(
        sum(part.status in CUT for part in heard.state.parts.values()),
        tuple(_said(project, built.as_built, name) for name in built.as_built.names()),
        tuple(off(project, spread) for spread in broken(built.fit)),
        tuple(sentence(project, cure) for cure in alike(cures(built.fit, built.as_built), project)),
        built.findings,
    )


def built_of(floor: Floor, state: State) -> Built:
    """The fit of the work handed out, at the facts of the record.

    Parts that are cut keep the sizes the work was handed out with; every reading is taken over in
    its order. What was spoiled or lost is no fact of the parts that take its place.
    """
    plan = plan_of(floor)
    gone = set(state.with_status(Status.SPOILED, Status.LOST, Status.GIVEN_UP))
    so_far = AsBuilt().cut_now(plan, state.with_status(*CUT))
    for name, readings in state.readings.items():
        if _part_of(name) in gone:
            continue
        for reading in readings:
            so_far = so_far.read(name, reading.value, _tool(reading.tool), reading.bench)
    return build(plan, so_far)


def plan_of(floor: Floor) -> Fit:
    """The gaps of the work handed out, its settings shared as its batches share them."""
    made = fit(floor.project).made
    return fit(floor.project, planned_method(floor.project, made, floor.ordered.batches))


def _part_of(name: str) -> str:
    return name.partition(".")[0]


def _tool(said: str) -> Tool:
    """The tool a bench names; a rule where it names none that is known."""
    return next((tool for tool in Tool if tool.value == said), Tool.RULE)


def _said(project: Project, so_far: AsBuilt, name: str) -> str:
    ledger = project.sizes.ledger
    words = ledger[name].words if name in ledger else name
    values = ", ".join(length(project, reading.value) for reading in so_far.of(name))
    planned = f", planned {length(project, project.sizes.of(name))}" if name in ledger else ""
    return f"{words} {values}{planned}"
