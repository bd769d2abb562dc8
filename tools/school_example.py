"""Writes examples/school-workshop.toml: a job of about 60 cases, to see how things grow.

The school and its rooms are invented. `python tools/school_example.py` writes the file anew; a
test sees that it is the one this script writes.
"""

from __future__ import annotations

from pathlib import Path

HEAD = """\
# A school's workshop and its store rooms: 60 cases in ten runs. All of it is invented, prices
# too. Written by tools/school_example.py; change that, not this.

job = "School workshop and store rooms"
unit = "in"
mark = "1/32 in"
money = "$"
notes = "Build room by room: the workshop is wanted first, the stores can wait for the holidays."

[materials.oak]
sheet = "hardwood ply 3/4"
name = "oak plywood 3/4"
readings = [0.715, 0.711, 0.713]
price = 98

[materials.fir]
sheet = "softwood ply 23/32"
name = "fir plywood 23/32"
readings = [0.702, 0.699, 0.708]
price = 51

[materials.mdf]
sheet = "mdf 3/4"
name = "MDF 3/4"
price = 46

[materials.thin]
sheet = "hardwood ply 1/4"
name = "oak plywood 1/4"
readings = [0.212, 0.209]
price = 41

[materials.panel]
sheet = "hardboard 1/4"
name = "hardboard for backs"
price = 19

# For the bench's doors and drawers: sheets chosen for their faces, and birch for the boxes.

[materials.face]
sheet = "hardwood ply 3/4"
name = "oak plywood 3/4, A1 face"
readings = [0.717, 0.714, 0.716]
price = 124

[materials.half]
sheet = "hardwood ply 1/2"
name = "birch plywood 1/2"
readings = [0.470, 0.473]
price = 62

# For the face frames and doors over the glue and the finish, which the top class makes.

[materials.boards]
name = "red oak 4/4"
wood = "red oak"
usual = "3/4"

[materials.boards.boards]
rough = "4/4"
grade = "FAS"
price = 7.80

[climate]
shop = 8
house_dry = 6
house_damp = 11

[edging.strip]
name = "oak strips 1/8"
thickness = "1/8"
width = "7/8"
stick = 96
price = 3.20

[edged]
front = "strip"

[hinges.cup]
like = "full overlay"
from_end = 3
price = 2.90

[hinges.lap]
like = "half overlay"
price = 3.10

[slides.side]
like = "side mount"
price = 16

[fitted_with]
hinge = "cup"

[made_of]
case = "oak"
back = "thin"
shelf = "oak"
strip = "fir"
toe = "fir"
front = "face"
drawer = "half"

[loads]
load = "20 lb/ft2" # hand tools and tins of finish

[construction]
dado_play = "1/64"

[wall]
construction = { back = "rabbet" }

[tall]
made_of = { case = "fir", back = "panel", shelf = "mdf" }
construction = { toe = "plinth" }

[open]
height = 60
made_of = { case = "fir", shelf = "mdf" }
construction = { back = "applied" }

# What `casewright costs` counts besides sheets and boards, and what an hour counts as, invented as well:
# enter your own before you quote by it.

[costs]
markup = 10
other_hours = 40
pin = 0.10
screw = 0.05

[costs.glue]
price = 21
covers = "110 ft2"

[costs.finish]
name = "water-borne varnish"
price = 58
covers = "400 ft2"
coats = 3
per_hour = "70 ft2"
not_on = ["fir", "mdf", "panel"]

[costs.blade]
price = 28
lasts = "1500 ft"

[costs.dado_stack]
price = 70
lasts = "1000 ft"

[shop]
hourly = 52

[shop.pin_jig]
use = "pin jig"

[[shop.rack]]
name = "rack, upper arm"
material = "oak"
length = 60
width = "22 3/4"
worth = 25

[[shop.rack]]
name = "rack, lower arm"
material = "fir"
length = "47 1/2"
width = 36
count = 2
worth = 12
"""

