"""What can be wrong with rows of pin holes and the shelves on them, by name."""

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


def said(job: Job, length: Fraction) -> str:
    """A length as the job prints it, with its unit."""
    return show(length, job.mark, unit=True).marked


def check_pin_rows(job: Job, part: Part, sizes: Sizes) -> Iterator[Finding]:
    """Holes through the part, off it, or into one another from both faces."""
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
                f"pin holes from both faces are {said(job, depths)} deep together, "
                f"the {part.role.value} {said(job, thick)} thick: they run into one another.",
                "Bore less deep, or shift the rows of one bay.",
                Weight.WARN,
            )
            return  # one row says it for all


def check_shelves_on_pins(job: Job, case: Case, sizes: Sizes) -> Iterator[Finding]:
    """Shelves deeper than the case, without height, or without holes of their own."""
    inside = sizes.of(case.inside_depth)
    for part in case.parts:
        if part.role is Role.ADJUSTABLE_SHELF and sizes.of(part.width) > inside:
            yield Finding(
                "shelf-too-deep",
                part.mark,
                f"the shelf is {said(job, sizes.of(part.width))} deep, the case inside {said(job, inside)}.",
                "Set the shelf back more.",
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
            f"pin holes are {said(job, holes.depth)} deep, the {part.role.value} {said(job, thick)} thick.",
            "Bore less deep.",
        )
    across = sizes.of(part.size(row.edge.axis))
    if holes.setback + holes.diameter / 2 >= across:
        yield Finding(
            "pins-off-the-part",
            place,
            f"the row would lie {said(job, holes.setback)} in on a {part.role.value} "
            f"{said(job, across)} wide.",
            "Set the pins back less.",
        )
    length = sizes.of(part.size(row.end.axis))
    if holes.last >= length:
        yield Finding(
            "pins-off-the-part",
            place,
            f"the last hole would lie {said(job, holes.last)} up on a {part.role.value} "
            f"{said(job, length)} long.",
            "Lower the first hole.",
        )


def _opposite(part: Part, one: PinRow, other: PinRow, sizes: Sizes) -> bool:
    """Whether a hole of one row lies behind a hole of the other; both rows have the job's pitch."""
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
            f"the first pin is {said(job, made.pin_first)} up, the room only {said(job, high)} high.",
            "Set the first pin lower, or put no shelf on pins there.",
        )
    rises = [sizes.of(case.placed.corners[part.mark, Axis.Z]) for part in shelves]
    if any(upper - lower < thick for lower, upper in pairwise(sorted(rises))):
        yield Finding(
            "shelves-in-one-place",
            place,
            f"{len(shelves)} shelves have no holes of their own in {said(job, high)} of height.",
            "Ask for fewer shelves, or set the first pin lower.",
        )
