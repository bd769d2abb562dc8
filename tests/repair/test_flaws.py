"""A fault in a sheet: no part is cut where it lies, whatever way is taken; one that was is damaged there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.directions import Way
from casewright.casework.project import draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import Piece, PieceRole, Plan, SheetPlan
from casewright.planner.problem import Trim
from casewright.planner.solve import solve
from casewright.planner.verify.verify import verify
from casewright.repair.facts import Blank, Facts, Origin
from casewright.repair.find_ways import ways
from casewright.repair.flaws import Flaw, harms_of_flaw
from casewright.repair.harm import Harm, HarmKind
from casewright.repair.plans_after import plans_after
from casewright.repair.recorded_facts import cuts_to_free
from casewright.repair.saw_out_faults import saw_out_faults
from casewright.repair.sheets_begun import facts_after
from casewright.repair.sound_wood import sound_pieces
from casewright.repair.ways.way import NewPlaces, Option, WayKind
from casewright.workshop.sheets.cut_problems import cut_problems
from samples import job, spec

PROJECT = draw_up(job(spec("B1", width=F(24))))
PLANS: Mapping[str, Plan] = {
    key: solve(problem, MaxIterations(200)) for key, problem in cut_problems(PROJECT).items()
}


def flaw_in(mark: str) -> Flaw:
    """A fault two inches square in the middle of where a part lies."""
    for key, plan in PLANS.items():
        for sheet, piece in plan.parts():
            if piece.item == mark:
                x, y = piece.x + piece.length / 2 - 1, piece.y + piece.width / 2 - 1
                return Flaw(key, sheet.number, x, y, F(2), F(2))
    raise KeyError(mark)


Rect = tuple[F, F, F, F]


def placed(option: Option, blanks: tuple[Blank, ...]) -> Iterator[tuple[str, str, int, Rect]]:
    """Where each part of a way is cut: its material, sheet and place there, on pieces with a fault."""
    corners = {sound.name: sound for blank in blanks for sound in sound_pieces(blank)}
    for plan in option.plans.values():
        for sheet, piece in plan.parts():
            blank = corners.get(sheet.bin)
            if blank is not None and piece.item and blank.flaws:
                x, y = blank.corner
                flaw = blank.flaws[0]
                rect = (x + piece.x, y + piece.y, piece.length, piece.width)
                yield piece.item, flaw.material, flaw.sheet, rect


@pytest.mark.parametrize("mark", ["B1-L", "B1-B", "B1-A1", "B1-K"])
def test_no_part_is_cut_where_the_fault_lies(mark: str) -> None:
    flaw = flaw_in(mark)
    facts = facts_after(PROJECT, PLANS, (), (flaw,))
    assert mark not in facts.finished and all(mark not in blank.planned for blank in facts.blanks)
    found = ways(PROJECT, facts)
    assert found.options
    for option in found.options:
        for material, plan in option.plans.items():
            assert not verify(option.problems[material], plan)
        for item, _, _, (x, y, long, wide) in placed(option, facts.blanks):
            clear = (
                x + long <= flaw.x
                or flaw.x + flaw.length <= x
                or y + wide <= flaw.y
                or flaw.y + flaw.width <= y
            )
            assert clear, f"{option.kind}: {item}"
        after = plans_after(PROJECT, PLANS, (), facts, option)
        cut = [piece.item for plan in after.values() for _, piece in plan.parts()]
        assert len(cut) == len(set(cut))
        if not any(option.kind.value.startswith(word) for word in ("leave", "change", "trim", "cut its")):
            assert set(cut) == {*PROJECT.parts}, option.kind


def test_the_sound_pieces_around_a_fault_lie_clear_of_it_and_of_each_other() -> None:
    trim = Trim.all_round(F(1, 4))
    flaws = (Flaw("ply", 1, F(20), F(10), F(6), F(4)), Flaw("ply", 1, F(70), F(30), F(3), F(18)))
    whole = Blank("sheet", "ply", F(96), F(48), Origin.SHEET, trim, (), flaws=flaws)
    pieces = sound_pieces(whole)
    areas = [(one.corner, one.length, one.width) for one in pieces]
    for one in pieces:
        assert not any(flaw.reaches(*one.corner, one.length, one.width) for flaw in flaws)
        edges = (one.corner[0] == 0, one.corner[0] + one.length == 96)
        assert (one.trim.left > 0, one.trim.right > 0) == edges
    for at, ((x, y), long, wide) in enumerate(areas):
        for (x2, y2), long2, wide2 in areas[at + 1 :]:
            assert x + long <= x2 or x2 + long2 <= x or y + wide <= y2 or y2 + wide2 <= y
    assert sum(long * wide for _, long, wide in areas) == 96 * 48 - 6 * 4 - 3 * 18


def test_a_part_cut_where_the_fault_lies_is_damaged_there() -> None:
    flaw = flaw_in("B1-L")
    facts = facts_after(PROJECT, PLANS, cuts_to_free(PLANS, ["B1-L"]), (flaw,))
    [harm] = facts.spoiled["B1-L"].harms
    assert harm.fault is HarmKind.DAMAGE and harm.side in (Way.LEFT, Way.RIGHT)


@pytest.mark.parametrize(
    ("x", "y", "long", "wide", "said"),
    [
        (F(10), F(-1), F(4), F(2), [("width", F(4), F(1))]),  # an inch in from one edge
        (F(-1), F(10), F(3), F(4), [("length", F(4), F(2))]),  # two inches in from one end
        (F(-1), F(-1), F(3), F(2), [("length", F(1), F(2)), ("width", F(2), F(1))]),  # a corner
        (F(5), F(-1), F(2), F(60), [("length", F(24), F(7))]),  # right across: the short end is lost
        (F(10), F(10), F(2), F(2), [("face", F(0), F(0))]),  # inside: one of its faces
    ],
)
def test_a_fault_is_told_of_the_sides_that_it_reaches(
    x: F, y: F, long: F, wide: F, said: list[tuple[str, F, F]]
) -> None:
    part = PROJECT.parts["B1-L"]
    length, width, _ = PROJECT.dimensions(part)
    flaw = Flaw("ply", 1, x, y, long, wide)
    names = {part.lie.length: "length", part.lie.width: "width"}

    def told(harms: tuple[Harm, ...]) -> list[tuple[str, F, F]]:
        return [
            (names.get(one.side.axis, "face"), one.long if one.deep else F(0), one.deep)
            for one in harms
            if one.side
        ]

    assert told(harms_of_flaw(PROJECT, part, flaw, (F(0), F(0)), (length, width))) == said
    # The same piece lying across its sheet.
    across = Flaw("ply", 1, y, x, wide, long)
    turned = harms_of_flaw(PROJECT, part, across, (F(0), F(0)), (width, length))
    assert sorted(told(turned)) == sorted(said)


def sawn_out(*flaws: Flaw) -> tuple[tuple[str, ...], tuple[Blank, ...]]:
    """The words for every sound piece of a sheet being used, and those pieces."""
    blank = Blank("whole ply sheet 1", "ply", F(96), F(48), Origin.SHEET, flaws=flaws)
    pieces = sound_pieces(blank)
    sheets = tuple(
        SheetPlan(number, one.name, Piece(F(0), F(0), one.length, one.width, PieceRole.OFFCUT))
        for number, one in enumerate(pieces, 2)
    )
    plan = replace(PLANS["ply"], sheets=sheets)
    return saw_out_faults(PROJECT, Facts(blanks=(blank,)), {"ply": plan}), pieces


def test_the_fault_is_sawn_out_first_and_each_piece_is_named() -> None:
    words, pieces = sawn_out(Flaw("ply", 1, F(30), F(12), F(4), F(3)))
    assert 'Rip whole ply sheet 1 at 12" and at 15" from its near edge' in words[0]
    assert 'Crosscut the strip with the fault in it at 30" and at 34" from its left end' in words[1]
    assert len(words) == 2 + len(pieces)
    for number, piece in enumerate(pieces, 2):
        [said] = [one for one in words if f"ply {number}:" in one]
        assert f'{piece.length}" × {piece.width}"' in said


def test_a_second_fault_is_sawn_out_of_the_piece_it_lies_in_by_that_pieces_own_edges() -> None:
    first, second = Flaw("ply", 1, F(30), F(12), F(4), F(3)), Flaw("ply", 1, F(50), F(40), F(2), F(8))
    words, pieces = sawn_out(first, second)
    assert all(any(f"ply {number}:" in one for one in words) for number in range(2, 2 + len(pieces)))
    # 40 from the sheet's own edge is 25 from the sawn one.
    assert any('Rip what lies beyond the fault, 96" × 33", at 25" from its near edge' in one for one in words)


def test_nothing_is_sawn_out_where_no_sound_piece_is_used() -> None:
    blank = Blank(
        "sheet", "ply", F(96), F(48), Origin.SHEET, flaws=(Flaw("ply", 1, F(30), F(12), F(4), F(3)),)
    )
    assert saw_out_faults(PROJECT, Facts(blanks=(blank,)), PLANS) == ()


def test_with_one_other_sheet_laid_out_again_the_rest_stays_where_it_is() -> None:
    project = draw_up(job(*(spec(f"B{number}", width=F(36)) for number in range(1, 5))))
    plans = {key: solve(problem, MaxIterations(200)) for key, problem in cut_problems(project).items()}
    facts = facts_after(project, plans, (), (Flaw("ply", 2, F(30), F(12), F(4), F(3)),))
    option = next(one for one in ways(project, facts).options if one.kind is WayKind.RECUT)
    [again] = [one for one in option.actions if isinstance(one, NewPlaces)]
    assert again.sheets == 2 and len(plans["ply"].sheets) > 3
    after = plans_after(project, plans, (), facts, option)["ply"]
    assert sum(sheet in after.sheets for sheet in plans["ply"].sheets) == len(plans["ply"].sheets) - 2
