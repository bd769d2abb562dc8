"""What a tablet counts by: the steps, parts and batches of the work handed out, in one order."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256

from ..jobs.worked_job import PlannedJob


@dataclass(frozen=True)
class TabletOrder:
    """The keys of all steps and batches in the order of the batches, and the marks of all parts.

    `digest` is the same for the same order only: a tablet that keeps work in another order, as an older
    casewright told it, must not count by this one.
    """

    steps: tuple[str, ...] = ()
    batches: tuple[str, ...] = ()
    marks: tuple[str, ...] = ()

    @property
    def digest(self) -> str:
        """Twelve hexadecimal digits."""
        names = ("\n".join(named) for named in (self.steps, self.batches, self.marks))
        return sha256("\n\n".join(names).encode("utf-8", "surrogatepass")).hexdigest()[:12]

    def name(self, issue: str) -> str:
        """The name under which a tablet keeps the work that the entry `issue` handed out; "" for none."""
        return f"{issue} {self.digest}" if issue else ""


@lru_cache(maxsize=8)
def tablet_order(floor: PlannedJob) -> TabletOrder:
    """The order of the work handed out."""
    return TabletOrder(
        tuple(step.key for batch in floor.told for step in batch.steps),
        tuple(batch.key for batch in floor.told),
        tuple(floor.project.parts),
    )
