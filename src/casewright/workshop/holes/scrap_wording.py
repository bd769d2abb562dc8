"""What a spacer between jig and edge is made of, in words."""

from __future__ import annotations

from fractions import Fraction

from ...casework.project import Project
from .boring import make_spacer


def scrap_words(project: Project, spacer: Fraction) -> str:
    """What to make a spacer of that goes between jig and edge: pieces of the job's sheets, or a strip."""
    sheets = project.job.sheets
    scraps = [
        (sheets[key].name, sheets[key].thickness) for key in dict.fromkeys(part.material for part in project)
    ]
    made = make_spacer(spacer, scraps)
    if made is None or abs(made.off) > Fraction(1, 64):
        return f": rip a strip {project.printed(spacer)} wide from an offcut"
    return ": " + " and ".join(f"{count} of {name}" for name, count in made.layers) + " from scrap"
