"""A finished sheet plan as pictures and figures for a page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache, partial

from ...casework.job import Job
from ...drawings.kit.pages import fit_set
from ...drawings.views.sheet_drawing import sheet_scene, sheet_size
from ...lengths.in_a_sentence import listed
from ...lengths.quantities import with_cents
from ...planner.plan import Plan
from ...workshop.cut_wording import from_one_piece
from ...workshop.edging_work import EdgingBought
from ...workshop.heavy_loads import heavy_lines
from ...workshop.sheets.purchases import Purchase, left_on_the_rack
from ..jobs.worked_job import PlannedJob
from ..views.page_pictures import Picture, inline_svg
from .board_buying import boards_left_to_buy
from .made_already import NOTHING_MADE, MadeAlready

SHEET = (620.0, 335.0)
"""Points for a map: on a phone it stands upright, and its height is then the width of the screen."""

BESIDE = (44.0, 58.0)
"""Points of that beside the sheet at least, for its sizes and the arrow of the grain."""


@dataclass(frozen=True)
class SheetPicture(Picture):
    """A sheet's map. `share` is its width by its height: a phone shows what is wider than high upright."""

    share: float


@dataclass(frozen=True)
class SheetsView:
    """The sheets of one material, or an edging: what to buy and what the rack gives, what is proved of the
    plan, and how many leftovers are worth keeping."""

    name: str
    buy: str
    proof: str
    kept: str
    pictures: tuple[SheetPicture, ...]


def heavy_of(planned: PlannedJob) -> tuple[str, ...]:
    """What takes two to lift, a line each, and by whose figures; nothing where nothing does."""
    return heavy_lines(planned.project, planned.made.plans, planned.work.operations)


def _buying(job: Job, purchases: Sequence[Purchase]) -> str:
    """What to buy of one material, every size of it, and what comes from the rack."""
    said = []
    for one in purchases:
        if one.sheets:
            each = f" at {job.money}{with_cents(one.price)}" if one.sheets > 1 else ""
            money = f"{each}, {job.money}{with_cents(one.money)}" if one.money else ""
            size = f" ({one.bin})" if len(purchases) > 1 else ""
            said.append(f"{one.sheets} {'sheet' if one.sheets == 1 else 'sheets'}{size}{money}")
    buy = f"Buy {' and '.join(said)}." if said else "Nothing to buy."
    if here := sum(one.here for one in purchases):
        buy = f"{buy} Already here and begun: {here}."
    rack = [f"{count} of {name}" for one in purchases for name, count in one.offcuts]
    return f"{buy} From the rack: {', '.join(rack)}." if rack else buy


def _kept(plan: Plan) -> str:
    count = sum(len(sheet.offcuts) for sheet in plan.sheets)
    return f"{count} {'leftover is' if count == 1 else 'leftovers are'} worth keeping." if count else ""


@lru_cache(maxsize=8)
def sheets_view(planned: PlannedJob, already: MadeAlready = NOTHING_MADE) -> tuple[SheetsView, ...]:
    """Every material's sheets in the order in which the job names them; those that are begun `already` are
    not to be bought."""
    job, rule, made = planned.project.job, planned.project.rule, planned.made
    purchases = planned.purchases_left(already.begun(made.plans))
    shown = []
    for key, plan in made.plans.items():
        good = job.sheets[key]
        buy = _buying(job, [one for one in purchases if one.material == key])
        if unused := left_on_the_rack(planned.project, key, plan):
            buy = f"{buy} Not used: {', '.join(unused)}."
        pictures = []
        for sheet in plan.sheets:
            marks = planned.sheet_marks[key, sheet.number]
            draw = partial(sheet_scene, sheet, rule, marks, grain=good.grain)
            placed = fit_set(draw, sheet_size(sheet), SHEET, BESIDE)
            title = placed.title if sheet.bin == good.name else f"{placed.title}, cut from {sheet.bin}"
            title = ". ".join(filter(None, (title, from_one_piece(marks.fronts))))
            pictures.append(SheetPicture(title, inline_svg(placed), placed.wide / placed.tall))
        shown.append(SheetsView(good.name, buy, plan.proof(job.money), _kept(plan), tuple(pictures)))
    shown += [_edging(job, one) for one in planned.worked.hardware.edging]
    return tuple(shown)


def total_to_buy(planned: PlannedJob, already: MadeAlready = NOTHING_MADE) -> str:
    """`Sheets and edging to buy. Total: $1,034.` as on paper; empty where nothing has a price."""
    purchases = planned.purchases_left(already.begun(planned.made.plans))
    boards, hardware = boards_left_to_buy(planned, already), planned.worked.hardware
    if not hardware.with_wood(purchases, boards):
        return ""
    total_of, total = hardware.total_words(purchases, boards, planned.project.job.money)
    what = ("sheets", "boards") if boards else ("sheets",)
    named = listed([*what, "edging"] if hardware.edging else what).capitalize()
    return f"{named} to buy. {total_of}: {total}."


def _edging(job: Job, bought: EdgingBought) -> SheetsView:
    """A kind of edging beside the sheets, which has no map."""
    each = f" at {job.money}{with_cents(bought.edging.price)}" if bought.sticks > 1 else ""
    money = f"{each}, {job.money}{with_cents(bought.money)}" if bought.money else ""
    buy = f"Buy {bought.sticks} {'length' if bought.sticks == 1 else 'lengths'}{money}."
    return SheetsView(bought.edging.name, buy, "Fewer will not do." if bought.proved else "", "", ())
