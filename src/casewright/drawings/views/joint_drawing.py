"""Each dado, groove and rabbet of a job in section at full size, to hold a test cut against."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...casework.parts.features.channel import Channel, ChannelKind
from ...casework.parts.part import Part
from ...casework.project import Project
from ...lengths.length import Rule
from ..kit.lettering import dimension_text, stock_dimension
from ..kit.pens import BOLD, HIDDEN, SOFT, Layer, Tint
from ..kit.scene import Dimension, DimensionAxis, FigurePlace, Item, Scene, Shape, Words, rectangle
from .part_view import in_end_or_edge

STOCK = 0.7
"""Inches of the part shown on each side of the channel, or below one in an edge."""


@dataclass(frozen=True, slots=True)
class Section:
    """What makes two sections the same: kind, width, depth, the thickness of the part, and for what is cut
    into an edge how far it lies in from the face that it is measured from (None in a face)."""

    kind: ChannelKind
    width: Fraction
    depth: Fraction
    thickness: Fraction
    from_face: Fraction | None


@dataclass(frozen=True)
class JointSection:
    """A channel's section, and the marks of the parts that have it. `tag` is its letter in the packet."""

    tag: str
    cut: Section
    marks: tuple[str, ...]


def section_of(project: Project, part: Part, channel: Channel) -> Section:
    """The section of a channel of a part."""
    of = project.sizes.of
    from_face = of(channel.at) if in_end_or_edge(part, channel) else None
    return Section(channel.kind, of(channel.width), of(channel.depth), of(part.thickness), from_face)


def joint_sections(project: Project) -> dict[Section, JointSection]:
    """The job's channels by section, lettered in order of first use. Half laps and tongues have none: two
    test pieces put together tell more, and at full size they would fill a page."""
    marks: dict[Section, dict[str, None]] = {}
    for part in project:
        for channel in (one for one in part.channels if not one.kind.on_sled):
            marks.setdefault(section_of(project, part, channel), {})[part.mark] = None
    return {
        section: JointSection(letter(number), section, tuple(found))
        for number, (section, found) in enumerate(marks.items())
    }


def letter(number: int) -> str:
    """a, b ... z, aa, ab ... for 0, 1 ..."""
    number, place = divmod(number, 26)
    return (letter(number - 1) if number else "") + chr(ord("a") + place)


def joint_scene(joint: JointSection, mark: Rule) -> Scene:
    """The section: a piece of the part with the channel in its upper side, a rabbet at its end.

    Of a part with a groove in an edge it shows that edge upwards, between both faces."""
    cut = joint.cut
    width, depth, thick = float(cut.width), float(cut.depth), float(cut.thickness)
    if cut.from_face is not None:
        start, wide, tall = float(cut.from_face), thick, depth + STOCK
    else:
        start = 0.0 if cut.kind is ChannelKind.RABBET else STOCK
        wide, tall = start + width + STOCK, thick
    end, floor = start + width, tall - depth
    outline = (
        (0.0, 0.0),
        (wide, 0.0),
        (wide, tall),
        (end, tall),
        (end, floor),
        (start, floor),
        *(((start, tall), (0.0, tall)) if start else ()),
    )
    items: list[Item] = [
        Shape(outline, Layer.BLANK, None, Tint.FACE),
        Shape(rectangle(start, floor, width, depth + 0.3), Layer.PARTS, HIDDEN),
        Shape(outline, Layer.BLANK, BOLD),
        Dimension(
            DimensionAxis.ACROSS,
            start,
            end,
            tall,
            tall,
            34.0,
            stock_dimension(cut.width, mark.unit),
            bold=True,
            size=10.5,
        ),
        Dimension(
            DimensionAxis.UP,
            floor,
            tall,
            wide,
            wide,
            20.0,
            dimension_text(cut.depth, mark),
            bold=True,
            size=10.5,
            figure=FigurePlace.CHAINED,
        ),
        *_stock(cut, mark),
        Words(
            ((start + end) / 2, floor),
            "floor",
            7.0,
            colour=SOFT,
            shift=(0.0, -6.0),
            within=(width, floor),
        ),
    ]
    return Scene(tuple(items), f"{cut.kind.value} {joint.tag}")


def _stock(cut: Section, mark: Rule) -> Iterator[Item]:
    """How thick the part is, and how far from its face a groove in its edge begins."""
    thick, wide = stock_dimension(cut.thickness, mark.unit), float(cut.thickness)
    if cut.from_face is None:
        yield Dimension(
            DimensionAxis.UP, 0.0, wide, 0.0, 0.0, -20.0, thick, size=9.0, figure=FigurePlace.CHAINED
        )
        return
    face, level = stock_dimension(cut.from_face, mark.unit), float(cut.depth) + STOCK
    yield Dimension(DimensionAxis.ACROSS, 0.0, wide, 0.0, 0.0, -20.0, thick, size=9.0)
    yield Dimension(
        DimensionAxis.ACROSS,
        0.0,
        float(cut.from_face),
        level,
        level,
        16.0,
        face,
        size=9.0,
        figure=FigurePlace.BEFORE,
    )
