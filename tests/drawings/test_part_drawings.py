"""A part's drawing carries every size a person needs, and the two hands are true mirror images."""

from __future__ import annotations

from itertools import pairwise

import pytest

from casewright.casework.directions import Way
from casewright.casework.parts.features.channel import Channel, ChannelKind
from casewright.casework.parts.features.notch import Notch
from casewright.casework.parts.features.pin_row import PinRow
from casewright.casework.parts.part import Hand, Part
from casewright.drawings.kit.lettering import dimension_text, stock_dimension
from casewright.drawings.kit.pages import at_scale, fit_to_room
from casewright.drawings.kit.pens import HEAVY, Layer
from casewright.drawings.kit.scene import Scene, Shape
from casewright.drawings.kit.strokes import Lettering, Outline, Ring
from casewright.drawings.views.part_drawing import pair_scenes, part_scenes
from casewright.drawings.views.part_view import FaceView, faces, reference_edges
from casewright.workshop.side_names import side_words
from drawings.shown_jobs import project

PARTS = tuple(project().parts.values())


def said(part: Part) -> list[str]:
    first, *more = part_scenes(project(), part)
    return [stroke.text for stroke in at_scale(first, 0.1, *more).strokes if isinstance(stroke, Lettering)]


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.mark)
def test_each_feature_shows_its_place_width_and_depth(part: Part) -> None:
    of, mark = project().sizes.of, project().rule
    texts = said(part)
    everything = " | ".join(texts)
    for size in (part.length, part.width):
        assert dimension_text(of(size), mark) in texts
    for feature in part.features:
        if isinstance(feature, Channel):
            width, depth = (
                stock_dimension(of(feature.width), mark.unit),
                dimension_text(of(feature.depth), mark),
            )
            cut = f"{width} wide × {depth} deep"
            assert f"{feature.kind.value} · {cut}" in everything
            wanted = [feature.at]
        elif isinstance(feature, Notch):
            wanted = [feature.first, feature.second]
        else:
            assert isinstance(feature, PinRow)
            wanted = [feature.setback, feature.first]
            assert f"{int(of(feature.number))} hole" in everything
        for size in wanted:
            text = dimension_text(of(size), mark)
            assert not of(size) or any(words == text or words.startswith(f"{text}  ") for words in texts)


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.mark)
def test_reference_edges_are_heavy_and_named(part: Part) -> None:
    (scene, *_) = part_scenes(project(), part)
    heavy = [item.name for item in scene if isinstance(item, Shape) and item.pen is HEAVY]
    assert heavy == [edge.name.lower() for edge in reference_edges(part)]
    texts = said(part)
    named = {text.split(",")[0] for text in texts}
    assert all(side_words(part, edge).upper() in named for edge in reference_edges(part))


def cuts(scene: Scene) -> set[tuple[str, tuple[float, float, float, float]]]:
    """Where channels and notches lie in a drawing: left, low, right, high."""
    layers = (Layer.DADO, Layer.GROOVE, Layer.RABBET, Layer.NOTCH)
    found = set()
    for item in scene:
        if isinstance(item, Shape) and item.layer in layers:
            xs, ys = [x for x, _ in item.points], [y for _, y in item.points]
            found.add((item.name, (min(xs), min(ys), max(xs), max(ys))))
    return found


@pytest.mark.parametrize("case", list(project().cases))
def test_left_and_right_are_mirror_images(case: str) -> None:
    left, right = project().parts[f"{case}-L"], project().parts[f"{case}-R"]
    upper, lower = pair_scenes(project(), left, right)
    wide = float(project().sizes.of(left.width))
    mirrored = {(name, (x0, wide - y1, x1, wide - y0)) for name, (x0, y0, x1, y1) in cuts(lower)}
    shared = {feature.name for feature in left.features} & {feature.name for feature in right.features}
    assert {cut for cut in mirrored if cut[0] in shared} == {cut for cut in cuts(upper) if cut[0] in shared}
    assert cuts(upper) != cuts(lower)
    texts = [stroke.text for stroke in at_scale(upper, 0.1).strokes if isinstance(stroke, Lettering)]
    hands = [text for text in texts if "hand, " in text]
    assert hands == ["RIGHT hand, inside face up"]


def test_front_edges_of_a_pair_meet_in_the_middle() -> None:
    left, right = project().parts["B1-L"], project().parts["B1-R"]
    views = [FaceView(part, part.lie.worked, project().sizes) for part in (right, left)]
    foot_of_upper, head_of_lower = views[0].edges()[0], views[1].edges()[1]
    assert side_words(right, foot_of_upper) == side_words(left, head_of_lower) == "front edge"
    assert left.hand is Hand.LEFT and right.hand is Hand.RIGHT


def test_a_divider_worked_on_both_faces_is_drawn_from_both() -> None:
    divider = project().parts["B2-D1"]
    assert len(faces(divider)) == 2
    assert len(part_scenes(project(), divider)) == 2
    assert any("turned over" in text for text in said(divider))


def test_holes_lie_where_the_ledger_puts_them() -> None:
    side = project().parts["B1-L"]
    view = FaceView(side, side.lie.worked, project().sizes)
    of = project().sizes.of
    for feature in view.features():
        if not isinstance(feature, PinRow):
            continue
        holes = view.holes(feature)
        assert len(holes) == of(feature.number)
        along = [x for x, _ in holes]
        assert along[0] == float(of(feature.first))
        assert all(abs(b - a - float(of(feature.pitch))) < 1e-9 for a, b in pairwise(along))
        # Front edge at the head of the left side's drawing: so much down from it, or up from the back.
        wide = float(view.wide)
        setback = float(of(feature.setback))
        drawn = wide - setback if feature.edge.name == "FRONT" else setback
        assert all(y == pytest.approx(drawn, abs=1e-9) for _, y in holes)


def test_a_groove_is_told_from_a_dado() -> None:
    (scene, *_) = part_scenes(project(), project().parts["B1-L"])
    drawn = {stroke.layer for stroke in at_scale(scene, 0.1).strokes if isinstance(stroke, Outline | Ring)}
    kinds = {f.kind for f in project().parts["B1-L"].features if isinstance(f, Channel)}
    assert kinds == {ChannelKind.DADO, ChannelKind.GROOVE}
    assert {Layer.DADO, Layer.GROOVE, Layer.NOTCH, Layer.BORES, Layer.BLANK} <= drawn


@pytest.mark.parametrize("part", [part for part in PARTS if part.features], ids=lambda part: part.mark)
def test_an_edges_name_is_clear_of_the_words_about_what_runs_along_it(part: Part) -> None:
    """Regression: on a short part the groove's words were set over REAR EDGE."""
    (scene, *_) = part_scenes(project(), part)
    level = [s for s in at_scale(scene, 1.0).strokes if isinstance(s, Lettering) and not s.turn]
    names = {side_words(part, edge).casefold() for edge in Way}
    beside = [s for s in level if s.text.casefold() in names]
    words = [s for s in level if " wide × " in s.text or " hole" in s.text]
    assert len(beside) == 2
    for name in beside:
        assert all(abs(name.at[1] - other.at[1]) >= max(name.size, other.size) for other in words)


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.mark)
def test_a_drawing_keeps_to_its_room(part: Part) -> None:
    first, *more = part_scenes(project(), part)
    placed = fit_to_room(first, 540.0, 420.0, *more)
    assert placed.wide <= 540.0 and placed.tall <= 420.0
    assert max(placed.wide / 540.0, placed.tall / 420.0) > 0.9
