"""Which sizes share a setting, as the plan of work has it: one setting, one error for all cut on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

from ...casework.parts.part import Part
from ...casework.project import Project
from ...workshop.operations import Guide, Machine, Operation, OperationKind
from ...workshop.order.batches import Batch
from ..chains.made_sizes import HowMade, MadeSize
from .way_of_working import Method


def planned_method(
    project: Project,
    made: Mapping[str, MadeSize],
    batches: Iterable[Batch],
    sheets: Mapping[str, str] | None = None,
) -> Method:
    """The way of working in which sizes cut in one setting of a machine share that setting's error.

    `sheets` says which sheet each part is cut from. A number that was set before is set again from a piece
    of then: it has the first setting's error, and that of setting it again. Sizes of which the plan says
    nothing (cut by hand, or not planned yet) keep the settings they have without a plan.
    """
    settings: dict[str, str] = {}
    passes: dict[str, list[str]] = {}
    again: dict[str, str] = {}
    stops: set[str] = set()
    before: dict[tuple[Machine, Guide, Fraction], str] = {}
    for step in _set_ups(batches):
        stands = step.operation.setting
        first = before.setdefault((stands.machine, stands.guide, stands.distance), step.fence)
        if first != step.fence:
            again[step.fence] = first
        if stands.guide is Guide.STOP:
            stops.add(step.fence)
        for mark in step.operation.parts:
            part = project.parts.get(mark)
            if part is not None:
                settings.update(_sizes(project, made, part, step, passes))
    for width, several in passes.items():
        if len(several) > 1:
            settings[width] = "the move from " + " to ".join(dict.fromkeys(several))
    return Method(
        settings={name: setting for name, setting in settings.items() if name in made},
        again=again,
        stops=frozenset(stops),
        sheets=sheets or {},
    )


class _SetUp:
    """An operation with names for how its machine stood: fence, packing of cutters, height."""

    def __init__(self, operation: Operation, fence: str, cutters: str, height: str) -> None:
        self.operation = operation
        self.fence = fence
        self.cutters = cutters
        self.height = height


def _set_ups(batches: Iterable[Batch]) -> Iterator[_SetUp]:
    fences: dict[Machine, int] = {}
    packings: dict[Machine, int] = {}
    heights: dict[Machine, tuple[object, int]] = {}
    for batch in batches:
        if batch.setting is None:
            continue
        machine = batch.setting.machine
        fences[machine] = fences.get(machine, 0) + (batch.new_setting or machine not in fences)
        packings[machine] = packings.get(machine, 0) + (batch.new_cutter or machine not in packings)
        stands = (packings[machine], batch.setting.height)
        before, number = heights.get(machine, (None, 0))
        heights[machine] = (stands, number + (before != stands))
        where = f"the {machine.value}"
        for operation in batch.operations:
            yield _SetUp(
                operation,
                f"setting {fences[machine]} of {where}",
                f"cutters {packings[machine]} of {where}",
                f"height {heights[machine][1]} of {where}",
            )


def _sizes(
    project: Project,
    made: Mapping[str, MadeSize],
    part: Part,
    step: _SetUp,
    passes: dict[str, list[str]],
) -> Iterator[tuple[str, str]]:
    """The sizes of `part` that an operation makes, each with the setting it comes from."""
    operation = step.operation
    if (
        operation.kind in (OperationKind.RIP, OperationKind.CROSSCUT)
        and operation.setting.machine is Machine.TABLE_SAW
    ):
        across = (
            (part.length, part.width)
            if operation.kind is OperationKind.CROSSCUT
            else (part.width, part.length)
        )
        for form in across:
            if project.sizes.of(form) == operation.makes:
                yield form.name, step.fence
                return
        return
    channel = next((one for one in part.channels if one.name == operation.feature), None)
    if channel is None:
        return
    width = channel.width.name
    several = passes.setdefault(width, [])
    several.append(step.fence)
    if len(several) == 1:
        yield channel.at.name, step.fence
    yield channel.depth.name, step.height
    # A rabbet is as wide as what stands out of the fence, a dado as its cutters are packed.
    yield width, step.fence if made[width].how is HowMade.FENCE else step.cutters
