"""Rows of shelf pin holes that cannot be bored, and shelves that cannot rest on them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, pairwise

from ...findings import Finding, Weight
from ...lengths.length import show
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..directions import Axis
from ..job import Job
from ..parts.features import PinRow, place_from
from ..parts.part import Part, Role


def printed_length(job: Job, length: Fraction) -> str:
    """A length as the job prints it, with its unit."""
    return show(length, job.mark, unit=True).marked


def check_pin_rows(job: Job, part: Part, sizes: Sizes) -> Iterator[Finding]:
    """Findings for holes that go through the part, miss it, or meet holes bored from its other face."""
    rows = [feature for feature in part.features if isinstance(feature, PinRow)]
    thick = sizes.of(part.thickness)
    for row in rows:
        yield from _row(job, part, row, sizes)
    for one, other in combinations(rows, 2):
        depths = sizes.of(one.depth) + sizes.of(other.depth)
        if one.face is other.face.opposite and depths > thick and _opposite(part, one, other, sizes):
            yield Finding(
                "pins-meet",
                part.place_of(one),
                f"pin holes in both faces are {printed_length(job, depths)} deep together, "
                f"the {part.role.value} is {printed_length(job, thick)} thick: the holes would meet.",
                "Bore less deep, or move the pin rows of one bay.",
                Weight.WARN,
            )
            return  # one row says it for all


def check_shelves_on_pins(job: Job, case: Case, sizes: Sizes) -> Iterator[Finding]:
    """Findings for shelves that are too deep, have no room in height, or share their pin holes."""
    inside = sizes.of(case.inside_depth)
    for part in case.parts:
        if part.role is Role.ADJUSTABLE_SHELF and sizes.of(part.width) > inside:
            yield Finding(
                "shelf-too-deep",
                part.mark,
                f"the shelf is {printed_length(job, sizes.of(part.width))} deep; "
                f"the inside of the case is {printed_length(job, inside)}.",
                "Set the shelf back further.",
            )
    for room in case.on_pins:
        shelves = [part for part in case.parts if part.mark in room.shelves]
        if shelves:
            place = f"cases.{case.mark}.bays[{room.bay - 1}].adjustable"
            yield from _clear(job, case, shelves, sizes.of(room.height), place, sizes)


def _row(job: Job, part: Part, row: PinRow, sizes: Sizes) -> Iterator[Finding]:
    place = part.place_of(row)
    thick, holes = sizes.of(part.thickness), row.at(sizes)
    if holes.depth >= thick:
        yield Finding(
            "pins-too-deep",
            place,
            f"pin holes are {printed_length(job, holes.depth)} deep; "
            f"the {part.role.value} is {printed_length(job, thick)} thick.",
            "Bore less deep.",
        )
    across = sizes.of(part.size(row.edge.axis))
    if holes.setback + holes.diameter / 2 >= across:
        yield Finding(
            "pins-off-the-part",
            place,
            f"the pin row would be {printed_length(job, holes.setback)} in "
            f"from the edge of a {part.role.value} "
            f"{printed_length(job, across)} wide.",
            "Set the pins back less from the edge.",
        )
    length = sizes.of(part.size(row.end.axis))
    if holes.last >= length:
        yield Finding(
            "pins-off-the-part",
            place,
            f"the last pin hole would be {printed_length(job, holes.last)} "
            f"from the end of a {part.role.value} "
            f"{printed_length(job, length)} long.",
            "Start the first hole nearer the end.",
        )


def _opposite(part: Part, one: PinRow, other: PinRow, sizes: Sizes) -> bool:
    """Whether a hole of one row is directly behind a hole of the other; both rows have the same pitch."""
    reach = sizes.of(one.diameter)
    places = []
    for row in (one, other):
        across = sizes.of(place_from(row.edge, part.size(row.edge.axis), row.setback))
        holes = row.at(sizes)
        places.append((across, holes.first, holes.last))
    (across, first, last), (other_across, other_first, other_last) = places
    pitch = sizes.of(one.pitch)
    off = (other_first - first) % pitch
    together = first < other_last + reach and other_first < last + reach
    return abs(across - other_across) < reach and together and min(off, pitch - off) < reach


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
