"""Every finding of a job file that cannot be read, and the nearest that can be."""

from __future__ import annotations

from finding_rows import Provoke, Row, check, each
from jobfile.changed_jobs import PLAIN, also, changed, of


def test_the_plain_job_is_sound() -> None:
    assert of(PLAIN)() == ()


RACK = """
[[shop.rack]]
name = "{name}"
material = "birch"
length = 30
width = 20
"""
DRY_FITS = """
[shop.dry_fits.dado]
predicted = [30.0, {clamp}, 1.5, 0.5]
happened = [20, 17, 3, 0]
worth = {worth}
"""
EDGING = """
[edging.{key}]
name = "a strip"
thickness = "1/4"
stick = 96
"""
OTHERS = 'others = [{ name = "half sheet", size = [48, 48], price = %s }]'


def filled(width: str) -> Provoke:
    """A filler of that width at the left end of the run."""
    return changed("opening = 60", f"opening = 60\nleft_filler = {{ width = {width} }}")


RUN_OF_ONE = '\n[[runs]]\nname="x"\nopening=30\n[[runs.cases]]\nmark="X"\nkind="base"\n'
FULL = '[[runs.cases]]\nmark="F{}"\nkind="tall"\nbays=[' + "{{adjustable=10}}," * 20 + "]"

HINGE = '[hinges.h]\nlike = "{}"'
CUP_EDGE = HINGE.format("inset") + "\ncup_edge = {}"
CHART = HINGE.format("inset") + "\nchart = [{{ hinges = 2{} }}]"
BOX = 'bays = [{{ fronts = [{{ kind = "{}", box_height = 4 }}] }}]'
SLIDES = '[slides.s]\nlike = "{}"'
BOARDS = """[materials.oak]
name = "oak boards"
nominal = 1
usual = "13/16"
deviation = "0.01"
size = [96, 6]
{}
"""
SECOND_RUN = """
[[runs]]
name = "the same wall"
opening = 30
along = 70
framing = {{ {} }}

[[runs.cases]]
mark = "S1"
kind = "base"
"""


def framed(entries: str) -> Provoke:
    """A wall of which that is known."""
    return changed("opening = 60", f"opening = 60\nframing = {{ {entries} }}")


def walls(entries: str) -> Provoke:
    """A second run along the wall, that says so of it."""
    first = PLAIN.replace("opening = 60", "opening = 60\nframing = { first = 8, every = 16 }")
    return of(first + SECOND_RUN.format(entries))


CLIMATE = "[climate]\n{}"

