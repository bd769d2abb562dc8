"""Spoiled parts that come right without being cut again: what a good maker does, and that it holds.

Which way is right is common practice, no source. Exchanges are checked by the solids of the geometry kernel,
which share no code with the search, and against every assignment of pieces to parts.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import permutations

import pytest

from casewright.app.fit.closing_as_built import closing_as_built
from casewright.casework.directions import Axis, Way
from casewright.casework.hidden_sides import is_hidden
from casewright.casework.job import BackKind, Bay, Construction, Filler, ToeKind
from casewright.casework.project import Project, draw_up
from casewright.repair.facts import AsCut, Blank, Facts, Origin
from casewright.repair.find_ways import ways
from casewright.repair.harm import Harm, HarmKind
from casewright.repair.piece_shape import TURNS, frame, piece_shape, turned_side
from casewright.repair.price import Seen
from casewright.repair.repair_times import RepairPace
from casewright.repair.ways.as_it_is import back_allowance, used_as_it_is
from casewright.repair.ways.change_places import exchanges
from casewright.repair.ways.cure import lack_of
from casewright.repair.ways.way import CutAgain, KeepAsCut, Mend, Option, ServeAs, TakeSize, WayKind
from casewright.shop.measuring_tools import MeasuringTool
from casewright.solids.part_shape import shape_of
from casewright.solids.part_solid import difference, solid
from casewright.tolerance.as_built.readings import AsBuilt
from casewright.tolerance.outcomes.gap_spread import fit
from samples import job, spec

MIRRORED = Harm(HarmKind.MIRRORED)
HALF_MARK = F(1, 64)
HAIR = F(1, 1000)


def draw(construction: Construction | None = None, **more: F) -> Project:
    """Two cases beside each other, closed by fillers; no end is in sight."""
    made = construction or Construction()
    filler = Filler(F(2), F(1, 2), "ply")
    return draw_up(
        job(
            spec("B1", width=F(24), construction=made),
            spec("B2", width=F(20), construction=made),
            opening=F(48),
            left=filler,
            right=filler,
        )
    )


PROJECT = draw()


def all_cut(project: Project = PROJECT) -> Facts:
    return Facts(finished={part.mark: AsCut(*project.dimensions(part)[:2]) for part in project})


def spoil(mark: str, short: F = F(0), narrow: F = F(0), project: Project = PROJECT, **more: object) -> Facts:
    length, width, _ = project.dimensions(project.parts[mark])
    cut = replace(AsCut(length - short, width - narrow), **more)  # type: ignore[arg-type]
    return all_cut(project).spoil({mark: cut})


def first(facts: Facts, project: Project = PROJECT) -> Option:
    return ways(project, facts).options[0]


def damage(side: Way, deep: F = F(0)) -> Harm:
    return Harm(HarmKind.DAMAGE, side=side, long=deep and F(2), deep=deep)


# What a good maker does first (common practice, no source).
FIRST = [
    (
        "a size within half a mark is the planned one",
        spoil("B1-L", HALF_MARK, HALF_MARK),
        WayKind.USE,
        Seen.NOTHING,
    ),
    (
        "a back whose sizes were written the other way about is good",
        all_cut().spoil({"B1-K": AsCut(*PROJECT.dimensions(PROJECT.parts["B1-K"])[1::-1])}),
        WayKind.USE,
        Seen.NOTHING,
    ),
    ("a stretcher that is a little narrow serves", spoil("B1-SB", narrow=F(1, 4)), WayKind.USE, Seen.NOTHING),
    ("a shelf on pins a little short serves", spoil("B1-A1", short=F(1, 8)), WayKind.USE, Seen.NOTHING),
    ("a grooved back a little short is pushed down", spoil("B1-K", short=F(1, 4)), WayKind.USE, Seen.NOTHING),
    ("a filler with enough to scribe serves", spoil("B1-FL", narrow=F(1, 6)), WayKind.USE, Seen.NOTHING),
    ("a back that still laps is centred", spoil("B1-K", narrow=F(1, 4)), WayKind.CENTRE, Seen.NOTHING),
    ("a short side is packed up behind the kick", spoil("B1-R", short=F(1, 4)), WayKind.PACK, Seen.NOTHING),
    (
        "a narrow side is lipped at its rear edge",
        spoil("B1-L", narrow=F(1, 8)),
        WayKind.LIP,
        Seen.HIDDEN_LINE,
    ),
    (
        "a split at a shelf's front goes to the back",
        spoil("B1-A1", harms=(damage(Way.FRONT),)),
        WayKind.TURN,
        Seen.NOTHING,
    ),
    (
        "a side chipped at its rear edge, behind the back's groove, is used",
        spoil("B1-L", worked=True, harms=(damage(Way.BACK, F(1, 4)),)),
        WayKind.USE,
        Seen.NOTHING,
    ),
    ("a split nobody sees is left", spoil("B1-A1", harms=(damage(Way.BACK),)), WayKind.USE, Seen.NOTHING),
    (
        "a side bored as the other hand is the other side, if that is not worked",
        spoil("B1-L", worked=True, harms=(MIRRORED,)),
        WayKind.ROLES,
        Seen.NOTHING,
    ),
    (
        "a row bored from the wrong edge is plugged",
        spoil("B1-L", worked=True, harms=(Harm(HarmKind.PLACE, "pins-11-right-front"),)),
        WayKind.PLUG,
        Seen.IN_SIGHT,
    ),
    (
        "a dado too shallow is cut again",
        spoil("B1-L", worked=True, harms=(Harm(HarmKind.SMALL, "dado-bottom"),)),
        WayKind.TO_SIZE,
        Seen.NOTHING,
    ),
    (
        "a dado too wide takes a slip",
        spoil("B1-L", worked=True, harms=(Harm(HarmKind.LARGE, "dado-bottom"),)),
        WayKind.FILL,
        Seen.HIDDEN_LINE,
    ),
    (
        "a dado in the outer face is filled against the neighbour",
        spoil("B1-R", worked=True, harms=(Harm(HarmKind.FACE, "dado-bottom"),)),
        WayKind.FILL,
        Seen.HIDDEN_LINE,
    ),
    (
        "a front edge torn out takes a strip",
        spoil("B1-L", worked=True, harms=(damage(Way.FRONT),)),
        WayKind.LET_IN,
        Seen.IN_SIGHT,
    ),
]


@pytest.mark.parametrize(("words", "facts", "kind", "seen"), FIRST, ids=[row[0] for row in FIRST])
def test_the_first_way_is_a_good_makers(words: str, facts: Facts, kind: WayKind, seen: Seen) -> None:
    found = ways(PROJECT, facts)
    option = found.options[0]
    assert (option.kind, option.cost.seen) == (kind, seen), option.why
    assert not option.buys and not found.must_buy
    assert "proved" not in found.proof


@pytest.mark.parametrize(
    ("facts", "kind"),
    [
        (spoil("B1-L", short=HALF_MARK + HAIR, worked=True), WayKind.USE),
        (spoil("B1-SB", narrow=F(1, 2) + HALF_MARK), WayKind.USE),
        (spoil("B1-K", short=F(1, 4) + HAIR), WayKind.USE),
        (spoil("B1-K", short=F(1, 4), narrow=F(1, 16)), WayKind.USE),
        (spoil("B1-FL", narrow=F(1, 6) + HAIR), WayKind.USE),
        (spoil("B1-K", narrow=F(1, 4) + HALF_MARK + HAIR), WayKind.CENTRE),
        (spoil("B1-R", short=F(1, 2) + HALF_MARK), WayKind.PACK),
        (spoil("B1-R", short=F(1, 4), worked=True), WayKind.PACK),
        (spoil("B1-K", narrow=F(3, 8)), WayKind.LIP),
        (spoil("B1-L", worked=True, harms=(damage(Way.RIGHT),)), WayKind.USE),
        (spoil("B1-A1", harms=(damage(Way.BACK, F(1, 2) + HAIR),)), WayKind.USE),
        (spoil("B1-A1", harms=(damage(Way.FRONT, F(1, 2) + HAIR),)), WayKind.TURN),
        (spoil("B1-L", worked=True, harms=(damage(Way.DOWN, F(1, 8)),)), WayKind.USE),
    ],
)
def test_a_cure_ends_where_it_no_longer_holds(facts: Facts, kind: WayKind) -> None:
    assert ways(PROJECT, facts).best_of(kind) is None


def test_a_back_may_lose_the_depth_of_its_channel_and_still_laps_by_half() -> None:
    """Checked by the joint's own figures: what is left of the lap on each side of a centred back."""
    for kind, laps in ((BackKind.GROOVE, F(1, 4)), (BackKind.RABBET, F(3, 8))):
        project = draw(Construction(back=kind))
        back = project.parts["B1-K"]
        across = back_allowance(project, back)[1]
        inside = project.sizes.of(project.cases["B1"].inside)
        width = project.dimensions(back)[1] - across
        play = F(1, 16)
        assert (width - inside) / 2 == laps / 2 - play / 2


