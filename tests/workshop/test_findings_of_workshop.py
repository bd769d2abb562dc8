"""Every finding of what the shop's machines cannot do, and the nearest job they can."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.job import BottomJoint, Construction, TopKind
from casewright.casework.project import Project, draw_up
from casewright.findings import Weight
from casewright.shop.machines import Shop
from casewright.shop.materials import per_square_inch
from casewright.workshop.assembly.unscrewed import no_screw_findings
from casewright.workshop.channels.tooling import choose_tools
from casewright.workshop.freed_pieces import StackedPiece
from casewright.workshop.holes.boring import level_findings
from casewright.workshop.operations import Machine, Operation, OperationKind
from casewright.workshop.saw_limits import beyond_the_blade, beyond_the_rail, beyond_the_straightedge
from casewright.workshop.sheets.lifts import lifts_for_two
from casewright.workshop.who_lifts import piece_rule
from finding_rows import Provoke, Row, check, each
from record.happenings import operation
from samples import SHOP, job, spec

HAIR = F(1, 1000)
PLY = F(23, 32)


def in_shop(shop: Shop, top: TopKind = TopKind.STRETCHERS) -> Project:
    made = Construction(top=top)
    return draw_up(replace(job(spec(construction=made), construction=made), shop=shop))


def stacked(off: F) -> Provoke:
    """With a dado stack that packs to one width, so much over the bottom's dado of 23/32."""
    stack = replace(SHOP.dado_stack, chippers=(PLY + off - F(1, 4),), shims=())
    project = in_shop(replace(SHOP, dado_stack=stack))
    return lambda: choose_tools(project, project).findings


def sawn(kerf: F, **shop: object) -> Provoke:
    """With a table saw of this kerf; the back's groove is 7/32 and 1/64 of play wide."""
    project = in_shop(replace(SHOP, table_saw=replace(SHOP.table_saw, kerf=kerf), **shop))  # type: ignore[arg-type]
    return lambda: choose_tools(project, project).findings


def blade(height: F) -> Provoke:
    project = in_shop(replace(SHOP, table_saw=replace(SHOP.table_saw, blade_height=height)))
    return lambda: beyond_the_blade(project)


def step(machine: Machine, distance: F = F(20), travel: F = F(30)) -> Operation:
    made = operation("ply 1 cut 1", OperationKind.CROSSCUT, ("B1-L",), distance=distance)
    return replace(made, travel=travel, setting=replace(made.setting, machine=machine))


def doing(doubt: Callable[[Project, tuple[Operation, ...]], object], *steps: Operation) -> Provoke:
    """What is said of these steps; the rail goes to 52 in, the straightedge to 100 in."""
    project = in_shop(SHOP)
    return lambda: doubt(project, steps)  # type: ignore[return-value]


def bored(by: F) -> Provoke:
    """The left side's front row of pin holes begins so much higher than the others."""
    project = in_shop(SHOP)
    first = "B1-L.pins-11-right-front.first"
    return lambda: level_findings(project.given({first: project.sizes.of(first) + by}))


def screwed(thick: F, bottom: BottomJoint = BottomJoint.BUTT) -> Provoke:
    """A case of this thickness with its bottom between its sides."""
    made = Construction(bottom=bottom)
    project = draw_up(job(spec(construction=made), construction=made)).given({"ply.thickness": thick})
    return lambda: no_screw_findings(project)


RAIL, EDGE = beyond_the_rail, beyond_the_straightedge
AT_SAW, BY_HAND = Machine.TABLE_SAW, Machine.HAND_SAW


def carried(length: F, pounds: F) -> Provoke:
    """A piece of ply so long and so heavy goes to the table saw."""
    weight = F(2)  # pounds a square foot
    sample = job()
    sheets = {**sample.sheets, "ply": replace(sample.sheets["ply"], weight=weight)}
    project = draw_up(replace(sample, sheets=sheets, shop=SHOP))
    width = pounds / (per_square_inch(weight) * length)
    piece = StackedPiece("ply", 3, F(0), F(0), length, width, "ply 3 cut 1", "left", 0, "A")
    cut = replace(step(Machine.TABLE_SAW), carried=piece)
    return lambda: lifts_for_two(project, "ply", [cut])


CARRY = SHOP.carry
ALONE = piece_rule(CARRY).limit.one
HALF = ALONE / 2
PLACE = f"{job().sheets['ply'].name}, sheet 3"