ROWS = [
    Row(
        "unknown-name",
        "materials.oak.wood",
        "red oack",
        "“red oak”",
        also(BOARDS.format('wood = "red oack"')),
        also(BOARDS.format('wood = "red oak"')),
    ),
    Row(
        "no-wood",
        "materials.oak.sawn",
        "names no wood",
        "Add wood",
        also(BOARDS.format('sawn = "flat"')),
        also(BOARDS.format('sawn = "flat"\nwood = "red oak"')),
    ),
    Row(
        "panel-of-wood",
        "materials.oak.wood",
        "does not move like solid red oak",
        "leave sheet out",
        also('[materials.oak]\nsheet = "hardwood ply 3/4"\nwood = "red oak"'),
        also('[materials.oak]\nsheet = "hardwood ply 3/4"'),
    ),
    Row(
        "wood-without-grain",
        "materials.oak.grain",
        "always has a grain",
        "set it to true",
        also(BOARDS.format('wood = "red oak"\ngrain = false')),
        also(BOARDS.format('wood = "red oak"\ngrain = true')),
    ),
    Row(
        "dry-over-damp",
        "climate.house_damp",
        "6 % at the driest and 5.5 % at the dampest",
        "the smaller first",
        also(CLIMATE.format("house_damp = 5.5")),
        also(CLIMATE.format("house_damp = 6")),
    ),
    Row(
        "moisture",
        "climate.shop",
        "how moist wood is",
        "such as 8",
        also(CLIMATE.format('shop = "70, 45"')),
        also(CLIMATE.format('shop = "70 F, 45 %"')),
    ),
    Row(
        "moisture",
        "climate.shop",
        "moisture of dry wood",
        "humidity of the air",
        also(CLIMATE.format("shop = 45")),
        also(CLIMATE.format("shop = 25")),
    ),
    Row(
        "moisture",
        "climate.house_dry",
        "no temperature",
        "14 to 122 F",
        also(CLIMATE.format('house_dry = "70 C, 45 %"')),
        also(CLIMATE.format('house_dry = "50 C, 25 %"')),
    ),
    Row(
        "moisture",
        "climate.house_dry",
        "no humidity",
        "5 to 95",
        also(CLIMATE.format('house_dry = "70 F, 4 %"')),
        also(CLIMATE.format('house_dry = "70 F, 5 %"')),
    ),
    Row(
        "unknown-name",
        "hinges.h.like",
        "insett",
        "“inset”",
        also(HINGE.format("insett")),
        also(HINGE.format("inset")),
    ),
    Row(
        "unknown-name",
        "slides.s.like",
        "side mounted",
        "“side mount”",
        also(SLIDES.format("side mounted")),
        also(SLIDES.format("side mount")),
    ),
    Row(
        "screws-half-told",
        "slides.s.screw_height",
        "nothing of screw_height, screw_step, screw_pilot and screw_depth",
        "leave out what is said of the screws",
        also(SLIDES.format("under mount") + "\nscrew_setback = 1.5"),
        also(SLIDES.format("side mount") + "\nscrew_setback = 1.5"),
    ),
    Row(
        "missing",
        "hinges.h.reach",
        "reach",
        "catalogue entry to start from",
        also('[hinges.h]\nname = "mine"'),
        also(HINGE.format("inset")),
    ),
    Row(
        "missing",
        "slides.s.lengths",
        "lengths",
        "catalogue entry to start from",
        also('[slides.s]\nname = "mine"'),
        also(SLIDES.format("side mount")),
    ),
    Row(
        "least-and-most",
        "hinges.h.cup_edge",
        "not two lengths",
        "smaller one first",
        also(CUP_EDGE.format("[0.1]")),
        also(CUP_EDGE.format("[0.1, 0.2]")),
    ),
    Row(
        "least-and-most",
        "hinges.h.cup_edge",
        "the first",
        "smaller one first",
        also(CUP_EDGE.format("[0.3, 0.2]")),
        also(CUP_EDGE.format("[0.2, 0.2]")),
    ),
    Row(
        "empty-step",
        "hinges.h.chart[0]",
        "2 hinges",
        "Add the weight or the height",
        also(CHART.format("")),
        also(CHART.format(", height = 40")),
    ),
    Row(
        "box-of-no-drawer",
        "cases.N2.bays[0].fronts[0]",
        "this front is “door”",
        "Leave it out",
        also(BOX.format("door")),
        also(BOX.format("drawer")),
    ),
    Row("file-too-long", "file", "200,000 characters", "Split", of("#" * 200_001), of("#" * 200_000)),
    Row("not-text", "file", "UTF-8", "UTF-8", of(PLAIN + "# \ud800"), of(PLAIN + "# \ud7ff")),
    Row(
        "not-toml",
        "opening",
        "60 1/2",
        'opening = "60 1/2"',
        changed("opening = 60", "opening = 60 1/2"),
        changed("opening = 60", 'opening = "60 1/2"'),
    ),
    Row(
        "not-toml",
        "money",
        "cannot be read",
        "with text in quotes",
        of(f"money = €\n{PLAIN}"),
        of(f'money = "€"\n{PLAIN}'),
    ),
    Row(
        "not-toml",
        "file",
        "[made_of",
        "in brackets",
        changed("[made_of]", "[made_of"),
        changed("[made_of]", "[ made_of ]"),
    ),
    Row(
        "not-toml",
        "notes",
        "more than 20 deep",
        "20 levels",
        of(f"notes = {'[' * (19)}1{']' * (19)}\n{PLAIN}"),
        of(f"notes = {'[' * (18)}1{']' * (18)}\n{PLAIN}"),
    ),
    Row(
        "key-twice",
        "unit",
        'unit = "mm"',
        "Keep one",
        changed('unit = "in"', 'unit = "in"\nunit = "mm"'),
        changed('unit = "in"', 'unit = "in"\nmoney = "mm"'),
    ),
    Row(
        "missing",
        "runs.north wall.opening",
        "opening",
        "Add opening",
        changed("opening = 60", ""),
        changed("opening = 60", "opening = 61"),
    ),
    Row(
        "missing",
        "materials.birch.size",
        "size",
        "catalogue entry to start from",
        changed("size = [96, 48]", ""),
        changed("size = [96, 48]", "size = [97, 49]"),
    ),
    Row(
        "missing",
        "made_of.back",
        "back",
        "[made_of]",
        of(PLAIN.replace('back = "birch"', "") + '[materials.oak]\nsheet = "oak"\n'),
        of(PLAIN + '[materials.oak]\nsheet = "oak"\n'),
    ),
    Row(
        "unknown-key",
        "runs.north wall.openings",
        "openings",
        "“opening”",
        changed("opening = 60", "opening = 60\nopenings = 61"),
        changed("opening = 60", "opening = 60\ngap = 1"),
    ),
    Row("unknown-key", "quay", "quay", "job", of(f"quay = 1\n{PLAIN}"), of(PLAIN)),
    Row(
        "not-a-choice",
        "cases.N1.kind",
        "bas",
        "“base”",
        of(PLAIN.replace('kind = "base"\nwidth', 'kind = "bas"\nwidth')),
        of(PLAIN.replace('kind = "base"\nwidth', 'kind = "wall"\nwidth')),
    ),
    Row(
        "bad-name",
        "job",
        "“ ”",
        "visible character",
        changed('"Net loft"', '" "'),
        changed('"Net loft"', '"N"'),
    ),
    Row(
        "bad-name",
        "cases.N1234567.mark",
        "N1234567",
        "six letters",
        changed('mark = "N1"', 'mark = "N1234567"'),
        changed('mark = "N1"', 'mark = "N12345"'),
    ),
    Row(
        "bad-name",
        "materials.Oak",
        "Oak",
        "lower-case letters",
        also('[materials.Oak]\nsheet = "oak"'),
        also('[materials.oak-2]\nsheet = "oak"'),
    ),
    Row(
        "too-much",
        "runs",
        "201 cases; at most 200",
        "two files",
        of(PLAIN + "\n".join(f'[[runs.cases]]\nmark="M{n}"\nkind="base"' for n in range(198)) + RUN_OF_ONE),
        of(PLAIN + "\n".join(f'[[runs.cases]]\nmark="M{n}"\nkind="base"' for n in range(198))),
    ),
    Row(
        "too-much",
        "runs",
        "bays and shelves; at most 2000",
        "two files",
        of(PLAIN + "\n".join(FULL.format(n) for n in range(10))),
        of(PLAIN + "\n".join(FULL.format(n) for n in range(9))),
    ),
    Row(
        "too-many-dots",
        "file",
        "1001 dots in its keys and headings, more than the 1000",
        "Give each table a heading",
        of("a.b.c = 1\n" * 500 + "[d.e.f]\n"),
        of("a.b.c = 1\n" * 500 + "[d.e]\n"),
    ),
    Row(
        "wrong-type",
        "made_of",
        "“3” is not a table",
        "under [made_of]",
        of(f"made_of = 3\n{PLAIN.replace('[made_of]', '[x]')}"),
        of(PLAIN),
    ),
    Row(
        "wrong-type",
        "materials.birch.grain",
        "yes",
        "true or false",
        changed("price = 70", 'price = 70\ngrain = "yes"'),
        changed("price = 70", "price = 70\ngrain = true"),
    ),
    Row(
        "wrong-type",
        "runs",
        "“runs” is a single table",
        "double brackets: [[runs]]",
        of(f"{PLAIN.partition('[[runs]]')[0]}[runs]\nname = 'n'\n"),
        of(PLAIN),
    ),
    Row(
        "wrong-type",
        "runs.north wall.cases",
        "“3” is not a table",
        "under [[runs.cases]]",
        of(f"{PLAIN.partition('[[runs.cases]]')[0]}cases = 3\n"),
        of(PLAIN),
    ),
    Row(
        "wrong-type",
        "shop",
        "“shop” is a list",
        "single brackets: [shop]",
        of(f"{PLAIN}[[shop]]\nrule = 1\n"),
        of(f"{PLAIN}[shop]\nrule = 1\n"),
    ),
    Row(
        "wrong-type",
        "optional",
        "N1-L",
        "square brackets",
        of(f'optional = "N1-L"\n{PLAIN}'),
        of(f'optional = ["N1-L"]\n{PLAIN}'),
    ),
    Row(
        "out-of-range",
        "construction.strips",
        "7",
        "6 or less",
        also("[construction]\nstrips = 7"),
        also("[construction]\nstrips = 6"),
    ),
    Row(
        "out-of-range",
        "construction.strips",
        "-1",
        "0 or more",
        also("[construction]\nstrips = -1"),
        also("[construction]\nstrips = 0"),
    ),
    Row(
        "out-of-range",
        "money",
        "Swedish crowns",
        "no more than 8 characters",
        of(f'money = "Swedish crowns"\n{PLAIN}'),
        of(f'money = "SEK kr. "\n{PLAIN}'),
    ),
    Row(
        "out-of-range",
        "runs.north wall.cases",
        "[]",
        "at least 1",
        of(PLAIN.split("[[runs.cases]]")[0] + "cases = []"),
        of(PLAIN),
    ),
    Row(
        "length",
        "runs.north wall.opening",
        "sixty",
        "695 mm",
        changed("opening = 60", 'opening = "sixty"'),
        changed("opening = 60", 'opening = "60"'),
    ),
    Row(
        "length",
        "runs.north wall.opening",
        "[60]",
        "one length",
        changed("opening = 60", "opening = [60]"),
        changed("opening = 60", "opening = 60.0"),
    ),
    Row(
        "not-positive",
        "runs.north wall.opening",
        "0",
        "length",
        changed("opening = 60", "opening = 0"),
        changed("opening = 60", 'opening = "1/64"'),
    ),
    Row(
        "not-positive",
        "runs.north wall.gap",
        "-1/64",
        "length of zero or more",
        changed("opening = 60", 'opening = 60\ngap = "-1/64"'),
        changed("opening = 60", "opening = 60\ngap = 0"),
    ),
    Row(
        "number",
        "materials.birch.price",
        "seventy",
        "plain number",
        changed("price = 70", 'price = "seventy"'),
        changed("price = 70", "price = 70.5"),
    ),
    Row(
        "number",
        "materials.birch.price",
        "-1",
        "zero or more",
        changed("price = 70", "price = -1"),
        changed("price = 70", "price = 0"),
    ),
    Row(
        "number",
        "materials.birch.price",
        "1000000001",
        "plain number",
        changed("price = 70", "price = 1000000001"),
        changed("price = 70", "price = 1000000000"),
    ),
    Row(
        "number",
        "cases.N2.width",
        "0",
        "greater than zero",
        also("width = { share = 0 }"),
        also("width = { share = 0.01 }"),
    ),
    Row(
        "weight",
        "materials.birch.weight",
        "2.2 stone",
        "lb/ft2",
        changed("2.2 lb/ft2", "2.2 stone"),
        changed("2.2 lb/ft2", "11 kg/m2"),
    ),
    Row(
        "share",
        "cases.N2.width",
        "part",
        "share = 2",
        also("width = { part = 2 }"),
        also("width = { share = 2 }"),
    ),
    Row(
        "share",
        "runs.north wall.left_filler.width",
        "a filler",
        '"rest"',
        filled("{ share = 2 }"),
        filled('"rest"'),
    ),
    Row(
        "size",
        "materials.birch.size",
        "[96]",
        "[96, 48]",
        changed("size = [96, 48]", "size = [96]"),
        changed("size = [96, 48]", 'size = ["8\'", "4\'"]'),
    ),
    Row(
        "dry-fits",
        "shop.dry_fits.dado.predicted",
        "50 joints were predicted, and 40 happened.",
        "shop-figures with --yes",
        also(DRY_FITS.format(clamp=18, worth=4)),
        also(DRY_FITS.format(clamp=8, worth=4)),
    ),
    Row(
        "dry-fits",
        "shop.dry_fits.dado.worth",
        "40 joints cannot tell as much as 41.",
        "at most 40",
        also(DRY_FITS.format(clamp=8, worth=41)),
        also(DRY_FITS.format(clamp=8, worth=40)),
    ),
    Row(
        "unknown-name",
        "made_of.back",
        "brich",
        "“birch”",
        changed('back = "birch"', 'back = "brich"'),
        changed('back = "birch"', 'shelf = "birch"\nback = "birch"'),
    ),
    Row(
        "unknown-name",
        "materials.birch.sheet",
        "no-such",
        "“birch ply 18”",
        changed("price = 70", 'price = 70\nsheet = "no-such"'),
        of(PLAIN),
    ),
    Row(
        "unknown-name",
        "edged.case",
        "“mapel”",
        "“maple”",
        also(EDGING.format(key="maple") + '[edged]\ncase = "mapel"'),
        also(EDGING.format(key="maple") + '[edged]\ncase = "maple"\nshelf = "none"'),
    ),
    Row(
        "name-twice",
        "edging.two.name",
        "a strip",
        "its own name",
        also(EDGING.format(key="one") + EDGING.format(key="two")),
        also(EDGING.format(key="one") + EDGING.format(key="two").replace("a strip", "another")),
    ),
    Row(
        "key-taken",
        "edging.birch",
        "already the key of a sheet good",
        "another key",
        also(EDGING.format(key="birch")),
        also(EDGING.format(key="birch2")),
    ),
    Row(
        "key-taken",
        "edging.none",
        "stands for bare edges",
        "another key",
        also(EDGING.format(key="none")),
        also(EDGING.format(key="nothing")),
    ),
    Row(
        "name-twice",
        "runs.north wall.name",
        "north wall",
        "its own name",
        also('[[runs]]\nname = "north wall"\nopening = 30\n[[runs.cases]]\nmark = "N3"\nkind = "base"'),
        also('[[runs]]\nname = "south wall"\nopening = 30\n[[runs.cases]]\nmark = "N3"\nkind = "base"'),
    ),
    Row(
        "name-twice",
        "shop.rack.birch ply.name",
        "birch ply",
        "its own name",
        also(RACK.format(name="birch ply")),
        also(RACK.format(name="behind the door")),
    ),
    Row(
        "mark-twice",
        "cases.N1.mark",
        "north wall",
        "its own mark",
        changed('mark = "N2"', 'mark = "N1"'),
        changed('mark = "N2"', 'mark = "N3"'),
    ),
    Row(  # in pencil they are one mark
        "mark-twice",
        "cases.n1.mark",
        "“n1” is already the mark",
        "not told apart",
        changed('mark = "N2"', 'mark = "n1"'),
        changed('mark = "N2"', 'mark = "n3"'),
    ),
    Row(
        "unknown-name",
        "edging.lip.wood",
        "no wood is called “ook”",
        "red oak",
        also(EDGING.format(key="lip") + 'wood = "ook"'),
        also(EDGING.format(key="lip") + 'wood = "red oak"'),
    ),
    Row(
        "stiffness",
        "materials.birch.stiffness",
        "“1.2” is not a modulus",
        "950000 psi",
        changed("price = 70", 'price = 70\nstiffness = "1.2"'),
        changed("price = 70", 'price = 70\nstiffness = "1,200,000 psi"'),
    ),
    Row(
        "stiffness",
        "materials.birch.stiffness",
        "no panel has a modulus of “1200 psi”",
        "50,000 to 5,000,000 psi",
        changed("price = 70", 'price = 70\nstiffness = "1200 psi"'),
        changed("price = 70", 'price = 70\nstiffness = "8300 N/mm2"'),
    ),
    Row(
        "number",
        "loads.load",
        "“0” is too small",
        "greater than zero",
        also("[loads]\nload = 0"),
        also("[loads]\nload = 1"),
    ),
    Row(
        "weight",
        "loads.load",
        "“0 lb/ft2” is too small",
        "greater than zero",
        also('[loads]\nload = "0 lb/ft2"'),
        also('[loads]\nload = "1 lb/ft2"'),
    ),
    Row(
        "studs-twice",
        "runs.north wall.framing.studs",
        "one by one",
        "or first and every",
        framed("first = 8, every = 16, studs = [8, 24]"),
        framed("studs = [8, 24]"),
    ),
    Row(
        "missing",
        "runs.north wall.framing.every",
        "first alone",
        "Add every",
        framed("first = 8"),
        framed("first = 8, every = 16"),
    ),
    Row(
        "studs-overlap",
        "runs.north wall.framing.studs",
        "told twice",
        "the middle of each stud",
        framed("studs = [24, 8, 24]"),
        framed('studs = [24, 8, "9 1/2"]'),
    ),
    Row(
        "studs-overlap",
        "runs.north wall.framing.every",
        "nearer to each other",
        "the middle of each stud",
        framed("first = 8, every = 2, stud_width = 3"),
        framed("first = 8, every = 2"),
    ),
    Row(
        "studs-in-masonry",
        "runs.north wall.framing.first",
        "has no studs",
        "correct kind",
        framed('kind = "masonry", first = 8, every = 16'),
        framed('kind = "metal studs", first = 8, every = 16'),
    ),
    Row(
        "walls-differ",
        "runs.the same wall.framing",
        "different things of “wall”",
        "one of them",
        walls("first = 8, every = 24"),
        walls("first = 8, every = 16"),
    ),
    Row(
        "no-price",
        "materials.birch.others.half sheet",
        "half sheet",
        "price",
        changed("price = 70", f"price = 70\n{OTHERS % 0}"),
        changed("price = 70", f"price = 70\n{OTHERS % 1}"),
    ),
]


