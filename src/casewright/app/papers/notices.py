"""What the packet says beside its cautions: look-alike sizes, and joints to look at at the dry fit."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ...packet.shop_packet import Notice
from ...repair.prevention.saw_check import LookAlike
from ..fit.fit_page import worth_a_look
from ..jobs.worked_job import PlannedJob

MOST_ALIKE, MOST_RISKS = 5, 8
"""Entries of a notice; a page that says everything is read by nobody, and with these it is one page."""


def notices(planned: PlannedJob) -> tuple[Notice, ...]:
    """Every notice there is reason for."""
    found = (
        (
            "Sizes that are easily confused",
            _look_alikes(planned.worked.look_alikes),
            MOST_ALIKE,
            "more such pairs",
        ),
        (
            "Joints to look at when the case is put together dry",
            [look.text for look in worth_a_look(planned.fit)],
            MOST_RISKS,
            "more such joints",
        ),
    )
    return tuple(Notice(title, _short(lines, most, more)) for title, lines, most, more in found if lines)


def _look_alikes(pairs: Iterable[LookAlike]) -> list[str]:
    return [f"{alike.likeness.value.capitalize()}: {alike.advice}" for alike in pairs]


def _short(lines: Sequence[str], most: int, more: str) -> tuple[str, ...]:
    if len(lines) > most:
        lines = [*lines[: most - 1], f"and {len(lines) - most + 1} {more}."]
    return tuple(lines)
