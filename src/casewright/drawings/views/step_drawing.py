"""A piece as it lies at the machine, seen from above, and a story stick at full size.

At the table saw the maker stands below the picture and pushes upwards; the fence is to the right
of the cutter. The edge against the fence is drawn heavy, like the reference edges of every drawing.
"""

from __future__ import annotations

from collections.abc import Iterator

from ...casework.project import Project
from ...lengths.length import Rule
from ...workshop.holes.boring import StoryStick
from ...workshop.operations import Guide, Machine, Operation
from ...workshop.part_operations import row_of
from ..kit.lettering import dimension_text, width_of
from ..kit.pens import BOLD, FINE, FIRM, HAIR, HEAVY, SOFT, Layer, Tint
from ..kit.scene import Anchor, Arrow, Dimension, DimensionAxis, Disc, Item, Scene, Shape, Words, rectangle

WORDS = 13.0

BESIDE_FENCE, CLEAR = 18.0, 6.0
"""Points from the fence to words beside its end, where its own name stands, and from that name."""


def step_scene(project: Project, operation: Operation) -> Scene | None:
    """The picture of an operation at the table saw or the drill; None for every other machine."""
    machine = operation.setting.machine
    if machine is Machine.TABLE_SAW:
        return Scene(tuple(_at_the_saw(operation, project.rule)), f"{operation.key} at the saw")
    if machine is Machine.DRILL:
        return Scene(tuple(_at_the_drill(project, operation)), f"{operation.key} at the drill")
    return None


def _at_the_saw(operation: Operation, mark: Rule) -> Iterator[Item]:
    wide, long = float(operation.across), float(operation.along)
    setting = operation.setting
    begins = float(setting.distance) - float(setting.buried)
    near, far = max(begins, 0.0), min(begins + float(setting.cutter.width), wide)
    housed = setting.height is not None
    yield Shape(rectangle(-wide, 0.0, wide, long), Layer.BLANK, BOLD, Tint.FACE, name=operation.piece)
    yield Shape(
        rectangle(-far, 0.0, far - near, long),
        Layer.DADO if housed else Layer.CUTS_AT_TABLE,
        FINE,
        Tint.SHADE if housed else Tint.CUT,
        hatched=True,
        name="cut",
    )
    sticks = long * 0.12
    yield Shape(((0.0, -sticks), (0.0, long + sticks)), Layer.REFERENCE, HEAVY, closed=False, name="fence")
    held = "stop" if setting.guide is Guide.STOP else setting.guide.value
    yield Words((0.0, long + sticks), held, WORDS, bold=True, shift=(0.0, 10.0))
    yield Words((0.0, long / 2), operation.hold.against, WORDS, Anchor.START, shift=(8.0, 0.0))
    if operation.hold.leads:
        # Short of the fence, which stands out further than the piece: on a low one hardly, so that its name
        # stands beside these words.
        leads = f"{operation.hold.leads} first"
        beside = max(BESIDE_FENCE, width_of(held, WORDS, bold=True) / 2 + CLEAR)
        yield Words((0.0, long), leads, WORDS, Anchor.END, shift=(-beside, 10.0))
    # On the wider of the two sides of the cut.
    low, high = max((-wide, -far), (-near, 0.0), key=lambda side: side[1] - side[0])
    down, middle = f"{operation.hold.down} down", ((low + high) / 2, long / 2)
    turn = 90.0 if high - low < long / 2 else 0.0
    yield Words(middle, down, WORDS, turn=turn, colour=SOFT, within=(high - low, long))
    yield Arrow((-wide, long / 2), 60.0, 90.0, both=False, shift=(-14.0, 0.0))
    if near > 0:
        text = dimension_text(setting.distance, mark)
        yield Dimension(DimensionAxis.ACROSS, -near, 0.0, 0.0, 0.0, -26.0, text, bold=True, size=WORDS)


def _at_the_drill(project: Project, operation: Operation) -> Iterator[Item]:
    part = project.parts[operation.piece]
    feature, row = row_of(project, operation)
    (edge, end), mark = feature.edges, project.rule
    along = end.axis
    long = float(project.sizes.of(part.size(along)))
    wide = float(project.sizes.of(part.size(edge.axis)))
    yield Shape(rectangle(-wide, 0.0, wide, long), Layer.BLANK, BOLD, Tint.FACE, name=operation.piece)
    yield Shape(((0.0, 0.0), (0.0, long)), Layer.REFERENCE, HEAVY, closed=False, name="edge")
    for hole in row.holes:
        yield Disc((-float(row.setback), float(hole)), float(row.diameter) / 2, Layer.BORES, FIRM, Tint.DARK)
    yield Words((0.0, long / 2), operation.hold.against, WORDS, turn=90.0, shift=(12.0, 0.0))
    yield Words((-wide / 2, 0.0), "measure from this end", WORDS, bold=True, shift=(0.0, -12.0))
    first = dimension_text(row.first, mark)
    yield Dimension(
        DimensionAxis.UP, 0.0, float(row.first), -wide, -float(row.setback), -30.0, first, size=WORDS
    )
    setback = dimension_text(row.setback, mark)
    yield Dimension(
        DimensionAxis.ACROSS, -float(row.setback), 0.0, long, long, 22.0, setback, bold=True, size=WORDS
    )


def stick_scene(stick: StoryStick, mark: Rule, wide: float = 2.0) -> Scene:
    """A story stick to be printed at full size and glued to a strip: its end, line and every hole."""
    return Scene(tuple(_stick(stick, mark, max(wide, float(stick.setback) + 1.0))), "story stick")


def _stick(stick: StoryStick, mark: Rule, wide: float) -> Iterator[Item]:
    long, line = float(stick.length), float(stick.setback)
    yield Shape(rectangle(0.0, 0.0, long, wide), Layer.OUTLINE, FIRM, name="stick")
    yield Shape(((0.0, 0.0), (long, 0.0)), Layer.REFERENCE, HEAVY, closed=False, name="edge")
    yield Shape(((0.0, line), (long, line)), Layer.BORES, HAIR, closed=False, name="line")
    yield Arrow((0.0, wide / 2), 30.0, 180.0, both=False, shift=(20.0, 0.0))
    yield Words((0.0, wide), f"{stick.end}, {', '.join(stick.serves[:2])}", shift=(90.0, 8.0))
    for number, hole in enumerate(stick.marks, 1):
        x, reach = float(hole), float(stick.diameter)
        yield Disc((x, line), float(stick.diameter) / 2, Layer.BORES, FINE, name=f"hole {number}")
        yield Shape(((x, line - reach), (x, line + reach)), Layer.BORES, HAIR, closed=False)
        yield Words((x, line), dimension_text(hole, mark), shift=(0.0, 16.0))
