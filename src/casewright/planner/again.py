"""Planning again from a plan made before, so that what is on paper stays where it is.

`keep_plan` changes as little as it can: parts keep their sheets and places, new ones go where there is room.
`plan_again` searches as well, but takes what it finds only if moving parts buys something: a part placed, a
lift less, money for sheets, or as many smaller things (settings, groups kept together) as it disturbs sheets.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from .begun import NOTHING_BEGUN, NOTHING_TO_CUT, Begun, left_to_cut
from .best_plan import BestPlan, Proof, Report, pattern_for_bounds
from .engine import Count, EndsEarly, FirstOf, MaxIterations, Progress, Stop, uncounted
from .first_phase.fewest_sheets import StopEarly, fewest_sheets, first_plan, remaining_rooms
from .layout.engine_bridge import whole_sheet_rooms
from .layout.insertion import with_part
from .layout.layout_tree import Leaf, SheetLayout
from .layout.plan_layout import kept_layouts
from .layout.score import job_totals
from .parameters import DEFAULT_PARAMETERS, SearchParameters
from .plan import Piece, Plan, PlanStatus, SheetPlan, renumbered
from .problem import Goal, Problem
from .problem_faults import faults
from .second_phase.refine import refine
from .solve import solve

NEW_SHEETS = MaxIterations(600)
"""Work for the sheets that new parts need beside those kept."""


@dataclass(frozen=True)
class Moves:
    """What differs between two plans, as names of parts: on another sheet, elsewhere on the same one, new,
    no longer there. A part that still lies mostly where it lay has not moved."""

    other_sheet: tuple[str, ...] = ()
    same_sheet: tuple[str, ...] = ()
    new: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()


def moves(before: Plan, after: Plan) -> Moves:
    """What moved from one plan to the other. Copies of one item stay where any copy of it lay."""
    was, now = _by_name(before), _by_name(after)
    other: list[str] = []
    same: list[str] = []
    for name in sorted(was.keys() & now.keys()):
        lying = list(was[name])
        for number, piece in now[name]:
            stays = next((old for old in lying if old[0] == number and _mostly_there(old[1], piece)), None)
            there = next((old for old in lying if old[0] == number), None)
            if stays is None and lying:
                (other if there is None else same).append(name)
            if found := stays or there or (lying[0] if lying else None):
                lying.remove(found)
    return Moves(
        tuple(other),
        tuple(same),
        tuple(sorted(now.keys() - was.keys())),
        tuple(sorted(was.keys() - now.keys())),
    )


def _by_name(plan: Plan) -> dict[str, list[tuple[int, Piece]]]:
    found: dict[str, list[tuple[int, Piece]]] = {}
    for sheet, piece in plan.parts():
        found.setdefault(piece.item or "", []).append((sheet.number, piece))
    return found


def _mostly_there(old: Piece, new: Piece) -> bool:
    """Whether more than half of the smaller of the two lies within the other."""
    across = min(old.x + old.length, new.x + new.length) - max(old.x, new.x)
    along = min(old.y + old.width, new.y + new.width) - max(old.y, new.y)
    return across > 0 and along > 0 and 2 * across * along > min(old.area, new.area)


def keep_plan(
    problem: Problem,
    before: Plan,
    parameters: SearchParameters = DEFAULT_PARAMETERS,
    begun: Begun = NOTHING_BEGUN,
) -> Plan:
    """The plan carried over to today's problem: as few parts as can be are given a new place.

    Sheets keep their numbers; a new one gets a number that none had. Those `begun` stay as they are. What
    fits nowhere is among the plan's `unplaced`. Nothing is proved of the result.
    """
    left = left_to_cut(problem, begun)
    if left.sheets and not left.problem.items:
        return left.with_begun(NOTHING_TO_CUT, before)
    rest = left.rest_of(before) if left.sheets else before
    quiet = _carried_over(left.problem, rest, parameters).plan()
    return left.with_begun(_numbered(quiet, rest, (before.sheets, begun.sheets)), before)


def at_other_prices(problem: Problem, before: Plan) -> Plan:
    """The plan at the prices of today, where nothing else has changed: it moves nothing, and no plan uses
    fewer sheets than was proved, whatever they cost."""
    kept = keep_plan(problem, before)
    prices = sorted(
        bin_.cost for bin_ in problem.bins for _ in range(_at_most(bin_.count, before.bound_sheets))
    )
    money = sum(prices[: before.bound_sheets], Fraction(0))
    least = problem.goals[0] is Goal.SHEET_MONEY and money == kept.figures.money and not kept.unplaced
    status = PlanStatus.OPTIMAL if least else kept.status
    return replace(kept, bound=money, bound_sheets=before.bound_sheets, status=status)


def _at_most(stock: int | None, number: int) -> int:
    return number if stock is None else min(stock, number)


def plan_again(
    problem: Problem,
    before: Plan,
    stop: Stop,
    seed: int = 0,
    progress: Report | None = None,
    cores: int = 1,
    parameters: SearchParameters = DEFAULT_PARAMETERS,
    begun: Begun = NOTHING_BEGUN,
) -> Plan:
    """The plan carried over, or a better one found before `stop` if that is worth the moving.

    Never worse than the plan carried over; sheets that are `begun` stay as they are. Raises PlanError when
    the problem is malformed.
    """
    left = left_to_cut(problem, begun)
    if left.sheets and not left.problem.items:
        return left.with_begun(NOTHING_TO_CUT, before)
    rest = left.rest_of(before) if left.sheets else before
    kept = _carried_over(left.problem, rest, parameters)
    found = solve(left.problem, stop, seed, progress, cores, parameters, starts=(kept.plan(),))
    kept.prove(Proof(found.bound, found.bound_sheets))
    quiet = kept.plan()
    taken = found if _worth_moving(kept, quiet, found) else quiet
    return left.with_begun(_numbered(taken, rest, (before.sheets, begun.sheets)), before)


def cheapest_again(
    problem: Problem,
    before: Plan,
    stop: Stop,
    enough: Fraction = Fraction(0),
    seed: int = 0,
    parameters: SearchParameters = DEFAULT_PARAMETERS,
) -> Plan:
    """The plan carried over or one that spends less on sheets. The search ends as soon as nothing can be
    saved, or no more than `enough` is spent: it is for asking what a change would save, not for a plan to cut
    by."""
    kept = _carried_over(problem, before, parameters, stop.count)
    # One iteration, for the quick bounds: most changes save nothing, and most of those are known at once.
    rooms, pattern = whole_sheet_rooms(kept.grid), pattern_for_bounds(problem)
    kept.fill(kept.demand, rooms, pattern, FirstOf((stop, MaxIterations(1))), seed, proves=True)
    if _is_settled(kept, enough) or not stop.seconds_left():
        return _numbered(kept.plan(), before, (before.sheets,))
    best = BestPlan(problem, kept.found, None, parameters, stop.count)
    best.prove(kept.proof)
    first_plan(best)
    until = _UntilSettled(stop, best, enough)
    left = stop.seconds_left() or 0.0
    fewest_sheets(best, StopEarly(until, left * parameters.later_time_share), seed, 1)
    kept.prove(best.proof)
    refine(best, until, seed)
    return _numbered((best if best.merit < kept.merit else kept).plan(), before, (before.sheets,))


def _is_settled(best: BestPlan, enough: Fraction) -> bool:
    return best.settled or (best.money <= enough and not any(best.missing) and not best.over_limit)


@dataclass(frozen=True)
class _UntilSettled(EndsEarly):
    """A stop rule that also ends once the money for sheets is proved least, or little enough."""

    best: BestPlan
    enough: Fraction

    def __call__(self, progress: Progress) -> bool:
        return _is_settled(self.best, self.enough) or self.stop(progress)


def _carried_over(
    problem: Problem, before: Plan, parameters: SearchParameters, count: Count = uncounted
) -> BestPlan:
    best = BestPlan(problem, faults(problem), None, parameters, count)
    kept = kept_layouts(best.problem, best.grid, before)
    layouts, missing = list(kept.layouts), list(kept.missing)
    _insert(best, layouts, missing)
    rooms = remaining_rooms(whole_sheet_rooms(best.grid), layouts)
    if any(missing) and rooms:
        more, missing = best.fill(missing, rooms, pattern_for_bounds(problem), NEW_SHEETS, 0)
        layouts += [best.ready(layout) for layout in more]
    best.offer_ready(layouts, missing)
    return best


def _insert(best: BestPlan, layouts: list[SheetLayout], missing: list[int]) -> None:
    """Put missing parts on sheets that have room for them, the largest first, each where it is least in the
    way of the goals."""
    grid = best.grid
    wanted = [place for place, count in enumerate(missing) for _ in range(count)]
    for item in sorted(wanted, key=lambda one: -grid.items[one].length * grid.items[one].width):
        ways = (False, True) if grid.items[item].may_turn else (False,)
        tried = [
            (place, other)
            for place, layout in enumerate(layouts)
            for turned in ways
            for other in with_part(grid, layout, Leaf(item, turned))
            if best.keeps_pattern(other)
        ]
        if not tried:
            continue
        ranked = []
        for place, other in tried:
            after = [*layouts[:place], other, *layouts[place + 1 :]]
            ranked.append(job_totals(best.scorer, after).rank())
        place, other = tried[ranked.index(min(ranked))]
        layouts[place] = other
        missing[item] -= 1


def _worth_moving(best: BestPlan, quiet: Plan, found: Plan) -> bool:
    """Whether a plan that moves parts is worth it against one that moves none that can stay."""
    (now, small_now), (then, small_then) = _judged(best, quiet), _judged(best, found)
    if now != then:
        return then < now
    stayed = Counter((sheet.bin, sheet.root) for sheet in quiet.sheets)
    disturbed = (Counter((sheet.bin, sheet.root) for sheet in found.sheets) - stayed).total()
    return small_now - small_then >= max(1, disturbed)


def _judged(best: BestPlan, plan: Plan) -> tuple[tuple[Fraction | int, ...], int]:
    """What of a plan is worth moving parts for by itself, smaller is better: parts missing, pieces over the
    limits, money; and how many smaller things there are, each worth disturbing one sheet for: pieces heavier
    than need be where a helper is there anyway, cuts that no saw can make as told, groups that are split,
    fence settings."""
    kept = kept_layouts(best.problem, best.grid, plan)
    whole = job_totals(best.scorer, kept.layouts)
    firm = (sum(kept.missing), whole.over_limit, whole.money)
    return firm, whole.more_for_helper + whole.no_room + whole.split + len(whole.settings)


def _numbered(plan: Plan, before: Plan, numbered: Iterable[Sequence[SheetPlan]]) -> Plan:
    """The plan with the numbers that its sheets had: each takes after the sheet it shares most with. A new
    one has a number after those of all sheets `numbered` so far."""
    shared = sorted(
        (-_likeness(old, new), old.number, place)
        for old in before.sheets
        for place, new in enumerate(plan.sheets)
        if old.bin == new.bin and _likeness(old, new)
    )
    numbers: dict[int, int] = {}
    for _, number, place in shared:
        if place not in numbers and number not in numbers.values():
            numbers[place] = number
    unused = max((sheet.number for sheets in numbered for sheet in sheets), default=0)
    for place in range(len(plan.sheets)):
        if place not in numbers:
            unused += 1
            numbers[place] = unused
    return renumbered(plan, [numbers[place] for place in range(len(plan.sheets))])


def _likeness(old: SheetPlan, new: SheetPlan) -> int:
    """Parts on both sheets, those in the same place counted twice."""
    names = _names(old.parts) & _names(new.parts)
    places = Counter(map(_lies, old.parts)) & Counter(map(_lies, new.parts))
    return names.total() + places.total()


def _names(parts: Iterable[Piece]) -> Counter[str]:
    return Counter(piece.item or "" for piece in parts)


def _lies(piece: Piece) -> tuple[str, Fraction, Fraction]:
    return piece.item or "", piece.x, piece.y
