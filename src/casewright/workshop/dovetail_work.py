"""Dovetails of drawer boxes at the bench: the operations that cut them, and their words.

They are cut by hand or with a jig, as the maker cuts them. What is told is the shoulder line, what stands
proud, and that tails are laid out so that the lowest one covers the groove of the bottom: else it shows as a
hole at the corner. Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from ..casework.build.drawers.placed_drawers import DrawerParts
from ..casework.directions import Way
from ..casework.front_choices import DrawerBottom
from ..casework.job import Construction
from ..casework.parts.features.dovetails import DrawerPins, DrawerTails
from ..casework.parts.features.feature import Feature
from ..casework.parts.part import Part, Role
from ..casework.project import Project
from .operations import HANDS, Hold, Operation, OperationKind
from .side_names import side_words

Dovetails = DrawerTails | DrawerPins


def dovetail_operation(
    project: Project, part: Part, feature: Feature, key: str, after: tuple[str, ...]
) -> Operation:
    """The operation that cuts the tails or pins at one end of a part; `after` is what comes before it."""
    assert feature.face is not None, f"{feature.name} is cut into an end"
    return Operation(
        key,
        OperationKind.DOVETAILS,
        part.mark,
        (part.mark,),
        HANDS,
        Hold(side_words(part, feature.face), "", "", False),
        project.worked(part),
        Fraction(0),
        after,
        feature=feature.name,
    )


def tails_first(project: Project, operations: Iterable[Operation]) -> Iterator[Operation]:
    """The operations, the dovetails of a case waiting for the wood of all its boxes, so that they are laid
    out and cut in one go, and the pins of a box waiting for its tails, from which they are marked."""
    made = tuple(operations)
    cut = [one for one in made if one.kind is OperationKind.DOVETAILS]
    box_of, parts = _boxes(project), project.parts
    tails: dict[DrawerParts, list[str]] = {}
    wood: dict[str, dict[str, None]] = {}
    for one in cut:
        wood.setdefault(parts[one.piece].case, {}).update(dict.fromkeys(one.after))
        if isinstance(_dovetails(project, one), DrawerTails):
            tails.setdefault(box_of[one.piece], []).append(one.key)
    for one in made:
        if one.kind is OperationKind.DOVETAILS:
            pins = isinstance(_dovetails(project, one), DrawerPins)
            marked_from = tails.get(box_of[one.piece], ()) if pins else ()
            one = replace(one, after=(*wood[parts[one.piece].case], *marked_from))
        yield one


def _boxes(project: Project) -> Mapping[str, DrawerParts]:
    """The box that each part of a drawer belongs to."""
    boxes = [drawer.box for case in project.cases.values() for drawer in case.drawers if drawer.box]
    return {mark: box for box in boxes for mark in box.marks}


def _dovetails(project: Project, operation: Operation) -> Dovetails:
    feature = project.parts[operation.piece].feature(operation.feature)
    assert isinstance(feature, DrawerTails | DrawerPins), f"{operation.key} cuts dovetails"
    return feature


DOVETAILS_TITLE = "Cut the dovetails of the drawers"


def dovetail_setting(project: Project, operations: Sequence[Operation]) -> Iterator[str]:
    """How the dovetails of a batch are cut: the test corner first, the tails before the pins, and where the
    groove of the bottom is to come out."""
    yield (
        "Cut a corner in two offcuts of the drawers' stock first, until it goes together under light taps of "
        "a mallet and stays."
    )
    yield (
        "Tails on the sides first, then mark the pins from the very tails that go there; a jig that clamps "
        "both pieces together cuts tails and pins at once."
    )
    yield "Number the two ends of each corner, inner faces in, so that every tail finds its own socket."
    yield from _gauge(project, operations)
    grooves = dict.fromkeys(_groove(project, one) for one in operations)
    for low, high in (groove for groove in grooves if groove):
        yield (
            f"Lay out the tails so that the lowest one covers the groove of the bottom, {low} to {high} "
            "above the lower edge: cut through a pin, it would show as a hole in the side."
        )
    yield from _pitch(project, operations)


def _gauge(project: Project, operations: Iterable[Operation]) -> Iterator[str]:
    """What the gauge for the shoulder lines is set by, where they take the thickness of a piece."""
    struck = (one for operation in operations if (one := _dovetails(project, operation)).by_stock)
    for proud in dict.fromkeys(project.sizes.of(one.proud) for one in struck):
        more = f", and {project.printed(proud)} more, which is planed off after the glue-up" if proud else ""
        yield f"Set the marking gauge for the shoulder lines by the piece that goes there{more}."


def _groove(project: Project, operation: Operation) -> tuple[str, str] | None:
    """Where the groove for the bottom begins and ends in a side, above its lower edge."""
    part = project.parts[operation.piece]
    if not isinstance(_dovetails(project, operation), DrawerTails):
        return None
    of = project.sizes.of
    (groove,) = part.channels
    return project.printed(of(groove.at)), project.printed(of(groove.at) + of(groove.width))


def _pitch(project: Project, operations: Sequence[Operation]) -> Iterator[str]:
    """What the jig's pitch says of the layout; nothing where the maker lays out freely."""
    pitches = {_made(project, one).drawer_pitch for one in operations} - {0}
    if len(pitches) != 1:
        return
    (pitch,) = pitches
    uneven = [one for one in operations if project.sizes.of(_dovetails(project, one).high) % pitch]
    low = [one for one in uneven if _at_low_back(project, one)]
    said = f"Your jig's tails are {project.printed(pitch)} apart: set its stops for half a pin at the"
    if len(low) < len(uneven):
        yield f"{said} lower edge; where the tails do not come out even, the rest is at the upper."
    else:
        yield f"{said} upper edge and half a pin at the lower."
    if low:
        yield (
            "At backs that are lower than the sides, set them for half a pin at the upper edge, where both "
            "are flush; the rest is at the lower edge of the back."
        )


def _at_low_back(project: Project, operation: Operation) -> bool:
    """Whether the corner is that of a back under which the bottom slides in."""
    part, feature = project.parts[operation.piece], _dovetails(project, operation)
    behind = part.role is Role.DRAWER_BACK or feature.face is Way.BACK
    return behind and _made(project, operation).drawer_bottom is DrawerBottom.SLID_IN


def _made(project: Project, operation: Operation) -> Construction:
    return project.cases[project.parts[operation.piece].case].spec.construction


def dovetail_lies(operation: Operation) -> str:
    """Which end of its piece is cut: `On the front end`."""
    return f"On the {operation.hold.against}"


def dovetail_words(project: Project, operation: Operation) -> str:
    """Tails or pins, where their shoulder line is, and how deep half-blind sockets are."""
    part, feature = project.parts[operation.piece], _dovetails(project, operation)
    of = project.sizes.of
    said = f"{feature.word}, shoulder line {project.printed(of(feature.line))} in from the end"
    if isinstance(feature, DrawerPins) and of(feature.depth) < of(part.thickness):
        deep, lap = of(feature.depth), of(part.thickness) - of(feature.depth)
        said += f"; sockets {project.printed(deep)} deep, which leaves a lap of {project.printed(lap)}"
    return f"{said}."
