"""A way chosen from the command line: the changed job, and beside it the plan that follows from it."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ...errors import CasewrightError
from ...repair.boards_begun import crosscuts_made
from ...repair.ticks_after import cut_after
from ...repair.ways.way import MillAgain, Option
from ...workshop.operations import cut_key
from ..jobs.worked_job import PlannedJob, open_job
from ..papers.write_whole import write_whole
from ..sheets.begun_work import size_now
from ..sheets.made_already import MadeAlready, SizeAsMade
from ..sheets.plan_keeping import FileShelf
from .labels_again import labels_again, turned_for_good
from .repair_page import FoundWays, boards_of_way, changed_text, plans_of_way


@dataclass(frozen=True)
class CarriedOut:
    """A job after a way, in the file `job` with its plan in the file `plan`: the marks whose `labels` are to
    be printed again, the sheets that are `begun`, and those of them that have `cuts` made."""

    job: str
    plan: str
    planned: PlannedJob
    labels: tuple[str, ...]
    begun: tuple[str, ...]
    cuts: tuple[str, ...]

    def plain(self) -> dict[str, Any]:
        """The same as JSON."""
        return {
            "job": self.job,
            "plan": self.planned.plan_name,
            "plan_file": self.plan,
            "labels_again": list(self.labels),
            "begun": list(self.begun),
        }

    def words(self) -> Iterator[str]:
        """What was written and what to do now, a line each."""
        name = self.planned.plan_name
        yield f"The changed job is in {self.job}, its plan {name} in {self.plan}."
        if self.cuts:
            yield f"Of these sheets some cuts are made already; leave those out: {', '.join(self.cuts)}."
        pieces = [name for name in self.begun if name not in self.cuts]
        if pieces:
            yield f"These are pieces of wood that is there, no sheets to buy: {', '.join(pieces)}."
        if self.labels:
            some = " ".join(f"--part {mark}" for mark in self.labels)
            yield f"Print these labels again: casewright labels {self.job} {some}"
        else:
            yield "Every label still holds."
        yield f"What is left to do: casewright steps {self.job}"
        yield f"Now run: casewright check {self.job}"


def carry_out(found: FoundWays, number: int, text: str, out: str, *, over: bool) -> CarriedOut:
    """Write the job of this `text` as the way changes it into the file `out`, and the plan after it beside
    that. With `over`, files that are there are replaced.

    Raises JobError for a number that no way has, CasewrightError for a file that is there or cannot be
    written.
    """
    option, asked = found.option(number), found.asked
    changed = changed_text(text, option)
    before = open_job(text).with_plan(asked.plans, boards=asked.boards)
    after = open_job(changed).with_plan(plans_of_way(found, option), boards=boards_of_way(found, option))
    sheets = [(material, sheet) for material, plan in after.made.plans.items() for sheet in plan.sheets]
    cuts = tuple(
        f"{material} {sheet.number}"
        for material, sheet in sheets
        if any(cut_key(material, sheet.number, cut.order) in asked.done for cut in sheet.cuts)
    )
    begun = tuple(
        name
        for material, sheet in sheets
        # A piece that the job knows of no rack lies on a sheet that is begun.
        if (name := f"{material} {sheet.number}") in cuts
        or sheet.bin not in {bin_.name for bin_ in after.made.problems[material].bins}
    )
    shelf = FileShelf.beside(out)
    if Path(shelf.name).exists() and not over:
        raise CasewrightError(f"{shelf.name} already exists; choose another --out, or add --force.")
    write_whole(out, changed.encode(), over=over)
    mends = found.lines[number - 1].steps
    made = MadeAlready(
        begun, _done(found, option, after), mends, option.changes, dict(_of_another_size(after, begun))
    )
    shelf.keep_after_repair(after, made)
    return CarriedOut(
        out, shelf.name, after, labels_again(before, after, turned_for_good(option)), begun, cuts
    )


def _of_another_size(after: PlannedJob, begun: Collection[str]) -> Iterator[tuple[str, SizeAsMade]]:
    """The parts that come of a begun sheet in another size than the job now has, in the size that it has."""
    for material, plan in after.made.plans.items():
        for sheet, piece in plan.parts():
            now = size_now(after.project, piece.item or "")
            if (
                now
                and piece.item
                and f"{material} {sheet.number}" in begun
                and piece.as_part != (now.length, now.width)
            ):
                yield piece.item, now


def _done(found: FoundWays, option: Option, after: PlannedJob) -> frozenset[str]:
    """The steps that are done: the cuts made, and the features that are cut in pieces that are kept."""
    asked = found.asked
    after_way = cut_after(asked.project, asked.facts, option)
    own = {mark: after.work.own_features(mark) for mark in after.project.parts}
    features = {step.key for steps in own.values() for step in steps}
    cut = {
        step.key for mark, steps in own.items() for step in steps if step.feature in after_way.get(mark, ())
    }
    boards = frozenset(crosscuts_made(asked.facts.boards)) & after.work.by_key.keys()
    again = {one.mark for one in option.actions if isinstance(one, MillAgain)}
    anew = {key for key, step in after.work.by_key.items() if len(step.parts) == 1 and step.parts[0] in again}
    return ((frozenset(asked.done) - features) | cut | boards) - anew
