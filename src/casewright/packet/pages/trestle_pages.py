"""At the trestles: a small map of each sheet beside its cuts by hand, in the words of the steps."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from ...casework.project import Project
from ...drawings.kit.pages import PlacedScene, fit_set
from ...drawings.views.sheet_drawing import sheet_size
from ...drawings.views.trestle_drawing import trestle_scene
from ...planner.plan import Plan, SheetPlan
from ...workshop.batch_wording import BatchText, StepText
from ...workshop.cut_wording import CHALK, whole_sheet_words
from ...workshop.operations import Machine, Operation
from ...workshop.order.batches import WorkOrder
from ...workshop.safety.hazards import Hazard
from ...workshop.sheets.sheet_marks import SheetMarks
from .page_picture import Json, embed_picture

ROOM = (168.0, 104.0)
"""Points for a map of which three stand side by side: what is cut here is a few lines across a sheet."""

CROWDED, TALL = 8, 150.0
"""Cuts by hand above which numbers stand in rows beside the sheet, and the height of the room for its map."""

BESIDE = (4.0, 20.0)
"""Points of that beside the sheet at least: its size stands below it."""


@dataclass(frozen=True)
class TrestleCut:
    """A cut by hand: its number on the map, the step it belongs to, and its words. `after` is the step
    elsewhere that it waits for, 0 for none."""

    number: int
    step: int
    after: int
    text: StepText

    def plain(self, done: Collection[str]) -> Json:
        """The cut as plain values for the template; `done` are the keys of those that are made."""
        words = {"piece": self.text.piece, "size": self.text.size, "hold": self.text.hold}
        return {
            "number": self.number,
            "step": self.step,
            "after": self.after,
            "done": self.text.key in done,
            **words,
        }


@dataclass(frozen=True)
class TrestleWork:
    """A sheet with its cuts by hand, and what its map shows."""

    material: str
    sheet: SheetPlan
    marks: SheetMarks
    cuts: tuple[TrestleCut, ...]


def trestle_work(
    plans: Mapping[str, Plan],
    found: Mapping[tuple[str, int], SheetMarks],
    ordered: WorkOrder,
    told: tuple[BatchText, ...],
) -> tuple[TrestleWork, ...]:
    """Every sheet with its cuts by hand, material by material; `found` are their marks."""
    steps = {step.key: (number, step) for number, batch in enumerate(told, 1) for step in batch.steps}
    by_key = {one.key: one for one in ordered.operations}

    def cut(number: int, operation: Operation) -> TrestleCut:
        step, text = steps[operation.key]
        elsewhere = (
            steps[key][0]
            for key in operation.after
            if key in by_key and by_key[key].setting.machine is not Machine.HAND_SAW
        )
        return TrestleCut(number, step, max(elsewhere, default=0), text)

    return tuple(
        TrestleWork(material, sheet, marks, tuple(cut(*one) for one in enumerate(marks.by_hand, 1)))
        for material, plan in plans.items()
        for sheet in plan.sheets
        for marks in (found[material, sheet.number],)
    )


def trestle_pages(
    project: Project,
    plans: Mapping[str, Plan],
    marks: Mapping[tuple[str, int], SheetMarks],
    ordered: WorkOrder,
    told: tuple[BatchText, ...],
    done: Collection[str] = (),
) -> dict[str, Json]:
    """The section: what is set for every cut by hand and what can hurt there, and the sheets."""
    work = trestle_work(plans, marks, ordered, told)
    steps = dict.fromkeys(cut.step for one in work for cut in one.cuts)
    dangers = dict.fromkeys(
        caution.text
        for step in steps
        for caution in told[step - 1].cautions
        if caution.hazard is not Hazard.LIFTING  # each piece says what it weighs, and when two carry it
    )
    first = next(iter(steps), None)
    return {
        "set": [CHALK, *told[first - 1].setting] if first else [],
        "dangers": list(dangers),
        "sheets": [_sheet(project, plans, one, done) for one in work],
    }


def _sheet(project: Project, plans: Mapping[str, Plan], one: TrestleWork, done: Collection[str]) -> Json:
    return {
        **sheet_title(project, plans, one.material, one.sheet),
        "whole": _undivided(project, one),
        "picture": embed_picture(_small_map(project, one)) if one.cuts else None,
        "cuts": [cut.plain(done) for cut in one.cuts],
    }


def _small_map(project: Project, one: TrestleWork) -> PlacedScene:
    return fit_set(
        lambda point: trestle_scene(one.sheet, project.rule, one.marks, point),
        sheet_size(one.sheet),
        (ROOM[0], TALL if len(one.cuts) > CROWDED else ROOM[1]),
        BESIDE,
    )


def sheet_title(
    project: Project, plans: Mapping[str, Plan], material: str, sheet: SheetPlan
) -> dict[str, Json]:
    """What a sheet is called on paper: its material, its number of how many, and what it is cut from."""
    good = project.job.sheets[material]
    numbers = [each.number for each in plans[material].sheets]
    # After a repair the sheets are no longer numbered from one to the last.
    counted = numbers == list(range(1, len(numbers) + 1))
    rack = {offcut.name for offcut in project.job.shop.rack}
    other = f"Cut from {sheet.bin}" + (", off the rack." if sheet.bin in rack else ".")
    return {
        "name": good.name,
        "number": sheet.number,
        "of": f"of {len(numbers)}" if counted else "",
        "note": "" if sheet.bin == good.name else other,
    }


def _undivided(project: Project, one: TrestleWork) -> str:
    """What becomes of a sheet that the hand-held saw does not divide first."""
    whole = next((piece for piece in one.marks.carried if not piece.letter), None)
    if whole is not None:
        return whole_sheet_words(project, whole)
    return "" if one.cuts or one.sheet.root.item is None else f"It is {one.sheet.root.item}, at its size."
