"""Solid wood in doors and drawer fronts: panels in their grooves, and slabs between their gaps."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...findings import Finding, Weight
from ...lengths.told_lengths import told_at_least
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..directions import Axis
from ..front_choices import FrontLie
from ..job import Job
from ..movement import panel_movement
from ..parts.part import SLABS, Part, Role
from .movement_words import name_of_wood, told_movement
from .pin_checks import printed_length

LEAST_IN_GROOVE = Fraction(1, 8)
"""Inches of a panel that stay in each groove when it has shrunk. Common practice, no source."""

FREE = Fraction(1, 32)
"""Inches of gap that a front needs where it has swollen, so that it does not rub. Common practice, no
source."""


def check_front(job: Job, case: Case, part: Part, sizes: Sizes) -> Iterator[Finding]:
    """Findings about one part of a front that is of solid wood."""
    if part.role is Role.DOOR_PANEL:
        yield from _panel(job, case, part, sizes)
    elif part.role in SLABS:
        yield from _slab(job, case, part, sizes)


def _panel(job: Job, case: Case, panel: Part, sizes: Sizes) -> Iterator[Finding]:
    """A panel that would push its frame apart, or slip out of it."""
    made, width = case.spec.construction, sizes.of(panel.width)
    moves = panel_movement(width, job.sheets[panel.material], job.climate)
    told = told_movement(job, moves)
    words = f"the {panel.role.value} is solid {name_of_wood(job, panel)}, {printed_length(job, width)} wide"
    if moves.swells > made.panel_play:
        play = printed_length(job, made.panel_play)
        text = f"{words}, with {play} of play in its frame. {told} It would push the frame apart."
        fix = f"Set panel_play to {told_at_least(moves.swells, job.mark)} or more."
        yield Finding("panel-swells", f"cases.{case.mark}.panel_play", text, fix, Weight.WARN)
    stays = made.door_tongue - (max(made.panel_play, moves.swells) + moves.shrinks) / 2
    if stays < LEAST_IN_GROOVE:
        deep = printed_length(job, made.door_tongue)
        text = f"{words}, in grooves {deep} deep. {told} It would show its edge, or slip out."
        deeper = told_at_least(made.door_tongue + LEAST_IN_GROOVE - stays, job.mark)
        fix = f"Make door_tongue {deeper} or more, or make two doors of it."
        yield Finding("panel-slips-out", f"cases.{case.mark}.door_tongue", text, fix, Weight.WARN)


def _slab(job: Job, case: Case, slab: Part, sizes: Sizes) -> Iterator[Finding]:
    """A slab that would close the gaps beside it, or, where its grain is level, those above and below."""
    made, width = case.spec.construction, sizes.of(slab.width)
    moves = panel_movement(width, job.sheets[slab.material], job.climate)
    # An inset front has a gap at both edges; others share theirs with a neighbour that swells as well.
    inset = made.fronts is FrontLie.INSET
    room = (2 * made.front_gap if inset else made.front_gap) - FREE
    if moves.swells <= room:
        return
    where = "beside" if slab.lie.width is Axis.X else "above and below"
    wide, gap = printed_length(job, width), printed_length(job, made.front_gap)
    text = (
        f"the {slab.role.value} is solid {name_of_wood(job, slab)}, {wide} wide across its grain, with "
        f"{gap} of gap {where} it. {told_movement(job, moves)} It would rub."
    )
    wider = told_at_least((moves.swells + FREE) / (2 if inset else 1), job.mark)
    fix = f"Set front_gap to {wider} or more, or make it a frame with a panel."
    yield Finding("front-swells", f"cases.{case.mark}.front_gap", text, fix, Weight.WARN)
