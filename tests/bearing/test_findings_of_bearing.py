"""Shelves, walls and screws that are asked about or do not meet a figure, each with the nearest that does."""

from __future__ import annotations

from bearing.loaded_jobs import STUDS, WALL_CASE, of, text
from casewright.findings import Weight
from finding_rows import Row, check, each

WARN, NOTE = Weight.WARN, Weight.NOTE

PINS = f"{WALL_CASE}\nbays = [{{ adjustable = 1 }}]"
EMPTY = f"{WALL_CASE}\nbays = [{{}}]"
NARROW = EMPTY.replace("width = 33", "width = 12")
"""From 33 to 45 in along the wall."""

ONE_STRIP = f"{PINS}\nconstruction = {{ strips = 1 }}"
LOW_STRIPS = f'{PINS}\nconstruction = {{ strip_width = "1 1/2" }}'
BY_BACK = f'{PINS}\nconstruction = {{ strips = 0 }}\nmade_of = {{ back = "thick" }}'
HELD_BY_NOTHING = f'{EMPTY}\nconstruction = {{ strips = 0, back = "none" }}'
BACKS = '[materials.thick]\nsheet = "{}"'
ALONE = '[loads_of]\n"W1-A1" = { holds = "linen" }'
HEAVY = 'load = "60 lb/ft2"'
HINGE = '[hinges.cup]\nlike = "full overlay"\n'
DOORED = 'kind = "base"\nwidth = 33\nheight = 34\ndepth = 24\nbays = [{ fronts = [{ kind = "two doors" }] }]'
NARROW_DOORS = DOORED.replace("33", "12").replace("depth = 24", "depth = 36")
TINS = 'holds = "tinned food"'
OWN_SHEET = """
[materials.own]
name = "plywood of the yard"
nominal = "3/4"
usual = "23/32"
deviation = "0.005"
size = [96, 48]
"""
BLANK = OWN_SHEET + 'weight = "2.3 lb/ft2"\n'


def on(wall: str, *cases: str, **said: str) -> str:
    return text(*(cases or (EMPTY,)), run=f"lift = 54\n{wall}", **said)


def carrying(pounds: int) -> str:
    return f"[shop.carry]\nweight = {pounds}\nlength = 72\n"


def every(first: int, apart: int) -> str:
    return f'framing = {{ kind = "wood studs", first = {first}, every = {apart} }}'


ROWS = [
    Row("stiffness-not-known", "materials.own.kind", "W1-A1 is not checked", "Enter its kind",
        of(text(PINS, shelf="own", more=BLANK)),
        of(text(PINS, shelf="own", more=BLANK + 'kind = "hardwood plywood"\n')), NOTE),
    Row("shelf-sags", "W1-A1", 'sags 1/4" at once', "Edge its front",
        of(text(PINS, holds=TINS)), of(text(PINS.replace("33", "\"31 1/2\""), holds=TINS)), WARN),
    Row("shelf-sags", "W1-A1", "does not meet L/144", "make it of hardwood plywood",
        of(text(PINS, holds=TINS)), of(text(PINS, shelf="ply", holds=TINS)), WARN),
    Row("bears-nothing", "loads_of.W1-L", "no shelf", "mark of a shelf",
        of(text(PINS, more=ALONE.replace("A1", "L"))), of(text(PINS, more=ALONE)), WARN),
    Row("sags-in-years", "W1-A1", "which meets L/144", "fixed shelf, which is screwed to the back",
        of(text(PINS, holds='holds = "crockery"')), of(text(PINS, shelf="ply", holds='holds = "crockery"')),
        NOTE),
    Row("wall-to-ask-about", "runs.north.framing", "what an anchor bears", "licensed contractor",
        of(on('framing = { kind = "masonry" }')), of(on(STUDS)), WARN),
    Row("studs-not-known", "runs.north.framing", "nothing says where its studs are", "first stud",
        of(on('framing = { kind = "wood studs" }')), of(on(STUDS)), WARN),
    Row("weight-not-known", "materials.own.weight", "what plywood of the yard weighs", "Enter its weight",
        of(text(PINS, shelf="own", more=OWN_SHEET)), of(text(PINS, shelf="own", more=BLANK)), NOTE),
    Row("strip-not-reckoned", "cases.W1.made_of.strip", "no figure is published", "plywood or solid wood",
        of(text(EMPTY, strip="own", more=BLANK)),
        of(text(EMPTY, strip="own", more=BLANK + 'kind = "hardwood plywood"\n')), WARN),
    Row("strip-not-reckoned", "cases.W1.made_of.back", "no figure is published", "or a back of plywood",
        of(text(BY_BACK, more=BACKS.format("mdf 3/4"))),
        of(text(BY_BACK, more=BACKS.format("hardwood ply 1/2"))), WARN),
    Row("too-few-studs", "W1", "no mounting strip and no back", "strips = 2",
        of(on(STUDS, HELD_BY_NOTHING)), of(on(STUDS)), WARN),
    Row("too-few-studs", "W1", "one stud takes screws of W1", "blocking",
        of(on(every(8, 40))), of(on(every(8, 16))), WARN),
    Row("too-few-studs", "W1", "too narrow for a screw", "strip_width",
        of(on(STUDS, LOW_STRIPS.replace("1 1/2", "3/4"))), of(on(STUDS, LOW_STRIPS)), WARN),
    Row("no-stud-behind", "W2", "no stud stands behind the upper strip of W2", "blocking",
        of(on(every(6, 22), EMPTY, NARROW)), of(on(every(6, 16), EMPTY, NARROW)), WARN),
    Row("no-stud-behind", "W2", "the upper strip of W2 is too narrow", "strip_width",
        of(on(STUDS, EMPTY, LOW_STRIPS.replace("1 1/2", "3/4"))), of(on(STUDS, EMPTY, LOW_STRIPS)), WARN),
    Row("screws-beyond-values", "W1", "do not meet the design values", "Give W1 two mounting strips",
        of(text(BY_BACK, holds='load = "80 lb/ft2"', more=BACKS.format("hardwood ply 1/2"))),
        of(text(PINS, holds=HEAVY)), WARN),
    Row("screws-beyond-values", "W1", "do not meet the design values", "Give it a second strip below",
        of(on(STUDS, ONE_STRIP, holds=HEAVY)), of(on(STUDS, PINS, holds=HEAVY)), WARN),
    Row("screws-beyond-values", "W1", "do not meet the design values", "two screws in each stud",
        of(on(STUDS, LOW_STRIPS, holds=HEAVY)), of(on(STUDS, PINS, holds=HEAVY)), WARN),
    Row("screws-beyond-values", "W1", "do not meet the design values", "3/4 in (18 mm) thick",
        of(on(STUDS, PINS, strip="thin", holds=HEAVY)), of(on(STUDS, PINS, holds=HEAVY)), WARN),
    Row("screws-beyond-values", "W1", "do not meet the design values", "blocking",
        of(on(STUDS, PINS, holds='load = "300 lb/ft2"')), of(on(STUDS, PINS, holds=HEAVY)), WARN),
    Row("tips-when-open", "runs.north", "W1 does not meet ASTM F2057-23", "to the wall",
        of(text(DOORED, run=STUDS, more=HINGE)),
        of(text(NARROW_DOORS, run=STUDS, more=HINGE)), NOTE),
    Row("carry-above-equation", "shop.carry.weight", "recommends 38 lb for one", "helper or a cart",
        of(text(EMPTY, more=carrying(52))), of(text(EMPTY, more=carrying(51))), NOTE),
]  # fmt: skip


@each(ROWS)
def test_bearing(row: Row) -> None:
    check(row)
