"""Features that are cut otherwise than they are drawn, said at every step that cuts them.

A chosen way to put something right may leave the drawing as it is and cut a feature to match a part that was
cut wrongly; the figures of its step are then the old ones, and the step says so first.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from .batch_wording import BatchText
from .work import Work


@dataclass(frozen=True)
class ChangedCut:
    """The feature of a part that is cut otherwise than it is drawn, and how: a sentence."""

    mark: str
    feature: str
    words: str


def told_with_changes(
    told: tuple[BatchText, ...], work: Work, changes: Sequence[ChangedCut]
) -> tuple[BatchText, ...]:
    """The instructions, with what is `changed` said at every step that cuts one of these features."""
    said = {key: words for change in changes for key, words in _steps(work, change)}
    if not said:
        return told
    return tuple(
        replace(
            batch,
            steps=tuple(replace(step, changed=said.get(step.key, step.changed)) for step in batch.steps),
        )
        for batch in told
    )


def _steps(work: Work, change: ChangedCut) -> Iterable[tuple[str, str]]:
    for step in work.by_part.get(change.mark, ()):
        if step.feature == change.feature:
            yield step.key, f"Changed: {change.words} See To put right."
