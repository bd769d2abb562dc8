"""Where the catalogue turns a part or swaps two, each cut that is made lies where one is wanted; where it
plugs or fills, no turn and no swap would have done.

Parts are boxes with boxes cut out of them; a turn is one of the three half turns of a box. The search for
ways has no part in it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from enum import Enum
from fractions import Fraction as F

import pytest

from casewright.casework.directions import Axis, Way
from casewright.casework.parts.features.channel import Channel
from casewright.casework.parts.features.feature import Feature
from casewright.casework.parts.features.hole_line import HoleLine
from casewright.casework.parts.features.notch import Notch
from casewright.casework.parts.features.pin_row import PinRow
from casewright.casework.parts.part import Part
from casewright.casework.project import Project
from repair.catalogue.asked_today import parts_of, project_of
from repair.catalogue.mishap import Cure, Damaged, FeatureWrong, Mishap, Report, WorkedAs, Wrong
from repair.catalogue.read_catalogue import read_catalogue

Stretch = tuple[F, F]
Cut = tuple[Stretch, Stretch, Stretch]
"""A box sawn out of a part: where it lies along x, y and z, from the part's low corner."""

CATALOGUE = read_catalogue(parts_of)


class Turn(Enum):
    """A half turn of a part, by the axis it is turned about; None leaves it as it lies."""

    NONE = None
    X = Axis.X
    Y = Axis.Y
    Z = Axis.Z


def reporting(kinds: type[Report] | tuple[type[Report], ...], *cures: Cure) -> pytest.MarkDecorator:
    chosen = [
        one for one in CATALOGUE if one.answer in cures and all(isinstance(r, kinds) for r in one.reports)
    ]
    assert chosen, cures
    return pytest.mark.parametrize("mishap", chosen, ids=lambda one: one.name)


@reporting((FeatureWrong, WorkedAs), Cure.TURN)
def test_a_turned_part_is_right_as_itself_or_as_its_mate(mishap: Mishap) -> None:
    turns = {turn for turn, _ in free_cures(mishap)}
    assert turns - {Turn.NONE}, "a half turn makes it right"
    assert Turn.NONE not in turns or Cure.SWAP in mishap.acceptable, "a mere swap would do"


@reporting(WorkedAs, Cure.SWAP)
def test_a_part_worked_as_another_is_right_in_its_place(mishap: Mishap) -> None:
    assert Turn.NONE in {turn for turn, _ in free_cures(mishap)}


@reporting(FeatureWrong, Cure.PLUG_AND_BORE, Cure.FILL_DADO, Cure.LET_IN_STRIP, Cure.CUT_MATE_TO_MATCH)
def test_what_is_plugged_or_filled_could_not_be_turned_or_swapped(mishap: Mishap) -> None:
    assert not list(free_cures(mishap))


@reporting(Damaged, Cure.TURN)
def test_damage_is_turned_to_the_wall_on_a_plain_part(mishap: Mishap) -> None:
    for one in mishap.reports:
        assert isinstance(one, Damaged)
        assert one.place == "front edge" and one.part not in mishap.worked


def free_cures(mishap: Mishap) -> Iterator[tuple[Turn, str]]:
    """Every half turn and part as which the first part reported is right with the cuts that it has.

    It may be itself, or any part of its size and material that is cut, plain and not glued; or its mate,
    where that is worked as this one.
    """
    project = project_of(mishap.job)
    first = mishap.reports[0]
    assert isinstance(first, FeatureWrong | WorkedAs)
    part = project.parts[first.part]
    worked_as = {one.part: one.other for one in mishap.reports if isinstance(one, WorkedAs)}
    there = cuts_made(project, mishap, part)
    for other in project:
        plain = other.mark not in mishap.worked and other.case not in mishap.glued
        free = plain or worked_as.get(other.mark) == part.mark
        if other.mark != part.mark and not free:
            continue
        if (other.material, project.dimensions(other)) != (part.material, project.dimensions(part)):
            continue
        if other.lie.length is not part.lie.length or other.lie.width is not part.lie.width:
            continue
        wanted = {cut for feature in other.features for cut in cuts_of(project, other, feature)}
        for turn in Turn:
            if {turned(project, part, cut, turn) for cut in there} <= wanted:
                yield turn, other.mark


