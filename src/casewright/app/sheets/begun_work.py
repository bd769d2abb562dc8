"""What is begun in the shop: sheets and boards that a saw has touched, and parts that are cut: all facts."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache

from ...boards.board_plan import BoardPlan
from ...boards.keep_boards import BegunBoards
from ...casework.project import Project
from ...errors import JobError, RecordError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...lengths.length import show
from ...planner.begun import Begun
from ...planner.plan import Plan, SheetPlan
from ...record.shop_state import State, Status
from ...workshop.boards.board_work import board_of_step, boards_by_name
from ...workshop.operations import cut_key
from ..jobs.worked_job import PlannedJob
from ..shop.shop_floor import BenchRecord
from .made_already import SizeAsMade

MADE = (Status.IN_HAND, Status.CUT, Status.ASSEMBLED)
NO_GOOD = (Status.SPOILED, Status.LOST)


@dataclass(frozen=True, eq=False)
class BegunWork:
    """The sheets and `boards` begun, by material, and the parts cut by their marks: those that are good,
    those reported as spoiled or lost, and those that were `put_right` without the shop's record: they are
    good in the size that the job then had, and cut again once it has another."""

    sheets: Mapping[str, tuple[SheetPlan, ...]] = field(default_factory=dict)
    good: Mapping[str, SizeAsMade] = field(default_factory=dict)
    no_good: Mapping[str, SizeAsMade] = field(default_factory=dict)
    put_right: Mapping[str, SizeAsMade] = field(default_factory=dict)
    boards: Mapping[str, BegunBoards] = field(default_factory=dict)

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
        """Which sheets and boards stay as they are because they are begun, a sentence a material."""
        sheets = {material: [one.number for one in begun] for material, begun in self.sheets.items()}
        boards = {material: [one.number for one in begun.boards] for material, begun in self.boards.items()}
        for what, by_material in (("sheet", sheets), ("board", boards)):
            for material, numbers in by_material.items():
                good = project.job.sheets.get(material)
                if numbers and good is not None:
                    said = f"{what if len(numbers) == 1 else f'{what}s'} {', '.join(map(str, numbers))}"
                    yield f"{good.name}: kept as they are, because they are begun: {said}."


NOTHING_BEGUN_YET = BegunWork()


def size_words(project: Project, length: Fraction, width: Fraction) -> str:
    """A length and a width, in inches, on the job's rule."""
    mark = project.rule
    return f"{show(length, mark).marked} × {show(width, mark).marked}"


def named_as_begun(
    plans: Mapping[str, Plan],
    boards: Mapping[str, BoardPlan],
    names: Collection[str],
    put_right: Mapping[str, SizeAsMade],
) -> BegunWork:
    """The sheets and boards of these plans that a maker names, each by its material's key and its number, as
    `maple 2` or `oak board 2`, and the parts that were put right. Raises JobError for a name that none
    has."""
    if not names:
        return NOTHING_BEGUN_YET
    wood = boards_by_name(boards)
    there = {f"{key} {sheet.number}": (key, sheet) for key, plan in plans.items() for sheet in plan.sheets}
    if wrong := [name for name in names if name.strip() not in there and name.strip() not in wood]:
        text = f"the plan has no sheet or board “{wrong[0]}”."
        raise JobError((Finding("no-such-sheet", "begun", text, did_you_mean(wrong[0], [*there, *wood])),))
    sheets: dict[str, tuple[SheetPlan, ...]] = {}
    for key, sheet in dict.fromkeys(there[name.strip()] for name in names if name.strip() in there):
        sheets[key] = (*sheets.get(key, ()), sheet)
    touched = {wood[name.strip()] for name in names if name.strip() in wood}
    return BegunWork(sheets, put_right=put_right, boards=dict(_begun_boards(boards, touched)))


def _begun_boards(
    plans: Mapping[str, BoardPlan], touched: Collection[tuple[str, int]]
) -> Iterator[tuple[str, BegunBoards]]:
    """The plans of which a board is `touched`, by material, with the numbers of those boards."""
    for material, plan in plans.items():
        numbers = frozenset(one.number for one in plan.boards if (material, one.number) in touched)
        if numbers:
            yield material, BegunBoards(plan, numbers)


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
        boards=dict(_begun_boards(floor.board_plans, {*_boards_touched(floor, state)})),
    )


def _boards_touched(floor: PlannedJob, state: State) -> Iterator[tuple[str, int]]:
    """The boards of which a step is done or a part is made, by material and number."""
    yield from (named for step in state.done if (named := board_of_step(step)) is not None)
    for material, plan in floor.board_plans.items():
        for one in plan.boards:
            if any(state.status(mark) in (*MADE, *NO_GOOD) for mark in one.marks & state.parts.keys()):
                yield material, one.number


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
