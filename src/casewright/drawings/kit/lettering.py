"""How a line of text is set: how wide it comes out in the packet's typeface, how lengths are written."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from importlib.resources import as_file, files

from ...lengths.length import Mark, Unit, WrittenLength, show
from ...lengths.quantities import caliper

THIN_SPACE = "\u2009"

CAP_HEIGHT = 0.66
"""Height of a capital in ems of Source Sans Pro; a test holds it against the font's own table."""


def width_of(text: str, size: float, *, bold: bool = False) -> float:
    """The width of `text` set `size` points high, in points: its signs' advances, kerning left out."""
    advances = _advances(bold)
    unknown = advances["n"]
    return size * sum(advances.get(sign, unknown) for sign in text)


@cache
def _advances(bold: bool) -> Mapping[str, float]:
    """How far each sign of the typeface carries the pen, in ems, read once for each weight."""
    # Reading fonts takes a tenth of a second to import: commands that draw nothing do without.
    from fontTools.ttLib import TTFont

    name = f"SourceSansPro-{'Bold' if bold else 'Regular'}.ttf"
    with as_file(files("font_source_sans_pro") / "files" / name) as path, TTFont(path, lazy=True) as font:
        units, metrics = font["head"].unitsPerEm, font["hmtx"].metrics
        advances = {chr(code): metrics[glyph][0] / units for code, glyph in font.getBestCmap().items()}
    # The typeface has no thin space; shaping engines then take its width from Unicode, a fifth of an em.
    return {THIN_SPACE: 0.2, **advances}


def shown(length: Fraction, mark: Mark) -> WrittenLength:
    """The length as drawings print it: a thin space keeps 21 25/32 from being read as 2125/32."""
    return show(length, mark, gap=THIN_SPACE)


def lettered(length: Fraction, mark: Mark) -> str:
    """`shown`, with `~` before it where it is rounded."""
    return shown(length, mark).marked


def in_full(length: Fraction, unit: Unit) -> str:
    """The length by the caliper, with the same thin space."""
    return caliper(length, unit, gap=THIN_SPACE)
