"""What the packet says beside its cautions: look-alike sizes, and joints that may not close."""

from __future__ import annotations

import re

from ..casework.project import Project
from ..packet.shop_packet import Notice
from ..repair.prevention.saw_check import look_alikes
from ..tolerance.figures import percent
from ..tolerance.outcomes.gap_spread import WORTH_A_WORD, GapSpread, fit
from ..tolerance.tolerance_wording import title

MOST_ALIKE, MOST_RISKS = 5, 8
"""Entries of a notice; a page that says everything is read by nobody, and with these it is one page."""

SEVERAL = 5


def notices(project: Project) -> tuple[Notice, ...]:
    """Every notice there is reason for."""
    found = (
        ("Sizes easily taken for one another", _look_alikes(project), MOST_ALIKE, "more such pairs"),
        (
            "Joints that may not close; measure at the dry fit",
            _risks(project),
            MOST_RISKS,
            "more such joints",
        ),
    )
    return tuple(Notice(title, _short(lines, most, more)) for title, lines, most, more in found if lines)


def _look_alikes(project: Project) -> list[str]:
    return [f"{alike.likeness.value.capitalize()}: {alike.advice}" for alike in look_alikes(project)]


def _risks(project: Project) -> list[str]:
    """The gaps likeliest to fail, the same one in several cases on one line."""
    found: dict[str, list[GapSpread]] = {}
    for spread in fit(project).at_risk(WORTH_A_WORD):
        place = spread.gap.place
        alike = re.sub(rf"(?<!\w){re.escape(place)}(?=[-.:])", "", spread.gap.name)
        found.setdefault(alike, []).append(spread)
    return [_risk(spreads) for spreads in found.values()]


def _risk(spreads: list[GapSpread]) -> str:
    worst = spreads[0]
    most, share = worst.share_of_kinds()[0]
    others = [spread.gap.place for spread in spreads[1:]]
    also = f" (and in {', '.join(others[:SEVERAL])}{' …' if len(others) > SEVERAL else ''})" if others else ""
    return f"{title(worst)}{also}: {percent(worst.chance)}, {share * 100:.0f} % of it from {most.value}."


def _short(lines: list[str], most: int, more: str) -> tuple[str, ...]:
    if len(lines) > most:
        lines = [*lines[: most - 1], f"and {len(lines) - most + 1} {more}."]
    return tuple(lines)
