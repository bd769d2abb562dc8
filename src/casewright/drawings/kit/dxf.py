"""Strokes as DXF R2010, a layer for every kind of line, in the job's own unit at full size."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from io import StringIO

from ezdxf import options  # type: ignore[attr-defined]
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from ...lengths.length import MM, Unit
from .lettering import CAP_HEIGHT
from .pens import Layer, Tint
from .scene import Anchor
from .strokes import Lettering, Outline, Ring, Stroke

# AutoCAD colour indices (1 red ... 7 black or white), by layer.
COLOURS = {
    Layer.BLANK: 8,
    Layer.OUTLINE: 7,
    Layer.REFERENCE: 1,
    Layer.DADO: 1,
    Layer.GROOVE: 3,
    Layer.RABBET: 4,
    Layer.NOTCH: 6,
    Layer.BORES: 5,
    Layer.DIMENSIONS: 8,
    Layer.TEXT: 8,
    Layer.CASES: 7,
    Layer.ROOM: 8,
    Layer.SHEET: 7,
    Layer.PARTS: 5,
    Layer.OFFCUTS: 3,
    Layer.WASTE: 8,
    Layer.CUTS_BY_HAND: 1,
    Layer.CUTS_AT_TABLE: 6,
}
_ALIGN = {
    Anchor.START: TextEntityAlignment.LEFT,
    Anchor.MIDDLE: TextEntityAlignment.CENTER,
    Anchor.END: TextEntityAlignment.RIGHT,
}


def dxf(strokes: tuple[Stroke, ...], unit: Unit) -> bytes:
    """The strokes as a DXF R2010 file; the same input gives the same bytes.

    Lengths are inches or millimetres as the job counts them, told by $INSUNITS.
    """
    factor = 1.0 if unit is Unit.INCH else float(1 / MM)
    with _held_still():
        document = new("R2010", units=1 if unit is Unit.INCH else 4)
        for layer in dict.fromkeys(stroke.layer for stroke in strokes):
            document.layers.add(layer.value, color=COLOURS[layer])
        space = document.modelspace()
        for stroke in strokes:
            _add(space, stroke, factor)
        stream = StringIO()
        document.write(stream)
    return document.encode(stream.getvalue())


@contextmanager
def _held_still() -> Iterator[None]:
    """While it lasts, ezdxf writes a fixed date and fixed names where it would write new ones."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _add(space: Modelspace, stroke: Stroke, factor: float) -> None:
    layer = {"layer": stroke.layer.value}
    if isinstance(stroke, Outline):
        if stroke.pen is not None or stroke.tint is Tint.DARK:
            points = [(x * factor, y * factor) for x, y in stroke.points]
            space.add_lwpolyline(points, close=stroke.closed, dxfattribs=layer)
    elif isinstance(stroke, Ring):
        x, y = stroke.centre
        space.add_circle((x * factor, y * factor), stroke.radius * factor, dxfattribs=layer)
    else:
        _add_text(space, stroke, factor)


def _add_text(space: Modelspace, stroke: Lettering, factor: float) -> None:
    text = space.add_text(
        stroke.text.replace("\u2009", " "),
        height=CAP_HEIGHT * stroke.size * factor,
        rotation=stroke.turn,
        dxfattribs={"layer": stroke.layer.value},
    )
    x, y = stroke.at
    text.set_placement((x * factor, y * factor), align=_ALIGN[stroke.anchor])
