"""Ways for mishaps that could not be told before: the first is a maker's, and each ends where it should."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.app.repair.repair_page import changed_text
from casewright.casework.job import Bay, Construction
from casewright.casework.project import Project, draw_up
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.write.write_job import write_job
from casewright.repair.facts import AsCut, Blank, Facts, Origin
from casewright.repair.find_ways import ways
from casewright.repair.harm import Harm, HarmKind
from casewright.repair.way_wording import list_steps
from casewright.repair.ways.way import Mend, Option, ServeAs, WayKind
from casewright.solids.solid_check import check_solids
from repair.catalogue.asked_today import ask, parts_of, project_of
from repair.catalogue.mishap import Mishap
from repair.catalogue.read_catalogue import FURTHER, read_catalogue
from repair.catalogue.verdict import bought_needlessly, verdict
from samples import BASE, job, spec

FURTHER_ON: Mapping[str, Mishap] = {one.name: one for one in read_catalogue(parts_of, FURTHER)}
STUDIO = project_of("examples/pottery-studio.toml")
LOW = ("pins-12-right-front", "pins-12-right-back")
ROWS = ("pins-11-right-front", "pins-11-right-back")


@pytest.mark.parametrize("mishap", FURTHER_ON.values(), ids=lambda one: one.name)
def test_the_first_way_is_a_makers(mishap: Mishap) -> None:
    answer = ask(mishap)
    assert verdict(mishap, answer) in ("first", "accepted") and not bought_needlessly(mishap, answer)


def test_hardly_any_first_way_is_but_an_accepted_one() -> None:
    """The one: a shelf that moves on its sheet, clear of the fault, is the same whatever it is called."""
    assert [one.name for one in FURTHER_ON.values() if verdict(one, ask(one)) != "first"] == [
        "further: a void in the last sheet, under a shelf still to be cut"
    ]


def first(
    spoiled: Mapping[str, AsCut], worked: Mapping[str, frozenset[str]], project: Project = STUDIO
) -> tuple[Option, ...]:
    finished = {
        part.mark: AsCut(*project.dimensions(part)[:2], bool(begun), begun=begun)
        for part in project
        if part.mark not in spoiled
        for begun in [worked.get(part.mark, frozenset())]
    }
    return ways(project, Facts(finished, spoiled)).options


def rows_out(
    by: F, rows: tuple[str, ...] = ROWS, mark: str = "W1-L", project: Project = STUDIO
) -> dict[str, AsCut]:
    part = project.parts[mark]
    harms = tuple(Harm(HarmKind.PLACE, row, by=by) for row in rows)
    return {mark: AsCut(*project.dimensions(part)[:2], True, harms, frozenset(rows))}


def test_rows_are_bored_to_match_and_stand_level() -> None:
    option = first(rows_out(F(1, 2)), {})[0]
    assert option.kind is WayKind.MATCH and option.cost.seen.value == "nothing"
    [bored] = [one for one in option.actions if isinstance(one, Mend)]
    assert bored.mark == "W1-R" and len(bored.steps) == 2
    assert all('1/2" farther from its lower end' in step for step in bored.steps)
    # Moved so, the holes that carry one shelf are on one level, from the drawn places alone.
    left, right = (
        sorted(
            bore.mouth[2] + STUDIO.corner(STUDIO.parts[mark])[2]
            for one in STUDIO.parts[mark].features
            if one.serves
            for bore in one.bores(STUDIO.parts[mark], STUDIO.sizes)
        )
        for mark in ("W1-L", "W1-R")
    )
    assert left == right


def test_a_row_that_is_not_bored_yet_in_the_same_side_is_matched_too() -> None:
    option = first(rows_out(F(-1, 4), ROWS[:1]), {})[0]
    assert option.kind is WayKind.MATCH
    steps = {one.mark: one.steps for one in option.actions if isinstance(one, Mend)}
    assert set(steps) == {"W1-L", "W1-R"} and all(
        '1/4" nearer to its lower end' in step for said in steps.values() for step in said
    )


@pytest.mark.parametrize(
    ("by", "worked"),
    [
        (F(1, 2), {"W1-R": frozenset({"pins-11-left-back"})}),  # one of them is bored where it is drawn
        (F(2), {}),  # a shelf two inches off is seen
    ],
)
def test_rows_are_not_bored_to_match_where_that_does_not_hold(
    by: F, worked: Mapping[str, frozenset[str]]
) -> None:
    kinds = {option.kind for option in first(rows_out(by), worked)}
    assert WayKind.MATCH not in kinds and WayKind.PLUG in kinds


@pytest.mark.parametrize(("by", "offered"), [(F(-1, 2), True), (F(-11, 16), False)])
def test_holes_are_not_bored_into_the_dado_of_a_shelf(by: F, offered: bool) -> None:
    """The lowest holes begin 3/4 in above the fixed shelf, with a radius of 1/8 in."""
    made = Construction(pin_first=F(3, 4))
    case = replace(
        spec("B1", width=F(24), construction=made, bays=(BASE[0],)), chosen=frozenset({"pin_first"})
    )
    project = draw_up(job(case, opening=F(24)))
    kinds = {one.kind for one in first(rows_out(by, LOW, "B1-L", project), {}, project)}
    assert (WayKind.MATCH in kinds) is offered and WayKind.PLUG in kinds


def test_rows_told_by_how_much_are_seen_to_be_those_of_the_other_side_upside_down() -> None:
    """Bored from the top by mistake, and told as so far out of place: the sides change over, turned."""
    spoiled: dict[str, AsCut] = {}
    for mark, rows in (("W1-L", ROWS), ("W1-R", ("pins-11-left-front", "pins-11-left-back"))):
        part = STUDIO.parts[mark]
        heights = sorted(bore.mouth[2] for bore in part.feature(rows[0]).bores(part, STUDIO.sizes))
        length = STUDIO.dimensions(part)[0]
        spoiled |= rows_out(length - heights[-1] - heights[0], rows, mark)
        every = frozenset(one.name for one in part.features)
        spoiled[mark] = replace(spoiled[mark], begun=every)
    option = next(one for one in first(spoiled, {}) if one.kind is WayKind.TURN)
    assert {(one.piece, one.mark) for one in option.actions if isinstance(one, ServeAs)} == {
        ("W1-L", "W1-R"),
        ("W1-R", "W1-L"),
    }
    # An inch farther out they are no side's rows at all.
    out = {mark: replace(cut, harms=moved(cut.harms, F(1))) for mark, cut in spoiled.items()}
    assert WayKind.TURN not in {option.kind for option in first(out, {})}


def moved(harms: tuple[Harm, ...], by: F) -> tuple[Harm, ...]:
    return tuple(replace(harm, by=harm.by + by) for harm in harms)


def test_bays_are_changed_over_where_that_makes_the_bottom_right_and_the_client_is_asked() -> None:
    """The dado for the divider is laid out from the wrong end of the bottom; nothing else of the case is cut
    into, so the wide bay may stand on the left."""
    case = spec("B1", width=F(36), bays=(Bay(width=F(10), adjustable=1), Bay(adjustable=1)))
    project = draw_up(job(case, opening=F(36)))
    bottom = project.parts["B1-B"]
    made = frozenset(one.name for one in bottom.features)
    harm = Harm(HarmKind.END, "dado-D1")
    wrong = {"B1-B": AsCut(*project.dimensions(bottom)[:2], True, (harm,), made)}
    blank = Blank("sheet", "ply", F(96), F(48), Origin.SHEET)
    facts = Facts(
        {part.mark: AsCut(*project.dimensions(part)[:2]) for part in project if part.mark not in wrong},
        wrong,
        (blank,),
    )
    options = ways(project, facts).options
    option = next(one for one in options if one.kind is WayKind.BAYS)
    assert option.cost.ask_client and option.cost.seen.value == "changed design"
    assert options.index(option) == len(options) - 1, "no other way is dearer than to ask for another design"
    after = option.project
    assert [bay.width for bay in after.cases["B1"].spec.bays] == [None, F(10)]
    # Judged from the drawing alone: the dado, mirrored end for end, is where the changed job has it.
    was, now = bottom.feature("dado-D1").channel, after.parts["B1-B"].feature("dado-D1").channel
    assert was is not None and now is not None
    length = project.dimensions(bottom)[0]
    mirrored = length - project.sizes.of(was.at) - project.sizes.of(was.width)
    assert abs(mirrored - after.sizes.of(now.at)) <= project.job.mark.step / 2
    assert not check_solids(after)
    steps = list_steps(project, after, option.actions)
    assert steps[0] == "Build B1 with its bays the other way about; ask the client first."
    text = write_job(project.job)
    assert draw_up(read_job(changed_text(text, option))).parts.keys() == project.parts.keys()
    # Worked sides have the holes of the bays as they were drawn: then it is no way.
    worked = {
        mark: replace(cut, worked=True, begun=frozenset(one.name for one in project.parts[mark].features))
        for mark, cut in facts.finished.items()
    }
    kinds = {one.kind: one for one in ways(project, replace(facts, finished=worked)).options}
    assert WayKind.BAYS not in kinds or kinds[WayKind.BAYS].cost.remade


def test_a_dado_out_of_place_and_too_deep_is_filled_once() -> None:
    part = STUDIO.parts["B4-L"]
    deep, out = Harm(HarmKind.DEEP, "dado-F11", by=F(1, 16)), Harm(HarmKind.PLACE, "dado-F11", by=F(1, 2))
    every = frozenset(one.name for one in part.features)

    def filled(*harms: Harm) -> Option:
        cut = AsCut(*STUDIO.dimensions(part)[:2], True, harms, every)
        right = frozenset(one.name for one in STUDIO.parts["B4-R"].features)
        return next(one for one in first({"B4-L": cut}, {"B4-R": right}) if one.kind is WayKind.FILL)

    assert filled(out, deep).actions == filled(deep, out).actions == filled(out).actions
