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

[made_of]
case = "oak"
back = "thin"
shelf = "oak"
strip = "fir"
toe = "fir"

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
BELOW_AND_ABOVE: Bays = ("{ fixed = [14] }", "{ adjustable = 2 }")
SHELVED: Bays = ("{ adjustable = 2 }",)
ONE_SHELF: Bays = ("{ adjustable = 1 }",)
TRAYS: Bays = ("{ width = 11, adjustable = 3 }", STACK)
LOCKER: Bays = ("{ fixed = [30, 18], adjustable = 1 }",)
BROOMS: Bays = ("{ width = { share = 2 }, fixed = [64] }", "{ adjustable = 5 }")
CRATES: Bays = ("{ fixed = [16, 16], adjustable = 1 }", "{ fixed = [22], adjustable = 2 }")


def main() -> None:
    path = Path(__file__).parents[1] / "examples" / "school-workshop.toml"
    path.write_text(school(), encoding="utf-8")


def school() -> str:
    """The whole job file."""
    runs = (
        run("bench, window side", "workshop north", "22' 6 1/4", "B", 1, 8, "base", (ONE_SHELF, TRAYS), 33),
        run("above the bench", "workshop north", "22' 6 1/4", "W", 1, 7, "wall", (SHELVED,), 36),
        run("bench, wall side", "workshop south", "17' 3", "B", 9, 6, "base", (TRAYS, ONE_SHELF), 36),
        run("glue and finish", "workshop south", "17' 3", "W", 8, 6, "wall", (SHELVED, BELOW_AND_ABOVE), 30),
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
) -> str:
    """One run: cases of `width`, every third taking a share of the rest, or all of them equal."""
    lines = [
        "[[runs]]",
        f'name = "{name}"',
        f'wall = "{wall}"',
        f'opening = "{opening}"',
        "ceiling = 112",
        'left_filler = { width = "1 1/2", scribe = "1/2" }',
    ]
    for number in range(count):
        lines += ["", "[[runs.cases]]", f'mark = "{letter}{first + number}"', f'kind = "{kind}"']
        if width is not None and number % 3:
            lines.append(f"width = {width}")
        lines.append(f"bays = [{', '.join(bays[number % len(bays)])}]")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    main()
