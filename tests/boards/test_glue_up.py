"""Parts wider than a board: into how many strips they are divided, and what the judge makes of the strips."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from board_lists import board_of
from casewright.boards.board_faults import board_plan_faults
from casewright.boards.board_json import board_answer
from casewright.boards.board_plan import BoardPlan, BoardStrip, CutBoard, RoughPart
from casewright.boards.board_problem import BoardPart, BoardProblem
from casewright.boards.glue_up import as_planned, to_glue_up
from casewright.boards.keep_boards import keep_boards
from casewright.boards.plan_boards import lone_misfits, plan_boards
from casewright.record.board_rows import boards_from_plain, boards_to_plain
from casewright.shop.rough_boards import Milling, RoughBoard

USUAL = RoughBoard("", F(120), (F(7),), F(1))
WIDE = RoughBoard("wide", F(60), (F(15),), F(1))


def panels(number: int = 2, width: F = F(12), length: F = F(24)) -> BoardProblem:
    """Solid panels of doors, and a stile each."""
    parts = [BoardPart(f"DP{at}", length, width) for at in range(number)]
    parts += [BoardPart(f"DL{at}", F(30), F(9, 4)) for at in range(number)]
    return BoardProblem(tuple(parts), (), USUAL, F(1, 8), rough_mark=F(1, 8))


def strips_across(plan: BoardPlan) -> list[BoardStrip]:
    return [strip for _, _, strip in plan.strips() if strip.is_glued]


def test_a_panel_takes_so_many_strips_as_lie_best_on_its_boards() -> None:
    """12 1/4 in of three strips no wider than 5 in is 4 1/4 in each, one to a 7 in board; of four 3 1/4 in,
    two side by side, which saves a board of four. Where a stile lies beside each of the three strips, or on
    boards 10 in wide, three are no worse, and have a glue line less."""
    beside = panels(5)
    problem = replace(beside, parts=beside.parts[:5])
    plan = plan_boards(problem)
    assert to_glue_up(problem) == {f"DP{at}": (3, 4) for at in range(5)}
    assert [len(strips) for strips in plan.glued.values()] == [4] * 5
    assert {strip.width for strip in strips_across(plan)} == {F(13, 4)}
    assert [len(strips) for strips in plan_boards(beside).glued.values()] == [3] * 5
    wider = plan_boards(replace(problem, bought=replace(USUAL, widths=(F(10),))))
    assert [len(strips) for strips in wider.glued.values()] == [3] * 5
    assert not board_plan_faults(problem, plan) and plan.glued["DP0"] == ("DP0a", "DP0b", "DP0c", "DP0d")


def test_the_strips_of_a_panel_come_from_one_board_where_places_allow() -> None:
    plan = plan_boards(panels(4))
    assert len(plan.boards) > 1
    on_one = [len({board_of(plan)[strip] for strip in strips}) == 1 for strips in plan.glued.values()]
    assert sum(on_one) >= 3


def test_a_part_in_one_piece_where_a_board_gives_it_and_no_wider_than_the_jointer_faces() -> None:
    eight = replace(panels(1, width=F(8)), at_hand=(WIDE,))
    assert plan_boards(eight).glued == {}
    nine = replace(panels(1, width=F(9)), at_hand=(WIDE,))
    assert len(plan_boards(nine).glued["DP0"]) == 2
    wide_jointer = replace(nine, milling=Milling(widest_piece=F(12)))
    assert plan_boards(wide_jointer).glued == {}


def test_where_the_only_wide_board_is_used_up_the_rest_are_glued_up() -> None:
    short = replace(WIDE, length=F(28), widths=(F(9),))
    plan = plan_boards(replace(panels(3, width=F(8)), at_hand=(short,)))
    assert len(plan.glued) >= 2 and not plan.unplaced


def test_only_length_is_beyond_a_glue_up() -> None:
    long = panels(1, length=F(119))
    assert [part.name for part in lone_misfits(long)] == ["DP0"]
    assert plan_boards(long).unplaced == ("DP0",)
    assert lone_misfits(panels(1, length=F(117))) == ()


def test_a_panel_that_lacks_a_strip_is_not_cut_at_all() -> None:
    """Two strips of a panel without the third are wood wasted."""
    little = RoughBoard("little", F(54), (F(9, 2),), F(1))
    problem = replace(panels(1), at_hand=(little,), bought=None)
    plan = plan_boards(problem)
    assert "DP0" in plan.unplaced and not plan.glued and not board_plan_faults(problem, plan)


def changed(plan: BoardPlan, change: object) -> BoardPlan:
    """The plan with every strip put through a function."""

    def of_board(one: CutBoard) -> CutBoard:
        lengths = tuple(
            replace(length, strips=tuple(change(strip) for strip in length.strips))  # type: ignore[operator]
            for length in one.lengths
        )
        return replace(one, lengths=lengths)

    return replace(plan, boards=tuple(map(of_board, plan.boards)))


def renamed(strip: BoardStrip, name: str, other: str, panel: str) -> BoardStrip:
    parts = (replace(p, name=other, panel=panel) if p.name == name else p for p in strip.parts)
    return replace(strip, parts=tuple(parts))


def test_the_judge_finds_strips_that_do_not_make_the_panel() -> None:
    problem = panels()
    plan = plan_boards(problem)
    narrow = changed(plan, lambda s: replace(s, width=s.width - F(1, 4)) if s.is_glued else s)
    assert any("too narrow" in fault for fault in board_plan_faults(problem, narrow))
    lost = changed(plan, lambda s: renamed(s, "DP0a", "DP0a", "DP1"))
    assert any("DP0 comes out of the clamps" in fault for fault in board_plan_faults(problem, lost))
    both = changed(plan, lambda s: renamed(s, "DP0a", "DP0", ""))
    assert any("in one piece and in strips" in fault for fault in board_plan_faults(problem, both))
    assert any("two thicknesses" in f or "too narrow" in f for f in board_plan_faults(problem, both))
    foreign = changed(plan, lambda s: renamed(s, "DP0a", "DP9a", "DP9"))
    assert any("DP9 is cut, but not wanted" in fault for fault in board_plan_faults(problem, foreign))
    strict = replace(problem, milling=Milling(widest_strip=F(3)))
    assert any("too wide" in fault for fault in board_plan_faults(strict, plan))


def test_no_strip_holds_parts_of_two_thicknesses() -> None:
    """A part as wide as a strip is not ripped in one with it: what is glued up is planed thicker. Each board
    would hold a strip and such a part end to end; alone the part is too short to mill."""
    parts = (BoardPart("DP", F(24), F(12)), *(BoardPart(f"S{at}", F(9), F(3)) for at in range(4)))
    board = RoughBoard("", 2 + F(25) + F(1, 8) + F(10), (F(27, 8),), F(1))
    problem = BoardProblem(parts, (), board, F(1, 8), rough_mark=F(1, 8), shortest=F(12))
    plan = plan_boards(problem)
    assert not board_plan_faults(problem, plan) and len(plan.boards) > 4
    assert {strip.width for _, _, strip in plan.strips()} == {F(13, 4)}, "strips as wide as the other parts"
    first = strips_across(plan)[0]
    more = RoughPart("S0", first.parts[-1].x, F(10))
    mixed = changed(plan, lambda s: replace(s, parts=(*s.parts, more)) if s is first else s)
    assert any("two thicknesses" in fault for fault in board_plan_faults(problem, mixed))


def test_kept_boards_keep_the_number_of_strips() -> None:
    """Once strips are cut, a board of another width must not ask for another number of them."""
    problem = panels()
    plan = plan_boards(problem)
    wider = replace(problem, at_hand=(WIDE,))
    assert not board_plan_faults(wider, plan) and keep_boards(wider, plan) == plan
    assert {part.name for part in as_planned(wider, plan).parts if part.panel} == {
        name for strips in plan.glued.values() for name in strips
    }
    more = replace(panels(3), at_hand=(WIDE,))
    carried = keep_boards(more, plan)
    assert not board_plan_faults(more, carried) and {*carried.glued} == {"DP0", "DP1", "DP2"}
    assert carried.boards[: len(plan.boards)] == plan.boards
    bigger = replace(
        problem,
        parts=tuple(replace(part, width=F(13)) if part.name == "DP0" else part for part in problem.parts),
    )
    grown = keep_boards(bigger, plan)
    assert not board_plan_faults(bigger, grown) and grown.glued["DP1"] == plan.glued["DP1"]


def test_strips_come_back_from_the_plan_file_as_they_were() -> None:
    plan = plan_boards(panels())
    assert boards_from_plain(boards_to_plain({"maple": plan})) == {"maple": plan}
    said = [
        part
        for board in board_answer(plan)["boards"]
        for length in board["lengths"]
        for strip in length["strips"]
        for part in strip["parts"]
    ]
    assert {part["mark"]: part.get("strip_of") for part in said}["DP0a"] == "DP0"
    assert all("strip_of" not in part for part in said if part["mark"].startswith("DL"))


@pytest.mark.parametrize("number", [2, 5])
def test_the_bound_is_proved_for_every_number_of_strips(number: int) -> None:
    """No less than the plan found of either number alone, and above nothing."""
    problem = panels(number)
    plan = plan_boards(problem)
    assert 0 < plan.bound <= plan.feet_to_buy and 0 < plan.bound_boards <= len(plan.boards)
    area = sum(part.length * part.width for part in problem.parts) / 144
    assert plan.bound > area
