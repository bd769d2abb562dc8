"""A face frame at the bench: cut after the dry fit, joined with pocket screws, glued on last."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casewright.casework.job import Bay, Construction, FaceFrame, Job
from casewright.casework.parts.part import FACE_FRAME
from casewright.casework.project import Project, draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.shop.materials import SheetGood, Spread
from casewright.workshop.assembly.join_wording import IN_POCKETS, screw_groups
from casewright.workshop.assembly.joining import GlueUp, Stage, glue_ups
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.work import Work, work
from samples import job, spec

BOARD = SheetGood("maple", "maple boards", F(1), F(96), F(11, 2), Spread(F(3, 4), 0.004), trim=F(1, 8))


def framed() -> Job:
    made = Construction(frame=FaceFrame.POCKET_SCREWS)
    one = spec(bays=(Bay(), Bay()), construction=made)
    plain = job(replace(one, materials=replace(one.materials, frame="maple")), construction=made)
    return replace(plain, sheets={**plain.sheets, "maple": BOARD})


def planned() -> tuple[Project, Work]:
    project = draw_up(framed())
    plans = {key: solve(problem, MaxIterations(5)) for key, problem in cut_problems(project).items()}
    return project, work(project, plans)


def frame_joined(project: Project) -> GlueUp:
    (found,) = [one for one in glue_ups(project, "B1") if one.stage is Stage.FRAME]
    return found


def test_two_pocket_screws_hold_each_end_and_none_goes_through_the_face() -> None:
    project = draw_up(framed())
    joining = frame_joined(project)
    ends = {(joint.through, joint.into) for joint in joining.screws}
    rails = {(rail, stile) for rail in ("B1-RA1", "B1-RA2") for stile in ("B1-ST1", "B1-ST2")}
    assert ends == rails | {("B1-MU1", "B1-RA1"), ("B1-MU1", "B1-RA2")}
    (group,) = screw_groups(joining)
    # 1 1/4 in for frames of 3/4 in stock: common practice, from memory.
    assert (group.number, group.how, group.screw.length) == (12, IN_POCKETS, F(5, 4))
    screwed = {
        mark
        for one in glue_ups(project, "B1")
        for joint in one.screws
        for mark in (joint.through, joint.into)
    }
    case_parts = {part.mark for part in project if part.role not in FACE_FRAME}
    assert not {mark for joint in joining.screws for mark in (joint.through, joint.into)} & case_parts
    assert screwed & case_parts


def test_the_frame_is_cut_after_the_dry_fit_and_glued_on_last() -> None:
    project, done = planned()
    members = {part.mark for part in project if part.role in FACE_FRAME}
    place = {step.key: number for number, step in enumerate(done.operations)}
    cuts = [step for step in done.operations if members & {*step.sizes}]
    assert cuts and all(place[step.key] > place["B1 dry fit"] for step in cuts)
    joins = [one.key for one in glue_ups(project, "B1")]
    assert joins[-1] == frame_joined(project).key and place[joins[-1]] > max(place[key] for key in joins[:-1])
    assert frame_joined(project).glue > 0
