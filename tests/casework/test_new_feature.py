"""A kind of feature that no layer has heard of: a hinge cup, all of it in this file.

A hinge maker's drilling sheet: the cup is 35 mm wide and 12.5 mm deep, its centre the boring distance and
17.5 mm in from the door's edge; the dowels are 8 mm wide, 45 mm apart and 9.5 mm behind the cup's centre.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction as F
from functools import cache
from typing import Any

import pytest

from casewright.app.views.job_views import JobView
from casewright.casework.checks.case_checks import check_after
from casewright.casework.directions import Way
from casewright.casework.parts.cut_alike import cut_alike
from casewright.casework.parts.features.feature import Feature, FeatureDefaults, FeatureSize, Writer
from casewright.casework.parts.holes import HoleRow
from casewright.casework.parts.part import Part
from casewright.casework.project import Project, draw_up
from casewright.casework.size_names import FeatureSizes
from casewright.drawings.kit.scene import Dimension, Disc
from casewright.drawings.views.part_drawing import part_scenes
from casewright.drawings.views.step_drawing import step_scene
from casewright.findings import Finding
from casewright.lengths.length import MM
from casewright.packet.csv_tables import parts_csv
from casewright.packet.shop_packet import PacketContents, packet_data
from casewright.packet.work_in_short import work_in_short
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.repair.facts import AsCut
from casewright.repair.ways.still_right import Verdict, judge
from casewright.sizes.affine import Affine
from casewright.sizes.ledger import Given, Ledger, LedgerEntry, Sizes
from casewright.solids.part_shape import shape_of
from casewright.solids.part_solid import solid
from casewright.tolerance.chains.made_sizes import HowMade, made_sizes
from casewright.workshop.batch_wording import BatchWriter
from casewright.workshop.operations import Machine, OperationKind
from casewright.workshop.order.step_times import Pace
from casewright.workshop.sheets.cut_problems import cut_problems
from packet.packet_input import packet_of
from samples import job


@dataclass(frozen=True)
class HingeCup(FeatureDefaults):
    """The cup of a hinge and its two dowels, `boring` in from an edge, `up` from the lower end."""

    name: str
    face: Way
    edge: Way
    end: Way
    boring: Affine
    up: Affine
    kind_words = "hinge cup"

    @property
    def edges(self) -> tuple[Way, ...]:
        return (self.edge, self.end)

    @property
    def sizes(self) -> tuple[FeatureSize, ...]:
        return (
            FeatureSize(self.boring, "in from the edge", self.edge, "cup"),
            FeatureSize(self.up, "up from the end", self.end, "cup"),
        )

    def rows(self, sizes: Sizes) -> tuple[HoleRow, ...]:
        across, up, deep = sizes.of(self.boring) + F(35, 2) * MM, sizes.of(self.up), F(25, 2) * MM
        dowels = across + F(19, 2) * MM
        return (
            HoleRow(up, F(0), 1, across, 35 * MM, deep),
            HoleRow(up - F(45, 2) * MM, 45 * MM, 2, dowels, 8 * MM, deep),
        )

    def faults(self, part: Part, sizes: Sizes, write: Writer) -> Iterator[Finding]:
        deepest = max(row.depth for row in self.rows(sizes))
        if deepest >= sizes.of(part.thickness):
            text = f"the cup is {write(deepest)} deep."
            yield Finding("cup-too-deep", part.place_of(self), text, "Use a thicker door.")

    def called(self, sizes: Sizes, tag: str) -> str:
        return self.kind_words

    def callout(self, sizes: Sizes, write: Writer, stock: Writer, tag: str) -> str:
        cup, _ = self.rows(sizes)
        return f"hinge cup Ø {write(cup.diameter)} × {write(cup.depth)} deep"


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


def test_its_places_are_laid_out_by_the_rule() -> None:
    project, _ = with_cup()
    made = made_sizes(project)
    assert {made[name].how for name in GIVEN} == {HowMade.RULE}


def test_a_part_too_thin_for_it_is_refused_by_its_own_words() -> None:
    project, side = with_cup()
    (case,) = project.cases.values()
    assert not any(
        finding.code == "cup-too-deep" for finding in check_after(project.job, [case], project.sizes)
    )
    thin = replace(project, sizes=project.sizes.given({side.thickness.name: F(3, 8)}))
    (found,) = (one for one in check_after(project.job, [case], thin.sizes) if one.code == "cup-too-deep")
    assert found.place == "B1-L.cup" and "the cup is ~1/2" in found.text


@cache
def planned() -> PacketContents:
    """All that goes on paper of the job with the cup."""
    project, _ = with_cup()
    plans = {key: solve(problem, MaxIterations(5)) for key, problem in cut_problems(project).items()}
    return packet_of(project, plans, "7")


def test_it_is_set_up_and_bored_hole_by_hole() -> None:
    contents = planned()
    cup, dowels = (one for one in contents.work.operations if one.feature == "cup")
    assert (cup.kind, cup.setting.machine, cup.holes) == (OperationKind.BORE, Machine.DRILL, 1)
    assert cup.setting.cutter.width == 35 * MM and cup.setting.distance == F(3, 16) + F(35, 2) * MM
    assert dowels.holes == 2 and dowels.setting.distance - cup.setting.distance == F(19, 2) * MM
    assert cup.hold.against == "front edge"
    texts = [BatchWriter(contents.project, Pace()).batch_text(batch) for batch in contents.ordered.batches]
    said = {step.key: step.hold for text in texts for step in text.steps}
    assert "Stick along the front edge" in said[cup.key] and 'one hole at 4".' in said[cup.key]
    assert "2 holes, the first at ~3 1/8" in said[dowels.key]
    scene = step_scene(contents.project, dowels)
    assert scene is not None and sum(isinstance(item, Disc) for item in scene) == 2


def test_it_stands_on_paper() -> None:
    contents = planned()
    side = contents.project.parts["B1-L"]
    assert work_in_short(contents.project, side) == "3 holes"
    data: Any = packet_data(contents)
    (card,) = (card for card in data["cards"] if "B1-L" in card["marks"])
    assert "hinge cup" in card["picture"]["svg"] and "hinge cup Ø" in card["cuts"][0]
    (group,) = (one for one in data["settings"]["groups"] if "35 mm" in one["cutter"])
    holds = [hold for row in group["rows"] for hold in row["holds"]]
    assert any("B1-L" in way["marks"] for hold in holds for way in hold["ways"])
    assert b"3 holes" in parts_csv(contents.project)
