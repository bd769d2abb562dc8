"""Widths of lettering, held against the typesetter's own measure and the typeface's tables."""

from __future__ import annotations

import json
from importlib.resources import as_file, files

import pytest
import typst
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from casewright.drawings.kit.lettering import CAP_HEIGHT, THIN_SPACE, width_of

UNKERNED = ["B1-L", f"34{THIN_SPACE}15/32", f"~23{THIN_SPACE}17/32 × 24", "FRONT EDGE", "fi", "84"]
KERNED = ["WAVE AVAT", "dado, notch", "9 holes Ø 1/4 × 5/16 deep, every 2", "keep ~63 15/32 × 16 3/4"]

MEASURE = b"""
#let sets(words) = (400, 700).map(weight =>
  measure(text(font: "Source Sans Pro", size: 100pt, weight: weight, words)).width.pt())
#context [#metadata(json(bytes(sys.inputs.data)).map(sets)) <widths>]
"""

texts = st.text(max_size=20)
sizes = st.floats(1, 50)


def typesetter(texts: list[str]) -> list[list[float]]:
    """How wide the typesetter sets each text at 100 pt, regular and bold."""
    with as_file(files("font_source_sans_pro") / "files") as typeface:
        fonts = typst.Fonts(font_paths=[typeface], include_system_fonts=False)
        given_ = {"data": json.dumps(texts)}
        told = typst.query(MEASURE, "<widths>", field="value", one=True, font_paths=fonts, sys_inputs=given_)
    return list(json.loads(told))


def test_widths_are_the_typesetters() -> None:
    """To a thousandth of a point where no pair is kerned; otherwise kerning only takes a little away."""
    texts = UNKERNED + KERNED
    for text, (regular, bold) in zip(texts, typesetter(texts), strict=True):
        ours = [width_of(text, 100.0), width_of(text, 100.0, bold=True)]
        if text in UNKERNED:
            assert ours == pytest.approx([regular, bold], abs=1e-3), text
        else:
            assert ours == pytest.approx([regular, bold], rel=0.03), text


def test_the_height_of_capitals_is_the_typefaces() -> None:
    path = files("font_source_sans_pro") / "files" / "SourceSansPro-Regular.ttf"
    with as_file(path) as file, TTFont(file) as font:
        assert font["OS/2"].sCapHeight / font["head"].unitsPerEm == CAP_HEIGHT


@given(texts, texts, sizes, st.booleans())
def test_more_text_is_never_narrower(text: str, more: str, size: float, bold: bool) -> None:
    """Whatever a maker types, signs the typeface does not have included."""
    alone, longer = width_of(text, size, bold=bold), width_of(text + more, size, bold=bold)
    assert alone <= longer
    assert longer == pytest.approx(alone + width_of(more, size, bold=bold))


@given(texts, sizes, sizes)
def test_larger_text_is_never_narrower(text: str, one: float, other: float) -> None:
    small, large = sorted((one, other))
    assert 0.0 <= width_of(text, small) <= width_of(text, large)