@each(ROWS)
def test_each_is_said_of_the_wrong_text_and_not_of_its_neighbour(row: Row) -> None:
    check(row)


def test_each_has_the_line_it_stands_in() -> None:
    for old, new in (
        ("opening = 60", "opening = 0"),
        ("opening = 60", "opening = 60 1/2"),
        ('mark = "N2"', 'mark = "N1"'),
    ):
        (finding,) = changed(old, new)()
        assert finding.line == PLAIN[: PLAIN.index(old)].count("\n") + 1
        assert finding.column == 1 or finding.column == len(new.split("=")[0]) + 2


def test_a_key_that_stands_twice_has_the_line_of_the_second() -> None:
    (finding,) = changed('unit = "in"', 'unit = "in"\nunit = "mm"')()
    assert (finding.line, finding.column) == (3, 1)


def test_the_keys_below_a_broken_header_do_not_fall_to_the_table_before() -> None:
    """They would stand there twice: a fault where the maker made none."""
    (finding,) = of("[runs.cases]]".join(PLAIN.rsplit("[[runs.cases]]", 1)))()
    assert (finding.code, finding.line) == ("not-toml", PLAIN[: PLAIN.rindex("[[")].count("\n") + 1)


def test_faults_are_counted_out_at_some_number() -> None:
    """A text that is no job at all is not answered by a list nobody reads to its end."""
    for faults in (999, 1000, 1001, 1002):
        found = [one for one in of("\n".join(["= 3"] * faults))() if one.code == "not-toml"]
        told_off = [one for one in found if "too many faults" in one.text]
        assert len(found) - len(told_off) == min(faults, 1000)
        assert len(told_off) == (faults > 1000)
