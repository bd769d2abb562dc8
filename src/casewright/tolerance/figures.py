"""Sizes, gaps and chances as figures a maker reads."""

from __future__ import annotations

from fractions import Fraction

from ..casework.project import Project
from ..lengths.length import Mark, show
from ..lengths.quantities import caliper

FINE = {Mark.SIXTEENTH: Mark.SIXTY_FOURTH, Mark.THIRTY_SECOND: Mark.SIXTY_FOURTH}
FINE |= dict.fromkeys((Mark.MILLIMETRE, Mark.HALF_MILLIMETRE), Mark.TENTH_MILLIMETRE)


def fine(project: Project, value: Fraction | float) -> str:
    """A gap's size: on finer marks than the rule has, since gaps are smaller than marks."""
    mark = project.job.mark
    return show(Fraction(value), FINE.get(mark, mark), unit=True).plain


def small(project: Project, value: Fraction | float) -> str:
    """A gap or its spread as a caliper shows it: thousandths of an inch, hundredths of a millimetre."""
    return caliper(value, project.job.unit)


def length(project: Project, value: Fraction) -> str:
    """A size on the rule's marks."""
    return show(value, project.job.mark, unit=True).plain


def percent(chance: float) -> str:
    """A chance a person can read: no `0 %` for what can happen, no `100 %` for what may not."""
    if chance <= 0.0005:
        return "under 0.1 %"
    if chance < 0.1:
        return f"{chance * 100:.1f} %"
    return "over 99 %" if 0.99 < chance < 1.0 else f"{chance * 100:.0f} %"
