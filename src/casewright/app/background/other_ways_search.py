"""Other ways to build a job, planned while somebody waits; once for each plan, and it can be stopped."""

from __future__ import annotations

from dataclasses import dataclass

from ...findings import Finding
from ..jobs.worked_job import PlannedJob
from ..money.other_ways import WayBeside, beside
from .waiting import BegunOnce, Waiting


@dataclass
class WayComparison(Waiting):
    """One comparison. Read it through `follow`; `ways` are there once `finished`."""

    ways: tuple[WayBeside, ...] = ()

    def make(self, planned: PlannedJob) -> None:
        """Plan the other ways; whatever goes wrong stands in `findings`."""

        def find() -> None:
            self.ways = beside(planned, self.say, self.is_stopped)

        self.carry_out(find, _not_compared)


def _not_compared(text: str, fix: str) -> Finding:
    return Finding("not-compared", "costs", text, fix)


class WayComparisons(BegunOnce[tuple[str, str], WayComparison]):
    """Comparisons by the job's text and its plan's name."""

    def __init__(self) -> None:
        super().__init__("other ways to build it", kept=8)

    def comparison_for(self, planned: PlannedJob) -> WayComparison:
        """The comparison for a planned job, begun now if nobody has asked before."""
        key = (planned.worked.text, planned.plan_name)
        return self.begun(key, WayComparison, lambda one: one.make(planned))
