"""Changes worth trying for a sheet that reach beyond the sizes of the parts: other cases in a run, what may
be carried, and pieces that are not in the shop."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from ...casework.job import CaseSpec, Run
from ...casework.parts.weights import sheet_weight
from ...casework.project import Project
from ...casework.size_names import CaseSizes
from ...lengths.length import show
from ...lengths.quantities import price_text, weighed
from ...planner.plan import Plan
from ...shop.materials import SheetGood
from ...workshop.sheets.trial_sizes import (
    heavier_carries,
    longer_carries,
    may_be_shared_by_one_less,
    nudged_widths,
    offcut_sizes,
    priced_by_area,
    yard_sizes,
)
from ...workshop.who_lifts import piece_rule
from ..editing.text_edits import AddEntry, DropEntry, Path, SetEntry
from .saving_candidates import Candidate, TrialChange, Trouble

TO_FIND = "offcut to find"
"""What the rack calls a piece that would help if there were one."""


def changes_of_runs(project: Project) -> Iterator[Candidate]:
    """One case fewer in a run, or one that takes a little more or less than its share."""
    for index, run in enumerate(project.job.runs):
        shared = [(place, case) for place, case in enumerate(run.cases) if case.width is None]
        if len(shared) < 2:
            continue
        widths = [project.sizes.of(CaseSizes(case.mark).width) for _, case in shared]
        at, last = shared[-1]
        if _alike(last, shared[-2][1]) and may_be_shared_by_one_less(widths):
            what = f"one case fewer in {run.name}: without {last.mark}, the others wider"
            change = TrialChange(what, (DropEntry(("runs", index, "cases", at)),))
            yield Candidate(f"cases of {run.name}", Trouble.REARRANGED, (change,))
        first, case = shared[0]
        for sizes in nudged_widths(widths[0], project.job.mark):
            changes = tuple(
                _nudged(project, run, ("runs", index, "cases", first), case, size) for size in sizes
            )
            yield Candidate(f"cases of {run.name}", Trouble.REARRANGED, changes)


def _alike(one: CaseSpec, other: CaseSpec) -> bool:
    """Whether two cases serve the same purpose, so that either may be left out."""
    return (one.kind, one.height, one.depth, one.bays) == (other.kind, other.height, other.depth, other.bays)


def _nudged(project: Project, run: Run, place: Path, case: CaseSpec, size: Fraction) -> TrialChange:
    text = show(size, project.job.mark).plain
    now = show(project.sizes.of(CaseSizes(case.mark).width), project.job.mark).plain
    what = f"{case.mark} {text} wide in place of {now}, the rest of {run.name} shared by the others"
    return TrialChange(what, (SetEntry((*place, "width"), text),))


def changes_of_limits(project: Project) -> Iterator[Candidate]:
    """What the carrying limits cost: both done without, then each raised alone."""
    carry, mark, unit = project.job.shop.carry, project.job.mark, project.job.unit
    alone = piece_rule(carry).limit.one
    goods = [project.job.sheets[key] for key in dict.fromkeys(part.material for part in project)]
    longest = max(max(good.sheet_length, good.sheet_width) for good in goods)
    heaviest = max(sheet_weight(good.sheet_length, good.sheet_width, good.weight) for good in goods)
    lengths = [
        TrialChange(
            f"carry length {show(one, mark).plain} in place of {show(carry.length, mark).plain}",
            (SetEntry(("shop", "carry", "length"), show(one, mark).plain),),
        )
        for one in longer_carries(carry.length, longest, unit)
    ]
    weights = [
        TrialChange(
            f"carry weight {weighed(one, unit)} in place of {weighed(alone, unit)}",
            (SetEntry(("shop", "carry", "weight"), weighed(one, unit)),),
        )
        for one in heavier_carries(alone, heaviest, unit)
    ]
    if lengths and weights:
        limit = f"{weighed(alone, unit)} and {show(carry.length, mark, unit=True).plain}"
        what = f"a helper for every lift, in place of the limits of {limit}"
        both = TrialChange(what, (*lengths[-1].edits, *weights[-1].edits))
        yield Candidate("limits", Trouble.ELSEWHERE, (both,))
    for changes in (lengths, weights):
        if changes:
            within = "limits" if lengths and weights else ""
            yield Candidate("limits", Trouble.ELSEWHERE, tuple(changes), within)


def pieces_from_elsewhere(project: Project, plans: Mapping[str, Plan]) -> Iterator[Candidate]:
    """An offcut that the maker may have lying about, then sheets of another size that a yard may have."""
    unit = project.job.unit
    for material, plan in plans.items():
        good = project.job.sheets[material]
        bought = (good.name, *(other.name for other in good.others))
        changes = tuple(_offcut(project, good, *size) for size in offcut_sizes(plan, bought, unit))
        if changes:
            yield Candidate(f"offcut {material}", Trouble.ELSEWHERE, changes)
    yield from sheets_of_a_yard(project, plans)


def sheets_of_a_yard(project: Project, plans: Mapping[str, Plan]) -> Iterator[Candidate]:
    """Sheets of another size that some yards have, of the material that most money goes into."""
    priced = [project.job.sheets[key] for key in plans if project.job.sheets[key].price]
    if priced:
        dearest = max(priced, key=lambda good: (plans[good.key].figures.money, good.key))
        for length, width in yard_sizes(project.job.unit):
            yield Candidate(
                f"yard {dearest.key}", Trouble.ELSEWHERE, (_yard(project, dearest, length, width),)
            )


def _offcut(project: Project, good: SheetGood, length: Fraction, width: Fraction) -> TrialChange:
    long, wide = show(length, project.job.mark).plain, show(width, project.job.mark).plain
    what = f"with an offcut of {good.name} at least {long} × {wide}, the {long} along the grain"
    piece = {"name": TO_FIND, "material": good.key, "length": long, "width": wide}
    return TrialChange(what, (AddEntry(("shop", "rack"), piece),), only_if="only if you have such a piece")


def _yard(project: Project, good: SheetGood, length: Fraction, width: Fraction) -> TrialChange:
    size = f"{show(length, project.job.mark).plain} × {show(width, project.job.mark).plain}"
    price = priced_by_area(good.price, (length, width), (good.sheet_length, good.sheet_width))
    each = price_text(price, project.job.money)
    what = f"ask at the yard for {good.name} in sheets of {size} (at {each} each, the same by area)"
    sides = [show(one, project.job.mark).plain for one in (length, width)]
    other = {"name": f"{good.name} {size}", "size": sides, "price": int(price)}
    edits = (AddEntry(("materials", good.key, "others"), other),)
    return TrialChange(what, edits, only_if="only if the yard has them, and at about that price")
