"""What is cut already when a plan follows from putting something right: kept in the plan file, as no shop's
record lies beside a job file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from ...planner.plan import Plan
from ...workshop.changed_cuts import ChangedCut
from ...workshop.operations import cut_key

MADE = "made"
"""The entry of a plan file with what is cut already."""


@dataclass(frozen=True)
class MadeAlready:
    """The `sheets` that are begun (`maple 2`), which stay as they are when it is planned again, the keys of
    the `steps` that are done, what the chosen way asks for beside the cuts, a sentence each (`mends`), and
    what it cuts otherwise than drawn (`changes`)."""

    sheets: tuple[str, ...] = ()
    steps: frozenset[str] = frozenset()
    mends: tuple[str, ...] = ()
    changes: tuple[ChangedCut, ...] = ()

    def entry(self) -> dict[str, Any]:
        """As an entry of the plan file; none where nothing is made."""
        if not self.sheets and not self.steps and not self.mends:
            return {}
        made = {"sheets": list(self.sheets), "steps": sorted(self.steps), "mends": list(self.mends)}
        changes = [[one.mark, one.feature, one.words] for one in self.changes]
        return {MADE: {**made, "changes": changes} if changes else made}

    def begun(self, plans: Mapping[str, Plan]) -> frozenset[tuple[str, int]]:
        """The sheets of these plans that are begun, each by its material's key and its number."""
        return frozenset(
            (key, sheet.number)
            for key, plan in plans.items()
            for sheet in plan.sheets
            if f"{key} {sheet.number}" in self.sheets
            or any(cut_key(key, sheet.number, cut.order) in self.steps for cut in sheet.cuts)
        )

    def in_plans(self, plans: Mapping[str, Plan]) -> MadeAlready:
        """The same without sheets that the plans no longer have."""
        there = {f"{key} {sheet.number}" for key, plan in plans.items() for sheet in plan.sheets}
        return replace(self, sheets=tuple(name for name in self.sheets if name in there))


NOTHING_MADE = MadeAlready()


def made_already(plain: Any) -> MadeAlready:
    """What a plan file says is made; nothing where it says so in no form that can be read."""
    entry = plain.get(MADE) if isinstance(plain, dict) else None
    if not isinstance(entry, dict):
        return NOTHING_MADE
    sheets, steps, mends = (_names(entry.get(name)) for name in ("sheets", "steps", "mends"))
    return MadeAlready(sheets, frozenset(steps), mends, tuple(_changes(entry.get("changes"))))


def _changes(value: Any) -> Iterator[ChangedCut]:
    for one in value if isinstance(value, list) else ():
        if len(said := _names(one)) == 3:
            yield ChangedCut(*said)


def _names(value: Any) -> tuple[str, ...]:
    return tuple(one for one in value if isinstance(one, str)) if isinstance(value, list) else ()
