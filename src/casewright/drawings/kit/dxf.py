"""Strokes as DXF R2010, a layer for every kind of line, in the job's own unit at full size."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from configparser import ConfigParser
from contextlib import contextmanager
from functools import cache
from io import StringIO
from pathlib import Path
from threading import Lock
from typing import TYPE_CHECKING

from ...errors import library_call
from ...lengths.length import MM, Unit
from .lettering import CAP_HEIGHT
from .pens import Layer, Tint
from .scene import Anchor
from .strokes import Lettering, Outline, Ring, Stroke

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

TASK = "writing a drawing as DXF"

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
    Layer.EDGING: 30,
    Layer.DIMENSIONS: 8,
    Layer.TEXT: 8,
    Layer.CASES: 7,
    Layer.ROOM: 8,
    Layer.SHEET: 7,
    Layer.PARTS: 5,
    Layer.HATCHING: 8,
    Layer.OFFCUTS: 3,
    Layer.WASTE: 8,
    Layer.CUTS_BY_HAND: 1,
    Layer.CUTS_AT_TABLE: 6,
}
_ALIGN = {Anchor.START: "LEFT", Anchor.MIDDLE: "CENTER", Anchor.END: "RIGHT"}

# The library stamps each file with the time and with random names. Its option against that holds for the
# whole process, so one thread could switch it under another. The stamps are therefore set here, in the
# text: the header's times (as Julian dates) and names, and the library's own two marks.
_DATE = "2451545.0"  # 1 January 2000, noon
_NAME = "{00000000-0000-0000-0000-000000000000}"
_STAMPS = {"TDCREATE": _DATE, "TDUCREATE": _DATE, "TDUPDATE": _DATE, "TDUUPDATE": _DATE}
_STAMPS |= {"FINGERPRINTGUID": _NAME, "VERSIONGUID": _NAME}
_HEADER = re.compile(rf"(?m)^\$({'|'.join(_STAMPS)})\n( *\d+)\n.*$")
_MARK = re.compile(r"(?m)^[\w.]+ @ \d{4}-\d\d-\d\dT[\d:.]+\+00:00$")


# While it is loaded, the library reads its settings from the home folder and from an ezdxf.ini in the folder
# that the maker happens to be in; over one that it cannot read it ends the program. A drawing is to come out
# the same wherever it is made, so it finds none. There is no other way, and one thread at a time may do this.
_LOADING = Lock()


@cache
def _new_document() -> Callable[..., Drawing]:
    with _LOADING, _without_settings_files():
        from ezdxf.filemanagement import new
    return new


@contextmanager
def _without_settings_files() -> Iterator[None]:
    read, exists = ConfigParser.read, Path.exists

    def reads_none(*_: object, **__: object) -> list[str]:
        return []

    def exists_if_readable(path: Path) -> bool:
        try:
            return exists(path)
        except PermissionError:  # a home folder that is closed to whoever runs this
            return False

    ConfigParser.read = reads_none  # type: ignore[method-assign, assignment]
    Path.exists = exists_if_readable  # type: ignore[method-assign, assignment]
    try:
        yield
    finally:
        ConfigParser.read = read  # type: ignore[method-assign]
        Path.exists = exists  # type: ignore[method-assign]


def dxf(strokes: tuple[Stroke, ...], unit: Unit) -> bytes:
    """The strokes as a DXF R2010 file; the same input gives the same bytes.

    Lengths are in the job's unit, inches or millimetres, which $INSUNITS states. Raises LibraryError when
    the file cannot be written.
    """
    factor = 1.0 if unit is Unit.INCH else 1.0 / float(MM)
    with library_call("ezdxf", TASK):
        document = _new_document()("R2010", units=1 if unit is Unit.INCH else 4)
        for name in ("ACDBPLACEHOLDER", "LAYOUT"):
            document.classes.add_class(
                name
            )  # else it adds them in the order of a set, which differs from run to run
        for layer in dict.fromkeys(stroke.layer for stroke in strokes):
            document.layers.add(layer.value, color=COLOURS[layer])
        space = document.modelspace()
        for stroke in strokes:
            _add(space, stroke, factor)
        stream = StringIO()
        document.write(stream)
        return document.encode(_stamped(stream.getvalue()))


def _stamped(text: str) -> str:
    """The file's text with fixed times and names."""
    head, objects, tail = text.partition("\n  2\nOBJECTS\n")
    head = _HEADER.sub(lambda found: f"${found[1]}\n{found[2]}\n{_STAMPS[found[1]]}", head, len(_STAMPS))
    return head + objects + _MARK.sub("0.0 @ 2000-01-01T00:00:00.000000+00:00", tail)


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
    from ezdxf.enums import TextEntityAlignment

    text = space.add_text(
        stroke.text.replace("\u2009", " "),
        height=CAP_HEIGHT * stroke.size * factor,
        rotation=stroke.turn,
        dxfattribs={"layer": stroke.layer.value},
    )
    x, y = stroke.at
    text.set_placement((x * factor, y * factor), align=TextEntityAlignment[_ALIGN[stroke.anchor]])
