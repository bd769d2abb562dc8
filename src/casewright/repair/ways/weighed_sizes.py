"""Changed sizes that would save a spoiled part, those that ask least first.

Sizes alone tell what a change would save, and are worked out again in a hundredth of the time that the whole
job takes. So the job is drawn up only for a change whose turn has come.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...casework.project import Project
from ..facts import AsCut, Facts
from ..sizes_taken import moves_what_is_used
from .complete_way import Remaining, remaining
from .cut_to_match import changes_to_match, fault_off
from .free_sizes import SizeChange, draw_up_or_none, size_changes, size_off, with_shared_fixed

MOST_WEIGHED = 64
"""How many changed sizes are weighed, those that show least first."""


@dataclass(frozen=True)
class WeighedChange:
    """A change of sizes, the job drawn up with it, and what that still needs."""

    change: SizeChange
    after: Project
    left: Remaining


def weighed_changes(project: Project, facts: Facts, missing: frozenset[str]) -> Iterator[WeighedChange]:
    """The changes that make a part of `missing` right as it was cut: first those with fewest parts to make
    again, then those with fewest to trim, then those that show least."""
    off = {mark: cut for mark, cut in facts.spoiled.items() if _may_be_matched(project, mark, cut)}
    if not off:
        return
    base = with_shared_fixed(project)

    def left_of(after: Project | None) -> Remaining | None:
        left = remaining(project, after, facts, accept=True) if after else None
        return left if left and not missing.isdisjoint(left.keep) else None

    worth: list[tuple[tuple[int, int, Fraction], SizeChange]] = []
    for change in _that_show_least(base, off):
        left = left_of(_resized(base, change))
        if left:
            worth.append(((left.remade, len(left.trim), change.in_sight), change))
    for _, change in sorted(worth, key=lambda one: one[0]):
        after = draw_up_or_none(change.apply(base.job))
        left = left_of(after)
        if after and left and not moves_what_is_used(base, after):
            yield WeighedChange(change, after, left)


def _may_be_matched(project: Project, mark: str, cut: AsCut) -> bool:
    """Whether one size is off that an input might be moved by."""
    part = project.parts[mark]
    return bool(fault_off(part, cut) if cut.harms else size_off(project, part, cut))


def _that_show_least(base: Project, off: dict[str, AsCut]) -> Iterable[SizeChange]:
    found: dict[frozenset[tuple[str, Fraction]], SizeChange] = {}
    for mark, cut in off.items():
        for change in changes_to_match(base, mark, cut) if cut.harms else size_changes(base, mark, cut):
            found.setdefault(frozenset((one.name, one.new) for one in change.inputs), change)
    return sorted(found.values(), key=lambda one: one.in_sight)[:MOST_WEIGHED]


def _resized(base: Project, change: SizeChange) -> Project | None:
    """The job with these sizes, its parts and joints as they are drawn; drawn up where a case sets for itself
    what the whole job gave it so far."""
    if any(one.name not in base.sizes.ledger for one in change.inputs):
        return draw_up_or_none(change.apply(base.job))
    return base.given({one.name: one.new for one in change.inputs})
