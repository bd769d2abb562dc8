"""At the table saw: the cuts of all sheets by setting, in the order and with the numbers of the steps.

What all settings share is said once at the head; a row says which piece, which edge, and what it becomes.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from ...casework.project import Project
from ...drawings.kit.lettering import caliper_text, dimension_text
from ...workshop.batch_wording import BatchText, StepText
from ...workshop.cut_wording import COPY, cut_in_short, far_side_as_set
from ...workshop.operations import Guide, Machine, Operation
from ...workshop.order.batches import Batch, WorkOrder
from ...workshop.safety.hazards import Hazard
from .page_picture import Json

SET_HERE = (
    "Each setting names the distance from the fence, or from the sled’s stop, to the near side of the blade; "
    "its far side is a kerf farther. Blade slightly above the stock.",
    "The edge that is named lies against the fence or the stop, the good face up.",
)


@dataclass(frozen=True)
class SawSetting:
    """A setting at the table saw with its cuts: the number of its step, and its words."""

    number: int
    batch: Batch
    text: BatchText


def saw_settings(ordered: WorkOrder, told: tuple[BatchText, ...]) -> tuple[SawSetting, ...]:
    """The settings on which sheets are cut up, in the order of the steps."""
    return tuple(
        SawSetting(number, batch, text)
        for number, (batch, text) in enumerate(zip(ordered.batches, told, strict=True), 1)
        if _cuts_sheets(batch, Machine.TABLE_SAW)
    )


def _cuts_sheets(batch: Batch, machine: Machine) -> bool:
    first = batch.operations[0]
    return first.kind.cuts_up_a_sheet and first.setting.machine is machine


def table_saw_pages(
    project: Project, ordered: WorkOrder, told: tuple[BatchText, ...], done: Collection[str] = ()
) -> dict[str, Json]:
    """The section: the blade's kerf, what holds throughout, settings, and what comes between."""
    settings = saw_settings(ordered, told)
    return {
        "kerf": caliper_text(project.job.shop.table_saw.kerf, project.job.unit),
        "always": [*SET_HERE, COPY, *_said_once(settings)],
        "rows": list(_rows(project, ordered, settings, done)) if settings else [],
    }


def _said_once(settings: Sequence[SawSetting]) -> tuple[str, ...]:
    """The cautions that are the same wherever they apply; those with a figure stand at their setting."""
    return tuple(
        dict.fromkeys(
            caution.text
            for one in settings
            for caution in one.text.cautions
            # What a piece weighs is told where it is chalked, at the trestles.
            if not caution.brief and caution.hazard is not Hazard.LIFTING
        )
    )


def _rows(
    project: Project, ordered: WorkOrder, settings: Sequence[SawSetting], done: Collection[str]
) -> Iterator[Json]:
    """The settings from the first to the last, and between them where else the work goes meanwhile."""
    told = {one.number: one for one in settings}
    span = list(enumerate(ordered.batches, 1))[: settings[-1].number]
    for where, some in groupby(span, key=lambda one: _where(one[1])):
        listed = list(some)
        if where:
            first, last = listed[0][0], listed[-1][0]
            numbers = f"{first}" if first == last else f"{first}\u2013{last}"
            yield {"number": numbers, "where": where}
            continue
        for number, _ in listed:
            yield _row(project, told[number], done)


def _where(batch: Batch) -> str:
    """Where a batch is done that is not told here; empty for one that is."""
    if _cuts_sheets(batch, Machine.TABLE_SAW):
        return ""
    if _cuts_sheets(batch, Machine.HAND_SAW):
        return "at the trestles"
    return "joints, holes and dry fits"


def _row(project: Project, one: SawSetting, done: Collection[str]) -> Json:
    setting = one.batch.operations[0].setting
    far = dimension_text(far_side_as_set(project, setting), project.rule)
    return {
        "number": str(one.number),
        "where": "",
        "title": one.text.title,
        "guide": "sled and stop" if setting.guide is Guide.STOP else f"far side {far}",
        "hints": list(one.text.hints),
        "steps": [
            _step(project, operation, step, done)
            for operation, step in zip(one.batch.operations, one.text.steps, strict=True)
        ],
        "dangers": [caution.brief for caution in one.text.cautions if caution.brief],
    }


def _step(project: Project, cut: Operation, step: StepText, done: Collection[str]) -> Json:
    short = cut_in_short(project, cut)
    size = " × ".join(dimension_text(one, project.rule) for one in cut.size[:2])
    return {
        "piece": step.piece,
        "done": step.key in done,
        "size": size,
        "edge": short.edge,
        "critical": short.critical,
        "becomes": short.becomes,
        "rest": short.rest,
        "more": short.more,
    }
