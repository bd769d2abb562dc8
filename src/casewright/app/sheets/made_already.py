"""What is cut already when a plan follows from putting something right: kept in the plan file, as no shop's
record lies beside a job file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from ...planner.plan import Plan
from ...workshop.boards.board_work import board_of_step
from ...workshop.changed_cuts import ChangedCut
from ...workshop.operations import cut_key

MADE = "made"
"""The entry of a plan file with what is cut already."""


@dataclass(frozen=True)
class SizeAsMade:
    """A part's material and size (inches), as the job had it when it was handed out or put right."""

    material: str
    length: Fraction
    width: Fraction


@dataclass(frozen=True)
class MadeAlready:
    """The `sheets` that are begun (`maple 2`), which stay as they are when it is planned again, the keys of
    the `steps` that are done, what the chosen way asks for beside the cuts, a sentence each (`mends`), and
    what it cuts otherwise than drawn (`changes`).

    `parts` are those that come of a begun sheet in another size than the job now has them in, by their marks:
    they are trimmed, or used as they were cut, and not planned again while the job has them in this size.
    """

    sheets: tuple[str, ...] = ()
    steps: frozenset[str] = frozenset()
    mends: tuple[str, ...] = ()
    changes: tuple[ChangedCut, ...] = ()
    parts: Mapping[str, SizeAsMade] = field(default_factory=dict, hash=False)

    def entry(self) -> dict[str, Any]:
        """As an entry of the plan file; none where nothing is made."""
        if not self.sheets and not self.steps and not self.mends:
            return {}
        parts = {mark: [one.material, str(one.length), str(one.width)] for mark, one in self.parts.items()}
        made = {"sheets": list(self.sheets), "steps": sorted(self.steps), "mends": list(self.mends)}
        changes = [[one.mark, one.feature, one.words] for one in self.changes]
        more = {"changes": changes, "parts": parts}
        return {MADE: {**made, **{name: value for name, value in more.items() if value}}}

    def begun(self, plans: Mapping[str, Plan]) -> frozenset[tuple[str, int]]:
        """The sheets of these plans that are begun, each by its material's key and its number."""
        return frozenset(
            (key, sheet.number)
            for key, plan in plans.items()
            for sheet in plan.sheets
            if f"{key} {sheet.number}" in self.sheets
            or any(cut_key(key, sheet.number, cut.order) in self.steps for cut in sheet.cuts)
        )

    @property
    def begun_boards(self) -> frozenset[tuple[str, int]]:
        """The boards that a step was done on, each by its material's key and its number."""
        return frozenset(board for key in self.steps if (board := board_of_step(key)) is not None)

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
    changes, parts = tuple(_changes(entry.get("changes"))), dict(_parts(entry.get("parts")))
    return MadeAlready(sheets, frozenset(steps), mends, changes, parts)


def _changes(value: Any) -> Iterator[ChangedCut]:
    for one in value if isinstance(value, list) else ():
        if len(said := _names(one)) == 3:
            yield ChangedCut(*said)


def _parts(value: Any) -> Iterator[tuple[str, SizeAsMade]]:
    for mark, entry in value.items() if isinstance(value, dict) else ():
        if len(one := _names(entry)) != 3:
            continue
        try:
            yield mark, SizeAsMade(one[0], Fraction(one[1]), Fraction(one[2]))
        except (ValueError, ZeroDivisionError):
            continue


def _names(value: Any) -> tuple[str, ...]:
    return tuple(one for one in value if isinstance(one, str)) if isinstance(value, list) else ()
