"""One cause said once, where many parts suffer from it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from ...findings import Finding
from ..parts.part import Role

_ROLES = re.compile("|".join(sorted((role.value for role in Role), key=len, reverse=True)))


def each_once(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings, those alike but for the part or case they stand at put into one, at the first.

    A joint deeper than its panel is one depth to correct, in however many sides it is cut.
    """
    alike: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in findings:
        key = (finding.code, _ROLES.sub("", finding.text), finding.fix)
        alike.setdefault(key, []).append(finding)
    return tuple(
        replace(first, text=f"{first.text} {_others(len(others))}") if others else first
        for first, *others in alike.values()
    )


def _others(number: int) -> str:
    return "The same in one other place." if number == 1 else f"The same in {number} other places."
