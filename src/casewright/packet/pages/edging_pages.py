"""Edging on paper: one block for each session at the bench, alike strips in one line."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import groupby

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
    listed = sorted(enumerate(steps), key=lambda one: (_first(steps, one[1].hold), one[0]))
    for words, alike in groupby((step for _, step in listed), key=lambda step: step.hold):
        here = list(alike)
        yield {
            "words": words,
            "marks": [step.piece for step in here],
            "done": all(step.key in done for step in here),
        }


def _first(steps: tuple[StepText, ...], words: str) -> int:
    return next(place for place, step in enumerate(steps) if step.hold == words)
