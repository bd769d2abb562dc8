"""What is chalked on the pieces of a sheet, and how the cuts by hand tell it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from functools import cache

import pytest

from casewright.casework.project import Project, draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.shop.machines import Carry
from casewright.workshop.cut_wording import cut_words, piece_words
from casewright.workshop.freed_pieces import Freed, letter_of
from casewright.workshop.operations import Machine, Operation
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.sheets.sheet_cuts import cuts_of_plans
from samples import BASE, SHEETS, SHOP, job, spec


@pytest.mark.parametrize(
    ("count", "letter"), [(0, "A"), (7, "H"), (8, "J"), (13, "P"), (23, "Z"), (24, "AA"), (48, "BA")]
)
def test_letters_go_on_after_z_and_leave_out_i_and_o(count: int, letter: str) -> None:
    assert letter_of(count) == letter


@cache
def cut_up() -> tuple[Project, tuple[Operation, ...]]:
    """Two cases in a shop whose maker carries 36 lb, 72 in long; sheets of 2 lb a square foot."""
    heavy = {key: replace(good, weight=F(2)) for key, good in SHEETS.items()}
    shop = replace(SHOP, carry=Carry(F(36), F(72)))
    project = draw_up(replace(job(*(spec(f"B{n}", bays=BASE) for n in (1, 2))), sheets=heavy, shop=shop))
    plans = {key: solve(problem, MaxIterations(30)) for key, problem in cut_problems(project).items()}
    return project, tuple(cuts_of_plans(project, plans))


def test_each_sheet_is_lettered_from_a_on() -> None:
    _, cuts = cut_up()
    for sheet in {cut.piece for cut in cuts}:
        named = {one.carried for one in cuts if one.piece == sheet and one.carried}
        letters = sorted(piece.letter for piece in named if piece.letter)
        assert letters == [letter_of(number) for number in range(len(letters))]


def test_the_cut_that_frees_a_piece_says_what_to_chalk_on_it_and_what_it_weighs() -> None:
    project, cuts = cut_up()
    by_key = {cut.key: cut for cut in cuts}
    told = 0
    for piece in dict.fromkeys(cut.carried for cut in cuts if cut.carried and cut.carried.freed_by):
        words = cut_words(project, by_key[piece.freed_by])
        pounds = round(piece.length * piece.width * 2 / 144)
        assert f" {piece.chalk}: " in words and f", {pounds} lb" in words.partition(f" {piece.chalk}: ")[2]
        told += 1
    assert told > 3


def test_a_cut_by_hand_names_the_side_on_which_each_piece_lies() -> None:
    project, cuts = cut_up()
    seen = set()
    for cut in cuts:
        if cut.setting.machine is not Machine.HAND_SAW or len(cut.leaves) < 2:
            continue
        words, sides = cut_words(project, cut), [one.side for one in cut.leaves]
        assert sides in (["left", "right"], ["near", "far"])
        assert words.index(f"the {sides[0]} piece") < words.index(f"the {sides[1]} piece")
        seen.add(tuple(sides))
    assert seen


def test_a_part_at_size_is_named_by_the_cut_that_frees_it_and_by_no_other() -> None:
    project, cuts = cut_up()
    freed = [one.name for cut in cuts for one in cut.leaves if one.what is Freed.PART]
    assert sorted(freed) == sorted(project.parts)
    for cut in cuts:
        for one in cut.leaves:
            if one.what is Freed.PART:
                words = cut_words(project, cut)
                assert f": {one.name}." in words or f"is {one.name}, at its size" in words


def test_before_it_is_carried_a_piece_goes_by_its_sheet() -> None:
    _, cuts = cut_up()
    first = next(cut for cut in cuts if cut.setting.machine is Machine.HAND_SAW)
    assert piece_words(first) == first.piece
    at_saw = next(cut for cut in cuts if cut.carried and cut.carried.letter)
    assert piece_words(at_saw).startswith(at_saw.piece) and piece_words(at_saw) != at_saw.piece
