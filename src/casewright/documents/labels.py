"""Labels: one for each part, in the grids in which label paper is sold."""

from __future__ import annotations

from dataclasses import asdict, dataclass

from ..casework.parts import Part
from ..casework.project import Project
from ..drawings.lettering import lettered
from ..drawings.pages import Paper
from .codes import code_svg
from .picture import Json


@dataclass(frozen=True)
class Grid:
    """A sheet of labels, in points: margins, the gap between columns, and how many there are."""

    left: float
    top: float
    wide: float
    high: float
    gap: float
    across: int
    down: int
    code: float


# Common practice: 30 labels of 2 5/8 x 1 in on Letter, 24 of 70 x 37 mm on A4.
GRIDS = {
    Paper.LETTER: Grid(13.5, 36.0, 189.0, 72.0, 9.0, 3, 10, 58.0),
    Paper.A4: Grid(0.0, 1.4, 198.4, 104.88, 0.0, 3, 8, 66.0),
}


def label_sheets(project: Project, paper: Paper, address: str) -> dict[str, Json]:
    """The grid, and every part's label in the order of the job."""
    return {
        "grid": asdict(GRIDS[paper]),
        "all": [_label(project, part, address) for part in project],
    }


def _label(project: Project, part: Part, address: str) -> Json:
    sizes = (lettered(size, project.job.mark) for size in project.dimensions(part)[:2])
    return {
        "mark": part.mark,
        "size": " × ".join(sizes),
        "words": part.role.value,
        "material": project.job.sheets[part.material].name,
        "code": code_svg(f"{address}{part.mark}").decode(),
    }
