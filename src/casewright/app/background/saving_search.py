"""What would save a sheet, looked for while somebody waits; once for each plan, and it can be stopped."""

from __future__ import annotations

import threading
from collections import OrderedDict
from dataclasses import dataclass, field
from functools import partial

from ...errors import CasewrightError
from ...findings import Finding
from ..jobs.worked_job import PlannedJob
from ..sheets.savings import Saving, look_for_savings
from .in_turn import InTurn
from .waiting import Waiting

KEPT = 8


@dataclass
class SavingSearch(Waiting):
    """One search. Read it through `follow`; `savings` are there once `finished`."""

    savings: tuple[Saving, ...] = ()
    _stop: threading.Event = field(default_factory=threading.Event)

    def stop(self) -> None:
        """End the search with what it has found so far."""
        self._stop.set()

    def make(self, planned: PlannedJob) -> None:
        """Look for savings; whatever goes wrong stands in `findings`."""
        try:
            self.savings = look_for_savings(planned, self.say, self._stop.is_set)
            self.end()
        except CasewrightError as fault:
            self.end(getattr(fault, "findings", ()) or (Finding("no-savings", "sheets", str(fault)),))
        except BaseException:
            text = "the search failed because of a bug in casewright."
            self.end((Finding("no-savings", "sheets", text, "Try again."),))
            raise


class SavingSearches:
    """Searches by the job's text and its plan's name."""

    def __init__(self) -> None:
        self._searches: OrderedDict[tuple[str, str], SavingSearch] = OrderedDict()
        self._lock = threading.Lock()
        self._begun = InTurn()

    def search_for(self, planned: PlannedJob) -> SavingSearch:
        """The search for a planned job, begun now if nobody has asked before."""
        key = (planned.worked.text, planned.plan_name)
        with self._lock:
            search = self._searches.get(key)
            if search is None:
                search = self._searches[key] = SavingSearch()
                self._begun.begin(search, partial(search.make, planned))
            self._searches.move_to_end(key)
            while len(self._searches) > KEPT:
                self._searches.popitem(last=False)[1].stop()
        return search
