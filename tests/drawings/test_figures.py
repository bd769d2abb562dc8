"""Every figure on every drawing of the three examples is the size it names, and is drawn that long."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction as F
from functools import cache
from pathlib import Path

import pytest

from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.casework.extents import case_extent, part_extent
from casewright.casework.parts.part import Role
from casewright.casework.project import Project
from casewright.drawings.kit.lettering import THIN_SPACE
from casewright.drawings.kit.scene import Dimension, Item, Scene, Words
from casewright.drawings.views.chain_view import chain_scene
from casewright.drawings.views.elevation import elevation
from casewright.drawings.views.joint_drawing import joint_scene, joint_sections
from casewright.drawings.views.part_drawing import part_scenes
from casewright.drawings.views.plan_view import plan_view
from casewright.drawings.views.room import walls
from casewright.drawings.views.sheet_drawing import sheet_scene
from casewright.drawings.views.step_drawing import step_scene, stick_scene
from casewright.lengths.length import Rule, parse_length, show
from casewright.lengths.quantities import stock_size
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import PieceRole
from casewright.planner.solve import solve
from casewright.sizes.affine import Affine
from casewright.workshop.holes.boring import story_sticks

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("school-workshop", "pottery-studio", "ferry-canteen")
LINK = re.compile(r"^\d+  .+  ([+−]) (\S.*)$")


@cache
def planned(example: str) -> PlannedJob:
    worked = open_job((EXAMPLES / f"{example}.toml").read_text(encoding="utf-8"))
    return worked.with_plan({key: solve(one, MaxIterations(1)) for key, one in worked.problems.items()})


@pytest.fixture(params=NAMES)
def job(request: pytest.FixtureRequest) -> PlannedJob:
    return planned(request.param)


def printed(length: F, mark: Rule) -> str:
    """How a size is printed, by the formatter of the core alone."""
    return show(length, mark, gap=THIN_SPACE).marked


def figures(items: Scene | tuple[Item, ...]) -> list[str]:
    """The figures of dimensions, without the words behind them."""
    return [item.text.split("  ")[0] for item in items if isinstance(item, Dimension) and item.text]


def scenes(job: PlannedJob) -> Iterator[Scene]:
    """Every drawing of a job that has figures."""
    project, mark = job.project, job.project.rule
    for wall in walls(project):
        yield from (elevation(wall), plan_view(wall))
    for part in project:
        yield from part_scenes(project, part)
    for joint in joint_sections(project).values():
        yield joint_scene(joint, mark)
    for gap in job.fit.gaps.values():
        yield chain_scene(project, gap, "loose")
    for key, plan in job.plans.items():
        yield from (sheet_scene(one, mark, job.sheet_marks[key, one.number]) for one in plan.sheets)
    for operation in job.work.operations:
        if scene := step_scene(project, operation):
            yield scene
    for stick in story_sticks(project):
        yield stick_scene(stick, mark)


def test_every_dimension_is_as_long_as_it_says(job: PlannedJob) -> None:
    """A line from one place to another bears the distance between them, to less than a mark of the rule."""
    mark, seen = job.project.rule, 0
    for scene in scenes(job):
        for item in scene:
            if isinstance(item, Dimension) and item.text:
                link = LINK.match(item.text)
                text, _, decimal = (link[2] if link else item.text.split("  ")[0]).partition(" (")
                if decimal:
                    in_unit = F(decimal.rstrip(")")) * mark.unit.length
                    assert abs(float(in_unit) - (item.high - item.low)) <= 0.0005 + 1e-9, (
                        "the decimal is true too"
                    )
                said = parse_length(text.removeprefix("~").replace(THIN_SPACE, " "), mark.unit)
                off = abs(float(said) - (item.high - item.low))
                assert off <= (float(mark.step) if text.startswith("~") else 0.0) + 1e-9, (
                    scene.title,
                    item,
                )
                seen += 1
    assert seen > 500


def test_a_figure_with_a_name_is_the_size_of_that_name(job: PlannedJob) -> None:
    project, named = job.project, set()
    for wall in walls(project):
        for scene in (elevation(wall), plan_view(wall)):
            for item in scene:
                if isinstance(item, Dimension) and item.name:
                    assert item.text == printed(project.sizes.of(item.name), project.rule), item
                    named.add(item.name)
    for run in project.runs:
        assert run.opening.name in named
        assert {case.width.name for case in run.cases} <= named


def test_a_wall_s_other_figures_are_heights_and_depths_of_its_cases(job: PlannedJob) -> None:
    project = job.project
    for wall in walls(project):
        cases = [case for run in wall.runs for case in run.cases]
        levels = {level for case in cases for level in _levels(project, case.mark)}
        levels |= {run.run.ceiling for run in wall.runs if run.run.ceiling}
        allowed = {printed(level, project.rule) for level in levels}
        across = [item for item in elevation(wall) if isinstance(item, Dimension) and not item.name]
        assert across and set(figures(tuple(across))) <= allowed
        depths = {printed(project.sizes.of(case.depth), project.rule) for case in cases}
        unnamed = [item for item in plan_view(wall) if isinstance(item, Dimension) and not item.name]
        assert set(figures(tuple(unnamed))) == depths


def _levels(project: Project, mark: str) -> set[F]:
    """The heights at a case that may be figured: of its top and its foot above the floor, of its bottom's
    lower face, and from there to its top."""
    case = project.cases[mark]
    whole = case_extent(project, case)
    (bottom,) = (part_extent(project, part) for part in case.parts if part.role is Role.BOTTOM)
    return {whole.low[2], whole.high[2], bottom.low[2], whole.high[2] - bottom.low[2]}


def test_a_part_s_figures_are_its_own_sizes_and_places_and_no_others(job: PlannedJob) -> None:
    project, mark = job.project, job.project.rule
    of = project.sizes.of
    for part in project:
        thin = part.lie.thickness
        # A groove in an edge, for the panel of a door, is on no face: words and its section say how far in.
        drawn_on = [one for one in part.features if one.bench_joint or not one.face or one.face.axis is thin]
        places = [size.form for one in drawn_on for size in one.sizes if size.edge is not None]
        # A lap or a tongue begins at the end: how long it is tells where its shoulder lies.
        places += [one.width for one in part.channels if one.kind.on_sled]
        # The edging that is on before anything is cut counts: that is the part that is measured.
        whole = [part.size(axis) for axis in (part.lie.length, part.lie.width)]
        expected = {printed(of(form), mark) for form in (*whole, *places) if of(form)}
        drawn = {text for scene in part_scenes(project, part) for text in figures(scene)}
        assert drawn == expected, part.mark


def test_a_joint_s_figures_are_its_channel_s(job: PlannedJob) -> None:
    """Of a groove in an edge, as the panel of a door has one, also how far from the face it begins."""
    project, mark = job.project, job.project.rule

    def fine(form: Affine) -> str:
        return stock_size(project.sizes.of(form), mark.unit, gap=THIN_SPACE)

    sizes = {
        (
            fine(one.width),
            printed(project.sizes.of(one.depth), mark),
            fine(part.thickness),
            *((fine(one.at),) if one.face.axis is not part.lie.thickness else ()),
        )
        for part in project
        for one in part.channels
        if not one.kind.on_sled
    }
    drawn = {tuple(figures(joint_scene(joint, mark))) for joint in joint_sections(project).values()}
    assert drawn == sizes


def test_a_chain_s_figures_are_its_steps(job: PlannedJob) -> None:
    project, mark = job.project, job.project.rule
    assert job.fit.gaps
    for gap in job.fit.gaps.values():
        steps = [project.sizes.of(link.step) for link in gap.links if link.mate is None]
        expected = [("+" if step > 0 else "−", printed(abs(step), mark)) for step in steps if step]
        texts = (item.text for item in chain_scene(project, gap, "") if isinstance(item, Dimension | Words))
        assert [(found[1], found[2]) for text in texts if (found := LINK.match(text))] == expected, gap.name


def test_a_sheet_s_figures_are_its_own_and_those_of_its_parts(job: PlannedJob) -> None:
    mark, seen, measured = job.project.rule, 0, 0
    for key, plan in job.plans.items():
        for sheet in plan.sheets:
            scene = sheet_scene(sheet, mark, job.sheet_marks[key, sheet.number])
            assert figures(scene) == [printed(size, mark) for size in (sheet.root.length, sheet.root.width)]
            words = [item.text for item in scene if isinstance(item, Words)]
            for piece in sheet.root.walk():
                if piece.role is PieceRole.PART and piece.item:
                    part = job.project.parts[piece.item]
                    size = " × ".join(printed(one, mark) for one in job.project.dimensions(part)[:2])
                    # A strip that has no room for its size bears its mark, in it or led out beside the sheet.
                    assert piece.item in words or f"{piece.item}   {size}" in words, piece
                    measured += size in words or piece.item not in words
                    seen += 1
    from_boards = sum(job.project.job.sheets[part.material].boards is not None for part in job.project)
    assert seen == len(job.project.parts) - from_boards and measured >= 0.9 * seen


def test_a_setting_s_figures_are_those_of_its_feature(job: PlannedJob) -> None:
    project, mark, seen = job.project, job.project.rule, 0
    for operation in job.work.operations:
        scene = step_scene(project, operation)
        if scene is None or not operation.holes:
            continue
        feature = project.parts[operation.piece].feature(operation.feature)
        setback, first = (size.form for size in feature.sizes if size.edge is not None)
        assert set(figures(scene)) == {printed(project.sizes.of(form), mark) for form in (setback, first)}
        seen += 1
    assert seen