@pytest.mark.parametrize("kind", [BackKind.GROOVE, BackKind.RABBET])
def test_a_narrow_back_is_centred_just_as_long_as_the_fit_lets_it_be(kind: BackKind) -> None:
    """Every width on the marks of the rule: what the fit would cut again, putting right does not centre."""
    project = draw(Construction(back=kind))
    back = project.parts["B1-K"]
    length, width, _ = project.dimensions(back)
    job_fit, centred = fit(project), 0
    for marks in range(2, 20):
        narrow = F(marks, 32)
        cut = AsCut(length, width - narrow)
        read = AsBuilt().read(back.width.name, cut.width, MeasuringTool.CALIPER)
        broken = closing_as_built(job_fit, read).broken
        cures = used_as_it_is(project, lack_of(project, "B1-K", cut))
        offered = any(cure.kind is WayKind.CENTRE for cure in cures)
        assert offered is not bool(broken), f"{narrow}: {broken}"
        centred += offered
    assert 5 <= centred <= 12


def test_a_worked_mate_can_no_longer_change_places() -> None:
    facts = spoil("B1-L", worked=True, harms=(MIRRORED,))
    done = {mark: replace(cut, worked=True) for mark, cut in facts.finished.items()}
    found = ways(PROJECT, replace(facts, finished=done))
    assert found.best_of(WayKind.ROLES) is None
    assert found.must_buy and "These other ways were searched" in found.proof