Bays = tuple[str, ...]
STACK = "{ fixed = [11], adjustable = 1 }"
SHELVED: Bays = ("{ adjustable = 2 }",)
LOCKED: Bays = ('{ adjustable = 2, fronts = [{ kind = "two doors" }] }',)
LOCKED_HALVES: Bays = (
    '{ fixed = [14], fronts = [{ kind = "door" }] }',
    '{ adjustable = 2, fronts = [{ kind = "door", hung = "right" }] }',
)
ONE_SHELF: Bays = ("{ adjustable = 1 }",)
CUPBOARD: Bays = ('{ adjustable = 1, fronts = [{ kind = "two doors" }, { kind = "drawer", height = 5 }] }',)
TRAYS: Bays = ("{ width = 11, adjustable = 3 }", STACK)
LOCKER: Bays = ("{ fixed = [30, 18], adjustable = 1 }",)
BROOMS: Bays = ("{ width = { share = 2 }, fixed = [64] }", "{ adjustable = 5 }")
CRATES: Bays = ("{ fixed = [16, 16], adjustable = 1 }", "{ fixed = [22], adjustable = 2 }")
FRAMED = (
    'depth = "12 3/4"',
    'construction = { frame = "pocket screws", door = "frame and panel", '
    'fronts = "partial overlay", front_lap = "3/8" }',
    'made_of = { frame = "boards", front = "boards", panel = "thin" }',
    'fitted_with = { hinge = "lap" }',
)
"""A face frame over boxes as deep as any wall case, and doors that lap over it as far as their hinges do."""

SECOND_ROW = ("above the bench", "glue and finish", "over the machines")
"""Runs over another on the same wall, whose studs that one tells."""


def main() -> None:
    path = Path(__file__).parents[1] / "examples" / "school-workshop.toml"
    path.write_text(school(), encoding="utf-8")


def school() -> str:
    """The whole job file."""
    runs = (
        run("bench, window side", "workshop north", "22' 6 1/4", "B", 1, 8, "base", (CUPBOARD, TRAYS), 33),
        run("above the bench", "workshop north", "22' 6 1/4", "W", 1, 7, "wall", (SHELVED,), 36),
        run("bench, wall side", "workshop south", "17' 3", "B", 9, 6, "base", (TRAYS, ONE_SHELF), 36),
        run(
            "glue and finish",
            "workshop south",
            "17' 3",
            "W",
            8,
            6,
            "wall",
            (LOCKED, LOCKED_HALVES),
            30,
            FRAMED,
        ),
        run("lockers", "workshop west", "15' 11 3/8", "T", 1, 6, "tall", (LOCKER,), 30),
        run("machine room", "machine room east", "9' 8", "B", 15, 4, "base", (ONE_SHELF,), None),
        run("over the machines", "machine room east", "9' 8", "W", 14, 4, "wall", (SHELVED,), None),
        run("timber store", "store north", "14' 0 1/2", "T", 7, 5, "tall", (BROOMS, LOCKER), 33),
        run("crates", "store south", "18' 2", "P", 1, 7, "open", (CRATES, ONE_SHELF), 30),
        run("paint store", "paint store", "15' 7 3/4", "P", 8, 7, "open", (ONE_SHELF, CRATES), None),
    )
    return "\n".join((HEAD, *runs))


def run(
    name: str,
    wall: str,
    opening: str,
    letter: str,
    first: int,
    count: int,
    kind: str,
    bays: tuple[Bays, ...],
    width: int | None,
    entries: tuple[str, ...] = (),
) -> str:
    """One run: cases of `width`, every third taking a share of the rest, or all of them equal; `entries` are
    what each of them says besides."""
    lines = [
        "[[runs]]",
        f'name = "{name}"',
        f'wall = "{wall}"',
        *(() if name in SECOND_ROW else (framing(wall),)),
        f'opening = "{opening}"',
        "ceiling = 112",
        'left_filler = { width = "1 1/2", scribe = "1/2" }',
    ]
    for number in range(count):
        lines += ["", "[[runs.cases]]", f'mark = "{letter}{first + number}"', f'kind = "{kind}"']
        if width is not None and number % 3:
            lines.append(f"width = {width}")
        lines += entries
        lines.append(f"bays = [{', '.join(bays[number % len(bays)])}]")
    return "\n".join(lines) + "\n"


def framing(wall: str) -> str:
    """The studs of a wall: where the first stands, and how far apart they are."""
    first = "8" if wall == "workshop south" else '"15 1/4"'
    return f'framing = {{ kind = "wood studs", first = {first}, every = 16 }}'


if __name__ == "__main__":
    main()
