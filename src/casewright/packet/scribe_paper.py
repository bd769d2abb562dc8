"""The line a filler or stile is cut to, at full size on sheets of paper to be taped together."""

from __future__ import annotations

from ..bearing.scribe_sheets import PROOF, scribe_sheets
from ..bearing.scribed_parts import ScribedPart
from ..casework.project import Project
from ..drawings.kit.lettering import dimension_text
from ..drawings.kit.pages import Paper, full_size
from ..drawings.views.scribe_drawing import scribe_sheet_scene
from .pages.page_picture import Json, embed_picture
from .typesetting import typeset


def scribe_pdf(project: Project, part: ScribedPart) -> bytes:
    """A part's cut line as PDF, a sheet of Letter or A4 for each stretch of it."""
    return typeset("scribe.typ", scribe_data(project, part))


def scribe_data(project: Project, part: ScribedPart) -> dict[str, Json]:
    """What the template needs, as plain values and SVG text."""
    job = project.job
    sheets: list[Json] = [
        {
            "number": sheet.number,
            "count": sheet.count,
            "from": dimension_text(sheet.straight, project.rule) if sheet.straight else "",
            "picture": embed_picture(full_size(scribe_sheet_scene(part, sheet, job.unit))),
        }
        for sheet in scribe_sheets(part, job.unit)
    ]
    return {
        "title": job.name,
        "mark": part.part.mark,
        "wall": part.end.value,
        "paper": "us-letter" if Paper.for_unit(job.unit) is Paper.LETTER else "a4",
        "proof": PROOF[job.unit][1],
        "sheets": sheets,
    }