def test_two_pieces_that_are_each_others_part_only_change_their_labels() -> None:
    """A pair worked as each other: rub out two letters (common practice, no source)."""
    wrong = {mark: spoil(mark, worked=True, harms=(MIRRORED,)).spoiled[mark] for mark in ("B1-L", "B1-R")}
    facts = all_cut().spoil(wrong)
    good = {mark: replace(cut, worked=True) for mark, cut in facts.finished.items()}
    option = first(replace(facts, finished=good))
    assert option.kind is WayKind.ROLES and not option.buys
    assert {(one.piece, one.mark) for one in option.actions if isinstance(one, ServeAs)} == {
        ("B1-L", "B1-R"),
        ("B1-R", "B1-L"),
    }


def test_no_counter_is_lowered_before_one_side_is_cut_again() -> None:
    """A side an inch short, with a new sheet as the only wood: buying comes before every change of design."""
    found = ways(PROJECT, spoil("B1-L", short=F(1)))
    kinds = [option.kind for option in found.options]
    lowered = [option for option in found.options if option.cost.ask_client]
    assert found.options[0].kind is WayKind.BUY and lowered
    assert all(option.cost.seen is Seen.DESIGN for option in lowered)
    assert kinds.index(WayKind.BUY) < found.options.index(lowered[0])


def test_a_mirrored_piece_turned_is_the_other_part() -> None:
    """The solid of the piece as made (a mirror image across its thickness), turned, is that of the part."""
    option = first(spoil("B1-L", worked=True, harms=(MIRRORED,)))
    steps = [one for one in option.actions if isinstance(one, ServeAs)]
    exchanged = next(one for one in steps if one.piece == "B1-L")
    left, right = (PROJECT.parts[mark] for mark in ("B1-L", exchanged.mark))
    made = (
        solid(shape_of(left, PROJECT.sizes))
        .mirror((1, 0, 0))
        .translate((float(PROJECT.dimensions(left)[2]), 0, 0))
    )
    assert difference(made, solid(shape_of(right, PROJECT.sizes))) < 1e-9
    assert difference(solid(shape_of(left, PROJECT.sizes)), made) > 1


