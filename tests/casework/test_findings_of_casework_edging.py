"""Edging that cannot be put on, each with the nearest job that can be built."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casework.odd_jobs import of
from casewright.casework.job import Bay, Edged, EdgesOf
from casewright.findings import Weight
from casewright.shop.edging import Edging, PutOn
from finding_rows import Provoke, Row, check, each
from samples import job, spec

STRIP = Edging("maple", "maple strip", F(1, 4), F(96))


def edged(covered: Edged = Edged(), strip: Edging = STRIP, mark: str = "B1-A1", **edges: str) -> Provoke:  # noqa: B008
    one = spec(bays=(Bay(fixed=(F(10),), adjustable=1),))
    made = job(replace(one, edged=covered))
    single = {mark: EdgesOf(**edges)} if edges else {}
    return of(lambda: replace(made, edging={"maple": strip}, edging_of=single))


LAST = replace(STRIP, put_on=PutOn.AFTER_GLUE_UP)
ROWS = [
    Row(
        "no-such-edge",
        "edging_of.B1-A1.upper",
        "adjustable shelf; it has no upper edge",
        "front, back, left, right",
        edged(upper="maple"),
        edged(front="maple"),
    ),
    Row(
        "edge-joined",
        "edging_of.B1-F11.left",
        "the left edge of B1-F11 meets B1-L",
        "Take left out",
        edged(mark="B1-F11", left="maple"),
        edged(mark="B1-F11", front="maple"),
    ),
    Row(
        "edging-too-narrow",
        "edging.maple.width",
        "23/32",
        "wider strip",
        edged(Edged(shelf="maple"), replace(STRIP, width=F(11, 16))),
        edged(Edged(shelf="maple"), replace(STRIP, width=F(23, 32))),
    ),
    Row(
        "edging-too-narrow",
        "edging.maple.width",
        'hangs 3/4" below it',
        "wider strip",
        edged(Edged(shelf="maple"), replace(STRIP, width=F(23, 16), drop=F(3, 4))),
        edged(Edged(shelf="maple"), replace(STRIP, width=F(47, 32), drop=F(3, 4))),
    ),
    Row(
        "edging-drop",
        "edging.maple.drop",
        "the front edge of the left side has no room",
        "front edges of shelves",
        edged(Edged(case="maple"), replace(STRIP, drop=F(3, 4))),
        edged(Edged(shelf="maple"), replace(STRIP, drop=F(3, 4))),
    ),
    Row(
        "edging-pieced",
        "edging.maple.stick",
        "B1-F11 needs",
        "longer",
        edged(Edged(shelf="maple"), replace(STRIP, stick=F(34))),
        edged(Edged(shelf="maple"), replace(STRIP, stick=F(36))),
        Weight.WARN,
    ),
    Row(
        "step-at-the-front",
        "cases.B1.edged",
        "B1-F11 ends at the bare front",
        "before joints",
        edged(Edged(case="maple"), LAST),
        edged(Edged(case="maple", shelf="maple"), LAST),
        Weight.WARN,
    ),
    Row(
        "no-such-part",
        "edging_of",
        "B1-A7",
        "parts list",
        edged(mark="B1-A7", front="maple"),
        edged(mark="B1-A1", front="maple"),
        Weight.WARN,
    ),
]


@each(ROWS)
def test_each_comes_about_and_its_near_miss_does_not(row: Row) -> None:
    check(row)


def test_an_edging_that_hangs_below_is_told_once_for_all_parts_it_is_on() -> None:
    hanging = replace(STRIP, drop=F(3, 4))
    (once,) = (one for one in edged(Edged(case="maple"), hanging)() if one.code == "edging-drop")
    assert once.text.endswith("has no room for that. The same in 3 other places.")
