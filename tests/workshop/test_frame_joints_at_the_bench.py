"""The joints of face frames at the bench: laps on the sled, holes and mortises from the front face, tenons,
and a frame over several cases that waits for all of them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from functools import cache
from itertools import pairwise

import pytest

from casewright.casework.job import Bay, FaceFrame
from casewright.casework.parts.part import FACE_FRAME
from casewright.casework.project import Project, draw_up
from casewright.planner.engine import MaxIterations
from casewright.planner.solve import solve
from casewright.workshop.assembly.joining import Stage, glue_ups
from casewright.workshop.batch_wording import BatchText, BatchWriter
from casewright.workshop.frame_joint_work import splitting_words
from casewright.workshop.hardware import Dowels, hardware
from casewright.workshop.operations import Guide, Machine, OperationKind
from casewright.workshop.order.batches import order
from casewright.workshop.safety.hazards import Hazard
from casewright.workshop.sheets.cut_problems import cut_problems
from casewright.workshop.work import Work, work
from framed_jobs import JOINTS, framed
from samples import spec


@cache
def planned(joint: FaceFrame, share: bool = False) -> tuple[Project, Work]:
    one = spec(bays=(Bay(), Bay()))
    more = (replace(one, mark="B2"),) if share else ()
    project = draw_up(framed(joint, one, *more, share=share))
    plans = {key: solve(problem, MaxIterations(5)) for key, problem in cut_problems(project).items()}
    return project, work(project, plans)


def told(joint: FaceFrame, *kinds: OperationKind) -> list[BatchText]:
    project, done = planned(joint)
    writer = BatchWriter(project)
    batches = order(done.operations, prove=0).batches
    return [writer.batch_text(one) for one in batches if one.operations[0].kind in kinds]


@pytest.mark.parametrize("wide", [F(3, 2), F(2), F(5, 2)])
def test_the_passes_of_a_lap_take_all_of_it_and_no_more(wide: F) -> None:
    """From the shoulder to the end, or from wall to wall, measured from the end that is at the stop."""
    case = spec(bays=(Bay(), Bay()))
    made = framed(FaceFrame.HALF_LAPS, case, frame_stile=wide, frame_rail=wide, frame_mullion=wide)
    project = draw_up(made)
    done = work(project, {})
    laps = [(part, lap) for part in project if part.role in FACE_FRAME for lap in part.channels]
    assert len(laps) == 2 * 2 + 2 * 3 + 2
    for part, lap in laps:
        passes = [one for one in done.by_part[part.mark] if one.feature == lap.name]
        long = project.dimensions(part)[0]
        cuts = []
        for one in passes:
            assert (one.kind, one.setting.guide) == (OperationKind.LAP, Guide.STOP)
            assert one.setting.height == project.sizes.of(lap.depth) and not one.setting.buried
            near, far = one.setting.distance, one.setting.far_side
            turned = one.hold.against.split()[0] != {"LEFT": "left", "RIGHT": "right"}.get(
                lap.edge.name, {"DOWN": "lower", "UP": "upper"}.get(lap.edge.name)
            )
            cuts.append((long - far, long - near) if turned else (near, far))
        cuts.sort()
        at = project.sizes.of(lap.at)
        assert (cuts[0][0], cuts[-1][1]) == (at, at + wide)
        assert all(later[0] < before[1] for before, later in pairwise(cuts))


def test_laps_are_tried_on_two_pieces_and_never_run_along_the_fence() -> None:
    batches = told(FaceFrame.HALF_LAPS, OperationKind.LAP)
    assert batches
    for batch in batches:
        assert "stop at" in batch.title and any("two test pieces" in line for line in batch.setting)
        (guard,) = (one for one in batch.cautions if one.hazard is Hazard.GUARD)
        assert "hands on the sled" in guard.text
        assert not any("fence" in line or "-" in line for line in batch.setting)
        assert all("against the sled's stop" in step.hold for step in batch.steps)


def test_dowels_are_bored_from_the_front_face_and_bought() -> None:
    project, done = planned(FaceFrame.DOWELS)
    bored = [one for one in done.operations if one.kind is OperationKind.FRAME_JOINT]
    assert len(bored) == 12 and {one.holes for one in bored} == {2}
    assert {(one.setting.machine, one.setting.guide) for one in bored} == {(Machine.DRILL, Guide.FRONT_FACE)}
    assert {(one.setting.distance, one.setting.height) for one in bored} == {(F(3, 8), F(17, 16))}
    (batch,) = {text.title: text for text in told(FaceFrame.DOWELS, OperationKind.FRAME_JOINT)}.values()
    assert any("two offcuts" in line for line in batch.setting)
    assert any(one.hazard is Hazard.DRILL for one in batch.cautions)
    # A dowel of 3/8 x 2 in, the size that is sold, leaves 1/16 in for glue at each end.
    bought = hardware(project, glue_ups(project, "B1")).dowels
    assert bought == (Dowels(F(3, 8), F(2), 12),)


def test_mortises_have_a_setting_and_tenons_are_cut_to_them() -> None:
    batches = told(FaceFrame.MORTISE_AND_TENON, OperationKind.FRAME_JOINT)
    titles = [batch.title for batch in batches]
    assert "Cut the mortises of the face frames" in titles and "Cut the tenons of the face frames" in titles
    for batch in batches:
        assert any("offcut of the frame's stock first" in line for line in batch.setting)
        assert batch.cautions
    steps = {step.key: step.hold for batch in batches for step in batch.steps}
    assert steps["B1-ST1 lower-joint"] == 'In the right edge: begins 1/4" from the LOWER END, 1" long.'
    assert steps["B1-RA1 left-end"].startswith('On the left end: 1" long, 1/4" thick')


def test_ends_with_a_mortise_close_by_are_kept_from_splitting() -> None:
    """A stile's mortises leave 1/4 in to its ends; those in rails, for mullions, are far from any."""
    (mortises,) = (
        one for one in told(FaceFrame.MORTISE_AND_TENON, OperationKind.FRAME_JOINT) if "drill" in one.machine
    )
    (hint,) = mortises.hints
    assert "splits easily" in hint and hint in mortises.setting
    project, done = planned(FaceFrame.MORTISE_AND_TENON)
    joints = [one for one in done.operations if one.kind is OperationKind.FRAME_JOINT]
    in_rails = [one for one in joints if "-RA" in one.piece and one.setting.machine is Machine.DRILL]
    assert in_rails and not [*splitting_words(project, in_rails)]