@pytest.mark.parametrize("mark", ["B1-L", "B1-R", "B1-B", "B1-SF", "B1-K"])
@pytest.mark.parametrize("turn", TURNS)
def test_a_turn_is_what_the_kernel_makes_of_it(mark: str, turn: str) -> None:
    """A part is alike when turned exactly if its solid is the same when turned about its middle."""
    part = PROJECT.parts[mark]
    shape = piece_shape(PROJECT, part)
    assert shape is not None
    sizes = {axis: float(PROJECT.sizes.of(part.size(axis))) for axis in Axis}
    signs = {way.axis: sign for way, sign in zip(frame(part), TURNS[turn], strict=True)}
    kept = next((axis for axis in Axis if signs[axis] > 0), None) if turn else None
    angles = [180.0 if axis is kept else 0.0 for axis in Axis]
    whole = solid(shape_of(part, PROJECT.sizes))
    middle = tuple(sizes[axis] / 2 for axis in Axis)
    centred = whole.translate(tuple(-at for at in middle))
    apart = difference(centred.rotate(tuple(angles)), centred)
    assert shape.turned(TURNS[turn]).alike(shape, F(0)) == (apart < 1e-6)


def test_a_side_that_is_turned_looks_the_other_way() -> None:
    part = PROJECT.parts["B1-A1"]
    assert turned_side(part, Way.FRONT, "end for end") is Way.BACK
    assert turned_side(part, Way.UP, "end for end") is Way.UP
    assert turned_side(part, Way.UP, "over, edge for edge") is Way.DOWN
    assert turned_side(part, Way.LEFT, "over, edge for edge") is Way.LEFT


def test_an_end_in_sight_is_no_hidden_side() -> None:
    lone = draw_up(job(spec("B1"), spec("B2"), spec("B3", height=F(30))))
    sides = {mark: is_hidden(lone, lone.parts[mark], way) for mark, way in (
        ("B1-L", Way.LEFT), ("B1-R", Way.RIGHT), ("B2-R", Way.RIGHT), ("B3-L", Way.LEFT)
    )}  # fmt: skip
    assert sides == {"B1-L": False, "B1-R": True, "B2-R": False, "B3-L": True}


@pytest.mark.parametrize("spoiled", ["B1-SF", "B1-SB", "B2-SF", "B1-TK"])
@pytest.mark.parametrize(("short", "narrow"), [(F(0), F(1)), (F(1), F(0)), (F(4), F(1, 8)), (F(4), F(2))])
def test_no_exchange_of_pieces_is_cheaper_than_the_one_found(spoiled: str, short: F, narrow: F) -> None:
    """Every assignment of six pieces to six parts, priced anew from their sizes alone."""
    marks = ("B1-SF", "B1-SB", "B2-SF", "B2-SB", "B1-TK", "B2-TK")
    facts = spoil(spoiled, short, narrow)
    facts = replace(facts, finished={mark: cut for mark, cut in facts.finished.items() if mark in marks})
    pieces = {**facts.finished, **facts.spoiled}
    least: int | None = None
    for order in permutations(marks):
        minutes = 0
        for mark, piece in zip(marks, order, strict=True):
            if piece == mark and piece != spoiled:
                continue
            length, width, _ = PROJECT.dimensions(PROJECT.parts[mark])
            over = pieces[piece].length - length, pieces[piece].width - width
            if piece == mark or min(over) < -HALF_MARK:
                break
            minutes += 1 if max(over) <= HALF_MARK else 1 + 4
        else:
            least = minutes if least is None else min(least, minutes)
    pace = RepairPace()
    found = list(exchanges(PROJECT, facts, [PROJECT.parts[spoiled]], pace))
    minutes_found = [sum(pace.minutes(one, 0) for one in cure.actions) for cure in found]
    assert minutes_found == ([] if least is None else [least])


