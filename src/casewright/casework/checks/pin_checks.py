"""Rows of shelf pin holes that cannot be bored, and shelves that cannot rest on them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, pairwise

from ...findings import Finding, Weight
from ...lengths.length import show
from ...lengths.told_lengths import told_at_least
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..directions import Axis
from ..job import CaseSpec, Job
from ..parts.features.feature import Feature, place_from
from ..parts.holes import HoleRow
from ..parts.part import Part, Role

MOST_HOLES = 200
"""In one row: at 32 mm apart they reach 6.4 m. Every hole is drawn and checked against its neighbours."""


THIN_SKIN = Fraction(1, 16)
"""Left between holes from both faces, inches: less, and the point of the bit, which goes ahead of it, comes
through. Common practice, no source."""


def printed_length(job: Job, length: Fraction) -> str:
    """A length as the job prints it, with its unit."""
    return show(length, job.mark, unit=True).marked


def check_holes_meet(job: Job, part: Part, sizes: Sizes) -> Iterator[Finding]:
    """A finding where rows of holes bored from both faces of the part meet."""
    thick = sizes.of(part.thickness)
    rows = [(feature, row) for feature in part.features for row in feature.rows(sizes)]
    for (one, row), (other, behind) in combinations(rows, 2):
        if one.face is None or other.face is not one.face.opposite:
            continue
        depths = row.depth + behind.depth
        places = (_across(part, one, row, sizes), _across(part, other, behind, sizes))
        if depths > thick - THIN_SKIN and _meet(row, behind, abs(places[0] - places[1])):
            yield _opposed(job, part, one, depths, thick)
            return  # one row says it for all


def _opposed(job: Job, part: Part, row: Feature, depths: Fraction, thick: Fraction) -> Finding:
    place, deep, board = part.place_of(row), printed_length(job, depths), printed_length(job, thick)
    text = (
        f"{row.kind_words}s in both faces are {deep} deep together, the {part.role.value} is {board} thick: "
    )
    fix = "Bore less deep, or move the pin rows of one bay."
    if depths > thick:
        return Finding("pins-meet", place, f"{text}the holes would meet.", fix, Weight.WARN)
    left = printed_length(job, thick - depths)
    return Finding(
        "pins-thin-skin", place, f"{text}only {left} would be left between them.", fix, Weight.WARN
    )


def check_shelves_on_pins(job: Job, case: Case, sizes: Sizes) -> Iterator[Finding]:
    """Findings for shelves that are too deep, have no room in height, or share their pin holes."""
    inside = sizes.of(case.inside_depth + case.front_edging)
    for part in case.parts:
        if part.role is Role.ADJUSTABLE_SHELF and sizes.of(part.size(Axis.Y)) > inside:
            yield Finding(
                "shelf-too-deep",
                part.mark,
                f"the shelf is {printed_length(job, sizes.of(part.size(Axis.Y)))} deep; "
                f"the inside of the case is {printed_length(job, inside)}.",
                "Set the shelf back further.",
            )
    for room in case.on_pins:
        shelves = [part for part in case.parts if part.mark in room.shelves]
        if shelves:
            place = f"cases.{case.mark}.bays[{room.bay - 1}].adjustable"
            yield from _clear(job, case, shelves, sizes.of(room.height), place, sizes)


def check_pitch(job: Job, spec: CaseSpec) -> Iterator[Finding]:
    """A finding where pin holes would run into one another, or be more than anyone bores."""
    made, place = spec.construction, f"cases.{spec.mark}.pin_pitch"
    pitch = printed_length(job, made.pin_pitch)
    if made.pin_pitch <= made.pin_diameter:
        text = f"pin holes {printed_length(job, made.pin_diameter)} across would run together, {pitch} apart."
        yield Finding("pins-run-together", place, text, "Make pin_pitch larger, or pin_diameter smaller.")
    elif spec.height > MOST_HOLES * made.pin_pitch:
        text = f"rows of pin holes {pitch} apart would have more than {MOST_HOLES} holes each."
        yield Finding("too-many-pin-holes", place, text, "Make pin_pitch larger.")


def check_pin_places(job: Job, case: Case, sizes: Sizes) -> Iterator[Finding]:
    """Findings for pin rows that hold no shelf: behind the mounting strips, or the back row before the
    front one.
    """
    made = case.spec.construction
    on_pins = {mark for room in case.on_pins for mark in room.shelves}
    shelves = [part for part in case.parts if part.mark in on_pins]
    if not shelves:
        return
    inside = sizes.of(case.inside_depth)
    setback, place = printed_length(job, made.pin_setback), f"cases.{case.mark}.pin_setback"
    # Shelves are made shallower where strips in front of the back are in their way.
    taken = inside - made.shelf_setback - max(sizes.of(part.size(Axis.Y)) for part in shelves)
    if taken > 0 and made.pin_setback < taken + made.pin_diameter / 2:
        text = (
            f"the back row of pins is {setback} in front of the back, behind mounting strips "
            f"{printed_length(job, taken)} thick: no shelf reaches it."
        )
        fix = (
            f"Make pin_setback {told_at_least(taken + made.pin_diameter, job.mark)} or more, "
            "or put the strips behind a back in grooves."
        )
        yield Finding("pins-behind-strip", place, text, fix)
    elif 2 * made.pin_setback + made.pin_diameter > inside:
        text = (
            f"pin rows {setback} from front and back would pass each other; "
            f"the case is {printed_length(job, inside)} deep inside."
        )
        yield Finding("pin-rows-cross", place, text, "Make pin_setback smaller.")


def _across(part: Part, feature: Feature, row: HoleRow, sizes: Sizes) -> Fraction:
    """The place of a row across the part, from its low corner."""
    edge = feature.edges[0]
    return sizes.of(place_from(edge, part.size(edge.axis), row.setback))


def _meet(one: HoleRow, other: HoleRow, apart: Fraction) -> bool:
    """Whether a hole of one row is directly behind a hole of the other."""
    reach = one.diameter
    if one.pitch != other.pitch or not one.pitch:
        return apart < reach and any(abs(a - b) < reach for a in one.holes for b in other.holes)
    off = (other.first - one.first) % one.pitch
    together = one.first < other.last + reach and other.first < one.last + reach
    return apart < reach and together and min(off, one.pitch - off) < reach


def _clear(
    job: Job, case: Case, shelves: list[Part], high: Fraction, place: str, sizes: Sizes
) -> Iterator[Finding]:
    made = case.spec.construction
    thick = sizes.of(shelves[0].thickness)
    if made.pin_first + made.pin_diameter / 2 + thick > high:
        yield Finding(
            "no-height-for-shelf",
            place,
            f"the first pin is {printed_length(job, made.pin_first)} up; "
            f"the clear height is only {printed_length(job, high)} high.",
            "Set the first pin lower, or ask for no adjustable shelf there.",
        )
    rises = [sizes.of(case.placement.corners[part.mark, Axis.Z]) for part in shelves]
    if any(upper - lower < thick for lower, upper in pairwise(sorted(rises))):
        yield Finding(
            "shelves-in-one-place",
            place,
            f"{len(shelves)} shelves would share pin holes in a clear height of {printed_length(job, high)}.",
            "Ask for fewer shelves, or set the first pin lower.",
        )
