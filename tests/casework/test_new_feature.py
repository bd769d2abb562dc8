"""A kind of feature that no layer has heard of: a hinge cup, all of it in this file.

A hinge maker's drilling sheet: the cup is 35 mm wide and 12.5 mm deep, its centre the boring distance and
17.5 mm in from the door's edge; the dowels are 8 mm wide, 45 mm apart and 9.5 mm behind the cup's centre.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction as F

import pytest

from casewright.app.views.job_views import JobView
from casewright.casework.directions import Axis, Box, Way
from casewright.casework.parts.cut_alike import cut_alike
from casewright.casework.parts.features import Feature, FeatureSize, Sized, place_from
from casewright.casework.parts.holes import Bore
from casewright.casework.parts.part import Part
from casewright.casework.project import Project, draw_up
from casewright.casework.size_names import FeatureSizes
from casewright.drawings.kit.scene import Dimension, Disc
from casewright.drawings.views.part_drawing import part_scenes
from casewright.lengths.length import MM
from casewright.repair.facts import AsCut
from casewright.repair.ways.still_right import Verdict, judge
from casewright.sizes.affine import Affine
from casewright.sizes.ledger import Given, Ledger, LedgerEntry, Sizes
from casewright.solids.part_shape import shape_of
from casewright.solids.part_solid import solid
from casewright.tolerance.chains.made_sizes import HowMade, made_sizes
from casewright.workshop.part_operations import own_operations
from samples import job


@dataclass(frozen=True)
class HingeCup:
    """The cup of a hinge and its two dowels, `boring` in from an edge, `up` from the lower end."""

    name: str
    face: Way
    edge: Way
    end: Way
    boring: Affine
    up: Affine
    kind_words = "hinge cup"
    count = Affine(1)

    @property
    def edges(self) -> tuple[Way, ...]:
        return (self.edge, self.end)

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        return (
            FeatureSize(self.boring, "in from the edge", self.edge, "cup"),
            FeatureSize(self.up, "up from the end", self.end, "cup"),
        )

    def cuts(self, part: Sized) -> tuple[Box, ...]:
        return ()

    def bores(self, part: Sized, sizes: Sizes) -> tuple[Bore, ...]:
        found = []
        across, up = sizes.of(self.boring) + F(35, 2) * MM, sizes.of(self.up)
        dowels = across + F(19, 2) * MM
        for in_from_edge, up_from_end, diameter in (
            (across, up, 35 * MM),
            (dowels, up - F(45, 2) * MM, 8 * MM),
            (dowels, up + F(45, 2) * MM, 8 * MM),
        ):
            mouth = {
                way.axis: sizes.of(place_from(way, part.size(way.axis), distance))
                for way, distance in ((self.face, F(0)), (self.edge, in_from_edge), (self.end, up_from_end))
            }
            centre = (mouth[Axis.X], mouth[Axis.Y], mouth[Axis.Z])
            found.append(Bore(centre, self.face.opposite, diameter / 2, F(25, 2) * MM))
        return tuple(found)


NAMES = FeatureSizes("B1-L", "cup")
GIVEN = {NAMES.setback.name: F(3, 16), NAMES.up.name: F(4)}


def with_cup(**changes: F) -> tuple[Project, Part]:
    """A side with a cup in it, as if it were a door."""
    plain = draw_up(job())
    given = {**GIVEN, **{f"B1-L.cup.{name}": value for name, value in changes.items()}}
    entries = {**plain.sizes.ledger, **{name: LedgerEntry(name, name, Given(v)) for name, v in given.items()}}
    sizes = Sizes(Ledger(entries), {**plain.sizes.values, **given}, 0)
    cup: Feature = HingeCup("cup", Way.RIGHT, Way.FRONT, Way.DOWN, NAMES.setback, NAMES.up)
    side = replace(plain.parts["B1-L"], features=(cup,))
    (run,) = plain.runs
    (case,) = run.cases
    parts = tuple(side if part.mark == side.mark else part for part in case.parts)
    made = replace(plain, sizes=sizes, runs=(replace(run, cases=(replace(case, parts=parts),)),))
    return made, side


def test_its_holes_are_bored_out_of_the_solid() -> None:
    project, side = with_cup()
    shape = shape_of(side, project.sizes)
    assert len(shape.bores) == 3 and not shape.cuts
    blank = replace(shape, bores=())
    taken = sum(3.14159 * float(bore.radius) ** 2 * float(bore.depth) for bore in shape.bores)
    assert solid(blank).volume() - solid(shape).volume() == pytest.approx(taken, rel=0.02)


def test_it_is_drawn_with_its_distances() -> None:
    project, side = with_cup()
    (scene,) = part_scenes(project, side)
    discs = [item for item in scene.items if isinstance(item, Disc)]
    assert [disc.name for disc in discs] == ["cup"] * 3
    texts = {item.text for item in scene.items if isinstance(item, Dimension)}
    assert any(text.startswith("4") and text.endswith("cup") for text in texts)
    assert any("3/16" in text for text in texts)


def test_it_is_shown_and_told_apart_and_judged() -> None:
    project, side = with_cup()
    (feature,) = JobView(project).part("B1-L").features
    assert feature.words == "hinge cup, from the front edge"
    assert [size.words for size in feature.sizes] == ["in from the edge", "up from the end"]
    assert "B1-R" not in next(group for group in cut_alike(project) if side in group.parts).marks
    moved, _ = with_cup(up=F(5))
    length, width, _ = project.dimensions(side)
    assert judge(project, moved, "B1-L", AsCut(length, width, worked=True)) is Verdict.REMAKE
    assert judge(project, project, "B1-L", AsCut(length, width, worked=True)) is Verdict.RIGHT


def test_its_places_are_laid_out_by_the_rule_and_nothing_is_set_for_it_yet() -> None:
    project, side = with_cup()
    made = made_sizes(project)
    assert {made[name].how for name in GIVEN} == {HowMade.RULE}
    assert own_operations(side.features[0], project, side, (), ()) == ()
