"""Matched parts cut by hand: in one pass where they can be, else marked from the part that is cut already."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.project import draw_up
from casewright.workshop.cut_wording import cut_words
from casewright.workshop.operations import Cutter, Guide, Hold, Machine, Operation, OperationKind, Setting
from casewright.workshop.order.step_times import Effort, effort_of
from casewright.workshop.sheets.matched_cuts import cut_together
from samples import job, spec

PROJECT = draw_up(job(spec("B1"), spec("B2")))
LENGTH = PROJECT.dimensions(PROJECT.parts["B1-L"])[0]
BY_HAND = Setting(Machine.HAND_SAW, Cutter("blade", F(1, 8)), Guide.STRAIGHTEDGE, F(3, 2))


def side(
    mark: str, after: tuple[str, ...] = (), wide: F = F(24), kind: OperationKind = OperationKind.CROSSCUT
) -> Operation:
    """A cut by hand that brings a side to its length, out of a strip so wide."""
    hold = Hold("left edge", "good face", "", False)
    size = (F(96), wide, F(3, 4))
    return Operation(
        f"cut {mark}", kind, "ply 1", (mark,), BY_HAND, hold, size, wide, after, LENGTH, 0, "", (mark,)
    )


def paired(*cuts: Operation) -> dict[str, Operation]:
    return {cut.key: cut for cut in cut_together(PROJECT, cuts)}


def test_two_sides_wait_for_each_other_s_strips_and_are_cut_in_one_pass() -> None:
    done = paired(side("B1-L", ("rip 1",)), side("B1-R", ("rip 2",)))
    assert {cut.together for cut in done.values()} == {("cut B1-L", "cut B1-R")}
    assert {cut.after for cut in done.values()} == {("rip 1", "rip 2")}
    first, second = (effort_of(cut) for cut in done.values())
    assert Effort.STRAIGHTEDGE in first and Effort.STRAIGHTEDGE not in second


SHEETS = tuple(side(mark, kind=OperationKind.CARRY) for mark in ("B1-L", "B1-R"))


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (side("B1-L"), side("B1-R", wide=PROJECT.job.shop.hand_saw.cut_length - 23)),
        (side("B1-L"), side("B1-R", ("cut B1-L",))),
        SHEETS,
    ],
    ids=["wider than the straightedge", "out of what the first leaves", "whole sheets"],
)
def test_else_the_second_is_marked_from_the_first(first: Operation, second: Operation) -> None:
    done = paired(first, second)
    assert not any(cut.together for cut in done.values())
    assert done["cut B1-R"].marked_from == "B1-L" and "cut B1-L" in done["cut B1-R"].after


def test_the_one_that_must_come_first_is_the_pattern() -> None:
    done = paired(side("B1-L", ("cut B1-R",)), side("B1-R"))
    assert done["cut B1-L"].marked_from == "B1-R" and not done["cut B1-R"].marked_from


def test_a_cut_that_sizes_parts_of_two_groups_ties_them_together() -> None:
    both = replace(side("B1-L"), parts=("B1-L", "B2-L"), sizes=("B1-L", "B2-L"))
    done = paired(both, side("B1-R"), side("B2-R"))
    assert {cut.together for cut in done.values()} == {("cut B1-L", "cut B1-R", "cut B2-R")}


def test_cases_that_need_not_match_are_cut_each_for_itself() -> None:
    assert not any(cut.together or cut.marked_from for cut in paired(side("B1-L"), side("B2-R")).values())


def test_at_the_table_saw_the_setting_itself_makes_them_alike() -> None:
    at_fence = replace(BY_HAND, machine=Machine.TABLE_SAW, guide=Guide.FENCE)
    cuts = [replace(side(mark), setting=at_fence) for mark in ("B1-L", "B1-R")]
    assert cut_together(PROJECT, cuts) == cuts


def test_pieces_clamped_together_are_named_as_they_are_chalked_with_their_parts() -> None:
    """The parts do not lie there yet: what is clamped is the sheet or the chalked piece."""
    done = paired(side("B1-L"), replace(side("B1-R"), piece="ply 2"))
    mates = tuple(done.values())
    first, second = (cut_words(PROJECT, cut, mates) for cut in mates)
    assert "Clamp ply 1 (B1-L) and ply 2 (B1-R) side by side, left edges flush, and cut them in one" in first
    assert "Same pass as ply 1 (B1-L); tick both." in second