ROWS = [
    Row(
        "lift-for-two",
        PLACE,
        "goes to the table saw in one piece",
        "Two lift it.",
        carried(F(60), ALONE + 1),
        carried(F(60), ALONE),
        Weight.WARN,
    ),
    Row(  # a long piece that is not light
        "lift-for-two",
        PLACE,
        "long go to the table saw",
        "Two lift it.",
        carried(CARRY.length + 1, HALF + 1),
        carried(CARRY.length, HALF + 1),
        Weight.WARN,
    ),
    Row(  # a long filler is awkward, not heavy
        "lift-for-two",
        PLACE,
        "long go to the table saw",
        "Two lift it.",
        carried(CARRY.length + 1, HALF + 1),
        carried(CARRY.length + 1, HALF),
        Weight.WARN,
    ),
    Row(  # 3 in, the longest screw, less six diameters of 0.164 in is 2.016 in
        "no-screw",
        "B1-L",
        "no standard screw reaches through it to hold B1-B",
        "dado joints",
        screwed(F("2.017")),
        screwed(F("2.016")),
        Weight.WARN,
    ),
    Row(
        "stack-nearest",
        "B1-L.dado-bottom",
        "23/32",
        "test piece",
        stacked(F(1, 128)),
        stacked(F(0)),
        Weight.NOTE,
    ),
    Row(
        "stack-nearest",
        "B1-L.dado-bottom",
        "wider",
        "tape or paper",
        stacked(F(1, 128)),
        stacked(F(1, 128) + HAIR),
        Weight.NOTE,
    ),
    Row(
        "channel-too-thin",
        "B1-L.groove-back",
        'it is ~1/4" wide, narrower than the',
        "thinner blade",
        sawn(F(15, 64) + HAIR),
        sawn(F(15, 64)),
        Weight.WARN,
    ),
    Row(
        "beyond-the-blade",
        "materials.ply",
        'birch ply is 23/32" thick',
        "larger blade",
        blade(PLY),
        blade(PLY + HAIR),
        Weight.WARN,
    ),
    Row(
        "beyond-the-rail",
        "ply 1 cut 1",
        '52 1/32", but its rail ends at 52"',
        "straightedge",
        doing(RAIL, step(AT_SAW, F(52) + F(1, 64))),
        doing(RAIL, step(AT_SAW, F(52))),
        Weight.WARN,
    ),
    Row(
        "beyond-the-rail",
        "ply 1 cut 1",
        '60"',
        "cut the piece smaller first",
        doing(RAIL, step(AT_SAW, F(60))),
        doing(RAIL, step(BY_HAND, F(60))),
        Weight.WARN,
    ),
    Row(
        "beyond-the-straightedge",
        "B1-L",
        'a cut is ~100 1/32" long',
        "longer one",
        doing(EDGE, step(BY_HAND, travel=F(100) + F(1, 64))),
        doing(EDGE, step(BY_HAND, travel=F(100))),
        Weight.WARN,
    ),
    Row(
        "beyond-the-straightedge",
        "B1-L",
        '2 cuts are up to 102" long',
        "line struck",
        doing(EDGE, step(BY_HAND, travel=F(101)), step(BY_HAND, travel=F(102))),
        doing(EDGE, step(AT_SAW, travel=F(102))),
        Weight.WARN,
    ),
    Row(
        "pins-not-level",
        "B1",
        '10 3/4" and 10 23/32" from the floor',
        "same end",
        bored(F(1, 32)),
        bored(F(0)),
        Weight.WARN,
    ),
]


@each(ROWS)
def test_each_is_said_of_the_wrong_shop_and_not_of_its_neighbour(row: Row) -> None:
    check(row)


@pytest.mark.parametrize(
    ("off", "said"),
    [
        (F(1, 256), "0.0039 in wider, which leaves 0.0195 in of play instead of 0.0156 in"),
        (F(-1, 256), "0.0039 in narrower, which leaves 0.0117 in of play instead of 0.0156 in"),
    ],
)
def test_the_nearest_packing_is_told_with_the_play_it_leaves(off: F, said: str) -> None:
    """A dado 1/64 wider than its panel of 23/32, and a stack that packs to a little more or less."""
    made = Construction(dado_play=F(1, 64))
    stack = replace(SHOP.dado_stack, chippers=(PLY + F(1, 64) + off - F(1, 4),), shims=())
    project = draw_up(
        replace(job(spec(construction=made), construction=made), shop=replace(SHOP, dado_stack=stack))
    )
    texts = [finding.text for finding in choose_tools(project, project).findings]
    assert any(said in text for text in texts), texts
