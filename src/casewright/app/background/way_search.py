"""Ways to put a job right, looked for while somebody waits; each state of the record only once."""

from __future__ import annotations

from dataclasses import dataclass

from ...findings import Finding
from ..repair.repair_page import FoundWays, look
from ..repair.repair_record import task_of
from ..shop.shop_floor import BenchRecord
from .waiting import BegunOnce, Waiting


@dataclass
class Searching(Waiting):
    """One search. Read it through `follow`; `found` is there once `finished`."""

    found: FoundWays | None = None

    def make(self, heard: BenchRecord) -> None:
        """Look for every way; whatever goes wrong stands in `findings`."""

        def find() -> None:
            self.found = look(task_of(heard), self.say)

        self.carry_out(find, _no_search)


def _no_search(text: str, fix: str) -> Finding:
    return Finding("no-search", "repair", text, fix)


class Searches(BegunOnce[tuple[str, int], Searching]):
    """Searches by the job and the place its record has come to."""

    def __init__(self) -> None:
        super().__init__("ways to put right", kept=16)

    def search_for(self, job: str, heard: BenchRecord) -> Searching:
        """The search for a job as its record stands, begun now if nobody has asked before."""
        return self.begun((job, heard.place), Searching, lambda search: search.make(heard))
