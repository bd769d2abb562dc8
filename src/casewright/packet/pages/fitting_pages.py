"""After the dry fit: the backs with the sum that gives their width; then hanging and standing the cases."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from ...bearing.borne import Borne
from ...casework.printed_sums import sum_rounding
from ...casework.project import Project
from ...drawings.kit.lettering import dimension_text
from ...drawings.views.hanging_view import hanging_pictures
from ...lengths.quantities import weighed
from ...workshop.assembly.back_sums import BackSum, back_sums
from ...workshop.assembly.hanging import placed_cases
from ..cut_places import CutPlace, places_text
from .page_picture import Json, embed_picture

MINUS = "\u2212"


def back_page(project: Project, cases: Collection[str], places: Mapping[str, CutPlace]) -> list[Json]:
    """A row for each back of these `cases`: planned size, where it is cut, the sum with room for readings."""
    finest = project.rule
    return [
        {
            "mark": one.mark,
            "size": f"{dimension_text(one.width, finest)} × {dimension_text(one.height, finest)}",
            "from": places_text([one.mark], places),
            "room": dimension_text(one.room, finest),
            "depths": [dimension_text(depth, finest) for depth in one.depths],
            "play": dimension_text(one.play, finest),
            "rounded": rounded_term(project, one),
            "width": dimension_text(one.width, finest),
        }
        for one in back_sums(project, cases)
    ]


def rounded_term(project: Project, one: BackSum) -> str:
    """What rounding leaves between the planned figures, as a term of the sum; empty where they add up."""
    found = sum_rounding(project, one.width, one.terms) if one.terms else None
    if found is None:
        return ""
    return f"{'+' if found.added else MINUS} {dimension_text(found.size, project.rule)}"


WALL = (520.0, 190.0)
"""Points for the picture of a row of hung cases."""


def hanging_page(borne: Borne) -> dict[str, Json]:
    """The cases as they go to their walls, those that hang first, with heights above the floor; each row that
    hangs with its studs and screws; the fillers and stiles that are scribed there."""
    project = borne.project
    finest, unit = project.rule, project.job.unit
    placed = placed_cases(project)
    said: dict[str, Json] = borne.hanging_sheet.plain()
    return {
        "hang": any(one.hung for one in placed),
        "told": said,
        "pictures": [embed_picture(picture) for picture in hanging_pictures(borne, WALL)],
        "fillers": [
            {
                "mark": part.mark,
                "size": " × ".join(dimension_text(size, finest) for size in project.dimensions(part)[:2]),
            }
            for part in borne.unread_fillers
        ],
        "rows": [
            {
                "mark": one.mark,
                "wall": one.wall,
                "hung": one.hung,
                "bottom": dimension_text(one.bottom, finest),
                "top": dimension_text(one.top, finest),
                "strips": [dimension_text(at, finest) for at in one.strips],
                "weight": "not known" if one.lift.carried is None else weighed(one.lift.carried, unit),
                "who": one.lift.lifters.short,
            }
            for one in placed
        ],
    }
