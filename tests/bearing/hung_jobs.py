"""Jobs with cases on a wall, of our own, for the tests of what they bear and how they are hung."""

from casewright.app.jobs.worked_job import WorkedJob, open_job

WALL = 'framing = { kind = "wood studs", first = 16, every = 16 }'

HUNG = """\
job = "Potting shed"
unit = "in"

[materials.ply]
sheet = "hardwood ply 3/4"
readings = ["23/32"]

[materials.thin]
sheet = "hardwood ply 1/4"
readings = ["7/32"]

[made_of]
case = "ply"
back = "thin"

[[runs]]
name = "upper"
wall = "north"
opening = 62
lift = 54
left_filler = { width = 2, scribe = "1/2" }
#run

[[runs.cases]]
mark = "W1"
kind = "wall"
height = 30
depth = 12
width = 30
construction = { strips = 2 }

[[runs.cases]]
mark = "W2"
kind = "wall"
height = 30
depth = 12
width = 30
construction = { strips = 2, back = "rabbet" }
bays = [{ adjustable = 1 }, { adjustable = 1 }]
"""


def hung(*entries: str) -> WorkedJob:
    """Two wall cases, 30 in wide and high, their lower edges 54 in up, the first from 2 in along the wall.
    The second has a divider in its middle. The run says what `entries` add to it."""
    return open_job(HUNG.replace("#run", "\n".join(entries)))


def on_studs(*entries: str) -> WorkedJob:
    """The same on a wall with a stud every 16 in."""
    return hung(WALL, *entries)


def changed(job: WorkedJob, *changes: tuple[str, str]) -> WorkedJob:
    """The job with the last place of each text replaced."""
    text = job.text
    for old, new in changes:
        before, found, after = text.rpartition(old)
        assert found, f"{old} is not in the job"
        text = f"{before}{new}{after}"
    return open_job(text)
