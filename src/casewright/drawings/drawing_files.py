"""Drawings of parts and sheets as files for other programs: SVG, and DXF at full size."""

from __future__ import annotations

from ..bearing.scribed_parts import ScribedPart
from ..casework.parts.part import Part
from ..casework.project import Project
from ..planner.plan import SheetPlan
from ..workshop.holes.boring import StoryStick
from ..workshop.sheets.sheet_marks import SheetMarks
from .kit.dxf import dxf
from .kit.pages import PlacedScene, at_scale, full_size
from .kit.svg import svg
from .views.part_drawing import part_scenes
from .views.scribe_drawing import scribe_scene
from .views.sheet_drawing import sheet_scene
from .views.step_drawing import stick_scene

PART_SCALE = 10.0
SHEET_SCALE = 6.0
"""Points on paper per model inch, which set how large the lettering is beside the part."""


def part_drawing(project: Project, part: Part) -> PlacedScene:
    """A part's drawing, with its other face below if that is cut as well."""
    first, *more = part_scenes(project, part)
    return at_scale(first, 1.0 / PART_SCALE, *more)


def sheet_drawing(project: Project, material: str, sheet: SheetPlan, marks: SheetMarks) -> PlacedScene:
    """A sheet's map, with the numbers of its cuts by hand and the letters to chalk."""
    job = project.job
    point = 1.0 / SHEET_SCALE
    scene = sheet_scene(sheet, project.rule, marks, point, grain=job.sheets[material].grain)
    return at_scale(scene, point)


def stick_svg(project: Project, stick: StoryStick) -> bytes:
    """A story stick as SVG at full size, to print and glue to a strip of wood."""
    return svg(full_size(stick_scene(stick, project.rule)))


def stick_dxf(project: Project, stick: StoryStick) -> bytes:
    """A story stick as DXF R2010 at full size, its measured end and edge at the origin."""
    return dxf(full_size(stick_scene(stick, project.rule)).strokes, project.job.unit)


def scribe_svg(part: ScribedPart) -> bytes:
    """The line a part is cut to, as SVG at full size."""
    return svg(full_size(scribe_scene(part)))


def part_svg(project: Project, part: Part) -> bytes:
    """A part's drawing as SVG."""
    return svg(part_drawing(project, part))


def part_dxf(project: Project, part: Part) -> bytes:
    """A part's drawing as DXF R2010 at full size, its worked face's low corner at the origin."""
    return dxf(part_drawing(project, part).strokes, project.job.unit)


def sheet_svg(project: Project, material: str, sheet: SheetPlan, marks: SheetMarks) -> bytes:
    """A sheet's drawing as SVG."""
    return svg(sheet_drawing(project, material, sheet, marks))


def sheet_dxf(project: Project, material: str, sheet: SheetPlan, marks: SheetMarks) -> bytes:
    """A sheet's drawing as DXF R2010 at full size, the sheet's left near corner at the origin."""
    return dxf(sheet_drawing(project, material, sheet, marks).strokes, project.job.unit)
