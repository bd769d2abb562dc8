"""The plans of the examples as a maker judges them: sheets to buy, yield, cuts by hand, settings, lifts."""

from __future__ import annotations

import time
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.planner.plan import Purpose
from casewright.workshop.operations import Machine, OperationKind
from casewright.workshop.sheets.lifts import lifts
from casewright.workshop.sheets.purchases import bought_in_all
from casewright.workshop.who_lifts import piece_rule

TITLE = "Plans of the examples"
SECONDS = 2.0
EXAMPLES = Path(__file__).parents[1] / "examples"

HEADS = (
    "job",
    "sheets bought",
    "money",
    "yield",
    "carrying cuts",
    "other cuts by hand",
    "cuts",
    "settings",
    "too heavy for one",
    "fence beyond its rail",
    "CPU s",
)

BEFORE = """\
| ferry-canteen | 11 | 736 | 74.1 % | 17 | 23 | 286 | 69 | 3 | 7 | 2.1 |
| pottery-studio | 18 | 1332 | 62.9 % | 34 | 30 | 328 | 68 | 1 | 8 | 2.0 |
| school-workshop | 103 | 6056 | 72.0 % | 139 | 183 | 2071 | 181 | 5 | 89 | 2.0 |"""
"""Measured by the same rules on 29 November 2026, one run, before limits, fence and hand cuts were judged."""


@dataclass(frozen=True)
class Judged:
    """One job's plan in figures; `share` is the parts' share of the sheets."""

    name: str
    planned: PlannedJob
    seconds: float

    def row(self) -> str:
        job, plans = self.planned.project.job, self.planned.plans.values()
        sheets = [sheet for plan in plans for sheet in plan.sheets]
        area = sum((sheet.root.area for sheet in sheets), Fraction(0))
        used = sum((part.area for sheet in sheets for part in sheet.parts), Fraction(0))
        by_hand = [
            step
            for step in self.planned.work.operations
            if step.setting.machine is Machine.HAND_SAW and step.kind.cuts_up_a_sheet
        ]
        carrying = sum(step.kind is OperationKind.CARRY for step in by_hand)
        saw = job.shop.table_saw
        beyond = sum(
            cut.purpose is Purpose.SIZE and cut.tool == saw.name and cut.setting > saw.rip_capacity
            for sheet in sheets
            for cut in sheet.cuts
        )
        heavy = sum(
            lift.pounds is not None and lift.pounds > piece_rule(job.shop.carry).limit.one
            for material in self.planned.plans
            for lift in lifts(self.planned.project, material, self.planned.work.operations)
        )
        bought = bought_in_all(self.planned.purchases)
        figures = (
            self.name,
            bought.sheets,
            f"{float(bought.money):.0f}",
            f"{float(used / area):.1%}".replace("%", " %"),
            carrying,
            len(by_hand) - carrying,
            sum(plan.figures.cuts for plan in plans),
            sum(plan.figures.settings for plan in plans),
            heavy,
            beyond,
            f"{self.seconds:.1f}",
        )
        return f"| {' | '.join(map(str, figures))} |"


def run(quick: bool = False) -> str:
    """Today's plans beside those of before."""
    rows = [_judge(path).row() for path in sorted(EXAMPLES.glob("*.toml"))[: 2 if quick else None]]
    head = [f"| {' | '.join(HEADS)} |", "|---" * len(HEADS) + "|"]
    return "\n".join([*head, *rows, "", "Before:", "", *head, BEFORE])


def _judge(path: Path) -> Judged:
    worked = open_job(path.read_text(encoding="utf-8"))
    begun = time.process_time()
    planned = worked.planned(SECONDS)
    return Judged(path.stem, planned, time.process_time() - begun)
