"""What would save a sheet, looked for while somebody waits; once for each plan, and it can be stopped."""

from __future__ import annotations

from dataclasses import dataclass

from ...findings import Finding
from ..jobs.worked_job import PlannedJob
from ..sheets.savings import Saving, look_for_savings
from .waiting import BegunOnce, Waiting


@dataclass
class SavingSearch(Waiting):
    """One search. Read it through `follow`; `savings` are there once `finished`."""

    savings: tuple[Saving, ...] = ()

    def make(self, planned: PlannedJob) -> None:
        """Look for savings; whatever goes wrong stands in `findings`."""

        def find() -> None:
            self.savings = look_for_savings(planned, self.say, self.is_stopped)

        self.carry_out(find, _no_savings)


def _no_savings(text: str, fix: str) -> Finding:
    return Finding("no-savings", "sheets", text, fix)


class SavingSearches(BegunOnce[tuple[str, str], SavingSearch]):
    """Searches by the job's text and its plan's name."""

    def __init__(self) -> None:
        super().__init__("what would save a sheet", kept=8)

    def search_for(self, planned: PlannedJob) -> SavingSearch:
        """The search for a planned job, begun now if nobody has asked before."""
        key = (planned.worked.text, planned.plan_name)
        return self.begun(key, SavingSearch, lambda search: search.make(planned))
