"""What a job costs: start at `job_costs`. Each line says what it follows from; nothing is free in silence."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from ...casework.project import Project
from ...lengths.length import show
from ...lengths.quantities import large_area, price_text, running_length, tenth, with_cents
from ...planner.plan import Plan
from ...shop.prices import FinishPrice, Sharpening
from ..assembly.joining import Joinings
from ..assembly.screws import screw_words
from ..boards.board_purchases import BoardPurchase
from ..hardware import PINS_TO_A_SHELF, Hardware
from ..order.batches import WorkOrder
from ..order.step_times import Pace
from ..sheets.purchases import Purchase
from .bench_hours import bench_hours, tenths
from .cost_lines import CostKind, CostLine, JobCosts, cents
from .cut_lengths import cut_lengths
from .finish_area import finish_area
from .material_lines import material_lines

OWN_HOURS = "you say so"


def job_costs(
    project: Project,
    plans: Mapping[str, Plan],
    purchases: Sequence[Purchase],
    boards: Sequence[BoardPurchase],
    hardware: Hardware,
    joinings: Joinings,
    ordered: WorkOrder,
    pace: Pace,
) -> JobCosts:
    """The costs of a planned job: `plans` by material key, `purchases` all that is bought for them, `pace`
    how fast the shop works."""
    job = project.job
    edging = hardware.edging
    lines = (
        *material_lines(project, plans, purchases, boards, edging),
        *_hardware(project, hardware),
        *_supplies(project, hardware),
        *_blades(project, ordered),
        *_hours(project, ordered, joinings, pace),
    )
    return JobCosts(lines, job.shop.hourly, job.prices.markup)


def _hardware(project: Project, bought: Hardware) -> Iterator[CostLine]:
    """Each piece of hardware by the piece; no spare ones."""
    prices, rule = project.job.prices, project.rule
    if bought.shelf_pins:
        why = f"{PINS_TO_A_SHELF} for each adjustable shelf"
        yield _by_the_piece(project, "shelf pins", bought.shelf_pins, prices.pin, why, "pin in [costs]")
    for screw, count in bought.screws:
        what = f"{screw.sold_as} {screw_words(screw.size, screw.length, rule)}"
        yield _by_the_piece(project, what, count, prices.screw, "those of the glue-ups", "screw in [costs]")
    for dowel in bought.dowels:
        what = " × ".join(show(size, rule).marked for size in (dowel.across, dowel.length))
        entry = "dowel in [costs]"
        yield _by_the_piece(
            project, f"dowels {what}", dowel.number, prices.dowel, "face frames' joints", entry
        )
    for hinge, count in bought.hinges:
        entry = "price in your [hinges] table"
        yield _by_the_piece(project, hinge.name, count, hinge.price, "by the doors' weight and size", entry)
    for pair, count in bought.slides:
        what = f"{pair.sold_as}, {show(pair.length, rule).marked} long"
        entry = "price in your [slides] table"
        yield _by_the_piece(project, what, count, pair.slide.price, "one for each drawer", entry)


def _by_the_piece(
    project: Project, what: str, count: int, price: Fraction | None, follows: str, enter: str
) -> CostLine:
    amount = f"{count}" if price is None else f"{count} at {project.job.money}{with_cents(price)}"
    money = None if price is None else cents(price * count)
    return CostLine(CostKind.HARDWARE, what, amount, money, follows, enter)


def _supplies(project: Project, bought: Hardware) -> Iterator[CostLine]:
    """Glue and finish; nothing where the job has none."""
    for kind, one, table in (
        (CostKind.GLUE, bought.glue, "costs.glue"),
        (CostKind.FINISH, bought.finish, "costs.finish"),
    ):
        if one is not None:
            enter = f"price and covers in [{table}]"
            yield CostLine(kind, one.name, one.amount(project), one.money, one.follows, enter)


def _blades(project: Project, ordered: WorkOrder) -> Iterator[CostLine]:
    """What the cuts take off the edges of blades and cutters."""
    prices, lengths = project.job.prices, cut_lengths(project.job.shop, ordered.operations)
    yield from _sharpening(project, "saw blades", lengths.blades, prices.blade, "blade")
    yield from _sharpening(project, "dado stack", lengths.dado_stack, prices.dado_stack, "dado_stack")


def _sharpening(project: Project, what: str, cut: Fraction, told: Sharpening, key: str) -> Iterator[CostLine]:
    if not cut:
        return
    amount, money, follows = running_length(cut, project.job.unit), None, "length of cut, every pass"
    if told.price == 0:
        money = Fraction(0)
    elif told.price is not None and told.lasts:
        price, lasts = price_text(told.price, project.job.money), running_length(told.lasts, project.job.unit)
        money, follows = cents(cut / told.lasts * told.price), f"sharpened every {lasts} for {price}"
    yield CostLine(
        CostKind.BLADES, f"sharpening: {what}", amount, money, follows, f"price and lasts in [costs.{key}]"
    )


def _hours(project: Project, ordered: WorkOrder, joinings: Joinings, pace: Pace) -> Iterator[CostLine]:
    """The hours of every session at the bench, of finishing, and those that the maker adds."""
    for one in bench_hours(ordered.batches, joinings, pace):
        steps = f"{one.steps} {'step' if one.steps == 1 else 'steps'} of the plan"
        yield _time(project, one.session.value, one.hours, steps)
    prices = project.job.prices
    if prices.finish is not None:
        yield _finishing(project, prices.finish)
    if prices.other_hours:
        yield _time(project, "other hours", prices.other_hours, OWN_HOURS)


def _finishing(project: Project, finish: FinishPrice) -> CostLine:
    area, unit = finish_area(project, finish) * finish.coats, project.job.unit
    what, coated = f"putting on {finish.name}", large_area(area, unit)
    if finish.per_hour is None:
        return CostLine(CostKind.HOURS, what, coated, None, "all coats", "per_hour in [costs.finish]")
    hours = tenths(area / finish.per_hour * 60)
    return _time(
        project, what, hours, f"{coated} with all coats, {large_area(finish.per_hour, unit)} an hour"
    )


def _time(project: Project, what: str, hours: Fraction, follows: str) -> CostLine:
    money = cents(hours * project.job.shop.hourly)
    return CostLine(CostKind.HOURS, what, f"{tenth(hours)} h", money, follows, hours=hours)