@pytest.mark.parametrize("mark", ["B1-SF", "B1-TK", "B1-L"])
@pytest.mark.parametrize(("short", "narrow"), [(F(-1, 8), F(0)), (F(0), F(-1, 4)), (F(-10), F(0))])
def test_a_part_that_is_too_large_is_trimmed_and_not_used_as_it_is(mark: str, short: F, narrow: F) -> None:
    """The piece is trimmed itself: nobody relabels its twin to save no cut (common practice, no source)."""
    found = ways(PROJECT, spoil(mark, short, narrow))
    (again,) = found.options[0].actions
    assert again == CutAgain(mark, f"spoiled {mark}")
    assert found.best_of(WayKind.USE) is None


@pytest.mark.parametrize(
    ("end", "deep", "used"), [(Way.DOWN, F(3), True), (Way.DOWN, F(5), False), (Way.UP, F(1), False)]
)
def test_a_crushed_corner_that_the_notch_takes_away_does_not_matter(end: Way, deep: F, used: bool) -> None:
    """The notch is 3 in deep and 4 in high: an inch of the corner, or three, is waste."""
    corner = (damage(Way.FRONT, deep), damage(end, deep))
    kind = first(spoil("B1-L", harms=corner)).kind
    assert (kind is WayKind.USE) is used
    assert ways(PROJECT, spoil("B1-L", worked=True, harms=corner)).best_of(WayKind.USE) is None


@pytest.mark.parametrize(("short", "packed"), [(F(1, 8), True), (F(3, 16), False)])
def test_a_side_on_a_plinth_is_packed_a_little_under_the_counter(short: F, packed: bool) -> None:
    project = draw(Construction(toe=ToeKind.PLINTH))
    found = ways(project, spoil("B1-R", short=short, project=project)).best_of(WayKind.PACK)
    assert (found is not None) is packed
    if found:
        (mend,) = found.actions
        assert isinstance(mend, Mend) and "upper end" in mend.steps[1]


@pytest.mark.parametrize(
    ("short", "kind"), [(F(1, 16), WayKind.USE), (F(1, 8), WayKind.PACK_IN), (F(3, 16), WayKind.BUY)]
)
def test_a_divider_in_its_dado_may_be_a_hair_short_and_is_packed_where_half_of_it_holds(
    short: F, kind: WayKind
) -> None:
    project = draw_up(job(spec("B1", bays=(Bay(), Bay())), opening=F(37)))
    assert first(spoil("B1-D1", short=short, project=project), project).kind is kind


@pytest.mark.parametrize("harm", [Harm(HarmKind.END, "notch-toe"), Harm(HarmKind.FACE, "groove-back")])
def test_a_part_with_nothing_else_cut_is_turned(harm: Harm) -> None:
    """Nothing else is on it, so the other end or face is as good; once all is cut, no turn helps."""
    assert first(spoil("B1-L", harms=(harm,))).kind is WayKind.TURN
    assert ways(PROJECT, spoil("B1-L", worked=True, harms=(harm,))).best_of(WayKind.TURN) is None


def test_what_is_kept_says_why_and_what_is_mended_says_how() -> None:
    kept = first(spoil("B1-SB", narrow=F(1, 4))).actions
    taken = TakeSize("B1-SB", (("B1-SB.width", F(15, 4)),))
    assert kept == (KeepAsCut("B1-SB", "Nothing is measured from its other edge."), taken)
    (mend,) = first(spoil("B1-L", narrow=F(1, 8))).actions
    assert isinstance(mend, Mend) and "rear edge" in mend.steps[0]


def test_a_part_of_a_glued_up_case_is_mended_in_its_place_or_not_at_all() -> None:
    torn = spoil("B1-L", worked=True, harms=(damage(Way.FRONT),))
    board = Blank("board", "ply", F(96), F(48), Origin.OFFCUT)
    glued = replace(torn, assembled=frozenset({"B1"}), blanks=(board,))
    found = ways(PROJECT, glued)
    assert [option.kind for option in found.options] == [WayKind.LET_IN]
    assert "glued up" in found.proof and not found.must_buy
    assert ways(PROJECT, replace(glued, assembled=frozenset())).best_of(WayKind.RECUT) is not None
    wrong = spoil("B1-L", worked=True, harms=(MIRRORED,))
    found = ways(PROJECT, replace(wrong, assembled=frozenset({"B1"})))
    assert found.options == () and "no proof" in found.proof


