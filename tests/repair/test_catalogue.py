"""The catalogue of mishaps is read as it is meant, nonsense in it is refused, and the program is told all it
can be told."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction as F
from functools import cache
from typing import get_args

import pytest

from casewright.casework.directions import Way
from casewright.repair.facts import Origin
from casewright.repair.harm import Harm, HarmKind
from casewright.repair.ways.way import WayKind
from repair.catalogue.asked_today import SAME, ask, facts_of, parts_of, project_of
from repair.catalogue.mishap import Cure, FeatureWrong, Measures, Mishap, Report, WoodGone, Wrong
from repair.catalogue.read_catalogue import FURTHER, HELD_OUT, CatalogueError, read_catalogue, read_mishaps
from repair.catalogue.verdict import Answer, bought_needlessly, verdict

CATALOGUE: Mapping[str, Mishap] = {one.name: one for one in read_catalogue(parts_of)}
FURTHER_ON: Mapping[str, Mishap] = {one.name: one for one in read_catalogue(parts_of, FURTHER)}
HELD_BACK: Mapping[str, Mishap] = {one.name: one for one in read_catalogue(parts_of, HELD_OUT)}

GOOD = """
job = "examples/pottery-studio.toml"
source = "common practice, no source"
[[mishap]]
name = "test"
stage = "B4-A1 is not cut."
happened = "B1-R is short."
uncut = ["B4-A1"]
report = [{ part = "B1-R", measures = "33 1/2 x 24" }]
wood = [{ name = "piece", material = "mdf", size = "26 x 23", for = ["B4-*"] }]
answer = "recut-leftover"
or = ["buy"]
why = "Because."
"""


@cache
def asked(mishap: Mishap) -> Answer:
    return ask(mishap)


def test_there_are_enough_and_they_cover_all_that_goes_wrong() -> None:
    assert len(CATALOGUE) >= 60 and len(HELD_BACK) == 20
    units = {one.job: parts_of(one.job).unit for one in CATALOGUE.values()}
    assert sorted(units.values()) == ["in", "in", "mm"]
    assert sum(job.startswith("examples/") for job in units) == 2
    assert {one.answer for one in CATALOGUE.values()} == set(Cure)
    reports = [report for one in (*CATALOGUE.values(), *FURTHER_ON.values()) for report in one.reports]
    assert {type(report) for report in reports} == set(get_args(Report))
    assert {one.wrong for one in reports if isinstance(one, FeatureWrong)} == set(Wrong)


def test_a_row_is_read_in_the_unit_of_its_job() -> None:
    (one,) = read_mishaps(GOOD, parts_of)
    assert one.reports == (Measures("B1-R", F(67, 2), F(24)),)
    assert one.wood[0].planned == ("B4-A1",) and one.wood[0].length == 26
    assert (one.answer, one.acceptable, one.buys) == (Cure.RECUT_LEFTOVER, (Cure.BUY,), False)
    narrow = CATALOGUE["ferry: applied back 6 mm narrow"]
    assert narrow.reports == (Measures("W1-K", F(7200, 254), F(7840, 254)),)
    below = CATALOGUE["library: dado below its line"].reports[0]
    assert isinstance(below, FeatureWrong) and below.by == F(-11, 16)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('source = "common practice, no source"', 'source = "a book"', "The file must say source"),
        ("answer =", 'answr = "buy"\nanswer =', "test: “answr” is not a field."),
        ('why = "Because."', "", "test: “why” is missing."),
        ('"33 1/2 x 24"', '"33 1/2"', "test: “33 1/2” is not a length and a width."),
        ('"33 1/2 x 24"', '"33 1/2 x wide"', "test: “wide” is not a length."),
        ('part = "B1-R"', 'part = "B9-R"', "test: no such part: B9-R."),
        ("measures =", "is =", "test: the report on B1-R says nothing that is known."),
        (', measures = "33 1/2 x 24"', ', feature = "dado-F9", wrong = "too deep"', "B1-R has no dado-F9."),
        ('{ part = "B1-R", measures = "33 1/2 x 24" }', '{ wood = "log", lost = true }', "no wood is called"),
        ('{ part = "B1-R", measures = "33 1/2 x 24" }', '{ case = "Z1", without = "B1-K" }', "part: Z1-*"),
        ('material = "mdf"', 'material = "teak"', "test: no part is cut from “teak”."),
        ('uncut = ["B4-A1"]', 'uncut = ["B4-A1", "B1-A1"]', "parts on wood differ: ['B1-A1']"),
        ('uncut = ["B4-A1"]', "buys = true\nuncut = ['B4-A1']", "do not go with “answer”"),
        ('or = ["buy"]', 'or = ["recut-leftover"]', "do not go with “answer”"),
    ],
)
def test_a_row_that_cannot_be_meant_is_refused(old: str, new: str, said: str) -> None:
    assert old in GOOD
    with pytest.raises(CatalogueError) as error:
        read_mishaps(GOOD.replace(old, new), parts_of)
    assert said in str(error.value)


@pytest.mark.parametrize(("old", "new"), [('"recut-leftover"', '"pray"'), ('"buy"', '"pray"')])
def test_an_answer_that_no_maker_gives_is_refused(old: str, new: str) -> None:
    with pytest.raises(ValueError, match="pray"):
        read_mishaps(GOOD.replace(old, new), parts_of)


@pytest.mark.parametrize("mishap", [*CATALOGUE.values(), *HELD_BACK.values()], ids=lambda one: one.name)
def test_every_mishap_is_told_whole(mishap: Mishap) -> None:
    project = project_of(mishap.job)
    facts = facts_of(project, mishap)
    gone = {one.wood for one in mishap.reports if isinstance(one, WoodGone)}
    planned = {mark for blank in facts.blanks for mark in blank.planned}
    assert not gone & {blank.name for blank in facts.blanks}
    assert not planned & facts.finished.keys() and not facts.spoiled.keys() & facts.finished.keys()
    wrong = {part.mark for part in project} - facts.finished.keys() - planned
    assert wrong, "something is wrong"
    assert wrong >= facts.spoiled.keys()


def test_swapped_labels_are_told_as_two_wrong_sizes() -> None:
    mishap = CATALOGUE["studio: labels of top and bottom swapped"]
    project = project_of(mishap.job)
    spoiled = facts_of(project, mishap).spoiled
    top, bottom = (project.dimensions(project.parts[mark]) for mark in ("T1-T", "T1-B"))
    assert top != bottom
    assert (spoiled["T1-T"].length, spoiled["T1-B"].length) == (bottom[0], top[0])


def test_wood_is_told_as_what_it_is() -> None:
    def origins(name: str) -> dict[str, Origin]:
        mishap = CATALOGUE[name]
        return {blank.name: blank.origin for blank in facts_of(project_of(mishap.job), mishap).blanks}

    assert origins("library: side lost, only another part's piece is large enough") == {
        "piece for C2-B": Origin.PIECE,
        "leftover": Origin.OFFCUT,
    }
    assert origins("library: base side an inch short, one sheet still whole") == {"last sheet": Origin.SHEET}
    assert origins("library: sheet with a void") == {}


def test_harms_are_told_with_their_place() -> None:
    def harms(name: str, mark: str) -> tuple[bool, tuple[Harm, ...]]:
        mishap = CATALOGUE[name]
        cut = facts_of(project_of(mishap.job), mishap).spoiled[mark]
        return cut.worked, cut.harms

    mirrored = Harm(HarmKind.MIRRORED)
    assert harms("ferry: open case's right side bored as a left", "O1-R") == (True, (mirrored,))
    corner = tuple(Harm(HarmKind.DAMAGE, "", way, deep=F(1, 2)) for way in (Way.BACK, Way.UP))
    assert harms("library: upper rear corner knocked off", "C3-R") == (True, corner)
    assert harms("library: notch at the wrong end of a plain side", "C1-L") == (
        False,
        (Harm(HarmKind.END, "notch-toe"),),
    )
    assert harms("library: groove along the front edge of a bottom", "C1-B") == (
        True,
        (Harm(HarmKind.EDGE, "groove-back"),),
    )
    worked, rabbets = harms("library: right side rabbeted as a left, no pins bored", "V1-R")
    assert not worked and {(one.fault, one.feature) for one in rabbets} == {
        (HarmKind.FACE, f"rabbet-{side}") for side in ("bottom", "top", "back")
    }


def test_every_kind_of_way_has_its_cure() -> None:
    assert SAME.keys() | {WayKind.RECUT, WayKind.ROLES, WayKind.TRIM, WayKind.SMALLER_BOX} == set(WayKind)


@pytest.mark.parametrize(
    ("name", "cure"),
    [
        ("studio: side an inch short, leftover on the rack", Cure.RECUT_LEFTOVER),
        ("studio: stretcher an eighth long", Cure.TRIM_ITSELF),
        ("studio: optional shelf spoiled, no MDF left", Cure.LEAVE_OUT),
        ("ferry: fixed shelf 10 mm short, the adjustable one not cut", Cure.RECUT_SPOILED),
        ("library: back an inch narrow", Cure.RELAY),
        ("library: sheet with a void", Cure.BUY),
        ("library: side lost, only another part's piece is large enough", Cure.RECUT_OTHER_BLANK),
        ("library: wall side an eighth short, back not cut", Cure.TRIM_MATE),
    ],
)
def test_the_ways_of_the_program_have_the_names_of_the_catalogue(name: str, cure: Cure) -> None:
    assert cure in asked(CATALOGUE[name]).cures


def test_the_first_way_is_judged() -> None:
    (one,) = read_mishaps(GOOD, parts_of)
    assert verdict(one, Answer((Cure.RECUT_LEFTOVER, Cure.BUY))) == "first"
    assert verdict(one, Answer((Cure.BUY, Cure.RECUT_LEFTOVER))) == "accepted"
    assert verdict(one, Answer((Cure.CHANGE_SIZE, Cure.RECUT_LEFTOVER))) == "no"
    assert verdict(one, Answer()) == "no way"
    assert bought_needlessly(one, Answer((Cure.BUY,), first_buys=True))
    assert not bought_needlessly(one, Answer((Cure.BUY,)))
    void = CATALOGUE["library: sheet with a void"]
    assert not bought_needlessly(void, Answer((Cure.BUY,), first_buys=True))


EVERY = 4
"""One mishap in so many is asked here, from the second on; `python -m benchmarks mishap_catalogue` asks them
all."""

REACHED = 23
"""How many of those of the catalogue the first way was the maker's for on 1 December 2026. Raise it, never
lower it."""

REACHED_HELD_OUT = 5
"""The same for the twenty that were written later and that nothing was tuned to."""


@pytest.mark.parametrize(("mishaps", "reached"), [(CATALOGUE, REACHED), (HELD_BACK, REACHED_HELD_OUT)])
def test_the_first_way_is_a_makers_as_often_as_it_ever_was(
    mishaps: Mapping[str, Mishap], reached: int
) -> None:
    """The search counts its work and not the time, so that a slow machine gets the same answers."""
    said = {name: (one, asked(one)) for name, one in list(mishaps.items())[1::EVERY]}
    others = [name for name, one in said.items() if verdict(*one) != "first"]
    assert len(said) - len(others) >= reached, others
    assert not [name for name, one in said.items() if bought_needlessly(*one)]
