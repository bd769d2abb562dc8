"""Cases that hang on walls of which too little is known, or on screws that do not meet the design values."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from ..casework.checks.support_checks import THINNEST_HOLD
from ..casework.job import BackKind
from ..casework.project import Project
from ..findings import Finding, Weight
from ..lengths.in_a_sentence import listed
from ..lengths.quantities import weighed
from ..strength.hung_on_screws import HungOnScrews, HungRow
from ..strength.wood_screws import WIDE_ENOUGH
from .hung_cases import Hanging, strip_gravity
from .hung_screws import hung_screw_words

DESIGN_VALUES = "the design values of the NDS (2018)"


def hanging_findings(project: Project, hangings: Iterable[Hanging]) -> tuple[Finding, ...]:
    """A finding for each wall that is not known, once, and for each case that its screws do not hold by the
    published figures."""
    hangings = tuple(hangings)
    return (*_walls(project, hangings), *(found for one in hangings for found in _row(project, one)))


def _walls(project: Project, hangings: Iterable[Hanging]) -> Iterator[Finding]:
    on: dict[str, list[Hanging]] = {}
    for one in hangings:
        on.setdefault(one.wall_name, []).append(one)
    for name, those in on.items():
        first, marks = those[0], [mark for one in those for mark in one.marks]
        hang = f"{listed(marks)} {'hangs' if len(marks) == 1 else 'hang'} on “{name}”"
        place = f"runs.{project.run_of(marks[0]).run.name}.framing"
        if first.question is not None:
            text, fix = f"{hang}: {first.question.why}", f"{first.question.ask}{_full(project, those)}"
            yield Finding("wall-to-ask-about", place, text, fix, Weight.WARN)
        elif not first.wall.studs_known:
            fix = (
                "Measure from the left end of the wall to the middle of the first stud, and how far apart "
                "they are."
            )
            text = f"{hang}, and nothing says where its studs are."
            yield Finding("studs-not-known", place, text, fix, Weight.WARN)


def _full(project: Project, those: Iterable[Hanging]) -> str:
    """What cases weigh with what they hold: whoever is asked about their wall needs it."""
    full = [pounds for one in those for pounds in one.full.values()]
    known = [pounds for pounds in full if pounds is not None]
    if len(known) < len(full):
        return ""
    whole, heaviest = (weighed(of, project.job.unit) for of in (sum(known, Fraction(0)), max(known)))
    return (
        f" Full, they weigh {whole}, {heaviest} at most each." if known[1:] else f" Full, it weighs {whole}."
    )


def _row(project: Project, one: Hanging) -> Iterator[Finding]:
    if one.question is not None or not one.wall.studs_known:
        return
    unknown = list(_unknown(project, one))
    yield from unknown
    if unknown:
        return
    if one.row is None or len(one.row.studs) < 2:
        yield _few_studs(project, one)
        return
    if len(one.marks) > 1:
        yield from (_no_stud(one, case) for case in one.row.cases if not case.upper_places)
    if not one.row.meets:
        yield _weak(project, one, one.row)


def _unknown(project: Project, one: Hanging) -> Iterator[Finding]:
    """What is asked of cases of which the weight, or what their strips are made of, is not known."""
    asked: set[str] = set()
    for mark in one.marks:
        case = project.cases[mark]
        for part in case.own_parts:
            sheet = project.job.sheets[part.material]
            if not sheet.weight and part.material not in asked:
                asked.add(part.material)
                text = f"nothing says what {sheet.name} weighs, so the screws of {mark} are not worked out."
                fix = "Enter its weight, or start from a sheet good of the catalogue."
                yield Finding("weight-not-known", f"materials.{part.material}.weight", text, fix, Weight.NOTE)
        made, strips = case.spec.materials, case.spec.construction.strips
        held_by = made.strip if strips else made.back
        if strip_gravity(project.job.sheets[held_by]) is None and held_by not in asked:
            asked.add(held_by)
            name = project.job.sheets[held_by].name
            text = f"no figure is published for screws through {name}, which {mark} hangs by."
            fix = "Make its mounting strips of plywood or solid wood." if strips else GIVE_STRIPS
            entry = "strip" if strips else "back"
            yield Finding("strip-not-reckoned", f"cases.{mark}.made_of.{entry}", text, fix, Weight.WARN)


GIVE_STRIPS = "Give it mounting strips of plywood or solid wood (strips = 2), or a back of plywood."
WIDER_STRIPS = "Make strip_width 3 to 4 in (75 to 100 mm)."
BLOCKING = "Have wood blocking let into the wall behind it, or ask a licensed contractor how it may hang."


def _few_studs(project: Project, one: Hanging) -> Finding:
    made = {mark: project.cases[mark].spec.construction for mark in one.marks}
    nothing = [mark for mark, of in made.items() if not of.strips and of.back is BackKind.NONE]
    if nothing:
        text = f"{listed(nothing)}: no mounting strip and no back, so no screw goes into “{one.wall_name}”."
        return Finding("too-few-studs", nothing[0], text, GIVE_STRIPS, Weight.WARN)
    if one.row is not None and all(_too_narrow(case) for case in one.row.cases):
        text = f"the strips of {listed(one.marks)} are too narrow for a screw with wood around it."
        return Finding("too-few-studs", one.marks[0], text, WIDER_STRIPS, Weight.WARN)
    number = len(one.row.studs) if one.row else 0
    behind = "one stud takes" if number else "no stud takes"
    text = f"{behind} screws of {listed(one.marks)} on “{one.wall_name}”; what hangs needs two."
    return Finding("too-few-studs", one.marks[0], text, BLOCKING, Weight.WARN)


def _too_narrow(case: HungOnScrews) -> bool:
    return case.case.strip.height < 2 * WIDE_ENOUGH * case.screw.shank


def _no_stud(one: Hanging, case: HungOnScrews) -> Finding:
    mark = case.case.name
    if _too_narrow(case):
        why, fix = f"the upper strip of {mark} is too narrow for a screw with wood around it", WIDER_STRIPS
    else:
        why, fix = f"no stud stands behind the upper strip of {mark} on “{one.wall_name}”", BLOCKING
    return Finding("no-stud-behind", mark, f"{why}: its neighbours carry it.", fix, Weight.WARN)


def _weak(project: Project, one: Hanging, row: HungRow) -> Finding:
    unit = project.job.unit
    screws = sum(len(case.places) for case in row.cases)
    text = (
        f"{listed(one.marks)} full {'weighs' if len(one.marks) == 1 else 'weigh'} {weighed(row.full, unit)}; "
        f"{screws} screws, {hung_screw_words(row, unit)}, do not meet {DESIGN_VALUES} beyond "
        f"{weighed(int(row.bears), unit)}."
    )
    bare = [mark for mark in one.marks if not project.cases[mark].spec.construction.strips]
    if bare:
        fix = f"Give {listed(bare)} two mounting strips (strips = 2); they hold more than a back does."
    elif min(case.case.strip.thickness for case in row.cases) < THINNEST_HOLD:
        fix = "Make the strips of a sheet 3/4 in (18 mm) thick: screw heads pull through thin ones."
    elif all(case.case.lower is None for case in row.cases):
        them = "it" if len(one.marks) == 1 else "them"
        fix = f"Give {them} a second strip below (strips = 2), so that more screws go into the studs."
    elif any(len({place.up for place in case.upper_places}) == 1 for case in row.cases):
        fix = "Make the strips wider, for two screws in each stud."
    else:
        fix = BLOCKING
    return Finding("screws-beyond-values", one.marks[0], text, fix, Weight.WARN)
