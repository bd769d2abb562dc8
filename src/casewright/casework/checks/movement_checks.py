"""Solid wood that its joints do not let move: glued across its grain, or tight or loose in its grooves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from ...findings import Finding, Weight
from ...lengths.in_a_sentence import listed
from ...lengths.quantities import short_number
from ...lengths.told_lengths import told_at_least
from ...shop.figure_limits import figure_limits
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..build.meetings import Mate, Meeting
from ..directions import Axis
from ..job import BackKind, Job
from ..movement import Movement, as_usual, climate_text, panel_movement, where_assumed
from ..parts.part import FRONTS, Part, Role
from .each_once import each_once
from .front_movement import check_front
from .movement_words import name_of_wood, told_movement
from .pin_checks import printed_length

WIDEST_HELD = Fraction(6)
"""Inches of solid wood that may be glued across its grain: glue and wood give that much. Common practice, no
source."""

UNFELT = Fraction(1, 64)
"""Inches by which two glued parts may move against each other. Common practice, no source."""

LEAST_LAP = Fraction(1, 16)
"""Inches of a back that stay in each of its grooves when it has shrunk. Common practice, no source."""


def check_movement(job: Job, cases: Iterable[Case], sizes: Sizes) -> tuple[Finding, ...]:
    """Findings about parts of solid wood, and what moisture they go by where the maker does not say it."""
    drawn = tuple(cases)
    solid = [
        (case, part) for case in drawn for part in case.parts if job.sheets[part.material].wood is not None
    ]
    if not solid:
        return ()
    found = [finding for case, part in solid for finding in _of_part(job, case, part, sizes)]
    return (*each_once(found), *_not_settled(job), *_assumed(job))


def _not_settled(job: Job) -> Iterator[Finding]:
    """Boards damper than wood gets in the house, or drier: what is cut to size now goes on moving one way."""
    climate = job.climate
    damp, dry = climate.in_shop > climate.at_dampest, climate.in_shop < climate.at_driest
    if damp or dry:
        shop, low, high, middle = (
            short_number(one)
            for one in (
                climate.in_shop,
                climate.at_driest,
                climate.at_dampest,
                (climate.at_driest + climate.at_dampest) / 2,
            )
        )
        than, then = ("more", "narrower") if damp else ("less", "wider")
        text = (
            f"the boards have {shop} % of moisture in the shop, {than} than wood ever has in the house, "
            f"{low} to {high} %: what is cut to size now is {then} there all year round."
        )
        fix = (
            f"Let the boards {'dry' if damp else 'come up'} to {middle} % before their final sizes are cut: "
            "stack them with sticks between, in air like that of the house, until the meter stays there."
        )
        yield Finding("boards-not-settled", "climate.shop", text, fix, Weight.NOTE)


def _assumed(job: Job) -> Iterator[Finding]:
    if job.climate.assumed:
        climate = job.climate
        text = f"the moisture of the wood is taken to be {climate_text(climate)}, {as_usual(climate)}."
        fix = f"Enter what wood has in {where_assumed(climate)}: {listed(climate.left_out)} under climate."
        yield Finding("climate-assumed", "climate", text, fix, Weight.NOTE)


def _of_part(job: Job, case: Case, part: Part, sizes: Sizes) -> Iterator[Finding]:
    if part.mark in job.either_way:
        text = f"{part.mark} is solid {name_of_wood(job, part)}: with its grain the short way it would snap."
        fix = "Take it out of either_way."
        yield Finding("solid-either-way", "either_way", text, fix, Weight.WARN)
    if part.role is Role.ADJUSTABLE_SHELF:
        return
    if part.role in FRONTS:
        yield from check_front(job, case, part, sizes)
    elif part.role is Role.BACK and case.spec.construction.back is BackKind.GROOVE:
        yield from _in_grooves(job, case, part, sizes)
    else:
        yield from _held(job, case, part, sizes)


def _held(job: Job, case: Case, part: Part, sizes: Sizes) -> Iterator[Finding]:
    """A finding where a part is glued across its grain, over the widest of the joints that hold it."""
    parts = {one.mark: one for one in case.parts}
    worst: tuple[Fraction, Part] | None = None
    for mate in case.mates:
        other = parts.get(_other_of(mate, part))
        if other is None or not _glued(mate, other):
            continue
        held = _overlap(case, part, other, part.lie.width, sizes)
        if held > WIDEST_HELD and _apart(job, part, other, held) > UNFELT:
            worst = max(worst or (held, other), (held, other), key=lambda one: one[0])
    if worst is None:
        return
    held, other = worst
    moves = panel_movement(held, job.sheets[part.material], job.climate)
    text = (
        f"the {part.role.value} is solid {name_of_wood(job, part)}, glued over "
        f"{printed_length(job, held)} of its width to the {other.role.value}, which does not move with it. "
        f"{told_movement(job, moves)}"
    )
    yield Finding(
        "glued-across-grain", part.mark, text, _FLOAT if part.role is Role.BACK else _LET_GO, Weight.WARN
    )


_LET_GO = (
    "Make both of the same wood with the grain one way, or both of plywood; or glue only the front inch or "
    "two and leave the rest of the joint dry."
)
_FLOAT = 'Let it move in grooves: set back = "groove", or use plywood.'


def _in_grooves(job: Job, case: Case, back: Part, sizes: Sizes) -> Iterator[Finding]:
    """Findings where a back has too little room in the grooves of the sides, or too little hold."""
    made, width = case.spec.construction, sizes.of(back.width)
    moves = panel_movement(width, job.sheets[back.material], job.climate)
    words = f"the back is solid {name_of_wood(job, back)}, {printed_length(job, width)} wide"
    if moves.swells > made.back_play:
        text = (
            f"{words}, with {printed_length(job, made.back_play)} of play in its grooves. "
            f"{told_movement(job, moves)} It would push the sides apart."
        )
        yield Finding("back-swells", f"cases.{case.mark}.back_play", text, _room_for(job, moves), Weight.WARN)
    lap = made.groove_depth - (max(made.back_play, moves.swells) + moves.shrinks) / 2
    if lap < LEAST_LAP:
        deep = printed_length(job, made.groove_depth)
        text = f"{words}, in grooves {deep} deep. {told_movement(job, moves)} It would slip out of them."
        deeper = told_at_least(made.groove_depth + LEAST_LAP - lap, job.mark)
        fix = f"Make groove_depth {deeper} or more, or use plywood."
        yield Finding("back-slips-out", f"cases.{case.mark}.groove_depth", text, fix, Weight.WARN)


def _room_for(job: Job, moves: Movement) -> str:
    """What to do about a back that swells more than its play."""
    most = figure_limits()["plays"]["back_play"].most
    if most is not None and moves.swells > most:
        can = printed_length(job, most)
        return f"No groove leaves so much, at most {can}: use plywood, or narrower or quartersawn boards."
    return (
        f"Set back_play to {told_at_least(moves.swells, job.mark)} or more, and pin the back at the middle "
        "of its width, so that both edges move alike; or use plywood."
    )


def _other_of(mate: Mate, part: Part) -> str:
    """The mark of the part that a mate joins to `part`; empty where it joins two others."""
    marks = (mate.first.part, mate.second.part)
    return (marks[1] if marks[0] == part.mark else marks[0]) if part.mark in marks else ""


def _glued(mate: Mate, other: Part) -> bool:
    """Whether glue holds a meeting; shelves on pins are loose."""
    return mate.meeting in (Meeting.SEATED, Meeting.SLIP) and other.role is not Role.ADJUSTABLE_SHELF


def _overlap(case: Case, one: Part, other: Part, axis: Axis, sizes: Sizes) -> Fraction:
    """How far two parts lie beside each other along an axis, in inches."""
    spans = []
    for part in (one, other):
        low = sizes.of(case.placement.corners[part.mark, axis])
        spans.append((low, low + sizes.of(part.size(axis))))
    return min(high for _, high in spans) - max(low for low, _ in spans)


def _apart(job: Job, part: Part, other: Part, held: Fraction) -> Fraction:
    """How far the part would move against the other over the width that it is held by."""
    own = panel_movement(held, job.sheets[part.material], job.climate)
    along = other.lie.width is part.lie.width
    theirs = panel_movement(held, job.sheets[other.material], job.climate) if along else Movement()
    return max(abs(own.shrinks - theirs.shrinks), abs(own.swells - theirs.swells))
