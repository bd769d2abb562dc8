"""Text on drawings: how wide it is in the packet's typeface, and how lengths are written."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import cache, lru_cache
from importlib.resources import as_file, files

from ...lengths.length import Rule, Unit, WrittenLength, show
from ...lengths.quantities import caliper, stock_size

THIN_SPACE = "\u2009"

CAP_HEIGHT = 0.66
"""Height of a capital in ems of Source Sans Pro; a test checks it against the font's own table."""


def width_of(text: str, size: float, *, bold: bool = False) -> float:
    """The width of `text` at `size` points, in points: the sum of its characters' advances, no kerning."""
    return size * _ems(text, bold)


@lru_cache(maxsize=10_000)
def _ems(text: str, bold: bool) -> float:
    """The width in ems, kept: places and sizes are tried with the same words many times over."""
    advances = _advances(bold)
    unknown = advances["n"]
    return sum(advances.get(sign, unknown) for sign in text)


@cache
def _advances(bold: bool) -> Mapping[str, float]:
    """The advance of each character of the typeface, in ems, read once for each weight."""
    # Importing the font reader takes a tenth of a second, which commands that draw nothing should not pay.
    from fontTools.ttLib import TTFont

    name = f"SourceSansPro-{'Bold' if bold else 'Regular'}.ttf"
    with as_file(files("font_source_sans_pro") / "files" / name) as path, TTFont(path, lazy=True) as font:
        units, metrics = font["head"].unitsPerEm, font["hmtx"].metrics
        advances = {chr(code): metrics[glyph][0] / units for code, glyph in font.getBestCmap().items()}
    # The typeface has no thin space; shaping engines then take its width from Unicode, a fifth of an em.
    return {THIN_SPACE: 0.2, **advances}


def shown_length(length: Fraction, mark: Rule) -> WrittenLength:
    """A length as drawings print it, with a thin space: 21 25/32 must not read as 2125/32."""
    return show(length, mark, gap=THIN_SPACE)


def dimension_text(length: Fraction, mark: Rule) -> str:
    """A length as drawings print it, with `~` before it where it is rounded."""
    return shown_length(length, mark).marked


def stock_dimension(length: Fraction, unit: Unit) -> str:
    """A thickness or a channel's width, finer than the rule, with the same thin space."""
    return stock_size(length, unit, gap=THIN_SPACE)


def writers(mark: Rule) -> tuple[Callable[[Fraction], str], Callable[[Fraction], str]]:
    """What writes a length by the rule, and what writes one that must take a sheet's thickness."""
    return lambda length: dimension_text(length, mark), lambda length: stock_dimension(length, mark.unit)


def caliper_text(length: Fraction, unit: Unit) -> str:
    """The exact length for a caliper, with the same thin space."""
    return caliper(length, unit, gap=THIN_SPACE)
