"""What the packet says beside its cautions: look-alike sizes, and joints that may not close."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ...packet.shop_packet import Notice
from ...repair.prevention.saw_check import LookAlike
from ...tolerance.outcomes.gap_spread import WORTH_A_WORD, Fit, GapSpread
from ...tolerance.tolerance_wording import gap_title, percent_text
from ..jobs.worked_job import PlannedJob

MOST_ALIKE, MOST_RISKS = 5, 8
"""Entries of a notice; a page that says everything is read by nobody, and with these it is one page."""

SEVERAL = 5


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
            "Joints that may not close; measure at the dry fit",
            _risks(planned.fit),
            MOST_RISKS,
            "more such joints",
        ),
    )
    return tuple(Notice(title, _short(lines, most, more)) for title, lines, most, more in found if lines)


def _look_alikes(pairs: Iterable[LookAlike]) -> list[str]:
    return [f"{alike.likeness.value.capitalize()}: {alike.advice}" for alike in pairs]


def _risks(fit: Fit) -> list[str]:
    """The gaps likeliest to fail, the same one in several cases on one line."""
    found: dict[str, list[GapSpread]] = {}
    for spread in fit.at_risk(WORTH_A_WORD):
        place = spread.gap.place
        alike = re.sub(rf"(?<!\w){re.escape(place)}(?=[-.:])", "", spread.gap.name)
        found.setdefault(alike, []).append(spread)
    return [_risk(spreads) for spreads in found.values()]


def _risk(spreads: list[GapSpread]) -> str:
    worst = spreads[0]
    most, share = worst.share_of_kinds()[0]
    others = [spread.gap.place for spread in spreads[1:]]
    also = f" (and in {', '.join(others[:SEVERAL])}{' …' if len(others) > SEVERAL else ''})" if others else ""
    cause = f"{share * 100:.0f} % of it from {most.value}"
    return f"{gap_title(worst)}{also}: {percent_text(worst.chance)}, {cause}."


def _short(lines: list[str], most: int, more: str) -> tuple[str, ...]:
    if len(lines) > most:
        lines = [*lines[: most - 1], f"and {len(lines) - most + 1} {more}."]
    return tuple(lines)
