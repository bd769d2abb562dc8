"""Draws the README's picture from an example: a wall, a case taken apart, a pair of sides to work.

Run `python tools/readme_picture.py` after the example or the drawings have changed.
"""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path

import typst

from casewright.casework.project import draw_up
from casewright.drawings.kit.pages import fit_to_room
from casewright.drawings.kit.svg import svg
from casewright.drawings.views.elevation import fit_elevation
from casewright.drawings.views.exploded import exploded_view
from casewright.drawings.views.part_drawing import pair_scenes
from casewright.drawings.views.room import walls
from casewright.jobfile.read.read_job import read_job

ROOT = Path(__file__).parents[1]
TARGET = ROOT / "docs" / "picture.png"
PAGE = """
#set page(width: auto, height: auto, margin: 14pt, fill: white)
#let d = json(bytes(sys.inputs.data))
#let drawn(n) = image(bytes(d.at(n)), format: "svg")
#grid(
  columns: 2, column-gutter: 28pt, row-gutter: 20pt, align: center + horizon,
  grid.cell(colspan: 2, drawn(0)), drawn(1), drawn(2),
)
"""


def main() -> None:
    """Write the picture."""
    project = draw_up(read_job((ROOT / "examples" / "pottery-studio.toml").read_text()))
    upper, lower = pair_scenes(project, project.parts["B4-L"], project.parts["B4-R"])
    pictures = (
        fit_elevation(walls(project)[0], (720, 330)),
        fit_to_room(exploded_view(project, "B4"), 360, 350),
        fit_to_room(upper, 360, 350, lower),
    )
    typeface = Path(str(files("font_source_sans_pro") / "files"))
    compiler = typst.Compiler(font_paths=typst.Fonts(font_paths=[typeface], include_system_fonts=False))
    data = json.dumps([svg(placed).decode() for placed in pictures])
    drawn = compiler.compile(input=PAGE.encode(), format="png", ppi=120, sys_inputs={"data": data})
    assert isinstance(drawn, bytes)
    TARGET.write_bytes(drawn)


if __name__ == "__main__":
    main()
