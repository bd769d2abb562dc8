"""Which parts could be cut again from the plan's own leftovers, and which would cost a sheet."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...casework.project import Project
from ...planner.engine import MaxIterations
from ...planner.plan import Plan
from ...planner.solve import solve
from ...planner.verify.verify import verify
from ...workshop.sheets.cut_problems import cut_problems


@dataclass(frozen=True)
class Cover:
    """For each part, the leftover it could be cut from again, or None where it would cost a sheet."""

    sources: Mapping[str, str | None]

    @property
    def share(self) -> Fraction:
        """The share of the parts that a leftover covers."""
        if not self.sources:
            return Fraction(1)
        covered = sum(1 for source in self.sources.values() if source)
        return Fraction(covered, len(self.sources))


def cover(project: Project, plans: Mapping[str, Plan]) -> Cover:
    """For each part, the smallest planned leftover it could be cut from again.

    Each part is taken alone, as if nothing else went wrong.
    """
    sources: dict[str, str | None] = {}
    for plan in plans.values():
        left = sorted(
            (piece.area, f"{sheet.bin} sheet {sheet.number}", piece.length, piece.width)
            for sheet in plan.sheets
            for piece in sheet.offcuts
        )
        for _, piece in plan.parts():
            if piece.item:
                part = project.parts[piece.item]
                length, width, _ = project.dimensions(part)
                turns = project.may_turn(part)
                sources[piece.item] = next(
                    (name for _, name, long, wide in left if _fits(length, width, long, wide, turns)), None
                )
    return Cover(sources)


def _fits(length: Fraction, width: Fraction, long: Fraction, wide: Fraction, turns: bool) -> bool:
    straight = length <= long and width <= wide
    return straight or (turns and width <= long and length <= wide)


@dataclass(frozen=True)
class InsuredPlans:
    """Plans that cost no more than the given ones, with leftovers that cover the most parts found."""

    plans: Mapping[str, Plan]
    before: Cover
    after: Cover


def insure(project: Project, plans: Mapping[str, Plan], seeds: Iterable[int], work: int) -> InsuredPlans:
    """Try one other plan for each seed, and keep those that cost no more and cover more parts.

    `work` is the planner's iterations for each seed; the same arguments give the same answer.
    """
    problems = cut_problems(project)
    before = cover(project, plans)
    best = dict(plans)
    for seed in seeds:
        for material, problem in problems.items():
            other = solve(problem, MaxIterations(work), seed)
            if other.unplaced or other.figures.money > best[material].figures.money:
                continue
            tried = {**best, material: other}
            if cover(project, tried).share > cover(project, best).share and not verify(problem, other):
                best = tried
    return InsuredPlans(best, before, cover(project, best))
