"""Undo and redo against a plain stack of texts."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from casewright.app.history.undo_steps import history_steps
from casewright.store.job_rows import Revision


@given(st.lists(st.sampled_from(["change", "undo", "redo"]), max_size=30))
def test_steps_follow_a_stack(presses: list[str]) -> None:
    history = [Revision("j", 1, None, "text 0", "new", "")]
    done, undone = ["text 0"], list[str]()
    for fresh, press in enumerate(presses, 1):
        steps = history_steps(history)
        if press == "change":
            text = f"text {fresh}"
            done.append(text)
            undone.clear()
        else:
            step = steps.undo if press == "undo" else steps.redo
            if step is None:
                continue
            text = history[step.to - 1].text
            undone.append(done.pop()) if press == "undo" else done.append(undone.pop())
        history.append(Revision("j", len(history) + 1, len(history), text, f"note {text}", ""))
        assert history[-1].text == done[-1]
    steps = history_steps(history)
    assert (steps.undo is not None, steps.redo is not None) == (len(done) > 1, bool(undone))
    if steps.undo:
        assert steps.undo.change.endswith(done[-1]) and history[steps.undo.to - 1].text == done[-2]
    if steps.redo:
        assert history[steps.redo.to - 1].text == undone[-1]
