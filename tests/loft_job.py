"""A job whose face frames come from rough boards, one of which is at hand."""

from __future__ import annotations

from casewright.app.jobs.worked_job import PlannedJob
from planned_once import planned_once

LOFT = """
job = "Loft"
unit = "in"
money = "$"

[materials.ply]
sheet = "hardwood ply 3/4"
price = 82

[materials.maple]
name = "hard maple"
usual = "3/4"

[materials.maple.boards]
rough = "4/4"
price = 9.5
size = [96, 7]

[[materials.maple.boards.at_hand]]
name = "A"
length = 98
width = [7.25, "7 1/2", 7]
defects = [{ along = [30, 33], across = [1, 2] }, { along = [94, 98] }]

[made_of]
case = "ply"
back = "ply"
frame = "maple"

[construction]
frame = "pocket screws"

[[runs]]
name = "wall"
opening = 60

[[runs.cases]]
mark = "B1"
kind = "base"

[[runs.cases]]
mark = "B2"
kind = "base"
bays = [{}, {}]
"""


def loft() -> PlannedJob:
    """The job and its plan."""
    return planned_once(LOFT, 0.2)
