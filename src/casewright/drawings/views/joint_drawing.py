"""Each dado, groove and rabbet of a job in section at full size, to hold a test cut against."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ...casework.parts.features.channel import Channel, ChannelKind
from ...casework.parts.part import Part
from ...casework.project import Project
from ...lengths.length import Rule
from ..kit.lettering import dimension_text, stock_dimension
from ..kit.pens import BOLD, HIDDEN, SOFT, Layer, Tint
from ..kit.scene import Dimension, DimensionAxis, FigurePlace, Item, Scene, Shape, Words, rectangle

STOCK = 0.7
"""Inches of the part shown on each side of the channel."""

Section = tuple[ChannelKind, Fraction, Fraction, Fraction]


@dataclass(frozen=True)
class JointSection:
    """A channel's section, and the marks of the parts that have it. `tag` is its letter in the packet."""

    tag: str
    kind: ChannelKind
    width: Fraction
    depth: Fraction
    thickness: Fraction
    marks: tuple[str, ...]


def section_of(project: Project, part: Part, channel: Channel) -> Section:
    """What makes two sections the same: kind, width, depth and the thickness of the part."""
    of = project.sizes.of
    return channel.kind, of(channel.width), of(channel.depth), of(part.thickness)


def joint_sections(project: Project) -> dict[Section, JointSection]:
    """The job's channels by section, lettered in order of first use. Half laps and tongues have none: two
    test pieces put together tell more, and at full size they would fill a page."""
    marks: dict[Section, dict[str, None]] = {}
    for part in project:
        for channel in (one for one in part.channels if not one.kind.on_sled):
            marks.setdefault(section_of(project, part, channel), {})[part.mark] = None
    return {
        section: JointSection(letter(number), *section, tuple(found))
        for number, (section, found) in enumerate(marks.items())
    }


def letter(number: int) -> str:
    """a, b ... z, aa, ab ... for 0, 1 ..."""
    number, place = divmod(number, 26)
    return (letter(number - 1) if number else "") + chr(ord("a") + place)


def joint_scene(joint: JointSection, mark: Rule) -> Scene:
    """The section: a piece of the part with the channel in its upper face, a rabbet at its end."""
    width, depth, thick = float(joint.width), float(joint.depth), float(joint.thickness)
    start = 0.0 if joint.kind is ChannelKind.RABBET else STOCK
    end = start + width
    outline = (
        (0.0, 0.0),
        (end + STOCK, 0.0),
        (end + STOCK, thick),
        (end, thick),
        (end, thick - depth),
        (start, thick - depth),
        *(((start, thick), (0.0, thick)) if start else ()),
    )
    panel = rectangle(start, thick - depth, width, depth + 0.3)
    items: list[Item] = [
        Shape(outline, Layer.BLANK, None, Tint.FACE),
        Shape(panel, Layer.PARTS, HIDDEN),
        Shape(outline, Layer.BLANK, BOLD),
        Dimension(
            DimensionAxis.ACROSS,
            start,
            end,
            thick,
            thick,
            34.0,
            stock_dimension(joint.width, mark.unit),
            bold=True,
            size=10.5,
        ),
        Dimension(
            DimensionAxis.UP,
            thick - depth,
            thick,
            end + STOCK,
            end + STOCK,
            20.0,
            dimension_text(joint.depth, mark),
            bold=True,
            size=10.5,
            figure=FigurePlace.CHAINED,
        ),
        Dimension(
            DimensionAxis.UP,
            0.0,
            thick,
            0.0,
            0.0,
            -20.0,
            stock_dimension(joint.thickness, mark.unit),
            size=9.0,
            figure=FigurePlace.CHAINED,
        ),
        Words(
            ((start + end) / 2, thick - depth),
            "floor",
            7.0,
            colour=SOFT,
            shift=(0.0, -6.0),
            within=(width, thick),
        ),
    ]
    return Scene(tuple(items), f"{joint.kind.value} {joint.tag}")
