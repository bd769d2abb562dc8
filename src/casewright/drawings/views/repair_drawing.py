"""Pictures of a repair: what changes marked in red, and a strip glued to a part."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from fractions import Fraction

from ...lengths.length import Rule
from ...planner.plan import PieceRole, SheetPlan
from ..kit.lettering import dimension_text
from ..kit.pens import ACCENT, BOLD, FINE, Layer, Pen, Tint
from ..kit.scene import Dimension, DimensionAxis, Item, Scene, Shape, Words, rectangle

CHANGED = Pen(2.0, ACCENT)


def highlight(scene: Scene, names: Collection[str], title: str) -> Scene:
    """The scene under another title, with every item called by one of `names` marked.

    Marked items have a heavier line as well as another colour.
    """
    items = (_marked(item) if getattr(item, "name", "") in names else item for item in scene)
    return Scene(tuple(items), title)


def _marked(item: Item) -> Item:
    if isinstance(item, Shape):
        return replace(item, pen=CHANGED)
    if isinstance(item, Words):
        return replace(item, colour=ACCENT, bold=True)
    return replace(item, bold=True) if isinstance(item, Dimension) else item


def highlight_sheet(scene: Scene, sheet: SheetPlan, marks: Collection[str]) -> Scene:
    """A sheet's scene with a frame around each part in `marks`."""
    frames = tuple(
        Shape(
            rectangle(float(piece.x), float(piece.y), float(piece.length), float(piece.width)),
            Layer.PARTS,
            CHANGED,
            name=piece.item or "",
        )
        for piece in sheet.root.walk()
        if piece.role is PieceRole.PART and piece.item in marks
    )
    return Scene((*scene.items, *frames), sheet.bin)


def strip_scene(
    mark: str,
    length: Fraction,
    width: Fraction,
    cut_width: Fraction,
    rip_to: Fraction,
    strip: Fraction,
    rule: Rule,
) -> Scene:
    """A part that was cut too narrow: ripped back to `rip_to`, a strip glued along its far edge, then
    ripped to `width`. `cut_width` is what it measures now.
    """
    long, wide, seam = float(length), float(width), float(rip_to)
    was = ((0.0, float(cut_width)), (long, float(cut_width)))
    lost = (
        (Shape(was, Layer.OUTLINE, Pen(0.7, ACCENT, (3.0, 2.0)), closed=False),) if cut_width > rip_to else ()
    )
    text = f"strip {dimension_text(strip, rule)} wide, grain lengthwise"
    items: tuple[Item, ...] = (
        Shape(rectangle(0.0, 0.0, long, seam), Layer.OUTLINE, BOLD, Tint.FACE, name=mark),
        Shape(rectangle(0.0, seam, long, wide - seam), Layer.OUTLINE, CHANGED, Tint.CUT, name=f"{mark}+"),
        Words((long / 2, seam / 2), mark, 14.0, bold=True),
        Words((long / 2, (seam + wide) / 2), text, 8.5, bold=True, backing=Tint.PAPER),
        *lost,
        Shape(((0.0, wide), (long, wide)), Layer.OUTLINE, FINE, closed=False),
        Dimension(DimensionAxis.ACROSS, 0.0, long, 0.0, 0.0, -16.0, dimension_text(length, rule), size=9.5),
        Dimension(DimensionAxis.UP, 0.0, seam, 0.0, 0.0, -18.0, dimension_text(rip_to, rule), size=9.5),
        Dimension(
            DimensionAxis.UP, 0.0, wide, long, long, 18.0, dimension_text(width, rule), bold=True, size=9.5
        ),
    )
    return Scene(items, f"{mark}, built out")
