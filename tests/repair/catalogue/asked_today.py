"""Ask the program about a mishap of the catalogue: the only module that knows how it is asked."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache

from casewright.casework.directions import Way
from casewright.casework.project import Project, draw_up
from casewright.jobfile.read.read_job import read_job
from casewright.planner.problem import Trim
from casewright.repair.facts import SPOILED, AsCut, Blank, Facts, Origin, made_as
from casewright.repair.find_ways import ways
from casewright.repair.flaws import Flaw
from casewright.repair.harm import Harm, HarmKind
from casewright.repair.sound_wood import sound_pieces
from casewright.repair.ways.way import CutAgain, Mend, NewPlaces, Option, ServeAs, TrimTo, WayKind
from repair.catalogue.mishap import (
    Cure,
    Damaged,
    FeatureWrong,
    GluedWithout,
    Labelled,
    Lost,
    MadeAs,
    Measures,
    Mishap,
    OfMaterial,
    Report,
    Wood,
    WoodFlawed,
    WoodGone,
    WorkedAs,
    Wrong,
)
from repair.catalogue.read_catalogue import REPOSITORY, JobParts
from repair.catalogue.verdict import Answer

FAULTS = {
    Wrong.FACE: HarmKind.FACE,
    Wrong.END: HarmKind.END,
    Wrong.EDGE: HarmKind.EDGE,
    Wrong.PLACE: HarmKind.PLACE,
    Wrong.WIDE: HarmKind.LARGE,
    Wrong.DEEP: HarmKind.DEEP,
}

SIDES_SAID = {"top": Way.UP, "bottom": Way.DOWN, **{way.word: way for way in Way}}

SAME: dict[WayKind, Cure | None] = {
    WayKind.USE: Cure.USE_AS_IS,
    WayKind.TURN: Cure.TURN,
    WayKind.CENTRE: Cure.CENTRE_BACK,
    WayKind.PACK: Cure.PACK_UP,
    WayKind.PACK_IN: Cure.FILL_DADO,
    WayKind.LIP: Cure.LIP,
    WayKind.THICKER_STRIP: Cure.LIP,
    WayKind.LET_IN: Cure.LET_IN_STRIP,
    WayKind.TO_SIZE: Cure.REWORK_JOINT,
    WayKind.FILL: Cure.FILL_DADO,
    WayKind.PLUG: Cure.PLUG_AND_BORE,
    WayKind.OPEN: Cure.REWORK_JOINT,
    WayKind.MIXED: None,
    WayKind.GIVE_UP: Cure.LEAVE_OUT,
    WayKind.SWAP: Cure.OTHER_MATERIAL,
    WayKind.BUILD_OUT: Cure.LIP,
    WayKind.MATCH: Cure.CUT_MATE_TO_MATCH,
    WayKind.MOVE: Cure.CHANGE_SIZE,
    WayKind.BAYS: Cure.CHANGE_SIZE,
    WayKind.BUY: Cure.BUY,
    WayKind.BUY_BOARD: Cure.BUY,
}
"""The program's kinds that are one cure of the catalogue, or none: parts that each get another cure."""


@cache
def project_of(path: str) -> Project:
    """The job of a path in the repository, drawn up."""
    return draw_up(read_job((REPOSITORY / path).read_text()))


@cache
def parts_of(path: str) -> JobParts:
    """What the reader of the catalogue must know of a job."""
    project = project_of(path)
    return JobParts(
        project.job.unit.value,
        {part.mark: tuple(one.name for one in part.features) for part in project},
        {part.mark: part.material for part in project},
    )


def ask(mishap: Mishap) -> Answer:
    """What the program answers."""
    project = project_of(mishap.job)
    facts = facts_of(project, mishap)
    times: list[float] = []
    begun = time.process_time()

    def seen(option: Option) -> None:
        times.append(time.process_time() - begun)

    found = ways(project, facts, report=seen)
    every = time.process_time() - begun
    return Answer(
        tuple(cure_of(option, facts) for option in found.options),
        bool(found.options) and found.options[0].cost.money > 0,
        times[0] if times else every,
        every,
    )


def facts_of(project: Project, mishap: Mishap) -> Facts:
    """The mishap as the program's facts; every part that lies on no wood has been cut."""
    gone = {one.wood for one in mishap.reports if isinstance(one, WoodGone)}
    uncut = {mark for one in mishap.wood for mark in one.planned}
    lost = {one.part for one in mishap.reports if isinstance(one, Lost)}
    sizes = {mark: (length, width) for one in mishap.reports for mark, length, width in _sizes(project, one)}
    harms = harms_of(mishap)
    spoiled = {
        mark: AsCut(
            *sizes.get(mark, project.dimensions(project.parts[mark])[:2]),
            mark in mishap.worked or _all_cut(project, mark, harms.get(mark, ())),
            harms.get(mark, ()),
            _begun(project, harms.get(mark, ())),
        )
        for mark in {**sizes, **harms}
    }
    finished = {
        part.mark: AsCut(*project.dimensions(part)[:2], part.mark in mishap.worked)
        for part in project
        if part.mark not in uncut | lost | spoiled.keys()
    }
    flawed = {one.wood: one for one in mishap.reports if isinstance(one, WoodFlawed)}
    blanks = tuple(
        _with_flaw(_blank(project, one), flawed.get(one.name)) for one in mishap.wood if one.name not in gone
    )
    return Facts(finished, spoiled, blanks, frozenset(mishap.glued))


