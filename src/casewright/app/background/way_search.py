"""Ways to put a job right, looked for while somebody waits; each state of the record only once."""

from __future__ import annotations

import threading
from collections import OrderedDict
from dataclasses import dataclass
from functools import partial

from ...errors import CasewrightError
from ...findings import Finding
from ..repair.repair_page import FoundWays, look
from ..repair.shop_repair import task_of
from ..shop.shop_floor import BenchRecord
from .in_turn import InTurn
from .waiting import Waiting

KEPT = 16


@dataclass
class Searching(Waiting):
    """One search. Read it through `follow`; `found` is there once `finished`."""

    found: FoundWays | None = None

    def make(self, heard: BenchRecord) -> None:
        """Look for every way; whatever goes wrong stands in `findings`."""
        try:
            self.found = look(task_of(heard), self.say)
            self.end()
        except CasewrightError as fault:
            self.end(getattr(fault, "findings", ()) or (Finding("no-search", "repair", str(fault)),))
        except BaseException:
            finding = Finding(
                "no-search", "repair", "the search failed because of a bug in casewright.", "Try again."
            )
            self.end((finding,))
            raise


class Searches:
    """Searches by the job and the place its record has come to."""

    def __init__(self) -> None:
        self._searches: OrderedDict[tuple[str, int], Searching] = OrderedDict()
        self._lock = threading.Lock()
        self._begun = InTurn()

    def search_for(self, job: str, heard: BenchRecord) -> Searching:
        """The search for a job as its record stands, begun now if nobody has asked before."""
        key = (job, heard.place)
        with self._lock:
            searching = self._searches.get(key)
            if searching is None:
                searching = self._searches[key] = Searching()
                self._begun.begin(searching, partial(searching.make, heard))
            self._searches.move_to_end(key)
            while len(self._searches) > KEPT:
                self._searches.popitem(last=False)
        return searching
