"""Undo and redo, step by step, read from the revisions themselves: no second record to disagree with."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ...store.job_rows import Revision


@dataclass(frozen=True)
class HistoryStep:
    """One step back or forward: the change in words, and the revision whose text returns."""

    change: str
    to: int


@dataclass(frozen=True)
class HistorySteps:
    """What undo and redo would do now; None where there is nothing to do."""

    undo: HistoryStep | None
    redo: HistoryStep | None


def history_steps(revisions: Iterable[Revision]) -> HistorySteps:
    """The next step either way, from consecutive revisions, the oldest first.

    A revision that brings back the text before the last step is that step undone, and one that brings back
    what was undone last is it made again, whether by a button or by hand. Any other revision is a step of
    its own, after which nothing undone can be made again.
    """
    done: list[Revision] = []
    undone: list[Revision] = []
    for revision in revisions:
        if len(done) > 1 and revision.text == done[-2].text:
            undone.append(done.pop())
        elif undone and revision.text == undone[-1].text:
            done.append(undone.pop())
        else:
            done.append(revision)
            undone.clear()
    undo = HistoryStep(done[-1].note, done[-2].number) if len(done) > 1 else None
    redo = HistoryStep(undone[-1].note, undone[-1].number) if undone else None
    return HistorySteps(undo, redo)