def harms_of(mishap: Mishap) -> dict[str, tuple[Harm, ...]]:
    """What is wrong with each part beside its size. A damaged corner is a damage of both its sides."""
    found: dict[str, tuple[Harm, ...]] = {}
    for one in mishap.reports:
        match one:
            case FeatureWrong():
                new = [Harm(FAULTS[one.wrong], one.feature, by=one.by or Fraction(0))]
            case WorkedAs(features=()):
                new = [Harm(HarmKind.MIRRORED)]
            case WorkedAs():
                new = [Harm(HarmKind.FACE, feature) for feature in one.features]
            case OfMaterial():
                new = [Harm(HarmKind.MATERIAL, material=one.material, by=-one.thinner)]
            case MadeAs() | Labelled(worked=True):
                new = [Harm(HarmKind.MADE_AS, other=one.other)]
                if isinstance(one, Labelled):
                    back = Harm(HarmKind.MADE_AS, other=one.part)
                    found[one.other] = (*found.get(one.other, ()), back)
            case GluedWithout():
                new = [Harm(HarmKind.LEFT_OUT)]
            case Damaged():
                ways = [SIDES_SAID[word] for word in one.place.split() if word in SIDES_SAID]
                new = [Harm(HarmKind.DAMAGE, "", way, deep=one.size) for way in ways]
                assert new, one.place
            case _:
                continue
        found[one.part] = (*found.get(one.part, ()), *new)
    return found


def _all_cut(project: Project, mark: str, harms: tuple[Harm, ...]) -> bool:
    """Whether what is said to be wrong is all that is cut into the part."""
    wrong = {harm.feature for harm in harms if harm.feature}
    mirrored = any(harm.fault in (HarmKind.MIRRORED, HarmKind.MADE_AS) for harm in harms)
    return mirrored or (bool(wrong) and wrong == {one.name for one in project.parts[mark].features})


def _begun(project: Project, harms: tuple[Harm, ...]) -> frozenset[str] | None:
    """The features of the other part that a piece was made as: all of them."""
    other = made_as(project, harms)
    return frozenset(one.name for one in other.features) if other else None


def _sizes(project: Project, report: Report) -> Iterator[tuple[str, Fraction, Fraction]]:
    """The parts that a report gives other sizes, with those."""
    if isinstance(report, Measures):
        yield report.part, report.length, report.width
    if isinstance(report, MadeAs):
        length, width, _ = project.dimensions(project.parts[report.other])
        yield report.part, length, width
    if isinstance(report, Labelled):
        for mark, real in ((report.part, report.other), (report.other, report.part)):
            length, width, _ = project.dimensions(project.parts[real])
            yield mark, length, width


def _blank(project: Project, wood: Wood) -> Blank:
    sheet = project.job.sheets[wood.material]
    if wood.length is None or wood.width is None:
        trim = Trim(sheet.trim, sheet.trim, sheet.trim, sheet.trim)
        return Blank(
            wood.name, wood.material, sheet.sheet_length, sheet.sheet_width, Origin.SHEET, trim, wood.planned
        )
    origin = Origin.PIECE if wood.planned else Origin.OFFCUT
    return Blank(wood.name, wood.material, wood.length, wood.width, origin, planned=wood.planned)


def _with_flaw(blank: Blank, told: WoodFlawed | None) -> Blank:
    """The piece with a fault in it; what was to be cut there has no place."""
    if told is None:
        return blank
    flaw = Flaw(blank.material, 1, told.along, told.across, told.length, told.width)
    kept = tuple(mark for mark in blank.planned if mark not in told.hits)
    return replace(blank, planned=kept, flaws=(flaw,))


def cure_of(option: Option, facts: Facts) -> Cure | None:
    """A way of the program in the catalogue's words, None if it has none.

    Where pieces change places, a spoiled one that is cut down for it is wood for another part.
    """
    if option.kind is WayKind.ROLES:
        served = [one for one in option.actions if isinstance(one, ServeAs)]
        cut_down = any(one.trim and one.piece in facts.spoiled for one in served)
        return Cure.RECUT_SPOILED if cut_down else Cure.SWAP
    if option.kind is WayKind.SMALLER_BOX:
        packed = any(isinstance(one, Mend) for one in option.actions)
        return Cure.PACK_UP if packed else Cure.TRIM_MATE
    if option.kind is WayKind.RECUT:
        return _recut(option, facts)
    if option.kind is WayKind.TRIM:
        trimmed = {one.mark for one in option.actions if isinstance(one, TrimTo)}
        return Cure.TRIM_ITSELF if trimmed <= facts.spoiled.keys() else Cure.TRIM_MATE
    return SAME[option.kind]


def _recut(option: Option, facts: Facts) -> Cure:
    again = {one.mark: one.blank for one in option.actions if isinstance(one, CutAgain)}
    if all(blank == f"{SPOILED}{mark}" for mark, blank in again.items()):
        return Cure.TRIM_ITSELF
    moved = {mark for one in option.actions if isinstance(one, NewPlaces) for mark in one.marks}
    sources = {piece.item: sheet.bin for plan in option.plans.values() for sheet, piece in plan.parts()}
    if any(blank.startswith(SPOILED) for blank in sources.values()):
        return Cure.RECUT_SPOILED
    planned = {sound.name: blank.planned for blank in facts.blanks for sound in (blank, *sound_pieces(blank))}
    if any(mark not in planned[sources[mark]] for mark in moved):
        return Cure.RECUT_OTHER_BLANK
    return Cure.RELAY if moved and any(planned[name] for name in again.values()) else Cure.RECUT_LEFTOVER
