"""At the table saw: the cuts of all sheets by setting, in the order, numbers and words of the steps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from ...casework.project import Project
from ...drawings.kit.lettering import caliper_text
from ...workshop.batch_wording import BatchText
from ...workshop.cut_wording import COPY
from ...workshop.operations import Guide, Machine
from ...workshop.order.batches import Batch, WorkOrder
from ...workshop.safety.hazards import Hazard
from .page_picture import Json


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


def table_saw_pages(project: Project, ordered: WorkOrder, told: tuple[BatchText, ...]) -> dict[str, Json]:
    """The section: the blade's kerf, cautions that hold throughout, settings, and what comes between."""
    settings = saw_settings(ordered, told)
    always = _cautions_of_all(settings)
    return {
        "kerf": caliper_text(project.job.shop.table_saw.kerf, project.job.unit),
        "always": [COPY, *always],
        "rows": list(_rows(ordered, told, always)) if settings else [],
    }


def _cautions_of_all(settings: tuple[SawSetting, ...]) -> tuple[str, ...]:
    """What every setting has to say, or every setting of the fence; it is said once."""
    said = dict.fromkeys(caution.text for one in settings for caution in one.text.cautions)
    fences = [one for one in settings if one.batch.operations[0].setting.guide is not Guide.STOP]
    return tuple(text for text in said if _all_say(text, settings) or _all_say(text, fences))


def _all_say(text: str, settings: Sequence[SawSetting]) -> bool:
    return bool(settings) and all(text in {one.text for one in each.text.cautions} for each in settings)


def _rows(ordered: WorkOrder, told: tuple[BatchText, ...], always: tuple[str, ...]) -> Iterator[Json]:
    """The settings from the first to the last, and between them where else the work goes meanwhile."""
    numbered = list(enumerate(zip(ordered.batches, told, strict=True), 1))
    cutting = [number for number, (batch, _) in numbered if _cuts_sheets(batch, Machine.TABLE_SAW)]
    span = [one for one in numbered if one[0] <= cutting[-1]]
    for where, some in groupby(span, key=lambda one: _where(one[1][0])):
        listed = list(some)
        if where:
            first, last = listed[0][0], listed[-1][0]
            numbers = f"{first}" if first == last else f"{first}\u2013{last}"
            yield {"number": numbers, "where": where}
            continue
        for number, (_, text) in listed:
            yield _row(number, text, always)


def _where(batch: Batch) -> str:
    """Where a batch is done that is not told here; empty for one that is."""
    if _cuts_sheets(batch, Machine.TABLE_SAW):
        return ""
    if _cuts_sheets(batch, Machine.HAND_SAW):
        return "at the trestles"
    return "joints, holes and dry fits"


def _row(number: int, text: BatchText, always: tuple[str, ...]) -> Json:
    return {
        "number": str(number),
        "where": "",
        "title": text.title,
        "setting": list(text.setting),
        "steps": [{"piece": step.piece, "size": step.size, "hold": step.hold} for step in text.steps],
        # What a piece weighs is told where it is chalked, at the trestles.
        "cautions": [
            one.text for one in text.cautions if one.text not in always and one.hazard is not Hazard.LIFTING
        ],
    }