def cuts_made(project: Project, mishap: Mishap, part: Part) -> set[Cut]:
    """The cuts that a part has, right and wrong ones."""
    wrong = {one.feature: one for one in mishap.reports if isinstance(one, FeatureWrong)}
    for one in mishap.reports:
        if isinstance(one, WorkedAs) and one.part == part.mark:
            other = project.parts[one.other]
            names = one.features or tuple(feature.name for feature in other.features)
            return {cut for name in names for cut in cuts_of(project, other, other.feature(name))}
    as_cut = [
        gone_wrong(part, one, wrong[one.name]) if one.name in wrong else one
        for one in part.features
        if part.mark in mishap.worked or one.name in wrong
    ]
    return {cut for feature in as_cut for cut in cuts_of(project, part, feature)}


def gone_wrong(part: Part, feature: Feature, report: FeatureWrong) -> Feature:
    """The feature as it was cut."""
    by = report.by or F(0)
    match feature, report.wrong:
        case ((Channel() | PinRow()), Wrong.FACE):
            return replace(feature, face=feature.face.opposite)
        case Channel(), (Wrong.END | Wrong.EDGE):
            return replace(feature, edge=feature.edge.opposite)
        case PinRow(), Wrong.END:
            return replace(feature, end=feature.end.opposite)
        case Notch(), Wrong.END:
            assert feature.second_edge.axis is part.lie.length
            return replace(feature, second_edge=feature.second_edge.opposite)
        case Channel(), Wrong.PLACE:
            return replace(feature, at=feature.at + by)
        case PinRow(), Wrong.PLACE:
            return replace(feature, first=feature.first + by)
        case Channel(), Wrong.WIDE:
            return replace(feature, width=feature.width + by)
        case Channel(), Wrong.DEEP:
            return replace(feature, depth=feature.depth + by)
    raise AssertionError(f"{feature.name} cannot have gone wrong like that: {report.wrong.value}")


def cuts_of(project: Project, part: Part, feature: Feature) -> Iterator[Cut]:
    """What a feature takes out of its part; a hole counts as the square around it."""
    of = project.sizes.of
    size = {axis: of(part.size(axis)) for axis in Axis}

    def span(way: Way, low: F, high: F) -> tuple[Axis, Stretch]:
        """From `low` to `high` in from the side that faces `way`."""
        whole = size[way.axis]
        return way.axis, (low, high) if way.sign < 0 else (whole - high, whole - low)

    def box(*spans: tuple[Axis, Stretch]) -> Cut:
        held = {axis: (F(0), whole) for axis, whole in size.items()} | dict(spans)
        return held[Axis.X], held[Axis.Y], held[Axis.Z]

    match feature:
        case Channel(face=face, edge=edge):
            at = of(feature.at)
            yield box(span(face, F(0), of(feature.depth)), span(edge, at, at + of(feature.width)))
        case Notch():
            yield box(
                span(feature.first_edge, F(0), of(feature.first)),
                span(feature.second_edge, F(0), of(feature.second)),
            )
        case HoleLine(face=face, edge=edge, end=end):
            half, setback = of(feature.diameter) / 2, of(feature.setback)
            for number in range(int(of(feature.number))):
                at = of(feature.first) + number * of(feature.pitch)
                yield box(
                    span(face, F(0), of(feature.depth)),
                    span(edge, setback - half, setback + half),
                    span(end, at - half, at + half),
                )
        case _:
            raise AssertionError(f"{feature.name} is of no kind that is known")


def turned(project: Project, part: Part, cut: Cut, turn: Turn) -> Cut:
    """The cut after a half turn of its part: both axes square to that of the turn are reversed."""
    if turn is Turn.NONE:
        return cut

    def along(axis: Axis) -> Stretch:
        low, high = cut[axis.value]
        size = project.sizes.of(part.size(axis))
        return (low, high) if axis is turn.value else (size - high, size - low)

    return along(Axis.X), along(Axis.Y), along(Axis.Z)


def test_no_turn_makes_a_worked_left_side_a_right_one() -> None:
    project = project_of("tests/repair/catalogue/seed-library.toml")
    left, right = project.parts["C1-L"], project.parts["C1-R"]
    made = {cut for feature in left.features for cut in cuts_of(project, left, feature)}
    wanted = {cut for feature in right.features for cut in cuts_of(project, right, feature)}
    assert len(made) == len(wanted)
    for turn in Turn:
        assert {turned(project, left, cut, turn) for cut in made} != wanted
        assert {turned(project, left, turned(project, left, cut, turn), turn) for cut in made} == made
