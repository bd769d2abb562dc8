"""Ways for doors, drawer fronts and drawer boxes: the first is a maker's, and none falls over any harm."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction as F

import pytest

from casewright.casework.directions import Axis, Way
from casewright.casework.parts.part import DRAWER_BOX, FRONTS, Part
from casewright.casework.project import Project
from casewright.repair.facts import AsCut, Blank, Facts, Origin
from casewright.repair.find_cures import cures_of
from casewright.repair.find_ways import ways
from casewright.repair.harm import CUT_AMISS, Harm, HarmKind
from casewright.repair.price import Seen
from casewright.repair.repair_times import RepairPace
from casewright.repair.sizes_taken import with_sizes_taken
from casewright.repair.way_wording import list_steps
from casewright.repair.ways.cure import PartCure
from casewright.repair.ways.way import KeepAsCut, Mend, TrimTo, WayKind
from repair.catalogue.asked_today import ask, parts_of, project_of
from repair.catalogue.mishap import Mishap
from repair.catalogue.read_catalogue import FRONTS as FRONT_MISHAPS
from repair.catalogue.read_catalogue import read_catalogue
from repair.catalogue.verdict import bought_needlessly, verdict

MISHAPS: Mapping[str, Mishap] = {one.name: one for one in read_catalogue(parts_of, FRONT_MISHAPS)}
COUNTER = project_of("tests/repair/catalogue/fronts/bakery-counter.toml")
HARDWARE = ("hinge", "slide")
BORED = tuple(part for part in COUNTER if any(one.kind_words.startswith(HARDWARE) for one in part.features))
MADE = tuple(part for part in COUNTER if part.role in FRONTS | DRAWER_BOX) + tuple(
    part for part in BORED if part.role not in FRONTS
)

REACHED = 18
"""For how many of these mishaps the first way is the very one of the catalogue. Raise it, never lower it."""


@pytest.mark.parametrize("mishap", MISHAPS.values(), ids=lambda one: one.name)
def test_the_first_way_is_a_makers(mishap: Mishap) -> None:
    answer = ask(mishap)
    assert verdict(mishap, answer) in ("first", "accepted"), answer.cures
    assert not bought_needlessly(mishap, answer)


def test_most_first_ways_are_the_very_answers() -> None:
    said = [name for name, one in MISHAPS.items() if verdict(one, ask(one)) != "first"]
    assert len(MISHAPS) == 21 and len(MISHAPS) - len(said) >= REACHED, said


def harms_of(part: Part) -> Iterator[tuple[Harm, ...]]:
    """Every kind of fault that can be told of a part, by a little and by a lot, and untold."""
    yield ()
    for feature in part.features:
        for fault in sorted(CUT_AMISS, key=lambda one: one.value):
            for by in (F(0), F(1, 32), F(-1, 8), F(3)):
                yield (Harm(fault, feature.name, by=by),)
    for way in Way:
        for deep in (F(0), F(1, 16), F(2)):
            yield (Harm(HarmKind.DAMAGE, "", way, deep=deep),)
    yield (Harm(HarmKind.MIRRORED),)
    yield (Harm(HarmKind.LEFT_OUT),)
    for material in COUNTER.job.sheets:
        yield (Harm(HarmKind.MATERIAL, material=material, by=F(1, 32)),)
    for other in MADE:
        yield (Harm(HarmKind.MADE_AS, other=other.mark),)


def sizes_of(part: Part) -> Iterator[tuple[F, F]]:
    length, width, _ = COUNTER.dimensions(part)
    for along in (F(0), F(-1, 32), F(-1, 4), F(1, 8), -length + F(1)):
        for across in (F(0), F(-1, 8), F(1, 16)):
            yield length + along, width + across


def cures(mark: str, cut: AsCut, finished: Mapping[str, AsCut] | None = None) -> tuple[PartCure, ...]:
    part = COUNTER.parts[mark]
    facts = Facts(finished or {}, {mark: cut})
    return cures_of(COUNTER, facts, [part], RepairPace()).get(mark, ())


@pytest.mark.parametrize(("turn", "part"), list(enumerate(MADE)), ids=[one.mark for one in MADE])
def test_harms_of_every_front_and_drawer_part_are_answered_in_words(turn: int, part: Part) -> None:
    """A third of all harms for each part; which third goes round with the parts."""
    length, width, _ = COUNTER.dimensions(part)
    asked = [AsCut(*size, worked) for size in sizes_of(part) for worked in (False, True)]
    asked += [
        AsCut(length + over, width, worked, harms)
        for harms in harms_of(part)
        for worked in (False, True)
        for over in (F(0), F(-1, 16))
    ]
    for cut in asked[turn % 3 :: 3]:
        for cure in cures(part.mark, cut):
            assert part.mark in cure.saves
            after = with_sizes_taken(COUNTER, cure.actions)
            steps = list_steps(COUNTER, after, cure.actions)
            assert steps and all(step.endswith(".") and step[0].isupper() for step in steps)


@pytest.mark.parametrize("part", MADE[::8], ids=lambda one: one.mark)
def test_the_whole_search_answers_for_fronts_and_drawers(part: Part) -> None:
    length, width, _ = COUNTER.dimensions(part)
    for cut in (AsCut(length - F(1, 8), width), AsCut(length, width - F(1, 8), bool(part.features))):
        found = ways(
            COUNTER, Facts({}, {part.mark: cut}, (Blank("rack", part.material, F(40), F(36), Origin.OFFCUT),))
        )
        assert found.options, part.mark


def of_box(axis: Axis, by: F, spoiled: tuple[str, ...], worked: frozenset[str] = frozenset()) -> Facts:
    """Drawer 1 of B1 cut as drawn but for these parts, which are smaller by so much along the axis."""
    cut: dict[str, AsCut] = {}
    for name in ("DL1", "DR1", "DI1", "DK1", "DB1"):
        part = COUNTER.parts[f"B1-{name}"]
        length, width, _ = COUNTER.dimensions(part)
        less = by if part.mark in spoiled else F(0)
        along = less if part.lie.length is axis else F(0)
        across = less if part.lie.width is axis else F(0)
        cut[part.mark] = AsCut(length - along, width - across, part.mark in worked)
    bad = {mark: cut.pop(mark) for mark in spoiled}
    return Facts(cut, bad)


def smaller(facts: Facts) -> tuple[Project, tuple[str, ...]] | None:
    missing = [COUNTER.parts[mark] for mark in facts.spoiled]
    for found in cures_of(COUNTER, facts, missing, RepairPace()).values():
        for cure in found:
            if cure.kind is WayKind.SMALLER_BOX:
                trimmed = tuple(one.mark for one in cure.actions if isinstance(one, TrimTo))
                return with_sizes_taken(COUNTER, cure.actions), trimmed
    return None


@pytest.mark.parametrize(
    ("axis", "spoiled", "trimmed"),
    [
        (Axis.Y, ("B1-DL1",), ("B1-DR1", "B1-DB1")),
        (Axis.X, ("B1-DI1", "B1-DK1"), ("B1-DB1",)),
        (Axis.X, ("B1-DK1",), ("B1-DI1", "B1-DB1")),
        (Axis.Z, ("B1-DI1",), ("B1-DL1", "B1-DR1", "B1-DK1")),
        (Axis.Y, ("B1-DL1", "B1-DB1"), ("B1-DR1",)),
    ],
)
def test_all_that_spans_a_smaller_box_comes_down_by_as_much(
    axis: Axis, spoiled: tuple[str, ...], trimmed: tuple[str, ...]
) -> None:
    found = smaller(of_box(axis, F(1, 8), spoiled))
    assert found is not None
    after, taken_down = found
    assert taken_down == trimmed
    # Whatever is as long as the box that way keeps its place to the others: all lose the same, nothing else.
    for name in ("DL1", "DR1", "DI1", "DK1", "DB1"):
        part = COUNTER.parts[f"B1-{name}"]
        for way in (part.lie.length, part.lie.width):
            lost = COUNTER.sizes.of(part.size(way)) - after.sizes.of(after.parts[part.mark].size(way))
            spans = part.mark in (*spoiled, *trimmed) and way is axis
            assert lost == (F(1, 8) if spans else 0), (part.mark, way)


@pytest.mark.parametrize(
    "facts",
    [
        of_box(Axis.Y, F(5, 16), ("B1-DL1",)),  # too much
        of_box(Axis.Y, F(1, 8), ("B1-DL1",), frozenset({"B1-DR1"})),  # its mate's dadoes are cut
        of_box(Axis.Y, F(1, 8), ("B1-DB1",)),  # a small bottom makes no small box
        of_box(Axis.Y, F(-1, 8), ("B1-DL1",)),  # it is longer
    ],
)
def test_no_box_is_made_smaller_where_that_does_not_do(facts: Facts) -> None:
    assert smaller(facts) is None


@pytest.mark.parametrize(
    ("by", "kept"), [(F(1, 16), True), (F(-1, 16), True), (F(5, 64), False), (F(0), False)]
)
def test_the_screws_of_a_hinge_take_up_a_little_and_no_more(by: F, kept: bool) -> None:
    for mark, feature in (("B2-DO1", "cups"), ("B2-L", "plate-DO1-2"), ("B1-L", "slide-DF2")):
        cut = AsCut(
            *COUNTER.dimensions(COUNTER.parts[mark])[:2], True, (Harm(HarmKind.PLACE, feature, by=by),)
        )
        assert any(cure.kind is WayKind.USE for cure in cures(mark, cut)) is kept
        pins = Harm(HarmKind.PLACE, "pins-11-right-front", by=by)
    side = AsCut(*COUNTER.dimensions(COUNTER.parts["B2-L"])[:2], True, (pins,))
    assert not any(cure.kind is WayKind.USE for cure in cures("B2-L", side)), "pins are set by no screw"


def plates_out(by: F, cups_cut: bool) -> PartCure | None:
    part = COUNTER.parts["B3-R"]
    harms = tuple(Harm(HarmKind.PLACE, f"plate-DO1-{at}", by=by) for at in (1, 2))
    stile = COUNTER.parts["B3-DO1R"]
    made = AsCut(*COUNTER.dimensions(stile)[:2], cups_cut)
    cut = AsCut(*COUNTER.dimensions(part)[:2], True, harms)
    found = cures("B3-R", cut, {"B3-DO1R": made})
    return next((one for one in found if one.kind is WayKind.MATCH), None)


def test_cups_are_bored_to_match_the_plates_and_the_door_hangs_at_its_height() -> None:
    cure = plates_out(F(-1, 8), cups_cut=False)
    assert cure is not None and cure.seen is Seen.NOTHING
    [bored] = [one for one in cure.actions if isinstance(one, Mend)]
    # The stile of the framed door has the cups: they go as much lower as the plates did, so that the door's
    # lower edge, that much below both, is where it is drawn.
    assert bored.mark == "B3-DO1R" and len(bored.steps) == 1
    assert '1/8" nearer to its lower end' in bored.steps[0]
    [kept] = [one for one in cure.actions if isinstance(one, KeepAsCut)]
    assert kept.why.endswith("so that the door hangs level.")


def test_cups_that_are_bored_are_not_bored_to_match() -> None:
    assert plates_out(F(-1, 8), cups_cut=True) is None
    assert plates_out(F(2), cups_cut=False) is None, "two inches are seen where a hinge sits"


def test_a_panel_is_centred_while_it_laps_by_half_of_its_grooves() -> None:
    """The grooves of the framed door are 3/8 deep, with 1/8 of play for the panel in all: it laps 5/16 on
    each side, and 3/16 of the groove is half of it."""
    part = COUNTER.parts["B3-DO1P"]
    length, width, _ = COUNTER.dimensions(part)
    made = COUNTER.cases["B3"].spec.construction
    spare = made.door_tongue - made.panel_play
    for less, centred in ((spare, True), (spare + F(1, 64), False)):
        lap = made.door_tongue - (made.panel_play + less) / 2
        assert (lap >= made.door_tongue / 2) is centred
        kinds = {cure.kind for cure in cures("B3-DO1P", AsCut(length, width - less))}
        assert (WayKind.CENTRE in kinds) is centred


def test_the_shoulders_of_a_short_rail_stay_as_far_apart() -> None:
    part = COUNTER.parts["B3-DO1T"]
    length, width, _ = COUNTER.dimensions(part)
    (cure,) = (one for one in cures("B3-DO1T", AsCut(length - F(1, 16), width)) if one.kind is WayKind.USE)
    (mend,) = cure.actions
    assert isinstance(mend, Mend)
    shoulders = length - 2 * COUNTER.cases["B3"].spec.construction.door_tongue
    assert shoulders == F(107, 8) and '13 3/8" apart' in mend.steps[0]
    for cut in (AsCut(length - F(5, 64), width), AsCut(length - F(1, 16), width, True)):
        assert WayKind.USE not in {one.kind for one in cures("B3-DO1T", cut)}


def test_a_front_that_is_turned_over_shows_its_other_face() -> None:
    part = COUNTER.parts["B1-DF3"]
    cut = AsCut(*COUNTER.dimensions(part)[:2], False, (Harm(HarmKind.DAMAGE, "", Way.FRONT, deep=F(1, 32)),))
    (turned,) = (one for one in cures("B1-DF3", cut) if one.kind is WayKind.TURN)
    (mend,) = turned.actions
    assert isinstance(mend, Mend)
    assert mend.steps[-1] == "Look first whether the other face of B1-DF3 is good enough to be seen."


@pytest.mark.parametrize(("mark", "edge"), [("B2-DO1", "left"), ("B2-DO2", "right"), ("B1-DF1", "lower")])
def test_a_narrow_front_is_lipped_where_it_is_seen_least(mark: str, edge: str) -> None:
    length, width, _ = COUNTER.dimensions(COUNTER.parts[mark])
    (lip,) = (one for one in cures(mark, AsCut(length, width - F(1, 8))) if one.kind is WayKind.LIP)
    (mend,) = lip.actions
    assert isinstance(mend, Mend) and lip.seen is Seen.IN_SIGHT
    assert any(f"along the {edge} edge of {mark}" in step for step in mend.steps)


@pytest.mark.parametrize(
    ("mark", "feature", "by", "seen"),
    [
        ("B2-L", "plate-DO1-1", F(1, 8), Seen.HIDDEN_LINE),
        ("B2-L", "plate-DO1-1", F(1), Seen.IN_SIGHT),
        ("B1-L", "slide-DF2", F(-1, 2), Seen.HIDDEN_LINE),
        ("B2-DO1", "cups", F(1, 8), Seen.IN_SIGHT),
    ],
)
def test_plugs_that_the_hardware_covers_are_not_seen(mark: str, feature: str, by: F, seen: Seen) -> None:
    cut = AsCut(*COUNTER.dimensions(COUNTER.parts[mark])[:2], True, (Harm(HarmKind.PLACE, feature, by=by),))
    (plugged,) = (one for one in cures(mark, cut) if one.kind is WayKind.PLUG)
    assert plugged.seen is seen


def _mirrored(project: Project, mark: str) -> list[PartCure]:
    facts = Facts(
        {},
        {mark: AsCut(*project.dimensions(project.parts[mark])[:2], True, harms=(Harm(HarmKind.MIRRORED),))},
    )
    found = cures_of(project, facts, [project.parts[mark]], RepairPace())
    return [cure for cures in found.values() for cure in cures]


def test_a_mirrored_door_is_turned_end_for_end_and_keeps_its_good_face() -> None:
    """It was bored behind, along the other edge: nobody need look at its other face."""
    steps = [
        step
        for cure in _mirrored(COUNTER, "B4-DO1")
        for one in cure.actions
        if isinstance(one, Mend)
        for step in one.steps
    ]
    assert "Turn B4-DO1 end for end." in steps
    assert not any("other face" in step for step in steps)
    assert any(step.startswith("Plug the 2 wrong holes of cups") for step in steps)
