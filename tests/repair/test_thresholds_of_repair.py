"""What putting right goes by: the proof that wood must be bought, swaps, strips and look-alikes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.parts.part import Part
from casewright.casework.project import Project, draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.problem import Trim
from casewright.repair import find_ways as ways
from casewright.repair import must_buy as proof
from casewright.repair import price
from casewright.repair.facts import AsCut, Blank, Facts, Origin
from casewright.repair.must_buy import is_soon_ruled_out, proves_shortage
from casewright.repair.prevention import saw_check as guard
from casewright.repair.prevention.saw_check import Likeness, look_alikes
from casewright.repair.ways import as_it_is, mends
from casewright.repair.ways import build_out as buildout
from casewright.repair.ways import free_sizes as free
from casewright.repair.ways import from_wood as finish
from casewright.repair.ways import weighed_sizes as weighed
from casewright.repair.ways.build_out import build_outs
from casewright.repair.ways.other_material import material_swaps
from casewright.repair.ways.way import GlueOn
from casewright.shop.machines import HOURLY
from casewright.sizes.affine import Affine
from samples import SHEETS, job, spec

NONE = "common practice, no source"
HAIR = F(1, 64)
KERF = F(1, 8)  # the sample shop's

FIGURES = [
    (guard.CLOSE, F(3, 8), "our judgement, no source"),
    (buildout.NARROWEST, F(3, 4), NONE),
    (buildout.WIDEST, F(3), NONE),
    (proof.PLACED, 1000, "a bound on the search"),
    (proof.NODES, 200, "a bound on the search"),
    (finish.BUYING, 1000, "a bound on the search"),
    (finish.SEARCH, MaxIterations(60), "a bound on the search"),
    (finish.MANY, 8, "a bound on the search"),
    (finish.SHORT_SEARCH, MaxIterations(30), "a bound on the search"),
    (weighed.MOST_WEIGHED, 64, "a bound on the search"),
    (ways.MOST_PLANNED, 10, "a bound on the search"),
    (ways.MOST_FORGONE, 12, "a bound on the search"),
    (ways.MOST_LAID_OUT, 120, "a bound on the search"),
    (ways.MOST_DISTURBED, 6, "a bound on the search"),
    (HOURLY, 60, NONE),
    ([price.SEEN_MINUTES[seen] for seen in price.Seen], [0, 5, 60, 1200], NONE),
    (mends.THINNEST, F(1, 8), NONE),
    (as_it_is.PACK, F(1, 2), NONE),
    (sorted(free.HARDLY.values()), [F(1, 4), F(1, 2), F(1, 2), F(1, 2)], NONE),
    (as_it_is.CHIP, F(1, 2), NONE),
]


@pytest.mark.parametrize(("figure", "value", "source"), FIGURES)
def test_a_figure_is_what_its_source_says(figure: object, value: object, source: str) -> None:
    assert figure == value, source


PROJECT = draw_up(job(spec(bays=(spec().bays[0],))))
SHELF = PROJECT.parts["B1-A1"]


def parts(*sizes: tuple[F | int, F | int]) -> list[Part]:
    """Shelves of these sizes."""
    return [replace(SHELF, length=Affine(F(x)), width=Affine(F(y))) for x, y in sizes]


def blank(length: F | int, width: F | int, trim: Trim | None = None) -> Blank:
    return Blank("offcut", "ply", F(length), F(width), Origin.OFFCUT, trim or Trim())


def must_buy(wanted: Sequence[Part], *blanks: Blank, grain: bool = True) -> bool:
    """Whether it is proved that these do not come out of the wood at hand."""
    sheets = {**PROJECT.job.sheets, "ply": replace(PROJECT.job.sheets["ply"], grain=grain)}
    return proves_shortage(replace(PROJECT, job=replace(PROJECT.job, sheets=sheets)), wanted, blanks)


@pytest.mark.parametrize("along", [1, 2, 3, 4])
@pytest.mark.parametrize("across", [1, 2, 3])
def test_a_grid_that_just_comes_out_is_never_proved_away_and_a_hair_less_is(along: int, across: int) -> None:
    """So many parts of 10 by 7 in each direction with a kerf of 1/8 between them."""
    long, wide = 10 * along + KERF * (along - 1), 7 * across + KERF * (across - 1)
    wanted = parts(*[(10, 7)] * (along * across))
    assert not must_buy(wanted, blank(long, wide))
    assert must_buy(wanted, blank(long - HAIR, wide))
    assert must_buy(wanted, blank(long, wide - HAIR))
    assert must_buy([*wanted, *parts((10, 7))], blank(long, wide))


def test_parts_that_part_among_blanks_are_never_proved_away() -> None:
    """Each blank takes one large part and none takes two; the small one goes beside either."""
    wanted = parts((20, 10), (20, 10), (5, 10))
    small = blank(20, 10)
    assert not must_buy(wanted, blank(25 + KERF, 10), small)
    assert must_buy(wanted, blank(25 + KERF - HAIR, 10), small)
    assert must_buy(wanted, small, small)
    assert not must_buy(wanted, small, small, blank(5, 10))


@pytest.mark.parametrize("rows", [1, 2, 3, 4])
def test_parts_of_which_one_more_would_not_lie_in_a_row_are_counted_and_not_only_weighed(rows: int) -> None:
    """A hair too wide for one more in a row: a square number of them goes in, one more does not.

    Their area alone proves nothing: together they cover from 50 to 68 % of the blank.
    """
    side = (30 + KERF) / (rows + 1) + HAIR - KERF
    assert not must_buy(parts(*[(side, side)] * rows**2), blank(30, 30))
    assert must_buy(parts(*[(side, side)] * (rows**2 + 1)), blank(30, 30))


def test_unequal_parts_cut_in_two_stages_are_never_proved_away() -> None:
    """A strip of 12 with 8 by 5 and 8 by 7 across it, and beside it 6 by 12."""
    wanted = parts((8, 5), (8, 7 - KERF), (6, 12))
    assert not must_buy(wanted, blank(14 + KERF, 12))
    assert must_buy(wanted, blank(14, 12)), "no room for the kerf"


def test_where_the_largest_first_does_not_go_in_it_is_tried_again() -> None:
    """6, 3, 3 and 4, 4, 4 fill two blanks; 6 and 4 together leave no room for the last 3."""
    wanted = parts(*[(long, 10) for long in (6, 4, 4, 4, 3, 3)])
    rooms = [blank(12 + 2 * KERF, 10)] * 2
    assert proof._shared_out(proof._relaxed(PROJECT, wanted, rooms)) is True
    assert (
        proof._shared_out(proof._relaxed(PROJECT, wanted, [rooms[0], blank(12 + 2 * KERF - HAIR, 10)]))
        is False
    )


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.tuples(st.integers(2, 30), st.integers(2, 30), st.integers(1, 4)), min_size=1, max_size=4),
    st.lists(st.tuples(st.integers(10, 40), st.integers(10, 40)), min_size=1, max_size=4),
    st.booleans(),
)
def test_sharing_out_one_by_one_and_the_solver_come_to_the_same(
    kinds: list[tuple[int, int, int]], rooms: list[tuple[int, int]], grain: bool
) -> None:
    """Small enough that both come to an end."""
    wanted = parts(*[(x, y) for x, y, count in kinds for _ in range(count)])
    project = (
        PROJECT if grain else replace(PROJECT, job=replace(PROJECT.job, either_way=frozenset({SHELF.mark})))
    )
    asked = proof._relaxed(project, wanted, [blank(x, y) for x, y in rooms])
    found = proof._shared_out(asked)
    assert found is None or found is not proof._infeasible(asked)


def test_what_a_glance_rules_out_is_proved(monkeypatch: pytest.MonkeyPatch) -> None:
    """A glance rules out what cannot be shared out, and leaves open what it has not followed to the end."""
    wanted, room = parts(*[(20, 10)] * 3), [blank(20, 10), blank(20, 10)]
    assert is_soon_ruled_out(PROJECT, wanted, room) and proves_shortage(PROJECT, wanted, room)
    assert not is_soon_ruled_out(PROJECT, wanted[:2], room)
    monkeypatch.setattr(proof, "PLACED", 1)
    assert not is_soon_ruled_out(PROJECT, wanted, room) and proves_shortage(PROJECT, wanted, room)


def test_a_part_may_turn_only_where_its_sheet_has_no_grain() -> None:
    assert must_buy(parts((10, 7)), blank(7, 10))
    assert not must_buy(parts((10, 7)), blank(7, 10), grain=False)
    assert must_buy(parts((10, 7)), blank(7, 10 - HAIR), grain=False)


def test_what_is_trimmed_off_a_blank_is_no_wood() -> None:
    trim = Trim.all_round(F(1, 4))
    assert not must_buy(parts((10, 7)), blank(F(21, 2), F(15, 2), trim))
    assert must_buy(parts((10, 7)), blank(F(21, 2) - HAIR, F(15, 2), trim))
    assert must_buy(parts((10, 7)), blank(F(21, 2), F(15, 2) - HAIR, trim))


SECOND = replace(SHEETS["ply"], key="second", name="second ply", readings=(F(45, 64),))
LOFT = draw_up(replace(job(), sheets={**SHEETS, "second": SECOND}))


def exchanged(*marks: str, project: Project = LOFT) -> list[dict[str, str]]:
    """The materials that these parts are offered in."""
    found = material_swaps(project, [project.parts[mark] for mark in marks])
    return [{part.mark: part.material for part in changed} for _, changed in found]


def test_a_shelf_is_exchanged_only_for_a_sheet_sold_as_the_same_thickness() -> None:
    """Nominal 3/4 in for 3/4 in, whatever the caliper said; never for the 1/4 in of the back."""
    assert exchanged("B1-A1") == [{"B1-A1": "second"}]
    assert exchanged("B1-A1", project=PROJECT) == []
    ((project, _),) = material_swaps(LOFT, [LOFT.parts["B1-A1"]])
    assert project.sizes.of("B1-A1.thickness") == F(45, 64)
    assert project.parts["B1-A1"].material == "second" and project.parts["B1-L"].material == "ply"
    off = replace(SECOND, nominal=F(3, 4) - HAIR)
    near = draw_up(replace(job(), sheets={**SHEETS, "second": off}))
    assert exchanged("B1-A1", project=near) == []
    assert exchanged("B1-TK", project=near) == [{"B1-TK": "second"}], "a toe kick may be a sixteenth off"
    far = replace(SECOND, nominal=F(3, 4) - F(1, 16) - HAIR)
    assert exchanged("B1-TK", project=draw_up(replace(job(), sheets={**SHEETS, "second": far}))) == []


def test_only_parts_that_nothing_is_fitted_to_are_exchanged() -> None:
    """Common practice, no source: shelves on pins, toe kicks and strips; no part that sits in a dado."""
    swapped = {mark for mark in LOFT.parts if exchanged(mark)}
    assert swapped == {"B1-A1", "B1-TK", *(m for m in LOFT.parts if m.startswith("B1-M"))}
    assert exchanged("B1-A1", "B1-L") == [], "together they are exchanged or not at all"


def built_out(missing: F, worked: bool = False, mark: str = "B1-L") -> F | None:
    """How wide the strip is that a part so much too narrow is built out by; None where it is not."""
    length, width, _ = PROJECT.dimensions(PROJECT.parts[mark])
    facts = Facts(spoiled={mark: AsCut(length, width - missing, worked=worked)})
    for _, actions, _ in build_outs(PROJECT, facts):
        (glued,) = actions
        assert isinstance(glued, GlueOn)
        return glued.width
    return None


def test_a_strip_is_three_quarters_to_three_inches_wide() -> None:
    assert built_out(F(3)) == 3 and built_out(F(3) + HAIR) is None
    assert built_out(HAIR) == F(3, 4) and built_out(F(3, 4) + HAIR) == F(3, 4) + HAIR
    assert built_out(F(0)) is None and built_out(F(1), worked=True) is None
    assert built_out(F(1), mark="B1-K") is None, "a back is too thin to glue on edge"
    # A toe kick 4 in wide: what is left of it must be wider than two of the narrowest strips.
    assert built_out(F(5, 2) - HAIR, mark="B1-TK") is not None and built_out(F(5, 2), mark="B1-TK") is None


def likeness(apart: F) -> set[Likeness]:
    """Of the stretchers of two cases so much apart in width."""
    project = draw_up(job(spec("B1", width=F(20)), spec("B2", width=F(20) + apart)))
    return {
        alike.likeness
        for alike in look_alikes(project)
        if {"B1-SF", "B2-SF"} <= {*alike.first, *alike.second}
    }


def test_sizes_are_alike_up_to_three_eighths_and_an_inch_apart() -> None:
    """Nearer than a mark of the rule, 1/32 in, either part serves as the other."""
    assert likeness(F(1, 32)) == likeness(F(3, 8)) == {Likeness.CLOSE}
    assert likeness(F(3, 8) + F(1, 32)) == likeness(F(1, 64)) == set()
    assert likeness(F(1)) == {Likeness.INCH} and likeness(F(31, 32)) == set()
