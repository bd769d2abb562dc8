"""From strips to a panel: edges jointed in pairs, glued up, flushed, and cut to size like any part.

The strips are planed a little thicker than the panel: glued strips never lie quite level, and what levels
them comes off that.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...boards.board_plan import BoardPlan
from ...boards.glue_up import glued_width
from ...casework.parts.part import Part
from ...casework.project import Project
from ...casework.size_names import thickness_of
from ...planner.problem import Edge
from ..assembly.clamps import clamps_along
from ..freed_pieces import Freed, FreedPiece
from ..operations import HANDS, Cutter, Guide, Hold, Machine, Operation, OperationKind, Setting
from ..sheets.sheet_cuts import blade
from .board_problems import board_problem, strips_planed_to

PLANER_WIDTH = Fraction(12)
"""Inches of the widest panel that goes through a planer; bench-top planers take 12 to 13 in. From memory."""

_NO_HOLD = Hold("", "", "", False)
_NEAR = Hold(f"{Edge.NEAR.value} edge", "other face", "", True)
_END = Hold(f"{Edge.LEFT.value} edge", "other face", "", False)
_STEP = re.compile(r"(.+) panel (\S+) .+", re.ASCII)


def panel_of_step(key: str) -> tuple[str, str] | None:
    """The material and the mark of the glued-up part that a step's key names; None for any other key."""
    named = _STEP.fullmatch(key)
    return None if named is None else (named[1], named[2])


def panel_crosscut_key(material: str, mark: str) -> str:
    """The key of the step that cuts a glued-up part to its length."""
    return f"{_panel_name(material, mark)} crosscut"


def _panel_name(material: str, mark: str) -> str:
    """How the steps of a glued-up part begin."""
    return f"{material} panel {mark}"


@dataclass(frozen=True)
class GluedPanel:
    """A part that is glued up: its strips by their marks, its size as it comes out of the clamps, how wide a
    strip is before its edges are jointed, and how many clamps are on it at once."""

    part: Part
    strips: tuple[str, ...]
    length: Fraction
    width: Fraction
    strip_width: Fraction
    thickness: Fraction
    clamps: int

    @property
    def through_planer(self) -> bool:
        """Whether a planer takes it; else it is levelled by hand."""
        return self.width <= PLANER_WIDTH


def glued_panels(project: Project, material: str, plan: BoardPlan) -> tuple[GluedPanel, ...]:
    """The parts of a plan that are glued up, in its order."""
    return tuple(glued_panel(project, material, plan, mark) for mark in plan.glued)


def glued_panel(project: Project, material: str, plan: BoardPlan, mark: str) -> GluedPanel:
    """One of them by its mark."""
    part = project.parts[mark]
    problem = board_problem(project, material, [part])
    (whole,) = problem.parts
    made = [(strip, one) for _, _, strip in plan.strips() for one in strip.wanted if one.panel == mark]
    length = min(one.length for _, one in made)
    return GluedPanel(
        part,
        plan.glued[mark],
        length,
        glued_width(problem, whole),
        max(strip.width for strip, _ in made),
        strips_planed_to(project, material),
        clamps_along(length),
    )


def glue_up_steps(
    project: Project, material: str, panel: GluedPanel, after: tuple[str, ...]
) -> Iterator[Operation]:
    """The operations from planed strips to a part of its size."""
    mark = panel.part.mark
    name, piece = _panel_name(material, mark), f"glued-up {mark}"
    planed, saw = project.sizes.of(thickness_of(material)), blade(project.job.shop)
    rough = (panel.length, panel.width, panel.thickness)
    jointer = Setting(Machine.JOINTER, Cutter("jointer knives", Fraction(0)), Guide.FENCE, Fraction(0))
    yield Operation(
        f"{name} edges", OperationKind.EDGE_PAIRS, piece, (mark,), jointer, _NO_HOLD,
        (panel.length, panel.strip_width, panel.thickness), 2 * len(panel.strips) * panel.length, after,
    )  # fmt: skip
    yield Operation(
        f"{name} glue-up", OperationKind.GLUE_PANEL, piece, (mark,), HANDS, _NO_HOLD, rough, Fraction(0),
        (f"{name} edges",),
    )  # fmt: skip
    planer = Setting(Machine.PLANER, Cutter("planer knives", Fraction(0)), Guide.BED, planed)
    yield Operation(
        f"{name} flushing", OperationKind.FLUSH, piece, (mark,),
        planer if panel.through_planer else HANDS, _NO_HOLD, rough, 2 * panel.length,
        (f"{name} glue-up",), planed if panel.through_planer else None,
    )  # fmt: skip
    long, wide = project.planned_size(panel.part)
    yield Operation(
        f"{name} rip", OperationKind.RIP, piece, (mark,), Setting(Machine.TABLE_SAW, saw, Guide.FENCE, wide),
        _NEAR, (panel.length, panel.width, planed), panel.length, (f"{name} flushing",), wide, sizes=(mark,),
    )  # fmt: skip
    yield Operation(
        panel_crosscut_key(material, mark), OperationKind.CROSSCUT, piece, (mark,),
        Setting(Machine.TABLE_SAW, saw, Guide.STOP, long), _END, (panel.length, wide, planed), wide,
        (f"{name} rip",), long, sizes=(mark,),
        leaves=(FreedPiece(Freed.PART, mark, Edge.LEFT.value, long, wide),),
    )  # fmt: skip
