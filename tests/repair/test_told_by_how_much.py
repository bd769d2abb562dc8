"""Faults told by how much, parts left out of a glued case, and mates cut to match: what is offered, and that
it holds. What a maker does is common practice, no source; a changed job is drawn up anew and compared by its
sizes, which shares no code with the search."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction as F
from itertools import product

import pytest

from casewright.casework.inputs import with_input
from casewright.casework.job import BackKind, Bay, Construction, TopKind
from casewright.casework.parts.part import Role
from casewright.casework.project import Project, draw_up
from casewright.repair.as_cut_in_fit import gaps_spoiled
from casewright.repair.facts import AsCut, Blank, Facts, Origin
from casewright.repair.find_ways import ways
from casewright.repair.harm import Harm, HarmKind
from casewright.repair.price import Seen
from casewright.repair.ways.as_it_is import serves_as_cut
from casewright.repair.ways.cure import lack_of
from casewright.repair.ways.way import Mend, SetInput, WayKind
from casewright.tolerance.outcomes.gap_spread import fit
from samples import job, spec

SHELVES = (Bay(fixed=(F(10),), adjustable=1),)


def draw(made: Construction | None = None, bays: tuple[Bay, ...] = SHELVES) -> Project:
    return draw_up(
        job(spec("B1", width=F(24), construction=made or Construction(), bays=bays), opening=F(24))
    )


PROJECT = draw()


def facts(
    harms: Mapping[str, tuple[Harm, ...]],
    project: Project = PROJECT,
    uncut: tuple[str, ...] = (),
    worked: tuple[str, ...] = ("B1-L", "B1-R"),
) -> Facts:
    """All is cut but `uncut`, which lies on pieces of exactly its size and an inch."""

    def cut(mark: str, own: tuple[Harm, ...] = ()) -> AsCut:
        length, width, _ = project.dimensions(project.parts[mark])
        return AsCut(length, width, mark in worked, own)

    blanks = tuple(
        Blank(f"piece for {mark}", part.material, length + 1, width + 1, Origin.PIECE, planned=(mark,))
        for mark in uncut
        for part in (project.parts[mark],)
        for length, width, _ in (project.dimensions(part),)
    )
    good = {part.mark: cut(part.mark) for part in project if part.mark not in uncut}
    return Facts(good, {}, blanks).spoil({mark: cut(mark, own) for mark, own in harms.items()})


def out(feature: str, by: F, fault: HarmKind = HarmKind.PLACE) -> tuple[Harm, ...]:
    return (Harm(fault, feature, by=by),)


def both(feature: str, by: F, fault: HarmKind = HarmKind.PLACE) -> dict[str, tuple[Harm, ...]]:
    return {"B1-L": out(feature, by, fault), "B1-R": out(feature, by, fault)}


@pytest.mark.parametrize(("by", "kind"), [(F(1, 64), WayKind.USE), (F(1, 8), WayKind.FILL)])
def test_a_dado_a_hair_wide_is_used_and_a_wide_one_is_filled(by: F, kind: WayKind) -> None:
    assert ways(PROJECT, facts(both("dado-F11", by, HarmKind.LARGE))).options[0].kind is kind


def test_both_dadoes_as_much_too_high_carry_the_shelf_level() -> None:
    first = ways(PROJECT, facts(both("dado-F11", F(3, 8)))).options[0]
    assert (first.kind, first.cost.seen) == (WayKind.USE, Seen.IN_SIGHT)
    apart = facts({"B1-L": out("dado-F11", F(3, 8)), "B1-R": out("dado-F11", F(1, 4))})
    assert ways(PROJECT, apart).options[0].kind is not WayKind.USE
    one = facts({"B1-L": out("dado-F11", F(3, 8))})
    assert ways(PROJECT, one).best_of(WayKind.USE) is None


def test_rows_of_pins_all_as_much_too_high_are_used() -> None:
    marks = ("B1-L", "B1-R")
    rows = {mark: tuple(one.name for one in PROJECT.parts[mark].features if one.serves) for mark in marks}
    assert all(len(names) == 2 for names in rows.values())
    high = {mark: tuple(Harm(HarmKind.PLACE, name, by=F(1, 2)) for name in rows[mark]) for mark in marks}
    first = ways(PROJECT, facts(high)).options[0]
    assert (first.kind, first.cost.seen) == (WayKind.USE, Seen.NOTHING)
    one_less = {**high, "B1-R": high["B1-R"][:1]}
    assert ways(PROJECT, facts(one_less)).options[0].kind is WayKind.PLUG


def test_an_uncut_bottom_is_cut_to_dadoes_that_are_too_deep() -> None:
    """Drawn up anew with the depth that was cut, the bottom has the length that the way says."""
    plain = draw(bays=(Bay(adjustable=1),))
    deep = F(1, 16)
    asked = facts(both("dado-bottom", deep, HarmKind.DEEP), plain, uncut=("B1-B",))
    way = ways(plain, asked).best_of(WayKind.MATCH)
    assert way is not None and not way.buys
    (changed,) = (one for one in way.actions if isinstance(one, SetInput))
    again = draw_up(with_input(plain.job, changed.name, F(1, 4) + deep))
    assert changed.new == F(1, 4) + deep
    planned, matched = (one.dimensions(one.parts["B1-B"])[0] for one in (plain, again))
    assert matched - planned == 2 * deep
    (step,) = (words for one in way.actions if isinstance(one, Mend) for words in one.steps)
    assert "B1-B" in step and '1/8" more than planned' in step
    finished = facts(both("dado-bottom", deep, HarmKind.DEEP), plain)
    assert ways(plain, finished).best_of(WayKind.MATCH) is None, "the bottom is cut"
    mate_right = facts({"B1-L": out("dado-bottom", deep, HarmKind.DEEP)}, plain, uncut=("B1-B",))
    assert ways(plain, mate_right).best_of(WayKind.MATCH) is None, "the other side is right as it was planned"


@pytest.mark.parametrize("by", [F(n, 8) for n in range(-8, 9) if n])
def test_the_mate_of_a_misplaced_dado_is_cut_to_match_wherever_a_move_works(by: F) -> None:
    """Every height of the shelf on a grid of eighths is drawn up anew; the one whose dado is where it was cut
    is the one that is offered."""
    project = draw(bays=(Bay(fixed=(F(10),)),))
    asked = facts({"B1-L": out("dado-F11", by)}, project, worked=())
    way = ways(project, asked).best_of(WayKind.MATCH)
    at = project.sizes.of(project.parts["B1-L"].feature("dado-F11").sizes[0].form) + by
    fits = [
        F(10) + step
        for step in (F(n, 8) for n in range(-16, 17))
        for moved in (draw_up(with_input(project.job, "B1.below11", F(10) + step)),)
        if moved.sizes.of(moved.parts["B1-L"].feature("dado-F11").sizes[0].form) == at
    ]
    assert way is not None and len(fits) == 1
    assert [one.new for one in way.actions if isinstance(one, SetInput)] == fits


BACKS = [
    (BackKind.RABBET, TopKind.STRETCHERS, WayKind.USE),
    (BackKind.APPLIED, TopKind.STRETCHERS, WayKind.USE),
    (BackKind.GROOVE, TopKind.STRETCHERS, WayKind.USE),
    (BackKind.GROOVE, TopKind.DADO, WayKind.OPEN),
]


@pytest.mark.parametrize(("back", "top", "kind"), BACKS)
def test_a_back_left_out_of_a_glued_case(back: BackKind, top: TopKind, kind: WayKind) -> None:
    project = draw(Construction(back=back, top=top))
    left_out = facts({"B1-K": (Harm(HarmKind.LEFT_OUT),)}, project)
    found = ways(project, replace(left_out, assembled=frozenset({"B1"})))
    assert [option.kind for option in found.options] == [kind]


def test_a_side_or_a_bottom_does_not_go_into_a_glued_case_and_all_else_does() -> None:
    for part in PROJECT:
        left_out = facts({part.mark: (Harm(HarmKind.LEFT_OUT),)})
        found = ways(PROJECT, replace(left_out, assembled=frozenset({"B1"}))).options
        structural = part.role in (Role.LEFT_SIDE, Role.RIGHT_SIDE, Role.BOTTOM, Role.TOP)
        assert bool(found) is not structural, part.mark


def test_an_hour_counts_as_the_shop_says() -> None:
    dear = replace(PROJECT, job=replace(PROJECT.job, shop=replace(PROJECT.job.shop, hourly=F(90))))
    first = ways(dear, facts(both("dado-F11", F(1, 8), HarmKind.LARGE))).options[0]
    assert first.cost.hourly == 90
    assert first.cost.price == (first.cost.minutes + 5) * F(90, 60)


def test_what_serves_as_it_was_cut_serves_by_the_fit_too() -> None:
    """Asked of many parts and sizes. The whole fit, at the size as cut, leaves the mean of no gap of the part
    outside its range by more than half a mark."""
    project = draw(Construction(back=BackKind.GROOVE), bays=(Bay(fixed=(F(10),)), Bay(adjustable=1)))
    half = project.job.mark.step / 2
    served = 0
    for part, (short, narrow) in product(project, product((F(0), F(1, 32), F(1, 16), F(1, 8)), repeat=2)):
        length, width, _ = project.dimensions(part)
        cut = AsCut(length - short, width - narrow)
        if not serves_as_cut(project, lack_of(project, part.mark, cut)) or not (short or narrow):
            continue
        served += 1
        sizes = {part.length.name: cut.length, part.width.name: cut.width}
        before = fit(project)
        after = before.given({name: (value, None) for name, value in sizes.items()})
        for name, spread in after.spreads.items():
            was = before.spreads[name]
            if part.mark not in spread.gap.parts or not was.holds():
                continue
            mean = float(spread.mean)
            slack = float(half) + abs(float(was.mean - was.nominal))
            assert spread.low is None or mean >= float(spread.low) - slack, (name, short, narrow)
            assert spread.high is None or mean <= float(spread.high) + slack, (name, short, narrow)
    assert served > 20


def test_the_fit_refuses_what_stands_open() -> None:
    shelf = PROJECT.parts["B1-F11"]
    length = PROJECT.sizes.of(shelf.length)
    assert not gaps_spoiled(PROJECT, "B1", {shelf.length.name: length - F(1, 64)})
    assert gaps_spoiled(PROJECT, "B1", {shelf.length.name: length - F(1, 2)})
