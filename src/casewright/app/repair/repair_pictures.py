"""A way of putting right in pictures: the run before and after, blanks with what comes of them, strips."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ...casework.project import Project
from ...drawings.kit.pages import fit_to_room
from ...drawings.kit.scene import Scene
from ...drawings.kit.svg import svg
from ...drawings.views.board_drawing import board_scene
from ...drawings.views.elevation import elevation
from ...drawings.views.repair_drawing import highlight, highlight_sheet, strip_scene
from ...drawings.views.room import walls
from ...drawings.views.sheet_drawing import sheet_scene
from ...repair.ways.way import CutAgain, Forgo, GlueOn, MakeOf, MillAgain, Option, ServeAs, SetInput
from ...workshop.sheets.sheet_cuts import cuts_of_plans
from ...workshop.sheets.sheet_marks import sheet_marks
from ..views.page_pictures import Picture, inline_svg
from .repair_page import FoundWays, plans_of_way

SIDE = (520.0, 360.0)
BLANK = (520.0, 300.0)
FILE = (820.0, 900.0)


def way_pictures(found: FoundWays, number: int) -> tuple[Picture, ...]:
    """What a way looks like, the run before and after first where anything of it changes."""
    scenes = [
        (scene, SIDE if " after" in scene.title or " before" in scene.title else BLANK)
        for scene in way_scenes(found, found.option(number))
    ]
    return tuple(Picture(scene.title, inline_svg(fit_to_room(scene, *room))) for scene, room in scenes)


def way_svg(found: FoundWays, number: int) -> bytes:
    """The same, one below another, as one SVG file."""
    first, *more = way_scenes(found, found.option(number))
    return svg(fit_to_room(first, *FILE, *more))


def way_scenes(found: FoundWays, option: Option) -> tuple[Scene, ...]:
    """Every picture of a way; there is always one."""
    scenes = (
        *_runs(found.asked.project, option),
        *_strips(found, option),
        *_blanks(found, option),
        *_boards(found, option),
    )
    return scenes or tuple(_run_alone(found.asked.project, option))


def _runs(before: Project, option: Option) -> Iterator[Scene]:
    """Each wall that changes, before and after, with what changes marked."""
    changed = changed_names(before, option)
    if not changed:
        return
    gone = {one.mark for one in option.actions if isinstance(one, Forgo)}
    for old, new in zip(walls(before), walls(option.project), strict=True):
        marks = {part.part.mark for case in old.cases for part in case.parts} & changed
        if marks:
            yield highlight(elevation(old), changed, f"{old.name}, before")
            after = elevation(new)
            left = tuple(item for item in after if getattr(item, "name", "") not in gone)
            yield highlight(Scene(left, after.title), changed - gone, f"{new.name}, after")


def changed_names(before: Project, option: Option) -> set[str]:
    """The parts whose size, place or material changes, those left out, and the sizes that are moved."""
    after = option.project
    names = {
        part.mark
        for part in before
        if part.mark in after.parts
        and (
            before.dimensions(part) != after.dimensions(after.parts[part.mark])
            or before.corner(part) != after.corner(after.parts[part.mark])
            or part.material != after.parts[part.mark].material
        )
    }
    for one in option.actions:
        if isinstance(one, Forgo | MakeOf):
            names.add(one.mark)
        elif isinstance(one, SetInput):
            names.add(one.name)
    return names


def _run_alone(before: Project, option: Option) -> Iterator[Scene]:
    for wall in walls(before):
        yield highlight(elevation(wall), (), wall.name)


def _strips(found: FoundWays, option: Option) -> Iterator[Scene]:
    project = found.asked.project
    for one in option.actions:
        if isinstance(one, GlueOn):
            length, width, _ = project.dimensions(project.parts[one.mark])
            cut = found.asked.facts.spoiled[one.mark]
            sizes = (length, width, cut.width, one.rip_to, one.width)
            yield strip_scene(one.mark, *sizes, project.rule)


def _blanks(found: FoundWays, option: Option) -> Iterator[Scene]:
    """Every piece of wood that is laid out again, and every sheet on which parts change places."""
    job, rule = found.asked.project.job, found.asked.project.rule
    again = {one.mark for one in option.actions if isinstance(one, CutAgain)}
    marks = sheet_marks(option.plans, cuts_of_plans(found.asked.project, option.plans))
    for material, plan in option.plans.items():
        grain = job.sheets[material].grain
        for sheet in plan.sheets:
            scene = sheet_scene(sheet, rule, marks[material, sheet.number], grain=grain)
            yield highlight_sheet(scene, sheet, again & {piece.item for piece in sheet.parts if piece.item})
    yield from _changed_places(found, option)


def _boards(found: FoundWays, option: Option) -> Iterator[Scene]:
    """Every board that is cut otherwise than planned, with what is cut again marked."""
    again = {one.mark for one in option.actions if isinstance(one, MillAgain)}
    for material, plan in option.boards.items():
        was = found.asked.boards[material].boards
        for board in plan.boards:
            names = {part.name for part in board.parts if part.of_part in again}
            if board not in was and names:
                title = f"{found.asked.project.job.sheets[material].name}, board {board.number}"
                yield highlight(board_scene(board, found.asked.project.rule), names, title)


def _changed_places(found: FoundWays, option: Option) -> Iterator[Scene]:
    """The sheets of the plan so far on which a piece bears another mark from now on."""
    asked = found.asked
    if not any(isinstance(one, ServeAs) for one in option.actions):
        return
    plans = plans_of_way(found, option)
    marks = sheet_marks(plans, cuts_of_plans(asked.project, plans))
    for material, plan in asked.plans.items():
        was = {(sheet.number, one.x, one.y): one.item for sheet in plan.sheets for one in sheet.parts}
        for sheet in plans[material].sheets:
            other = {
                one.item
                for one in sheet.parts
                if one.item and was.get((sheet.number, one.x, one.y), one.item) != one.item
            }
            if other:
                grain = asked.project.job.sheets[material].grain
                scene = sheet_scene(sheet, asked.project.rule, marks[material, sheet.number], grain=grain)
                yield highlight_sheet(
                    replace(scene, title=f"{scene.title}, sheet {sheet.number}"), sheet, other
                )
