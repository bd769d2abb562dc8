"""The shelves of a job under their loads: each held against the figure that the job names."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ..casework.directions import Axis, Way
from ..casework.extents import part_extent
from ..casework.hung import hangs_on_wall
from ..casework.parts.part import Part, Role
from ..casework.project import Project
from ..shop.shelf_use import ShelfUse
from ..strength.beam import EndSupport
from ..strength.loaded_shelf import LoadedShelf, ShelfMaterial, ShelfStrip
from ..strength.loads import LoadPer, ShelfLoad, load_given, shelf_uses
from ..strength.sag_limits import SagLimit, sag_limits
from ..strength.shelf_answer import ShelfVerdict, against_limit
from .held_by_back import held_by_back
from .shelf_materials import wood_material

UPRIGHTS = frozenset({Role.LEFT_SIDE, Role.DIVIDER, Role.RIGHT_SIDE})
Ends = tuple[Fraction, Fraction]

SHELVES = frozenset({Role.FIXED_SHELF, Role.ADJUSTABLE_SHELF})


@dataclass(frozen=True)
class BearingShelf:
    """A shelf of the job, or the bottom of a hung case, as it is loaded; `shelf` is None where it is not
    known how stiff its material is."""

    part: Part
    load: ShelfLoad
    shelf: LoadedShelf | None
    limit: SagLimit

    @property
    def verdict(self) -> ShelfVerdict | None:
        """The shelf held against the figure; None where nothing can be said."""
        return None if self.shelf is None else against_limit(self.shelf, self.limit)


def load_of(use: ShelfUse) -> ShelfLoad:
    """What lies on shelves of a use."""
    if use.load is not None:
        return load_given(use.load, LoadPer.SQUARE_FOOT)
    return shelf_uses()[use.holds.value]


def bearing_shelves(
    project: Project, materials: Mapping[str, ShelfMaterial | None]
) -> tuple[BearingShelf, ...]:
    """Every part of the job that things are put on, case by case: its shelves, and the bottom of a hung case.

    The bottom of a case with dividers is left out: they share its load with the top.
    """
    return tuple(one for mark in project.cases for one in _of_case(project, mark, materials))


def _of_case(
    project: Project, mark: str, materials: Mapping[str, ShelfMaterial | None]
) -> Iterator[BearingShelf]:
    case = project.cases[mark]
    hangs = hangs_on_wall(project.run_of(mark).run, case.spec)
    uprights = [_along(project, one) for one in case.parts if one.role in UPRIGHTS]
    held = held_by_back(project, case)
    for part in case.parts:
        bottom = part.role is Role.BOTTOM and hangs and len(case.spec.bays) == 1
        if part.role in SHELVES or bottom:
            use = project.job.use_of(part.mark, case.spec)
            load, limit = load_of(use), sag_limits()[use.sag.value]
            material = materials[part.material]
            loaded = _loaded(project, part, material, load, uprights) if material else None
            if loaded and part.mark in held:
                loaded = replace(loaded, back_held=True)
            yield BearingShelf(part, load, loaded, limit)


def _loaded(
    project: Project, part: Part, material: ShelfMaterial, load: ShelfLoad, uprights: Sequence[Ends]
) -> LoadedShelf:
    job = project.job
    long = part.lie.length is Axis.X
    depth = project.sizes.of(part.width if long else part.length)
    either = part.mark in job.either_way and job.sheets[part.material].grain
    pins = part.role is Role.ADJUSTABLE_SHELF
    return LoadedShelf(
        _span(_along(project, part), uprights),
        depth,
        project.sizes.of(part.thickness),
        material,
        load,
        EndSupport.PINS if pins else EndSupport.DADO,
        grain_along=long and not either,
        front=_strip(project, part, Way.FRONT),
        back=_strip(project, part, Way.BACK),
    )


def _span(part: Ends, uprights: Sequence[Ends]) -> Fraction:
    """How far the uprights to the left and right of a part stand apart, in inches."""
    middle = sum(part, Fraction(0)) / 2
    left = max(high for _, high in uprights if high <= middle)
    right = min(low for low, _ in uprights if low >= middle)
    return right - left


def _along(project: Project, part: Part) -> Ends:
    """Where a part begins and ends along the wall."""
    box = part_extent(project, part)
    return box.low[Axis.X.value], box.high[Axis.X.value]


def _strip(project: Project, part: Part, way: Way) -> ShelfStrip | None:
    """The edging along an edge of a shelf, if it is of solid wood."""
    edge = part.edge(way)
    edging = project.job.edging[edge.edging] if edge else None
    if edging is None or edging.wood is None:
        return None
    height = edging.height(project.sizes.of(part.thickness))
    return ShelfStrip(edging.thickness, height, wood_material(edging.wood))
