"""Puts into words how a case on the floor is fixed to its wall, and who carries it there: the same for paper,
page and command."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from ..casework.project import Project
from ..lengths.in_a_sentence import listed
from ..lengths.length import Unit
from ..lengths.quantities import weighed
from ..lengths.told_lengths import PENCIL_MARKS, told
from ..shop.walls import Framing
from ..strength.tipping import CLOTHING_UNITS
from ..workshop.assembly.case_lifts import case_lift
from .hanging_sheet import StandTold
from .standing import OpenedCase, opened_case, wall_fastening

LEVELLED = (
    "Stand it in its place and level it: begin where the floor is highest and shim the rest up to that."
)
"""What is done with every case on the floor first. Common practice, no source."""

STUDS_TOLD = 4
"""Places of studs in one sentence; of more nothing is told but that they are there."""


def stand_told(project: Project, mark: str) -> StandTold:
    """A case on the floor: its step at the wall, and by which figure it is held there."""
    case, unit = project.cases[mark], project.job.unit
    fastening, lift = wall_fastening(project, case), case_lift(project, mark)
    up = told(fastening.up, PENCIL_MARKS[unit])
    through = "through its highest strip" if fastening.by_strip else "at its upper end"
    into = into_words(project, project.run_of(mark).run.wall, fastening.studs)
    return StandTold(
        mark,
        f"Before anything in it is opened, fix it to the wall {up} above the floor, {through}, {into}.",
        _held(opened_case(project, case), unit),
        "not known" if lift.carried is None else weighed(lift.carried, unit),
        lift.words(project),
    )


def _held(opened: OpenedCase | None, unit: Unit) -> str:
    """What the fastening bears with everything open, and by which figure; nothing where nothing opens."""
    if opened is None:
        return ""
    by = f"{CLOTHING_UNITS} with every door and drawer open ({as_tested(opened, unit)})"
    if opened.check.meets:
        return f"by itself it meets {by}; fixed all the same"
    return f"before it is fixed it does not meet {by}: a pull of {weighed(opened.pull, unit)} there holds it"


def as_tested(opened: OpenedCase, unit: Unit) -> str:
    """What is assumed of a case with everything open."""
    hung_on = weighed(opened.check.test_weight, unit)
    with_top = ", with its worktop on" if opened.check.case.on_top else ""
    return f"{hung_on} hung on one, drawers full, shelves empty, tilted as on carpet{with_top}"


def into_words(project: Project, wall_name: str, studs: Iterable[Fraction]) -> str:
    """Into what a case is fixed: studs by their places, studs that are yet to be found, or a wall that is
    another's business."""
    wall, finest = project.job.wall_of(wall_name), PENCIL_MARKS[project.job.unit]
    if wall.kind not in (Framing.WOOD_STUDS, None):
        return "as a licensed contractor says for this wall"
    places = sorted(set(studs))
    if places and len(places) <= STUDS_TOLD:
        known = listed(told(one, finest) for one in places)
        return f"into the stud{'s' if places[1:] else ''} {known} from the left end of “{wall_name}”"
    return "into the studs there" if places else "into studs"
