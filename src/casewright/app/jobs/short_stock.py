"""Parts that fit only sheets and offcuts of which there are too few."""

from __future__ import annotations

from collections.abc import Iterator

from ...casework.project import Project
from ...findings import Finding
from ...planner.problem import Bin, Item, Problem
from ...planner.problem_faults import usable
from ...repair.facts import Blank, Origin
from ...repair.must_buy import proves_shortage


def short_stock(project: Project, material: str, problem: Problem) -> Iterator[Finding]:
    """A finding where it is proved that the counted sheets and offcuts of a material do not hold the parts
    that fit no other. Without a proof nothing is said: a plan may still leave parts over.
    """
    counted = [bin_ for bin_ in problem.bins if bin_.count is not None]
    endless = [bin_ for bin_ in problem.bins if bin_.count is None]
    marks = [
        item.name
        for item in problem.items
        if any(_fits(item, bin_) for bin_ in counted) and not any(_fits(item, bin_) for bin_ in endless)
    ]
    parts = [project.parts[mark] for mark in marks]
    # More pieces than parts prove nothing more, and a count may run to a thousand.
    blanks = [
        Blank(bin_.name, material, bin_.length, bin_.width, Origin.SHEET, bin_.trim)
        for bin_ in counted
        for _ in range(min(bin_.count or 0, len(parts)))
    ]
    if parts and proves_shortage(project, parts, blanks):
        only = ", ".join(
            f"“{bin_.name}” ({bin_.count})"
            for bin_ in counted
            if any(_fits(item, bin_) for item in problem.items if item.name in marks)
        )
        text = f"there is not enough of {only} for {', '.join(marks)}, which fit no other sheet."
        fix = f"Make them smaller, or raise the count under materials.{material} or on the rack."
        yield Finding("too-few-sheets", f"materials.{material}", text, fix)


def _fits(item: Item, bin_: Bin) -> bool:
    x, y = usable(bin_)
    turned = item.may_turn and item.width <= x and item.length <= y
    return turned or (item.length <= x and item.width <= y)
