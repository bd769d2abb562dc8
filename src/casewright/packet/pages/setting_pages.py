"""Machine settings for joints, notches and holes in the order of the work, with the parts cut on each."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from fractions import Fraction

from ...casework.parts.features.frame_joints import Tenon
from ...casework.project import Project
from ...drawings.kit.lettering import THIN_SPACE, dimension_text
from ...drawings.views.joint_drawing import JointSection, Section, joint_sections, section_of
from ...findings import Weight
from ...lengths.in_a_sentence import with_capital
from ...lengths.quantities import exact_figure
from ...workshop.batch_wording import BatchText, StepText
from ...workshop.operations import Guide, Machine, Operation, OperationKind, Setting
from ...workshop.order.batches import WorkOrder
from ...workshop.safety.hazards import Hazard
from ...workshop.work import Work
from .page_picture import Json

_FROM = {
    Guide.FENCE: "fence to cutter",
    Guide.STOP: "stop to cutter",
    Guide.SACRIFICIAL_FENCE: "buried in the fence",
    Guide.PIN_JIG: "edge to holes",
    Guide.STORY_STICK: "edge to holes",
    Guide.LINE: "end to holes",
    Guide.FRONT_FACE: "front face to cutter",
}


TOLD_AGAIN = 60
"""Letters of what is short enough to be told at every setting, such as which end a stick is laid to."""


def setting_pages(
    project: Project,
    all_work: Work,
    ordered: WorkOrder,
    told: tuple[BatchText, ...],
    done: Collection[str] = (),
) -> dict[str, Json]:
    """The batches of `ordered` that machine parts, grouped by cutter and numbered as in the whole job.

    With them the cautions that are the same at every batch, what is proved about that order, and notes where
    no cutter has the exact width.
    """
    groups: list[dict[str, Json]] = []
    dangers: dict[str, None] = {}
    told_at: dict[str, int] = {}
    known = joint_sections(project)
    for number, (batch, text) in enumerate(zip(ordered.batches, told, strict=True), 1):
        worked = tuple(operation for operation in batch.operations if _works_a_part(operation))
        if not worked:
            continue
        # Which edge of a mirrored part leads stands with the part; what it weighs, on the leaf of its case.
        told_here = [one for one in text.cautions if one.hazard not in (Hazard.MIRROR, Hazard.LIFTING)]
        dangers |= dict.fromkeys(one.text for one in told_here if not one.brief)
        machine, cutter = _machine(worked[0].setting)
        if not groups or (groups[-1]["machine"], groups[-1]["cutter"]) != (machine, cutter):
            groups.append({"machine": machine, "cutter": cutter, "rows": []})
        rows = groups[-1]["rows"]
        assert isinstance(rows, list)
        rows.append(
            {
                **_row(project, worked, number, _hints(worked[0].setting, text, number, told_at)),
                "sections": list(_sections(project, worked, known)),
                "holds": _holds(worked, {step.key: step for step in text.steps}, number, told_at, done),
                "dangers": [one.brief for one in told_here if one.brief],
            }
        )
    notes: list[Json] = [
        {"place": note.place, "text": note.text, "fix": note.fix}
        for note in all_work.findings
        if note.weight is Weight.NOTE
    ]
    return {
        "groups": list(groups),
        "dangers": list(dangers),
        "proof": ordered.statement() if groups else "",
        "notes": notes,
    }


def _works_a_part(operation: Operation) -> bool:
    """Whether a machine is set for it, or dovetails are cut. Cuts of sheets are listed with their sheets
    instead, what is glued up with its case."""
    if operation.setting.machine is Machine.BENCH:
        return operation.kind is OperationKind.DOVETAILS
    return not operation.kind.cuts_up_a_sheet


def _machine(setting: Setting) -> tuple[str, str]:
    """The machine, and the blade, cutter or bit in it."""
    name = setting.machine.value
    return with_capital(name), setting.cutter.name.replace(" x ", " × ").replace(" + ", ", ")


def _hints(setting: Setting, text: BatchText, number: int, told_at: dict[str, int]) -> Iterator[str]:
    """What a setting is made by. At the bench nothing is set: how the work is done is told instead, once."""
    if setting.machine is not Machine.BENCH:
        yield from text.hints
        return
    before = {told_at[line] for line in text.setting if told_at.setdefault(line, number) != number}
    yield from (line for line in text.setting if told_at[line] == number)
    yield from (f"The rest as at {one}." for one in sorted(before))


def _row(
    project: Project, operations: tuple[Operation, ...], number: int, hints: Iterable[str]
) -> dict[str, Json]:
    setting = operations[0].setting
    return {
        "number": number,
        "distances": _distances(project, operations[0]) if setting.machine.has_settings else [],
        "hints": list(hints),
        "count": len(operations),
    }


def _sections(
    project: Project, operations: tuple[Operation, ...], known: Mapping[Section, JointSection]
) -> Iterator[str]:
    """The letters of the joints that are cut, in the order of first use."""
    found: dict[str, None] = {}
    for operation in operations:
        part = project.parts.get(operation.piece)
        for channel in part.channels if part else ():
            cut = part and channel.name == operation.feature
            if part and cut and (section := known.get(section_of(project, part, channel))):
                found[section.tag] = None
    yield from found


def _distances(project: Project, operation: Operation) -> list[Json]:
    """What is set with a rule: the distance from the guide, and the cutter's height or bit's depth."""
    setting = operation.setting
    words, distance = _FROM.get(setting.guide, setting.guide.value), setting.distance
    if setting.guide is Guide.SACRIFICIAL_FENCE:
        distance = setting.buried
    elif setting.guide is Guide.STOP and not distance:  # no rule shows nothing; the far side can be measured
        words, distance = "stop to the cutter's far side", _shoulder(project, operation)
    distances = [_distance(project, words, distance)]
    if setting.height is not None:
        words = "deep" if setting.machine is Machine.DRILL else "high"
        distances.append(_distance(project, words, setting.height))
    return distances


def _shoulder(project: Project, operation: Operation) -> Fraction:
    """How far in from the end at the stop the shoulder is: a tenon longer than the stack is wide takes more
    than one pass."""
    feature = project.parts[operation.piece].feature(operation.feature)
    return project.sizes.of(feature.long) if isinstance(feature, Tenon) else operation.setting.far_side


def _distance(project: Project, words: str, length: Fraction) -> Json:
    finest = project.rule
    exact = exact_figure(length, finest, gap=THIN_SPACE)
    return {"words": words, "value": dimension_text(length, finest), "exact": exact}


def _holds(
    operations: tuple[Operation, ...],
    told: Mapping[str, StepText],
    number: int,
    told_at: dict[str, int],
    done: Collection[str],
) -> list[Json]:
    """Parts grouped by what is done to them, and within that by how they lie (on a mirrored part the opposite
    edge leads) and which row of holes they get. What an earlier setting, by `told_at`, told in full and alone
    is not told again; what is `done` already says so."""
    found: dict[tuple[str, str, str], dict[str, dict[str, list[str]]]] = {}
    for operation in operations:
        step = told[operation.key]
        row = step.row
        ways = found.setdefault((step.kind, row.how if row else step.then, step.changed), {})
        lies = f"{step.lies}; {row.along}" if row and row.along else step.lies
        mark = f"{operation.piece} done" if operation.key in done else operation.piece
        ways.setdefault(lies, {}).setdefault(row.figures if row else "", []).append(mark)
    holds: list[Json] = []
    for (kind, then, changed), ways in found.items():
        first = told_at.get(then, number)
        if len(found) == 1 and len(then) > TOLD_AGAIN:
            told_at.setdefault(then, number)
        holds.append(
            {
                "what": kind,
                "changed": changed,
                "then": f"As at {first}." if then and first != number else then,
                "ways": [
                    {"lies": lies, "row": row, "marks": list(dict.fromkeys(marks))}
                    for lies, rows in zip(_differences(list(ways)), ways.values(), strict=True)
                    for row, marks in rows.items()
                ],
            }
        )
    return holds


def _differences(ways: Sequence[str]) -> Iterator[str]:
    """How each of these pieces lies, without what is as with the one before: `rear edge first`."""
    before: list[str] = []
    for way in ways:
        clauses = way.split(", ")
        same = next(
            (n for n, (one, other) in enumerate(zip(before, clauses, strict=False)) if one != other), 0
        )
        yield ", ".join(clauses[same:])
        before = clauses
