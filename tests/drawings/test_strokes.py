"""From scene to strokes: lettering that fits, hatching that stays inside, scales that fill the room."""

from __future__ import annotations

from fractions import Fraction as F
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.drawings.kit.draughting import SMALLEST, hatching, strokes
from casewright.drawings.kit.lettering import THIN_SPACE, dimension_text, width_of
from casewright.drawings.kit.pages import fit_to_room, full_size
from casewright.drawings.kit.pens import BOLD, Layer
from casewright.drawings.kit.scene import Dimension, DimensionAxis, Scene, Shape, Words, rectangle
from casewright.drawings.kit.strokes import Lettering, Outline
from casewright.drawings.views.joint_drawing import joint_scene, joint_sections, letter
from casewright.lengths.length import Mark
from drawings.shown_jobs import project

sides = st.floats(1, 100)


def test_a_thin_space_keeps_a_fraction_off_its_whole() -> None:
    assert dimension_text(F(697, 32), Mark.THIRTY_SECOND) == f"21{THIN_SPACE}25/32"
    assert dimension_text(F(217, 10), Mark.THIRTY_SECOND).startswith("~21")


@settings(deadline=None)
@given(sides, sides, st.floats(0.3, 9))
def test_hatching_stays_inside_its_rectangle(wide: float, high: float, step: float) -> None:
    lines = list(hatching(rectangle(3.0, -2.0, wide, high), step))
    assert len(lines) >= (wide + high) / (step * 2**0.5) - 1
    for ends in lines:
        for x, y in ends:
            assert 3.0 - 1e-6 <= x <= 3.0 + wide + 1e-6 and -2.0 - 1e-6 <= y <= -2.0 + high + 1e-6


@settings(deadline=None)
@given(sides, sides)
def test_words_within_a_room_are_set_smaller_or_left_out(wide: float, high: float) -> None:
    words = Words((0.0, 0.0), "T1-FR 80 × 1 1/2", 12.0, within=(wide, high))
    set_ = [stroke for stroke in strokes(Scene((words,)), 0.1) if isinstance(stroke, Lettering)]
    for text in set_:
        assert SMALLEST * 0.1 <= text.size <= 1.2 + 1e-9
        assert width_of(text.text, text.size) <= wide
    if not set_:
        assert width_of(words.text, SMALLEST * 0.1) > wide - 0.21 or high < 0.8 * SMALLEST * 0.1 + 0.11


@settings(deadline=None)
@given(sides, sides, st.integers(0, 4))
def test_a_drawing_fills_its_room_and_no_more(long: float, wide: float, rows: int) -> None:
    items = [Shape(rectangle(0.0, 0.0, long, wide), Layer.BLANK)]
    scene = Scene(
        (
            *items,
            *(
                Dimension(DimensionAxis.ACROSS, 0.0, long / (n + 1), 0.0, 0.0, -12.0 * (n + 1), "1/2")
                for n in range(rows)
            ),
        )
    )
    placed = fit_to_room(scene, 500.0, 300.0, largest=1000.0)
    assert placed.wide <= 500.0 and placed.tall <= 300.0
    assert max(placed.wide / 500.0, placed.tall / 300.0) > 0.97


def test_a_short_dimension_puts_its_figure_beyond_its_end() -> None:
    short = Dimension(DimensionAxis.ACROSS, 0.0, 0.5, 0.0, 0.0, -10.0, "23/32")
    text = next(s for s in strokes(Scene((short,)), 0.1) if isinstance(s, Lettering))
    assert min(x for x, _ in text.corners()) > 0.5


def test_sections_come_out_at_full_size() -> None:
    for joint in joint_sections(project()).values():
        placed = full_size(joint_scene(joint, project().rule))
        outline = next(s for s in placed.strokes if isinstance(s, Outline) and s.pen is BOLD)
        xs = sorted({x for x, _ in outline.points})
        ys = sorted({y for _, y in outline.points})
        assert any(abs((b - a) - float(joint.cut.width)) < 1e-9 for a, b in pairwise(xs))
        assert ys[-1] - ys[-2] == pytest.approx(float(joint.cut.depth))
        assert 1.0 / placed.point == 72.0


def test_letters_go_on_after_z() -> None:
    assert [letter(n) for n in (0, 25, 26, 27, 51, 52, 701, 702)] == [
        "a",
        "z",
        "aa",
        "ab",
        "az",
        "ba",
        "zz",
        "aaa",
    ]
