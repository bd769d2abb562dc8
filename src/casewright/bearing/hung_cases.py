"""The cases that hang: on which studs, with which screws, and whether those bear them empty and full."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import groupby

from ..casework.build.case import Case
from ..casework.directions import Axis
from ..casework.extents import RoomBox, case_body, part_extent
from ..casework.hung import hangs_on_wall
from ..casework.parts.part import Part, Role
from ..casework.parts.weights import weight_of
from ..casework.project import Project
from ..shop.materials import SheetGood
from ..shop.walls import KnownWall, StudWood
from ..strength.hung_on_screws import HangingStrip, HungCase, HungRow, first_that_meets, hung_row
from ..strength.stud_wall import StudWall, WallQuestion, wall_question
from ..strength.wood_screws import panel_gravities, wood_screws
from .job_shelves import BearingShelf, load_of
from .wall_shims import Shim, shims_behind

GAUGES = (8, 10, 12)
"""Screws that cases are hung with; a thinner one shears in a hardwood strip. Common practice, no source."""

LENGTHS = tuple(Fraction(quarters, 4) for quarters in (8, 10, 12, 14, 16))
"""Inches of them that are sold."""

DEEPEST = Fraction(2)
"""Inches that a screw goes into a stud at most: 3 in through a strip of 3/4 and a lining of 1/2 are usual,
longer ones come where cables are drilled through studs 3 1/2 in deep. Common practice, no source."""

X, Y, Z = (axis.value for axis in Axis)
BACK_BAND = Fraction(3)
"""Inches at the upper edge of a thick back that take the screws where a case has no strip. Ours."""


@dataclass(frozen=True)
class Hanging:
    """Cases side by side that hang, screwed to each other. `wall` is the wall as known, `question` what to
    ask of it before anything is worked out. `row` are the first screws that meet the design values, or the
    strongest there are; None where the wall takes no screws, or where something of a case is not known.
    `studs` are the middles of those behind the row, `shims` what brings its strips into one plane there; none
    where nobody has measured how flat the wall is. `full` is what each case weighs with what it holds, in
    pounds, None where that is not known: whoever is asked about a wall asks for it."""

    marks: tuple[str, ...]
    wall_name: str
    wall: KnownWall
    question: WallQuestion | None
    full: Mapping[str, Fraction | None]
    row: HungRow | None
    studs: tuple[Fraction, ...] = ()
    shims: tuple[Shim, ...] = ()


def hangings(project: Project, shelves: Iterable[BearingShelf]) -> tuple[Hanging, ...]:
    """Every row of cases that hang, from left to right, run by run."""

    def hangs(case: Case) -> bool:
        return hangs_on_wall(project.run_of(case.mark).run, case.spec)

    rows = [
        [case.mark for case in cases]
        for run in project.runs
        for hung, cases in groupby(run.cases, key=hangs)
        if hung
    ]
    loads = _loads(project, shelves, frozenset(mark for row in rows for mark in row))
    return tuple(_hanging(project, row, loads) for row in rows)


def _loads(project: Project, shelves: Iterable[BearingShelf], hung: Set[str]) -> Mapping[str, Fraction]:
    """Pounds in each hung case: on its shelves and on its bottom."""
    on: dict[str, Fraction] = {}
    loaded = [one.part for one in shelves if one.part.case in hung]
    bottoms = [part for mark in hung for part in project.cases[mark].parts if part.role is Role.BOTTOM]
    for part in {part.mark: part for part in (*loaded, *bottoms)}.values():
        box = part_extent(project, part).size
        load = load_of(project.job.use_of(part.mark, project.cases[part.case].spec))
        on[part.case] = on.get(part.case, Fraction(0)) + load.on_shelf(box[X], box[Y])
    return on


def _hanging(project: Project, marks: Sequence[str], loads: Mapping[str, Fraction]) -> Hanging:
    wall_name = project.run_of(marks[0]).run.wall
    wall = project.job.wall_of(wall_name)
    question = wall_question(wall.kind)
    left, right = (case_body(project, project.cases[mark]) for mark in (marks[0], marks[-1]))
    ends = (left.low[X], right.high[X])
    studs = wall.studs_between(*ends) if question is None else ()
    shims = shims_behind(project.run_of(marks[0]).run, ends, studs)
    packed = max((shim.thick for shim in shims), default=Fraction(0))
    empty = {mark: weight_of(project, project.cases[mark].own_parts) for mark in marks}
    full = {mark: None if own is None else own + loads.get(mark, 0) for mark, own in empty.items()}
    cases = [
        _hung(project, project.cases[mark], own, loads.get(mark, Fraction(0)), packed)
        for mark, own in empty.items()
    ]
    known = [case for case in cases if case is not None]
    row = _row(known, wall, studs) if len(known) == len(cases) and studs else None
    return Hanging(tuple(marks), wall_name, wall, question, full, row, studs, shims)


def _row(cases: Sequence[HungCase], wall: KnownWall, studs: tuple[Fraction, ...]) -> HungRow:
    behind = StudWall(studs, (wall.wood or StudWood.SPRUCE_PINE_FIR).value, wall.lining, wall.stud_width)
    known, lengths = wood_screws(), _not_too_deep(cases, wall)
    found = first_that_meets(cases, behind, [known[gauge] for gauge in GAUGES], lengths)
    return found or hung_row(cases, behind, known[GAUGES[-1]], lengths[-1])


def _not_too_deep(cases: Sequence[HungCase], wall: KnownWall) -> Sequence[Fraction]:
    """The lengths of screws that go no deeper into a stud than they may, through the thinnest strip there is;
    the shortest in any case."""
    strips = (strip for case in cases for strip in (case.strip, case.lower) if strip)
    passed = min(strip.before + strip.thickness + strip.behind for strip in strips) + wall.lining
    return [length for length in LENGTHS if length - passed <= DEEPEST] or LENGTHS[:1]


def _hung(
    project: Project, case: Case, empty: Fraction | None, contents: Fraction, packed: Fraction
) -> HungCase | None:
    """A case to hang, `packed` off the wall by so much at most; None where not enough is known of it."""
    strips = [replace(strip, behind=strip.behind + packed) for strip in _strips(project, case)]
    if empty is None or not strips:
        return None
    box = case_body(project, case)
    lower = strips[-1] if len(strips) > 1 else None
    return HungCase(case.mark, box.low[X], strips[0], box.size[Z], box.size[Y], empty, contents, lower)


def _strips(project: Project, case: Case) -> Sequence[HangingStrip]:
    """The strips of a case that screws go through, from above, or the upper edge of its back where it has
    none; nothing where it is not known what screws bear in them."""
    strips = [part for part in case.parts if part.role is Role.MOUNTING_STRIP]
    backs = [part for part in case.parts if part.role is Role.BACK]
    body = case_body(project, case)
    flat = [part_extent(project, back) for back in backs]
    found = (_strip(project, body, flat, part, whole=bool(strips)) for part in strips or backs)
    ordered = sorted((one for one in found if one), key=lambda one: (-one.at, one.left))
    return [_joined(list(alike)) for _, alike in groupby(ordered, key=lambda one: one.at)]


def _joined(pieces: Sequence[HangingStrip]) -> HangingStrip:
    """The strips at one height, one in each bay, as one that dividers part."""
    first, *others = pieces
    return replace(first, more=tuple((one.left, one.right) for one in others))


def _strip(
    project: Project, body: RoomBox, backs: Sequence[RoomBox], part: Part, *, whole: bool
) -> HangingStrip | None:
    """A strip in the `body` of a case with these backs, or the upper edge of a back: `whole` tells that all
    its height takes screws. A back in grooves lies before the strip, others behind it."""
    gravity = strip_gravity(project.job.sheets[part.material])
    if gravity is None:
        return None
    box = part_extent(project, part)
    high = box.size[Z] if whole else min(box.size[Z], BACK_BAND)
    return HangingStrip(
        box.low[X] - body.low[X],
        box.high[X] - body.low[X],
        box.high[Z] - high / 2 - body.low[Z],
        high,
        box.size[Y],
        gravity,
        max(body.high[Y], *(back.high[Y] for back in backs), box.high[Y]) - box.high[Y],
        max((back.size[Y] for back in backs if back.high[Y] <= box.low[Y]), default=Fraction(0)),
    )


def strip_gravity(sheet: SheetGood) -> float | None:
    """The specific gravity that screws through a strip are reckoned with; None where none is published."""
    if sheet.wood is not None:
        return float(sheet.wood.gravity)
    return None if sheet.kind is None else panel_gravities().get(sheet.kind.value)
