"""Rows of holes with a jig and without, against trade facts and the 32 mm system's figures."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.casework.parts.holes import HoleRow
from casewright.casework.project import draw_up
from casewright.shop.machines import PinJig
from casewright.workshop.holes.boring import (
    level_findings,
    make_spacer,
    spacer,
    sticks_needed,
    story_sticks,
    with_jig,
)
from samples import BASE, job, spec
from workshop.simulate import bored_by

JIG = PinJig("jig", F(3, 2), F(1), 12, F(1, 4))


def test_spacers_add_exactly() -> None:
    """Common practice, no source: 1 1/2 in of the jig's own and a 3/4 in spacer bore at 2 1/4 in."""
    assert spacer(JIG, F(9, 4)) == F(3, 4)
    work = with_jig(JIG, HoleRow(F(6), F(2), 4, F(9, 4), F(1, 4), F(3, 8)))
    assert {across for _, across in bored_by(JIG, work)} == {F(9, 4)}


def test_a_single_hole_without_a_pitch_takes_one_place_of_the_jig() -> None:
    work = with_jig(JIG, HoleRow(F(4), F(0), 1, F(3, 2), F(1, 4), F(3, 8)))
    assert [(move.shift, move.holes) for move in work.moves] == [(F(4), (1,))]


@given(
    st.integers(2, 20),
    st.integers(1, 3),
    st.integers(1, 40),
    st.fractions(F(2), F(12), max_denominator=32),
    st.fractions(F(0), F(2), max_denominator=32),
)
def test_laid_as_told_the_jig_bores_every_hole_once(
    holes: int, every: int, number: int, first: F, more: F
) -> None:
    jig = PinJig("jig", F(3, 2), F(1), holes, F(1, 4))
    row = HoleRow(first, F(every), number, jig.setback + more, F(1, 4), F(3, 8))
    if number > 1 and (holes - 1) // every < 1:
        with pytest.raises(ValueError, match="shorter"):
            with_jig(jig, row)
        return
    work = with_jig(jig, row)
    assert bored_by(jig, work) == tuple((hole, row.setback) for hole in row.holes)
    assert all(1 <= hole <= holes for move in work.moves for hole in move.holes)
    for move, after in zip(work.moves, work.moves[1:], strict=False):
        # The pin of the next lay stands in the last hole of this one, through jig hole 1.
        assert after.shift == move.shift + (move.holes[-1] - 1) * jig.pitch


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (HoleRow(F(6), F(3, 2), 4, F(2), F(1, 4), F(3, 8)), "pitch"),
        (HoleRow(F(6), F(2), 4, F(2), F(3, 16), F(3, 8)), "size"),
        (HoleRow(F(6), F(2), 4, F(1), F(1, 4), F(3, 8)), "nearer"),
    ],
)
def test_what_the_jig_cannot_bore_is_refused(row: HoleRow, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        with_jig(JIG, row)


def test_a_spacer_from_scrap_is_the_nearest_there_is() -> None:
    made = make_spacer(F(15, 16), [("ply", F(23, 32)), ("thin", F(7, 32))])
    assert made is not None
    assert made.layers == (("thin", 1), ("ply", 1)) and made.off == 0
    none = make_spacer(F(0), [("ply", F(23, 32))])
    assert none is None and make_spacer(F(1), []) is None


@given(st.fractions(F(1, 4), F(3), max_denominator=64))
def test_no_other_stack_of_four_layers_comes_nearer(wanted: F) -> None:
    scraps = [("a", F(23, 32)), ("b", F(7, 32)), ("c", F(15, 32))]
    made = make_spacer(wanted, scraps)
    assert made is not None
    every = [
        abs(a * F(23, 32) + b * F(7, 32) + c * F(15, 32) - wanted)
        for a in range(5)
        for b in range(5 - a)
        for c in range(5 - a - b)
        if a + b + c
    ]
    assert abs(made.off) == min(every)


def test_one_stick_serves_left_and_right_and_its_holes_are_level_in_the_case() -> None:
    project = draw_up(job(spec(bays=BASE)))
    sticks = story_sticks(project)
    assert level_findings(project) == ()
    (shared,) = [stick for stick in sticks if "B1-L pins-12-right-front" in stick.serves]
    for stick in sticks:
        assert stick.marks and stick.length > stick.marks[-1]
    floors = {}
    for name in shared.serves:
        mark = name.split()[0]
        floors[mark] = project.corner(project.parts[mark])[2] + shared.marks[0]
    assert len(set(floors.values())) == 1


def test_sticks_are_made_for_what_the_jig_cannot_bore() -> None:
    sample = job(spec(bays=BASE))
    every = story_sticks(draw_up(sample))
    assert sticks_needed(draw_up(sample)) == every != ()
    with_jig_at_hand = replace(sample, shop=replace(sample.shop, pin_jig=JIG))
    assert sticks_needed(draw_up(with_jig_at_hand)) == ()
    too_far_in = replace(sample, shop=replace(sample.shop, pin_jig=replace(JIG, setback=F(2))))
    left = sticks_needed(draw_up(too_far_in))
    assert left and {stick.setback for stick in left} == {F(3, 2)} and len(left) < len(every)


def test_a_row_that_is_not_level_is_said() -> None:
    project = draw_up(job())
    (name,) = [n for n in project.sizes.ledger if n.startswith("B1-R.pins") and n.endswith("front.first")]
    moved = project.given({name: project.sizes.of(name) + 1})
    (finding,) = level_findings(moved)
    assert finding.code == "pins-not-level" and finding.place == "B1"