def test_several_spoiled_parts_are_each_cured_and_no_piece_serves_twice() -> None:
    facts = spoil("B1-L", narrow=F(1, 8)).spoil({"B1-K": spoil("B1-K", narrow=F(1, 4)).spoiled["B1-K"]})
    option = first(facts)
    assert option.kind is WayKind.MIXED and not option.buys
    assert {one.mark for one in option.actions if isinstance(one, Mend)} == {"B1-L", "B1-K"}
    both = spoil("B1-L", worked=True, harms=(MIRRORED,)).spoil(
        spoil("B2-L", worked=True, harms=(MIRRORED,)).spoiled
    )
    option = first(both)
    used = [one.piece for one in option.actions if isinstance(one, ServeAs)]
    assert option.kind is WayKind.ROLES and len(used) == len(set(used)) == 4


@pytest.mark.parametrize(("short", "packed"), [(F(1, 16), True), (F(1, 8), True), (F(1, 8) + HAIR, False)])
def test_a_bottom_a_little_short_is_packed_and_the_cabinet_stays(short: F, packed: bool) -> None:
    """All else is cut: nobody makes a cabinet narrower for a sixteenth."""
    found = ways(PROJECT, spoil("B1-B", short=short))
    assert (found.best_of(WayKind.PACK_IN) is not None) is packed
    if packed:
        assert found.options[0].kind is WayKind.PACK_IN


def test_a_piece_that_is_right_as_it_is_changes_places_with_none() -> None:
    """A side reported with the size that is printed: an exchange would end where it began."""
    for facts in (spoil("B1-L"), spoil("B1-L", short=HALF_MARK)):
        assert ways(PROJECT, facts).best_of(WayKind.ROLES) is None


@pytest.mark.parametrize("by", [F(1, 16), F(1, 8), F(3, 16)])
def test_a_back_that_is_only_short_is_not_centred_between_its_sides(by: F) -> None:
    cures = used_as_it_is(PROJECT, lack_of(PROJECT, "B1-K", spoil("B1-K", short=by).spoiled["B1-K"]))
    assert WayKind.CENTRE not in {cure.kind for cure in cures}


@pytest.mark.parametrize(
    ("play", "cut", "uncut"),
    [
        (F(-1, 1000), None, WayKind.MATCH),
        (F(-1, 40), None, WayKind.MATCH),
        (F(0), WayKind.USE, WayKind.USE),
        (F(1, 32), WayKind.USE, WayKind.USE),
        (F(46, 1000), WayKind.PACK_IN, WayKind.MATCH),
        (F(56, 1000), WayKind.PACK_IN, WayKind.MATCH),
    ],
)
def test_a_bottom_of_another_sheet_goes_into_its_dado_and_does_not_rattle_there(
    play: F, cut: WayKind | None, uncut: WayKind
) -> None:
    """The first way that cuts no new part: a panel thicker than its dado never goes in, and glue bridges no
    gap of more than a 32nd (common practice, no source)."""
    part = PROJECT.parts["B1-B"]
    dado = PROJECT.parts["B1-L"].feature("dado-bottom").channel
    assert dado is not None
    by = PROJECT.sizes.of(dado.width) - play - PROJECT.sizes.of(part.thickness)
    facts = spoil("B1-B", harms=(Harm(HarmKind.MATERIAL, material=part.material, by=by),))
    sides = {mark: replace(facts.finished[mark], worked=True) for mark in ("B1-L", "B1-R")}
    mended = (WayKind.USE, WayKind.PACK_IN, WayKind.MATCH)
    for told, kind in (
        (replace(facts, finished={**facts.finished, **sides}), cut),
        (facts, uncut),
    ):
        kinds = [option.kind for option in ways(PROJECT, told).options if option.kind in mended]
        assert next(iter(kinds), None) is kind
        steps = " ".join(ways(PROJECT, told).options[0].why.split())
        assert ("veneer" in steps) == (kind is WayKind.PACK_IN)
