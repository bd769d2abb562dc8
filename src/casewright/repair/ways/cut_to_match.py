"""Features that were cut wrong, and sizes of the job changed so that they are right: their mates are cut to
match them.

A feature's place or depth is affine in the job's inputs, as a part's size is. The input of a shelf's height
or the case's own depth of a joint is moved by what the feature is out; what else is cut already must still be
right after that, and only parts and features that are still to be cut follow.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from fractions import Fraction

from ...casework.inputs import Sort, input_called
from ...casework.parts.features.feature import EDGE_WORDS, Feature
from ...casework.parts.part import Part
from ...casework.project import Project
from ...casework.size_names import CaseSizes, read_name
from ...lengths.length import show
from ...sizes.affine import Affine
from ...sizes.ledger import Given
from ..facts import AsCut, Facts
from .free_sizes import SizeChange, set_by, size_change
from .still_right import feature_form
from .way import Mend

JOINT_DEPTHS = frozenset({"dado_depth", "rabbet_depth", "groove_depth"})
"""Sizes of a case's construction that nobody sees, and that its mates follow."""


def changes_to_match(project: Project, mark: str, cut: AsCut) -> Iterator[SizeChange]:
    """Changes of inputs that make the part right with its features as they were cut.

    The shared widths of `project` must be fixed. Only parts with one fault, told by how much, are
    put right this way.
    """
    part = project.parts[mark]
    off = fault_off(part, cut)
    if off is None:
        return
    form, by = off
    for name, coefficient in project.sizes.ledger.expand(form).terms:
        yield from _changes(project, part, name, by / coefficient)


def fault_off(part: Part, cut: AsCut) -> tuple[Affine, Fraction] | None:
    """The place or depth of the one feature that is wrong, and by how much it is too large; None if it is not
    known, or more is wrong."""
    if len(cut.harms) != 1 or not cut.harms[0].by:
        return None
    (harm,) = cut.harms
    form = feature_form(part, harm)
    return (form, harm.by) if form is not None else None


def _changes(project: Project, part: Part, name: str, by: Fraction) -> Iterator[SizeChange]:
    ledger = project.sizes.ledger
    if not isinstance(ledger[name].definition, Given):
        return
    if read_name(name).what in JOINT_DEPTHS:
        own = set_by(project, CaseSizes(part.case).construction(read_name(name).what).name, by)
        if own.new > 0:
            yield size_change(project, (own,))
        return
    if input_called(project.job, name).sort is not Sort.SHELF:
        return
    first = set_by(project, name, by)
    if first.new <= 0:
        return
    yield size_change(project, (first,))
    for other in _next_heights(project, part.case, name):
        second = set_by(project, other, -by)
        if second.new > 0:
            yield size_change(project, (first, second))


def _next_heights(project: Project, case: str, name: str) -> Iterator[str]:
    """The clear height over the shelf that a clear height carries, so that the shelves above it stay."""
    for number, bay in enumerate(project.cases[case].spec.bays, 1):
        below = [CaseSizes(case).below(number, shelf).name for shelf in range(1, len(bay.fixed) + 1)]
        if name in below[:-1]:
            yield below[below.index(name) + 1]


def mates_to_cut(before: Project, after: Project, facts: Facts) -> tuple[Mend, ...]:
    """What is cut otherwise than planned, in words: parts that are not cut yet, and features that are not."""
    found: list[Mend] = []
    harmed = {mark for mark, cut in facts.spoiled.items() if cut.harms}
    match = " and ".join(sorted(harmed))
    for part in after:
        old = before.parts.get(part.mark)
        if old is None:
            continue
        steps: list[str] = []
        cut = facts.spoiled[part.mark] if part.mark in harmed else facts.finished.get(part.mark)
        if cut is None and part.mark not in facts.given_up:
            sizes = zip(after.dimensions(part), before.dimensions(old), strict=True)
            for (new, was), word in zip(sizes, ("long", "wide"), strict=False):
                if new != was:
                    steps.append(
                        f"Cut {part.mark} {_length(after, new)} {word}, {_length(after, abs(new - was))} "
                        f"{'more' if new > was else 'less'} than planned, to match {match}."
                    )
        made = {one.name for one in cut.made_of_it(part)} if cut else set()
        steps += _features(before, after, part, made, match)
        if steps:
            found.append(Mend(part.mark, Fraction(0), tuple(steps)))
    return tuple(found)


def _features(
    before: Project, after: Project, part: Part, made: Collection[str], match: str
) -> Iterator[str]:
    """The features of a part that are not as they were planned, beside those that are `made` already."""
    planned = {one.name: one for one in before.parts[part.mark].features}
    for one in part.features:
        if one.name in made:
            continue
        if one.name not in planned:
            yield f"Cut {one.name} of {part.mark} as it is now drawn."
            continue
        for text in _moved(before, after, one, planned[one.name]):
            yield f"Cut {one.name} of {part.mark} to match {match}: {text}."
    drawn = {one.name for one in part.features}
    for name in planned:
        if name not in drawn:
            yield f"Leave out {name} of {part.mark}."


def _moved(before: Project, after: Project, new: Feature, old: Feature) -> Iterator[str]:
    for one, other in zip(new.sizes, old.sizes, strict=True):
        size = after.sizes.of(one.form)
        if size != before.sizes.of(other.form):
            where = f" from the {EDGE_WORDS[one.edge]} edge" if one.edge else f" {one.words}"
            yield f"{_length(after, size)}{where}"


def _length(project: Project, length: Fraction) -> str:
    return show(length, project.job.mark, unit=True).marked
