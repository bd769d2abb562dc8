"""What is said of each drawer: how its box goes together, where its slides go, and how its front goes on."""

from __future__ import annotations

from collections.abc import Iterator

from ...casework.build.case import Case
from ...casework.build.drawers.placed_drawers import OnSlides, PlacedDrawer
from ...casework.directions import Axis
from ...casework.front_choices import DrawerBottom
from ...casework.parts.part import PartName, Role
from ...casework.project import Project
from ...casework.size_names import part_mark
from ...shop.slides import SlideKind


def drawer_number(case: Case, drawer: PlacedDrawer) -> int:
    """The number of a drawer in its case: that of its front."""
    return int(drawer.front.removeprefix(part_mark(case.mark, PartName.DRAWER_FRONT)))


def box_words(project: Project, case: Case, drawer: PlacedDrawer) -> str:
    """How a box is put together, and where the slides that carry it are screwed."""
    assert drawer.on and drawer.box, f"{drawer.front} has a box"
    box = "Glue front and back to one side, slide the bottom in without glue, then put the other side on."
    if case.spec.construction.drawer_bottom is DrawerBottom.SLID_IN:
        box = (
            "Glue front and back between the sides. Slide the bottom in from behind without glue, and screw "
            f"it up into {drawer.box.back}."
        )
    return " ".join((box, *_planed(project, case), *_slides(project, case, drawer, drawer.on)))


def _planed(project: Project, case: Case) -> Iterator[str]:
    """What stands proud of dovetailed corners, and comes off before the slides go on."""
    made = case.spec.construction
    if made.drawer_joint.is_dovetailed and made.drawer_proud:
        proud = project.printed(made.drawer_proud)
        yield f"When the glue is dry, plane the end grain flush at the corners: {proud} stands proud."


def _slides(project: Project, case: Case, drawer: PlacedDrawer, on: OnSlides) -> Iterator[str]:
    """The slides by their length, the line that they are laid out from, and what brings them level."""
    assert drawer.box
    bottom = next(part for part in case.parts if part.role is Role.BOTTOM)
    corners = case.placement.corners
    low = corners[drawer.box.left, Axis.Z] - corners[bottom.mark, Axis.Z] - bottom.thickness
    line = project.printed(project.sizes.of(low))
    what = f"{project.printed(on.length)} {on.slide.name}"
    if on.slide.kind is SlideKind.CENTER:
        yield f"Screw the {what} to the middle of its bottom and into the case."
    else:
        yield f"Screw the {what} into the case, level and square to its front."
    runs = f"The lower edges of the box run {line} above the upper face of the case's bottom"
    if _is_bored(case, drawer) and on.slide.screw_height is not None:
        up = project.printed(on.slide.screw_height)
        yield f"{runs}; the holes of the slides are bored {up} above that."
    else:
        yield f"{runs}: measure the line of the slides from there, by the sheet that came with them."
    blocks = [project.sizes.of(one) for one in on.blocking]
    if any(blocks):
        left, right = (project.printed(one) for one in blocks)
        thick = f"{left} thick"
        if blocks[0] != blocks[1]:
            thick += f" on the left, {right} on the right"
        yield f"Block the slides out, {thick}, to come level with the face frame."


def _is_bored(case: Case, drawer: PlacedDrawer) -> bool:
    """Whether the case is bored for the slides of a drawer."""
    name = f"slide-{drawer.front.removeprefix(f'{case.mark}-')}"
    return any(feature.name == name for part in case.parts for feature in part.features)


def drawer_front_words(project: Project, case: Case) -> Iterator[str]:
    """How far each drawer front reaches below its box."""
    for drawer in case.drawers:
        if drawer.box:
            corners = case.placement.corners
            below = corners[drawer.box.front, Axis.Z] - corners[drawer.front, Axis.Z]
            reach = project.sizes.of(below)
            way = "below" if reach >= 0 else "above"
            where = f"{project.printed(abs(reach))} {way} that of" if reach else "level with that of"
            yield f"Screw {drawer.front} to its box from inside, its lower edge {where} the box."
