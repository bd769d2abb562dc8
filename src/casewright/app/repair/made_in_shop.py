"""What the shop's record says is cut already, for the papers and pages of a job's plan."""

from __future__ import annotations

from ...workshop.operations import sheet_of_cut
from ..jobs.worked_job import PlannedJob
from ..sheets.begun_work import begun_work
from ..sheets.made_already import NOTHING_MADE, MadeAlready
from ..shop.shop_floor import BenchRecord
from .shop_repair import ways_chosen


def made_in_shop(planned: PlannedJob, heard: BenchRecord) -> MadeAlready:
    """The sheets of this plan that are begun, the steps ticked off, and what the ways chosen ask for.

    A sheet counts where the plan cuts it as it was handed out.
    """
    if heard.state is None:
        return NOTHING_MADE
    sheets = {
        (material, sheet.number): sheet
        for material, begun in begun_work(heard).sheets.items()
        for sheet in begun
    }
    same = {
        (material, sheet.number)
        for material, plan in planned.plans.items()
        for sheet in plan.sheets
        if sheets.get((material, sheet.number)) == sheet
    }
    steps = frozenset(key for key in heard.state.done if (cut := sheet_of_cut(key)) is None or cut in same)
    begun = tuple(f"{key} {number}" for key, number in sorted(same))
    return MadeAlready(begun, steps, ways_chosen(heard), heard.changes)
