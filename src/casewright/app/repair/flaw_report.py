"""A fault is found in a sheet: written down, with the parts that were cut where it lies; and taken back."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import count

from ...casework.project import Project
from ...errors import JobError
from ...findings import Finding
from ...record.events import Flawed, Happening, Spoiled, Undo
from ...record.shop_state import State, Status
from ...repair.recorded_facts import features_cut, recorded_harm
from ...repair.sheets_begun import facts_after
from ..jobs.kept_jobs import KeptJobs
from ..shop.shop_floor import BenchRecord
from .flaw_words import read_flaws, worked_at_a_flaw
from .repair_record import Identity, floor_and_state, in_turn, refused, write_on
from .spoiled_report import REPORT

HOW = "a fault in its sheet"


@dataclass(frozen=True)
class FlawTyped:
    """A fault as typed: the `sheet` (`maple 2`), how far it is from its left end and from its near edge, and
    its size."""

    sheet: str = ""
    x: str = ""
    y: str = ""
    length: str = ""
    width: str = ""

    @property
    def said(self) -> str:
        """The same as the command takes it."""
        return (
            f"{self.sheet}:{self.x.strip()} x {self.y.strip()}:{self.length.strip()} x {self.width.strip()}"
        )


@dataclass(frozen=True)
class FlawLine:
    """A fault that was found, in words, with the event that it can be taken back by."""

    event: str
    words: str


def report_flaw(saved: KeptJobs, job: str, heard: BenchRecord, typed: FlawTyped, identity: Identity) -> None:
    """Write down a fault in a sheet; a part that was cut there is spoiled.

    Raises JobError for a place that no sheet has, and where a part that was cut there is worked already.
    """
    floor, state = floor_and_state(heard)
    project, faults = floor.project, list[Finding]()
    flaws = read_flaws(project, floor.plans, (typed.said,), faults)
    facts = facts_after(project, floor.plans, state.done, flaws)
    gone = state.with_status(Status.SPOILED, Status.LOST, Status.GIVEN_UP)
    hit = {mark: cut for mark, cut in facts.spoiled.items() if mark not in gone}
    worked = {mark: features_cut(project.parts[mark], state.done) for mark in hit}
    faults += worked_at_a_flaw(replace(facts, spoiled=hit), worked, ())
    if faults:
        raise JobError(tuple(faults))
    happenings: list[Happening] = [
        Flawed(one.material, one.sheet, one.x, one.y, one.length, one.width) for one in flaws
    ]
    happenings += [Spoiled(mark, HOW, tuple(map(recorded_harm, cut.harms))) for mark, cut in hit.items()]
    bundle, numbers = f"{REPORT}{identity()}", count(1)
    write_on(saved, job, in_turn(state, happenings, lambda: f"{bundle}/{next(numbers)}"))


def flaws_found(project: Project, state: State | None) -> tuple[FlawLine, ...]:
    """Every fault that is written down and still counts."""
    lines = []
    for event, one in state.flaws.items() if state else ():
        x, y, long, wide = (project.printed(size) for size in (one.x, one.y, one.length, one.width))
        good = project.job.sheets.get(one.material)
        name = good.name if good else one.material
        place = f"{x} from the left end and {y} from the near edge"
        lines.append(FlawLine(event, f"Sheet {one.sheet} of {name}: a fault {long} × {wide}, {place}."))
    return tuple(lines)


def withdraw_flaw(saved: KeptJobs, job: str, heard: BenchRecord, event: str, identity: Identity) -> None:
    """There is no fault after all: it is set aside, with what was said of parts that were cut there.

    Raises JobError where no such fault is written down.
    """
    _, state = floor_and_state(heard)
    if event not in state.flaws:
        raise refused("no-such-flaw", "flaw", "this fault is not written down.", "Load the page again.")
    bundle = event.rpartition("/")[0] + "/" if event.startswith(REPORT) else event
    said = {one.id for one in heard.events if one.id.startswith(bundle)} - state.undone
    write_on(saved, job, in_turn(state, [Undo(one) for one in sorted(said)], identity))
