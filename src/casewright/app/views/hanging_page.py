"""The hanging page as the ways in show it: its lines and its pictures."""

from __future__ import annotations

from ...bearing.hanging_sheet import Doubt, HangingSheet, RowTold, ScribeTold
from ...drawings.views.hanging_view import hanging_pictures, pictures_case_by_case
from ..jobs.worked_job import WorkedJob
from .page_pictures import Picture, inline_svg

__all__ = [
    "Doubt",
    "HangingSheet",
    "RowTold",
    "ScribeTold",
    "hanging_of",
    "pictures_of_hanging",
    "pictures_of_hung_cases",
]

HUNG = (560.0, 300.0)
"""Points for the picture of a row of hung cases."""

ONE = (250.0, 250.0)
"""Points for one of them on a phone, which shows a point a third larger or more."""


def hanging_of(worked: WorkedJob) -> HangingSheet:
    """What there is to say where the job's cases hang."""
    return worked.borne.hanging_sheet


def pictures_of_hanging(worked: WorkedJob) -> tuple[Picture, ...]:
    """Every row of hung cases, in the order of the sheet."""
    placed = hanging_pictures(worked.borne, HUNG)
    return tuple(Picture(one.title, inline_svg(one)) for one in placed)


def pictures_of_hung_cases(worked: WorkedJob) -> tuple[tuple[Picture, ...], ...]:
    """The cases of each row one by one, as a phone shows them."""
    return tuple(
        tuple(Picture(one.title, inline_svg(one)) for one in row)
        for row in pictures_case_by_case(worked.borne, ONE)
    )
