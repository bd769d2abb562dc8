"""A finished sheet plan as pictures and figures for a page."""

from __future__ import annotations

from dataclasses import dataclass

from ..drawings.pages import fitted
from ..drawings.sheet_drawing import sheet_scene
from .pictures import Picture, inline
from .plan import JobPlan

SHEET = (760.0, 420.0)


@dataclass(frozen=True)
class SheetsShown:
    """The sheets of one material. `statement` says what is proved of the plan."""

    name: str
    statement: str
    buy: str
    pictures: tuple[Picture, ...]


def sheets_shown(made: JobPlan) -> tuple[SheetsShown, ...]:
    """Every material's sheets in the order in which the job names them."""
    job = made.project.job
    by_hand = frozenset({job.shop.hand_saw.name})
    bought = {purchase.material: purchase for purchase in made.purchases}
    shown = []
    for key, plan in made.plans.items():
        good = job.sheets[key]
        scenes = [sheet_scene(sheet, job.mark, by_hand, grain=good.grain) for sheet in plan.sheets]
        purchase = bought.get(key)
        buy = ""
        if purchase:
            money = f", {job.money}{float(purchase.money):.2f}" if purchase.money else ""
            buy = f"Buy {purchase.sheets} {'sheet' if purchase.sheets == 1 else 'sheets'}{money}."
        pictures = tuple(Picture(scene.title, inline(fitted(scene, *SHEET))) for scene in scenes)
        shown.append(SheetsShown(good.name, plan.statement(), buy, pictures))
    return tuple(shown)
