"""The run in elevation and plan: what is drawn where, and chains that add up to the opening."""

from __future__ import annotations

from fractions import Fraction as F

from casewright.casework.job import Filler
from casewright.casework.parts.part import Role
from casewright.casework.project import draw_up
from casewright.drawings.kit.lettering import dimension_text
from casewright.drawings.kit.pens import HIDDEN
from casewright.drawings.kit.scene import Dimension, DimensionAxis, Scene, Words
from casewright.drawings.views.elevation import elevation
from casewright.drawings.views.plan_view import plan_view
from casewright.drawings.views.room import walls
from drawings.shown_jobs import project
from samples import job, spec

(WALL,) = walls(project())


def dimensions(scene: Scene, axis: DimensionAxis) -> list[Dimension]:
    return [item for item in scene if isinstance(item, Dimension) and item.axis is axis]


def test_both_runs_of_a_wall_share_one_picture_the_hung_one_above() -> None:
    scene = elevation(WALL)
    outlines = {mark: scene.shapes(mark)[0] for mark in project().cases}
    lows = {mark: min(y for _, y in shape.points) for mark, shape in outlines.items()}
    assert lows["W1"] == lows["W2"] == 54.0
    assert all(lows[mark] < 5 for mark in ("B1", "B2", "T1"))
    assert [item.text for item in scene if isinstance(item, Words) and item.pill] == list(project().cases)


def test_the_chain_of_widths_adds_up_to_the_opening() -> None:
    scene = elevation(WALL)
    for number, run in enumerate(WALL.runs, 1):
        opening = project().sizes.of(f"run{number}.opening")
        across = dimensions(scene, DimensionAxis.ACROSS)
        whole = [
            item for item in across if item.text == dimension_text(opening, project().rule) and item.bold
        ]
        assert len(whole) == 1
        links = [item for item in across if not item.bold and item.base == whole[0].base]
        assert abs(sum(item.high - item.low for item in links) - float(opening)) < 1e-9
        cases = [
            dimension_text(project().sizes.of(f"{case.mark}.width"), project().rule) for case in run.cases
        ]
        assert all(text in [item.text for item in links] for text in cases)


def test_adjustable_shelves_are_broken_lines_and_strips_are_hidden() -> None:
    scene = elevation(WALL)
    for part in project():
        shapes = scene.shapes(part.mark)
        if part.role in (Role.MOUNTING_STRIP, Role.BACK_STRETCHER):
            assert not shapes
        else:
            assert len(shapes) == 1
            assert (shapes[0].pen is HIDDEN) == (part.role is Role.ADJUSTABLE_SHELF)


def test_heights_are_told_from_the_floor() -> None:
    texts = {item.text for item in dimensions(elevation(WALL), DimensionAxis.UP)}
    assert {"54", "84", "96"} <= texts
    assert dimension_text(F(69, 2), project().rule) in texts


def test_the_plan_shows_depths_and_what_hangs_in_broken_lines() -> None:
    scene = plan_view(WALL)
    assert {item.text for item in dimensions(scene, DimensionAxis.UP)} == {"12", "24"}
    assert all((scene.shapes(mark)[0].pen is HIDDEN) == mark.startswith("W") for mark in project().cases)
    assert all(max(y for _, y in scene.shapes(mark)[0].points) == 0.0 for mark in project().cases)


def test_a_figure_is_the_size_it_names() -> None:
    """A filler of 1/2 with 1/4 left over beside it is two figures, not one of 3/4."""
    roomy = draw_up(
        job(
            spec("B1", width=F(30)),
            spec("B2", width=F(24)),
            opening=F(220, 4),
            left=Filler(F(1, 4), F(1, 4), "ply"),
            right=Filler(F(1, 2), F(1, 4), "ply"),
        )
    )
    (wall,) = walls(roomy)
    named = {item.name: item for item in elevation(wall) if isinstance(item, Dimension) and item.name}
    for name, item in named.items():
        assert item.text == dimension_text(roomy.sizes.of(name), roomy.rule), name
        assert abs(item.high - item.low - float(roomy.sizes.of(name))) < 1e-9
    across = {
        "run1.opening",
        "run1.left_filler",
        "B1.width",
        "B2.width",
        "run1.right_filler",
        "run1.spare",
    }
    assert across <= set(named)
    assert named["run1.right_filler"].text != named["run1.opening"].text
