"""Labels: one for each part, in the grids in which label paper is sold."""

from __future__ import annotations

from dataclasses import asdict, dataclass

from ...casework.parts.part import Part
from ...casework.project import Project
from ...drawings.kit.lettering import lettered
from ...drawings.kit.pages import Paper
from ...drawings.views.part_view import reference_edges
from ...workshop.side_names import side_words
from ..pages.page_picture import Json
from ..work_in_short import work_in_short
from .square_code import code_svg


@dataclass(frozen=True)
class Grid:
    """A sheet of labels, in points: margins, the gap between columns, how many there are,
    the side of the square code and the height of the mark."""

    left: float
    top: float
    wide: float
    high: float
    gap: float
    across: int
    down: int
    code: float
    mark: float


# Common practice: 30 labels of 2 5/8 x 1 in on Letter, 24 of 70 x 37 mm on A4.
GRIDS = {
    Paper.LETTER: Grid(13.5, 36.0, 189.0, 72.0, 9.0, 3, 10, 58.0, 17.0),
    Paper.A4: Grid(0.0, 1.4, 198.4, 104.88, 0.0, 3, 8, 72.0, 22.0),
}


def label_sheets(project: Project, paper: Paper, address: str) -> dict[str, Json]:
    """The grid, and every part's label in the order of the job."""
    return {
        "grid": asdict(GRIDS[paper]),
        "all": [label_of(project, part, address) for part in project],
    }


def label_of(project: Project, part: Part, address: str) -> Json:
    """One label: mark, size, what is done to the part, which side is up, its edges and its code."""
    sizes = (lettered(size, project.job.mark) for size in project.dimensions(part)[:2])
    edges = ", ".join(side_words(part, edge) for edge in reference_edges(part))
    return {
        "mark": part.mark,
        "size": " × ".join(sizes),
        "words": f"{part.role.value}, {project.job.sheets[part.material].name}",
        "work": work_in_short(project, part),
        "edges": f"from {edges}" if edges else "",
        "up": f"{side_words(part, part.lie.worked)} up" if part.features else "",
        "code": code_svg(f"{address}{part.mark}").decode(),
    }
