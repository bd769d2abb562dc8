"""Face frames that cannot be put on, each with the nearest job that can be built."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

from casework.odd_jobs import of
from casewright.casework.job import Construction, Edged, FaceFrame, ToeKind
from casewright.findings import Weight
from casewright.lengths.length import Mark
from casewright.shop.edging import Edging
from finding_rows import Provoke, Row, check, each
from samples import job, spec

STRIP = Edging("maple", "maple strip", F(1, 4), F(96))


def framed(*, gap: F = F(0), edged: Edged | None = None, material: str = "ply", **made: Any) -> Provoke:
    """A case with a face frame, its run as wide as the case and the gaps."""

    def findings() -> Any:
        construction = Construction(frame=FaceFrame.POCKET_SCREWS, **made)
        one = replace(spec(construction=construction), edged=edged or Edged())
        one = replace(one, materials=replace(one.materials, frame=material))
        plain = job(one, opening=F(36) + 2 * gap, construction=construction)
        run = replace(plain.runs[0], gap=gap)
        return of(lambda: replace(plain, runs=(run,), edging={"maple": STRIP}))()

    return findings


ROWS = [
    Row(
        "frame-past-its-room",
        "cases.B1.frame_past",
        'at its left is the end of its opening, with 1/8" between',
        "frame_past smaller",
        framed(gap=F(1, 8), frame_past=F(5, 32)),
        framed(gap=F(1, 8), frame_past=F(1, 8)),
    ),
    Row(
        "stile-too-narrow",
        "cases.B1.frame_stile",
        '23/32" thick',
        '1/32" wider',
        framed(frame_stile=F(11, 16)),
        framed(frame_stile=F(23, 32)),
    ),
    Row(
        "frame-below-floor",
        "cases.B1.frame_rail",
        '1/32" below the floor',
        "toe kick",
        framed(toe=ToeKind.NONE, frame_rail=F(3, 4)),
        framed(toe=ToeKind.NONE, frame_rail=F(23, 32)),
    ),
    Row(
        "frame-of-the-case",
        "cases.B1.made_of.frame",
        "birch ply, as the case is",
        "made_of",
        framed(),
        framed(material="thin"),
        Weight.WARN,
    ),
    Row(
        "edging-under-frame",
        "cases.B1.edged",
        "covers the edging",
        'case = "none"',
        framed(edged=Edged(case="maple")),
        framed(edged=Edged(shelf="maple")),
        Weight.WARN,
    ),
]


@each(ROWS)
def test_each_comes_about_and_its_near_miss_does_not(row: Row) -> None:
    check(row)


def test_a_neighbour_leaves_no_room_past_a_side() -> None:
    made = Construction(frame=FaceFrame.POCKET_SCREWS, frame_past=F(1, 4))
    plain = job(spec("B1", construction=made), spec("B2"), opening=F(73), construction=made)
    found = of(lambda: replace(plain, runs=(replace(plain.runs[0], gap=F(1, 2)),)))()
    (past,) = [one for one in found if one.code == "frame-past-its-room"]
    assert "at its right is a case" in past.text


def test_a_length_to_enter_is_on_the_mark_that_mends_it() -> None:
    """Regression: by the nearest mark of a rule in sixteenths, a stile that lacks 1/64 was to be 0 wider."""
    made = Construction(frame=FaceFrame.POCKET_SCREWS, frame_stile=F(23, 32) - F(1, 64))
    found = of(lambda: replace(job(construction=made), mark=Mark.SIXTEENTH))()
    (narrow,) = [one for one in found if one.code == "stile-too-narrow"]
    assert narrow.fix == 'Make frame_stile 1/16" wider, or more.'
