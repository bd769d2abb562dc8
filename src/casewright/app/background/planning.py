"""Sheet plans made while somebody waits: one at a time for each job's text, with what it has found so far."""

from __future__ import annotations

import threading
from collections import OrderedDict
from dataclasses import dataclass

from ...errors import CasewrightError
from ...findings import Finding
from ..jobs.worked_job import PlannedJob, WorkedJob
from .waiting import Waiting

KEPT = 16


@dataclass
class Planning(Waiting):
    """One plan being made. Read it through `follow`; `planned` is there once `finished`.

    `handed_out` says that it is the plan the benches work by.
    """

    planned: PlannedJob | None = None
    handed_out: bool = False

    def make(self, worked: WorkedJob, seconds: float) -> None:
        """Make the plan; whatever goes wrong stands in `findings`."""
        try:
            self.planned = worked.planned(seconds, progress=self.say)
            self.end()
        except CasewrightError as fault:
            self.end(getattr(fault, "findings", ()) or (Finding("no-plan", "sheets", str(fault)),))
        except BaseException:
            finding = Finding(
                "no-plan", "sheets", "the planner failed because of a bug in casewright.", "Try again."
            )
            self.end((finding,))
            raise


class Planner:
    """Plans by the text they are for. Asking again for one that is there costs nothing."""

    def __init__(self, seconds: float) -> None:
        self.seconds = seconds
        self._plans: OrderedDict[str, Planning] = OrderedDict()
        self._lock = threading.Lock()

    def plan_for(self, worked: WorkedJob) -> Planning:
        """The plan for a job, begun now if nobody has asked before.

        Raises JobError while the job cannot be built.
        """
        worked.needed()
        with self._lock:
            planning = self._plans.get(worked.text)
            if planning is None:
                planning = self._plans[worked.text] = Planning()
                work = threading.Thread(
                    target=planning.make, args=(worked, self.seconds), name="sheet plan", daemon=True
                )
                work.start()
            self._plans.move_to_end(worked.text)
            while len(self._plans) > KEPT:
                self._plans.popitem(last=False)
        return planning
