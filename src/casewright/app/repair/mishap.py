"""What the maker reports as gone wrong, where there is no record of the shop: from words to facts."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from ...boards.board_plan import BoardPlan
from ...casework.parts.part import MADE_TO_THE_BOX, Role
from ...casework.project import Project
from ...errors import JobError, LengthError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...lengths.in_a_sentence import listed
from ...lengths.length import parse_length, show
from ...planner.plan import Plan
from ...repair.boards_begun import boards_in_hand, cut_of_boards
from ...repair.facts import AsCut, Facts, begun_of_piece, is_as_planned, larger_by, made_as, with_harms
from ...repair.recorded_facts import cuts_to_free, features_cut
from ...repair.sheets_begun import facts_after
from ...workshop.boards.board_work import board_of_step, boards_by_name
from ...workshop.operations import OperationKind, cut_key
from ..jobs.worked_job import PlannedJob
from ..sheets.made_already import NOTHING_MADE, MadeAlready
from .flaw_words import read_flaws, worked_at_a_flaw
from .harm_words import both_mixed_up, left_out_of_nothing, plain_and_alike, read_harms


@dataclass(frozen=True)
class RepairTask:
    """A job part way through its sheet `plans`: the keys of the cuts `done`, and the `facts`; `boards` are
    its board plans."""

    project: Project
    plans: Mapping[str, Plan]
    done: Collection[str]
    facts: Facts
    boards: Mapping[str, BoardPlan] = field(default_factory=dict)


@dataclass(frozen=True)
class Mishap:
    """What the maker reports.

    An entry of `spoiled` is `B1-L`, or `B1-L:33 1/2 x 24` where something is left of it.

    `flaws` says `maple 2:30 x 12:4 x 3`: a fault in a sheet, 30 from its left end, 12 from its near edge, 4
    long and 3 wide.

    `wrong` says `B1-L:dado-bottom:wrong end` or `B1-L:mirrored`, `damaged` `B1-L:front edge:2 x 1/4`.
    `cut` names finished parts, `sheets` wholly cut ones (`ply 2`), `through` the last of such in
    their order; `worked` the parts whose dados or holes are cut (`B1-L`), or those of them that are
    (`B1-L:dado-bottom`), `lost` parts or pieces that are gone, `glued` cases that are together. Beside those
    the features that are wrong count as cut, and no others.
    """

    spoiled: Sequence[str] = ()
    cut: Sequence[str] = ()
    sheets: Sequence[str] = ()
    through: Sequence[str] = ()
    worked: Sequence[str] = ()
    lost: Sequence[str] = ()
    glued: Sequence[str] = ()
    wrong: Sequence[str] = ()
    damaged: Sequence[str] = ()
    flaws: Sequence[str] = ()


PUT_IN_LATER = MADE_TO_THE_BOX | {Role.ADJUSTABLE_SHELF, Role.FILLER}
"""What a case that is glued up need not hold yet."""


def repair_task(planned: PlannedJob, told: Mishap, made: MadeAlready = NOTHING_MADE) -> RepairTask:
    """The facts as reported, beside what is `made` already.

    Raises JobError with every unknown name and wrong length."""
    project, plans = planned.project, planned.plans
    faults: list[Finding] = []
    worked = _features_cut(project, told, made.steps, faults)
    spoiled = _spoiled(project, told, worked, faults)
    harms = read_harms(project, told.wrong, told.damaged, faults)
    faults += _contradictions(project, told, spoiled, harms)
    for mark, found in harms.items():
        faults += left_out_of_nothing(project.parts[mark], found, told.glued)
    for mark, found in harms.items():
        part = project.parts[mark]
        length, width, _ = project.dimensions(made_as(project, found) or part)
        has = spoiled.get(mark, AsCut(length, width))
        begun = begun_of_piece(project, part, found, worked[mark])
        faults += plain_and_alike(project, part, found, begun)
        spoiled[mark] = with_harms(project, has, found, begun)
    faults += (_no_part(project, "cut", mark) for mark in told.cut if mark not in project.parts)
    for case in told.glued:
        if case not in project.cases:
            faults.append(_unknown("glued", case, "case", project.cases))
    done = _cut_sheets(plans, planned.board_plans, told, faults)
    keys = {
        cut_key(key, sheet.number, cut.order)
        for key, plan in plans.items()
        for sheet in plan.sheets
        for cut in sheet.cuts
    }
    done |= keys & made.steps
    boards, milled = planned.board_plans, _cut_boards(planned, told.sheets, told.through) | made.steps
    lost_parts = [name for name in told.lost if name in project.parts]
    if faults:
        raise JobError(tuple(faults))
    built_in = [part.mark for part in project if part.case in told.glued and part.role not in PUT_IN_LATER]
    out = {*(mark for mark in told.cut), *spoiled, *lost_parts, *built_in}
    done |= cuts_to_free(plans, out)
    no_good = (*spoiled, *lost_parts)
    of_boards = {
        mark: cut
        for mark, cut in cut_of_boards(project, boards, milled, {*told.cut, *built_in}).items()
        if mark not in no_good
    }
    flaws = read_flaws(project, plans, told.flaws, faults)
    facts = facts_after(project, plans, done, flaws)
    faults += worked_at_a_flaw(facts, worked, spoiled)
    names = {blank.name for blank in facts.blanks}
    for name in set(told.lost) - set(lost_parts) - names:
        faults.append(_unknown("lost", name, "part or piece", [*project.parts, *sorted(names)]))
    if faults:
        raise JobError(tuple(faults))
    hit = {mark: cut for mark, cut in facts.spoiled.items() if mark not in spoiled and mark not in lost_parts}
    spoiled = {**spoiled, **hit}
    facts = replace(
        facts,
        spoiled={},
        finished={
            mark: AsCut(size.length, size.width, bool(worked[mark]), begun=worked[mark])
            for mark, cut in {**facts.finished, **of_boards}.items()
            for size in [made.parts.get(mark, cut)]
            if mark not in lost_parts
        },
        assembled=frozenset(told.glued),
        boards=boards_in_hand(boards, milled, no_good, of_boards),
    )
    steps = done | {key for key in milled if key in planned.work.by_key}
    return RepairTask(project, plans, steps, facts.spoil(spoiled).without(told.lost), boards)


def _features_cut(
    project: Project, told: Mishap, made: Collection[str], faults: list[Finding]
) -> dict[str, frozenset[str]]:
    """The features that are cut, as told and by the steps that are `made`, by the mark of their part."""
    found = {part.mark: features_cut(part, made) for part in project}
    for said in told.worked:
        mark, _, name = (piece.strip() for piece in said.partition(":"))
        if mark not in project.parts:
            faults.append(_no_part(project, "worked", mark))
            continue
        names = [feature.name for feature in project.parts[mark].features]
        if name and name not in names:
            text = f"it has no feature “{name}”."
            fix = did_you_mean(name, names) if names else "Nothing is cut into it; leave it out of worked."
            faults.append(Finding("no-such-feature", mark, text, fix))
            continue
        found[mark] |= {name} if name else frozenset(names)
    return found


def _spoiled(
    project: Project, told: Mishap, worked: Mapping[str, frozenset[str]], faults: list[Finding]
) -> dict[str, AsCut]:
    spoiled: dict[str, AsCut] = {}
    every = (*(one for said in told.wrong for one in both_mixed_up(said)), *told.damaged)
    wrong = {said.partition(":")[0].strip() for said in every}
    for said in told.spoiled:
        mark, _, sizes = (piece.strip() for piece in said.partition(":"))
        if mark not in project.parts:
            faults.append(_no_part(project, "spoiled", mark))
            continue
        if not sizes:
            spoiled[mark] = AsCut(Fraction(0), Fraction(0))
            continue
        pair = re.split(r"\s*[x×]\s*", sizes)
        try:
            if len(pair) != 2:
                raise LengthError(f"{sizes!r} is not a length and a width")
            length, width = (parse_length(one, project.job.unit) for one in pair)
        except LengthError as fault:
            fix = f"Write what it measures, length along the grain first: {mark}:33 1/2 x 24."
            faults.append(Finding("length", f"{mark}", f"{str(fault).rstrip('.')}.", fix))
            continue
        cut = AsCut(length, width, worked=bool(worked[mark]), begun=worked[mark])
        faults += measured_wrong(project, mark, cut, mark in wrong)
        spoiled[mark] = cut
    return spoiled


def _contradictions(
    project: Project, told: Mishap, spoiled: Mapping[str, AsCut], harms: Collection[str]
) -> Iterator[Finding]:
    """Reports of one part that cannot both be true, and parts that are glued up."""
    said = [one.partition(":")[0].strip() for one in told.spoiled]
    for mark in dict.fromkeys(said):
        if said.count(mark) > 1:
            text = "it is reported as spoiled twice, with different sizes or twice the same."
            yield Finding("said-twice", mark, text, "Report each part once.")
    for mark in {**spoiled, **dict.fromkeys(harms)}:
        if mark in told.lost:
            text = "it is reported as spoiled and as lost."
            yield Finding("spoiled-and-lost", mark, text, "Leave out one of the two.")
        if mark in told.cut:
            text = "it is reported as spoiled and as a good part that is cut."
            yield Finding("spoiled-and-good", mark, text, "Leave out one of the two.")
        case = project.parts[mark].case
        framed = project.parts[mark].role in MADE_TO_THE_BOX
        if case in told.glued and mark not in harms and not framed:
            text = f"it is spoiled, but its case {case} is reported as glued up."
            fix = f"Say what is wrong with it and where (wrong, damaged), or leave out glued {case}."
            yield Finding("spoiled-and-glued", mark, text, fix)


def measured_wrong(project: Project, mark: str, cut: AsCut, wrong: bool) -> tuple[Finding, ...]:
    """What is doubtful in the size of a part that is said to be spoiled; nothing where all is well. `wrong`:
    something beside its size is said to be wrong with it."""
    part = project.parts[mark]
    length, width, _ = project.dimensions(part)
    sheet = project.job.sheets[part.material]
    if cut.length <= 0 or cut.width <= 0:
        text = "what is left of a part has a length and a width greater than zero."
        return (Finding("no-size", mark, text, "Measure it, or enter only its mark if nothing is left."),)
    if max(cut.length, cut.width) > max(sheet.sheet_length, sheet.sheet_width):
        bought = "sheet" if sheet.boards is None else "board"
        text = f"{_size(project, cut)} is larger than a {bought} of {sheet.name}."
        return (Finding("too-large", mark, text, "Measure again and check the unit."),)
    if is_as_planned(project, mark, cut) or (cut.worked and wrong):
        return ()  # it is good to the mark of the rule: the first way is to use it
    if larger := larger_by(project, mark, cut):
        text = f"{_size(project, cut)} is larger than the {_size(project, AsCut(length, width))} planned."
        off = [f"{project.printed(by)} off its {side}" for side, by in larger.items()]
        fix = f"The part is not spoiled: trim it to size, {listed(off)}."
        if cut.worked:
            fix = "Trim it at a side that nothing is measured from; where that puts a joint out, say which."
        return (Finding("larger", mark, text, fix),)
    return ()


def _cut_boards(planned: PlannedJob, whole: Sequence[str], through: Sequence[str]) -> frozenset[str]:
    """The steps that are done on boards which are said to be cut: their rough lengths and strips."""
    numbers = boards_by_name(planned.board_plans)
    cut = {numbers[said.strip()] for said in whole if said.strip() in numbers}
    for said in through:
        if said.strip() in numbers:
            material, last = numbers[said.strip()]
            cut |= {(key, number) for key, number in numbers.values() if key == material and number <= last}
    rough = (OperationKind.ROUGH_CROSSCUT, OperationKind.JOINT, OperationKind.ROUGH_RIP)
    return frozenset(
        key for key, one in planned.work.by_key.items() if one.kind in rough and board_of_step(key) in cut
    )


def _cut_sheets(
    plans: Mapping[str, Plan], boards: Mapping[str, BoardPlan], told: Mishap, faults: list[Finding]
) -> set[str]:
    numbers = {(key, sheet.number): sheet for key, plan in plans.items() for sheet in plan.sheets}
    names = [f"{key} {number}" for key, number in numbers]
    of_boards = boards_by_name(boards)
    done: set[str] = set()
    for place, said, up_to in (
        *(("all-cut-of", said, False) for said in told.sheets),
        *(("cut-through", said, True) for said in told.through),
    ):
        if said.strip() in of_boards:
            continue
        material, _, number = said.strip().rpartition(" ")
        if not number.isdecimal() or (material, int(number)) not in numbers:
            faults.append(_unknown(place, said, "sheet", [*names, *of_boards]))
            continue
        for (key, one), sheet in numbers.items():
            if key == material and (one == int(number) or (up_to and one < int(number))):
                done |= {cut_key(key, one, cut.order) for cut in sheet.cuts}
    return done


def _no_part(project: Project, place: str, mark: str) -> Finding:
    return _unknown(place, mark, "part", project.parts)


def _unknown(place: str, name: str, what: str, known: Iterable[str]) -> Finding:
    text = f"there is no {what} “{name}”."
    return Finding(f"no-such-{what.split()[0]}", place, text, did_you_mean(name, known))


def _refused(code: str, place: str, text: str, fix: str) -> JobError:
    return JobError((Finding(code, place, text, fix),))


def _size(project: Project, cut: AsCut) -> str:
    mark = project.rule
    return f"{show(cut.length, mark).marked} × {show(cut.width, mark, unit=True).marked}"
