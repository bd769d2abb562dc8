"""At the yard: what is proved is said of every material, once."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from typing import Any

from casewright.packet.pages.buying_page import buying_page
from casewright.planner.plan import PlanStatus
from casewright.workshop.hardware import hardware
from casewright.workshop.sheets.purchases import buying_list
from drawings.shown_jobs import plans, project

NAMES = {key: project().job.sheets[key].name for key in plans()}


def proofs(open_still: Collection[str]) -> Any:
    """What the page says where no plan can do with fewer sheets, but for those that are `open_still`."""
    judged = {
        key: replace(plan, status=PlanStatus.OPTIMAL, bound_sheets=plan.figures.sheets)
        if key not in open_still
        else replace(plan, status=PlanStatus.OPEN, bound_sheets=0)
        for key, plan in plans().items()
    }
    return buying_page(project(), judged, buying_list(project(), judged), hardware(project(), ()))["proofs"]


def test_one_sentence_for_all_sheets_of_which_no_fewer_will_do() -> None:
    (said,) = proofs(())
    assert len(NAMES) > 1 and said["text"].startswith("no plan of this kind uses fewer than ")
    assert all(f"{plans()[key].figures.sheets} of {name}" in said["text"] for key, name in NAMES.items())


def test_a_material_by_itself_keeps_its_own_sentence() -> None:
    first = next(iter(NAMES))
    said = {one["name"]: one["text"] for one in proofs([first])}
    assert list(said) == list(NAMES.values())
    assert [name for name, text in said.items() if "not proved yet" in text] == [NAMES[first]]
