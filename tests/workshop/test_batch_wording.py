"""The words at the bench say what the settings say."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from casewright.workshop.batch_wording import BatchText, BatchWriter
from casewright.workshop.cut_wording import far_side_as_set
from casewright.workshop.holes.row_wording import jig_holes
from casewright.workshop.operations import Guide
from casewright.workshop.order.batches import order
from casewright.workshop.safety.hazards import Hazard
from workshop.test_work import FULL_JOB, planned


@cache
def told() -> dict[str, BatchText]:
    project, _, done = planned(FULL_JOB)
    telling = BatchWriter(project)
    return {batch.key: telling.batch_text(batch) for batch in order(done.operations).batches}


def one(ending: str) -> BatchText:
    (found,) = [b for b in told().values() if any(step.key.endswith(ending) for step in b.steps)][:1]
    return found


def test_a_dado_says_cutter_fence_height_test_piece_and_guard() -> None:
    batch = one("B1-L dado-bottom")
    words = " ".join(batch.setting)
    assert 'Fence 4" from the near side of the cutter (its far side is at 4 23/32")' in words
    assert 'Height 1/4".' in words and "test piece" in words
    assert Hazard.GUARD in {caution.hazard for caution in batch.cautions}
    assert {step.piece for step in batch.steps} >= {"B1-L", "B1-R"}


def test_a_groove_as_far_in_as_a_strip_is_thick_is_set_by_the_strip_and_a_dado_is_not() -> None:
    groove, dado = (" ".join(one(f"B1-L {name}").setting) for name in ("groove-back pass 1", "dado-bottom"))
    assert "With the saw unplugged, set it by a piece of the birch ply between fence and cutter" in groove
    assert "unplugged" not in dado


def test_a_mirrored_pair_is_called_out_on_its_batch() -> None:
    said = [caution.text for caution in one("B1-L dado-bottom").cautions if caution.hazard is Hazard.MIRROR]
    assert len(said) == 1 and "B1-L" in said[0] and "B1-R" in said[0]


def test_a_notch_says_where_the_straightedge_stands_and_where_to_stop() -> None:
    """By hand: lines 3 and 4 in, the saw's base 1 1/2 in wide: straightedges at 4 1/2 and 5 1/2."""
    (step,) = [s for s in one("B1-L notch-toe").steps if s.piece == "B1-L"]
    assert 'straightedge at 4 1/2"' in step.hold and 'straightedge at 5 1/2"' in step.hold
    assert "hand saw" in step.hold


def test_a_row_says_the_jig_s_holes() -> None:
    steps = [step for b in told().values() for step in b.steps if step.kind == "bore"]
    assert steps and all(
        "jig hole" in step.hold and "from the lower end; bore" in step.hold for step in steps
    )
    assert any("Spacer" in step.hold for step in steps)


def test_putting_together_says_screws_glue_and_diagonals() -> None:
    shell = one("B1 shell").steps[0].hold
    assert "clamps" in shell and "sq in" in shell and "Both diagonals" in shell and "pilot 7/64" in shell


def test_every_batch_has_a_title_its_minutes_and_its_pieces() -> None:
    for batch in told().values():
        assert batch.title and batch.steps and batch.minutes > 0
        assert all(step.size and step.hold for step in batch.steps)
        assert len({caution.text for caution in batch.cautions}) == len(batch.cautions)


@pytest.mark.parametrize(
    ("holes", "said"),
    [
        ((4,), "jig hole 4"),
        ((1, 2, 3), "jig holes 1 to 3"),
        ((1, 3, 5, 7), "every second jig hole from 1 to 7, 4 in all"),
        ((2, 5), "every third jig hole from 2 to 5, 2 in all"),
        ((1, 5, 9), "every 4th jig hole from 1 to 9, 3 in all"),
    ],
)
def test_holes_left_out_are_not_bored(holes: tuple[int, ...], said: str) -> None:
    """Every second hole was told as "jig holes 1 to 11": twice the holes of the drawing."""
    assert jig_holes(holes) == said


def test_a_stick_lies_along_the_edge_with_its_zero_at_a_named_end() -> None:
    """Whoever is told “always the same end” may choose the wrong one both times."""
    made = replace(FULL_JOB, shop=replace(FULL_JOB.shop, pin_jig=None))
    project, _, done = planned(made)
    batches = [BatchWriter(project).batch_text(batch) for batch in order(done.operations).batches]
    holds = [step.hold for batch in batches for step in batch.steps if step.kind == "bore"]
    assert holds and all("Stick along the " in one and "on the story stick" not in one for one in holds)
    sides = [step.hold for b in batches for step in b.steps if step.kind == "bore" and step.piece == "B1-L"]
    assert sides and all("Zero of the stick at the LOWER END: " in one for one in sides)


def test_two_passes_say_the_exact_figures_and_how_far_the_fence_moves() -> None:
    """A groove 15/64 wide 23/32 in, by a blade of 1/8: the second pass at 53/64, 7/64 further. To the nearest
    mark alone, two such passes made a groove 1/64 too wide."""
    first, second = (" ".join(one(f"B1-L groove-back pass {number}").setting) for number in (1, 2))
    assert 'Fence 23/32" from' in first and "move the fence" not in first
    assert 'Fence ~27/32" (0.828 in) from' in second and 'at ~31/32" (0.953 in))' in second
    assert "From the pass before, move the fence 0.109 in away from the cutter" in second


def test_the_far_side_is_that_of_the_fence_as_it_is_set() -> None:
    """Whoever sets the fence by the far side of the blade cuts the same part as by the near side."""
    project, _, done = planned(FULL_JOB)
    texts = BatchWriter(project)
    seen = 0
    for batch in order(done.operations).batches:
        setting = batch.setting
        if setting and setting.guide is Guide.FENCE and setting.height is None:
            far = far_side_as_set(project, setting)
            assert far == project.rule.number(setting.distance) + setting.cutter.width
            assert texts.text(far) in " ".join(texts.batch_text(batch).setting)
            seen += far != setting.far_side
    assert seen, "some fence stands at a number that is not the exact size"
