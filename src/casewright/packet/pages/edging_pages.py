"""Edging on paper: one block for each session at the bench, alike strips in one line."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from ...workshop.batch_wording import BatchText, StepText
from ...workshop.operations import OperationKind
from ...workshop.order.batches import WorkOrder
from .page_picture import Json


def edging_pages(ordered: WorkOrder, told: tuple[BatchText, ...], done: Collection[str] = ()) -> list[Json]:
    """The sessions in which parts get their edging, numbered as in the whole job: how, what may hurt, and the
    strips with the parts they go on. Those over the front of a case are steps of its leaf."""
    return [
        {
            "number": number,
            "how": list(text.setting),
            "dangers": [caution.text for caution in text.cautions],
            "rows": list(_rows(text.steps, done)),
        }
        for number, (batch, text) in enumerate(zip(ordered.batches, told, strict=True), 1)
        if batch.operations[0].kind is OperationKind.EDGE
    ]


def _rows(steps: tuple[StepText, ...], done: Collection[str]) -> Iterator[Json]:
    """The parts that get the same strip on the same edge, in the order of the work."""
    alike: dict[str, list[StepText]] = {}
    for step in steps:
        alike.setdefault(step.hold, []).append(step)
    for words, here in alike.items():
        yield {
            "words": words,
            "marks": [step.piece for step in here],
            "done": all(step.key in done for step in here),
        }
