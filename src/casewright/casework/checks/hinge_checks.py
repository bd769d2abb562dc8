"""Hinges that a door cannot hang on: none named, none that reaches, cups and plates without room."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ...findings import Finding, Weight
from ...lengths.told_lengths import told_at_least
from ...shop.hinges import hinges_needed, too_close
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..build.fittings import FittingChoice
from ..build.fronts.door_hinges import CUPS, PLATE_REACH, DoorHinges
from ..directions import Axis
from ..job import Job
from ..parts.features.feature import Feature
from ..parts.features.hinge_holes import HingePlate
from ..parts.part import Hand, Part, Role
from .pin_checks import printed_length

WOOD_BESIDE = Fraction(1, 8)
"""Wood that is left between a cup and the inner edge of a stile, inches. Common practice, no source."""


def check_hinges(job: Job, case: Case, sizes: Sizes) -> Iterator[Finding]:
    """Findings about the hinges of a case's doors."""
    hung = [hinges for bay in case.fronts for front in bay.fronts for hinges in front.hinges]
    place = f"cases.{case.mark}.fitted_with.hinge"
    if any(one.hinge is None for one in hung):
        text = f"no hinge is named for the doors of {case.mark}, so nothing is bored for them."
        fix = f"Fit {case.mark} with one of the job's hinges (fitted_with.hinge)."
        if not job.hinges:
            fix = (
                'Add hinges to the job like some of the shop\'s list, such as "full overlay", and fit '
                f"{case.mark} with them (fitted_with.hinge)."
            )
        yield Finding("no-hinge", place, text, fix, Weight.WARN)
        return
    for one in hung:
        if one.number:
            yield from _of_leaf(job, case, one, sizes)
        else:
            yield _out_of_reach(job, case, one, sizes, place)
    for part in case.parts:
        for feature in part.features:
            if feature.kind_words == HingePlate.called_so:
                yield from _plate(job, part, feature, sizes)


def _out_of_reach(job: Job, case: Case, hung: DoorHinges, sizes: Sizes, place: str) -> Finding:
    """A hinge gives so much overlay, and no more or less."""
    assert hung.hinge is not None
    lap, overlays = sizes.of(hung.lap), hung.hinge.overlays
    if hung.hinge.inset:
        gives, has = "is for doors that stand inside", "laps"
    else:
        least, most = (printed_length(job, overlay) for overlay in overlays)
        gives, has = f"gives an overlay of {least} to {most}", "has"
    lies = f"{has} {printed_length(job, lap)} over" if lap >= 0 else "stands inside"
    text = f"the {hung.hinge.name} {gives}; {hung.leaf} {lies} {hung.upright}, so nothing is bored for it."
    divider = next(part for part in case.parts if part.mark == hung.upright).role is Role.DIVIDER
    fix = "Choose a hinge with another crank or plate, or another overlay."
    if divider:
        fix = 'Name another for doors on a divider, as in divider_hinge = "half".'
        place = place.replace(".hinge", ".divider_hinge")
    return Finding("hinge-does-not-reach", place, text, fix, Weight.WARN)


def _of_leaf(job: Job, case: Case, one: DoorHinges, sizes: Sizes) -> Iterator[Finding]:
    """A door by itself: its cups in its stile, how far apart its hinges are, and how much they carry."""
    leaf, hinge = one.leaf, one.hinge
    assert hinge is not None
    members = [part for part in case.parts if part.leaf == leaf]
    hung = next(part for part in members if part.hand is not Hand.NONE)
    (row,) = hung.feature(CUPS).rows(sizes)
    beyond, stile = row.setback + row.diameter / 2, sizes.of(hung.size(Axis.X))
    if hung.role is Role.DOOR_STILE and beyond + WOOD_BESIDE > stile:
        text = (
            f"the hinge cups reach {printed_length(job, beyond)} into a stile "
            f"{printed_length(job, stile)} wide."
        )
        fix = f"Make door_stile {told_at_least(beyond + WOOD_BESIDE, job.mark)} or more."
        yield Finding("cup-off-the-stile", f"cases.{case.mark}.door_stile", text, fix)
    corners = case.placement.corners
    edges = [(corners[part.mark, Axis.X], part.size(Axis.X)) for part in members]
    width = max(sizes.of(at + size) for at, size in edges) - min(sizes.of(at) for at, _ in edges)
    if too_close(row.holes, width):
        text = (
            f"the hinges of {leaf} are {printed_length(job, row.length)} apart, and it is "
            f"{printed_length(job, width)} wide: it will sag."
        )
        fix = "Make it narrower, or two doors of it."
        yield Finding("hinges-too-close", leaf, text, fix, Weight.WARN)
    weigh = FittingChoice.of(job).weight
    weights = (weigh(part.material, sizes.of(part.length) * sizes.of(part.width)) for part in members)
    weight = sum(weights, Fraction(0))
    needed = hinges_needed(weight, sizes.of(hung.size(Axis.Z)), width, hinge)
    if needed.beyond:
        text = f"{leaf} is beyond every chart of this hinge: give it {needed.hinges} at least."
        fix = "Ask the maker of the hinges, or make it lower or lighter."
        yield Finding("door-beyond-hinges", leaf, text, fix, Weight.WARN)


def _plate(job: Job, part: Part, plate: Feature, sizes: Sizes) -> Iterator[Finding]:
    """A plate where a shelf is let in, or whose screw holes run into pin holes in the same face."""
    (row,) = plate.rows(sizes)
    middle = (row.first + row.last) / 2
    place, up = part.place_of(plate), printed_length(job, middle)
    for other in part.features:
        if other.face is not plate.face or other is plate:
            continue
        channel = other.channel
        if channel and channel.edge.axis is Axis.Z:
            walls = channel.walls(part)
            if sizes.of(walls.low) - PLATE_REACH < middle < sizes.of(walls.high) + PLATE_REACH:
                text = f"the hinge plate {up} up on {part.mark} stands in the way of its {other.kind_words}."
                fix = "Move the shelf, or change from_end of the hinge a little."
                yield Finding("plate-at-a-shelf", place, text, fix, Weight.WARN)
        for pins in other.rows(sizes) if other.serves else ():
            reach = (pins.diameter + row.diameter) / 2
            near = other.edges[0] is plate.edges[0] and abs(pins.setback - row.setback) < reach
            if near and any(0 < abs(one - own) < reach for one in pins.holes for own in row.holes):
                text = f"screw holes of the hinge plate {up} up on {part.mark} run into pin holes."
                fix = "Change pin_setback or pin_first a little, or from_end of the hinge."
                yield Finding("plate-meets-pins", place, text, fix, Weight.WARN)