@pytest.mark.parametrize("joint", JOINTS)
def test_every_joint_is_made_between_the_cut_and_the_glue(joint: FaceFrame) -> None:
    project, done = planned(joint)
    place = {step.key: number for number, step in enumerate(done.operations)}
    made = [one for one in done.operations if one.kind in (OperationKind.LAP, OperationKind.FRAME_JOINT)]
    features = {(part.mark, one.name) for part in project if part.role in FACE_FRAME for one in part.features}
    assert {(one.piece, one.feature) for one in made} == features
    for one in made:
        assert place["B1 dry fit"] < place[one.key] < place["B1 face frame"]
    (frame,) = (one for one in glue_ups(project, "B1") if one.stage is Stage.FRAME)
    assert bool(frame.screws) == (joint is FaceFrame.POCKET_SCREWS)


@pytest.mark.parametrize("joint", JOINTS)
def test_one_frame_waits_for_every_case_under_it(joint: FaceFrame) -> None:
    project, done = planned(joint, share=True)
    place = {step.key: number for number, step in enumerate(done.operations)}
    members = {part.mark for part in project if part.role in FACE_FRAME}
    assert {project.parts[mark].case for mark in members} == {"B1"}
    for cut in (step for step in done.operations if members & {*step.sizes}):
        alone = {*cut.parts} <= members
        assert not alone or {"B1 dry fit", "B2 dry fit"} <= {*cut.after}
        assert place[cut.key] > max(place["B1 dry fit"], place["B2 dry fit"])
    others = [place[one.key] for case in ("B1", "B2") for one in glue_ups(project, case)]
    assert place["B1 face frame"] == max(others)
    (frame,) = (one for one in glue_ups(project, "B1") if one.stage is Stage.FRAME)
    assert "covers B1 and B2" in frame.words and "screw them together" in frame.words
    assert not [one for one in glue_ups(project, "B2") if one.stage is Stage.FRAME]


@pytest.mark.parametrize("joint", [one for one in JOINTS if one is not FaceFrame.POCKET_SCREWS])
@pytest.mark.parametrize("bays", [1, 2])
def test_mullions_are_named_only_where_there_are_some(joint: FaceFrame, bays: int) -> None:
    project = draw_up(framed(joint, spec(bays=(Bay(),) * bays)))
    (words,) = (one.words for one in glue_ups(project, "B1") if one.stage is Stage.FRAME)
    joining = words.split("Then glue it over")[0]
    assert "{" not in joining and "both diagonals equal" in joining
    assert ("mullion" in joining) is (bays == 2)


@pytest.mark.parametrize(
    ("joint", "made"),
    [(FaceFrame.DOWELS, {"pair of dowels"}), (FaceFrame.MORTISE_AND_TENON, {"mortise", "tenon"})],
)
def test_a_joint_is_called_by_its_own_name(joint: FaceFrame, made: set[str]) -> None:
    """The packet begins each line with it; `frame joint` is no word of the trade."""
    assert {step.kind for batch in told(joint, OperationKind.FRAME_JOINT) for step in batch.steps} == made
