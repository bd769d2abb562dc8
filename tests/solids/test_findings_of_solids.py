"""Every finding of the solid check, and the nearest case that does not cause it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casewright.casework.job import BackKind, Construction, Run
from casewright.casework.project import draw_up
from casewright.findings import Finding, Weight
from casewright.solids.bodies import assemble
from casewright.solids.solid_check import check_solids, examine
from finding_rows import Provoke, Row, check, each
from samples import BASE, job, spec

CASE = draw_up(job(spec(bays=BASE)))
HAIR = F(1, 100_000)  # ten times what the kernel may round, a hundredth of what a caliper reads


def off(mark: str, x: F = F(0), y: F = F(0), z: F = F(0)) -> Provoke:
    """One part of the case stands out of its place by so much."""

    def findings() -> tuple[Finding, ...]:
        bodies = assemble(CASE)
        return examine(CASE, {**bodies, mark: bodies[mark].shifted(x, y, z)}).findings

    return findings


def cut(name: str, by: F) -> Provoke:
    """One size of the case is otherwise than planned, and what is cut already does not follow."""
    return lambda: check_solids(CASE.given({name: CASE.sizes.of(name) + by}))


def undadoed() -> tuple[Finding, ...]:
    bodies = assemble(CASE)
    plain = replace(bodies["B1-L"], shape=replace(bodies["B1-L"].shape, cuts=()))
    return examine(CASE, {**bodies, "B1-L": plain}).findings


def sound() -> tuple[Finding, ...]:
    return check_solids(CASE)


def above(lift: F) -> Provoke:
    """A wall case hung so high over a base case 34 1/2 in high."""
    base = job(spec("B1"))
    hung = Run("above", F(36), (spec("W1", height=F(30), depth=F(12)),), lift=F(60))
    drawn = draw_up(replace(base, runs=(*base.runs, hung)))
    return lambda: check_solids(drawn.given({drawn.runs[1].lift.name: lift}))


def shelf_at(height: F) -> Provoke:
    """A fixed shelf so high in a case 40 in high with a strip 4 in wide under its top."""
    made = Construction(back=BackKind.APPLIED, strips=1)
    bays = (replace(BASE[1], adjustable=0, fixed=(height,)),)
    return lambda: check_solids(
        draw_up(job(spec(height=F(40), construction=made, bays=bays), construction=made))
    )


ROWS = [
    Row(
        "parts-interfere",
        "B1-L, B1-F11",
        "B1-L and B1-F11 overlap by",
        "Make one of them smaller",
        off("B1-F11", x=-HAIR),
        sound,
    ),
    Row("parts-interfere", "B1-F11, B1-M1", '34 9/16" x 23/32"', "move it", shelf_at(F(31)), shelf_at(F(29))),
    Row(
        "parts-interfere",
        "B1-L, W1-L",
        "B1-L and W1-L",
        "leave it out",
        above(F(69, 2) - HAIR),
        above(F(69, 2)),
    ),
    Row(
        "not-seated",
        "B1-SF, B1-R",
        "too far apart",
        "Correct the size",
        off("B1-R", x=HAIR),
        sound,
        Weight.WARN,
    ),
    Row(
        "not-seated",
        "B1-SF, B1-R",
        "too close together",
        "Correct the size",
        cut("B1-SF.length", HAIR),
        sound,
        Weight.WARN,
    ),
    Row(
        "nothing-to-meet",
        "B1-L, B1-B",
        "floor of B1-L dado-bottom or B1-B left is missing",
        "dado",
        undadoed,
        sound,
    ),
    Row(
        "no-contact",
        "B1-L, B1-SF",
        "do not face each other",
        "until they meet",
        off("B1-SF", y=-F(5)),
        off("B1-SF", y=-F(1)),
        Weight.WARN,
    ),
    Row(
        "outside-size",
        "cases.B1.width",
        '36 1/8"',
        "part that is the wrong size",
        off("B1-R", x=F(1, 8)),
        off("B1-R", y=F(1, 8)),
        Weight.WARN,
    ),
    Row(
        "outside-size",
        "cases.B1.depth",
        "24",
        "part that is the wrong size",
        off("B1-R", y=HAIR),
        sound,
        Weight.WARN,
    ),
    Row(
        "outside-size",
        "cases.B1.height",
        "34 1/2",
        "part that is the wrong size",
        off("B1-R", z=HAIR),
        sound,
        Weight.WARN,
    ),
]


@each(ROWS)
def test_each_finding_names_the_wrong_case_and_not_its_neighbour(row: Row) -> None:
    check(row)
