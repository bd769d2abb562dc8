"""What is begun in the shop: sheets that a saw has touched, and parts that are cut. Both are facts."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache

from ...casework.project import Project
from ...errors import JobError, RecordError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...lengths.length import show
from ...planner.begun import Begun
from ...planner.plan import Plan, SheetPlan
from ...record.shop_state import State, Status
from ...workshop.operations import cut_key
from ..jobs.worked_job import PlannedJob
from ..shop.shop_floor import BenchRecord
from .made_already import SizeAsMade

MADE = (Status.IN_HAND, Status.CUT, Status.ASSEMBLED)
NO_GOOD = (Status.SPOILED, Status.LOST)


@dataclass(frozen=True, eq=False)
class BegunWork:
    """The sheets begun, by material, and the parts cut from them by their marks: those that are good, those
    reported as spoiled or lost, and those that were `put_right` without the shop's record: they are good in
    the size that the job then had, and cut again once it has another."""

    sheets: Mapping[str, tuple[SheetPlan, ...]] = field(default_factory=dict)
    good: Mapping[str, SizeAsMade] = field(default_factory=dict)
    no_good: Mapping[str, SizeAsMade] = field(default_factory=dict)
    put_right: Mapping[str, SizeAsMade] = field(default_factory=dict)

    def of(self, project: Project, material: str) -> Begun:
        """What is begun of a material, for the job as it is now.

        A part that is spoiled is not cut again while its size stays: that is put right at its own place.
        """
        cut = {**self.put_right, **self.good, **self.no_good}
        made = frozenset(mark for mark, size in cut.items() if size == size_now(project, mark))
        return Begun(self.sheets.get(material, ()), made)

    def refuse_changes_of_made_parts(self, project: Project) -> None:
        """Raises RecordError where a part that is cut, and good, has another size in the job as it is now."""
        wrong = {
            mark: (size, now)
            for mark, size in self.good.items()
            if (now := size_now(project, mark)) is not None and now != size
        }
        if not wrong:
            return
        first, (size, now) = next(iter(wrong.items()))
        others = f", and {len(wrong) - 1} more that are cut have another size too" if len(wrong) > 1 else ""
        where = "" if size.material == now.material else f" of {project.job.sheets[now.material].name}"
        raise RecordError(
            (
                Finding(
                    "part-already-cut",
                    first,
                    f"it is cut already, {size_words(project, size.length, size.width)}, and the job now has "
                    f"it {size_words(project, now.length, now.width)}{where}{others}.",
                    "Restore the earlier revision on the History page; or report the part as spoiled on the "
                    "Put right page, then plan again, and it is cut again in its new size.",
                ),
            )
        )

    def kept_text(self, project: Project) -> Iterator[str]:
        """Which sheets stay as they are because they are begun, a sentence a material."""
        for material, sheets in self.sheets.items():
            good = project.job.sheets.get(material)
            if sheets and good is not None:
                numbers = ", ".join(str(sheet.number) for sheet in sheets)
                said = "sheet" if len(sheets) == 1 else "sheets"
                yield f"{good.name}: kept as they are, because they are begun: {said} {numbers}."


NOTHING_BEGUN_YET = BegunWork()


def size_words(project: Project, length: Fraction, width: Fraction) -> str:
    """A length and a width, in inches, on the job's rule."""
    mark = project.rule
    return f"{show(length, mark).marked} × {show(width, mark).marked}"


def named_as_begun(
    plans: Mapping[str, Plan], names: Collection[str], put_right: Mapping[str, SizeAsMade]
) -> BegunWork:
    """The sheets of these plans that a maker names, each by its material's key and its number, and the parts
    that were put right. Raises JobError for a name that no sheet has."""
    if not names:
        return NOTHING_BEGUN_YET
    there = {f"{key} {sheet.number}": (key, sheet) for key, plan in plans.items() for sheet in plan.sheets}
    if wrong := [name for name in names if name.strip() not in there]:
        text = f"the plan has no sheet “{wrong[0]}”."
        raise JobError((Finding("no-such-sheet", "begun", text, did_you_mean(wrong[0], there)),))
    sheets: dict[str, tuple[SheetPlan, ...]] = {}
    for key, sheet in dict.fromkeys(there[name.strip()] for name in names):
        sheets[key] = (*sheets.get(key, ()), sheet)
    return BegunWork(sheets, put_right=put_right)


@lru_cache(maxsize=16)
def begun_work(heard: BenchRecord) -> BegunWork:
    """What the record says is begun of the work handed out last."""
    floor, state = heard.floor, heard.state
    if floor is None or state is None:
        return NOTHING_BEGUN_YET
    return BegunWork(
        {
            material: tuple(sheet for sheet in plan.sheets if _is_begun(floor, state, material, sheet))
            for material, plan in floor.plans.items()
        },
        _sizes(floor.project, state, MADE),
        _sizes(floor.project, state, NO_GOOD),
    )


def _is_begun(floor: PlannedJob, state: State, material: str, sheet: SheetPlan) -> bool:
    """Whether a saw has touched it. A piece that the job knows of no rack or shop was left by a mishap: it
    lies on a sheet that is begun."""
    problem = floor.worked.problems.get(material)
    if problem is None or all(bin_.name != sheet.bin for bin_ in problem.bins):
        return True
    if any(cut_key(material, sheet.number, cut.order) in state.done for cut in sheet.cuts):
        return True
    marks = [piece.item for piece in sheet.parts if piece.item in state.parts]
    return any(state.status(mark) in (*MADE, *NO_GOOD) for mark in marks if mark)


def _sizes(project: Project, state: State, statuses: tuple[Status, ...]) -> dict[str, SizeAsMade]:
    found = {mark: size_now(project, mark) for mark in state.with_status(*statuses)}
    return {mark: size for mark, size in found.items() if size is not None}


def size_now(project: Project, mark: str) -> SizeAsMade | None:
    """Its material and size in the job as it is now; None where the job has no such part."""
    part = project.parts.get(mark)
    if part is None:
        return None
    length, width, _ = project.dimensions(part)
    return SizeAsMade(part.material, length, width)
