"""Joints of face frames that their stock has no room for, and frames over several cases that cannot be, each
with the nearest job that can be built."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

from casework.odd_jobs import of
from casewright.casework.job import Bay, FaceFrame, Filler
from casewright.shop.materials import OtherSize, SheetGood, Spread
from finding_rows import Provoke, Row, check, each
from samples import job, spec

BOARD = SheetGood("maple", "maple boards", F(1), F(96), F(11, 2), Spread(F(3, 4), 0.004), trim=F(1, 4))


def framed(
    joint: FaceFrame,
    *,
    shared: str = "",
    height: F = F(69, 2),
    left: Filler | None = None,
    left_scribe: F | None = None,
    right_scribe: F | None = None,
    board: SheetGood = BOARD,
    bays: tuple[Bay, ...] = (Bay(), Bay()),
    cases: int = 3,
    **made: Any,
) -> Provoke:
    """Cases W1, W2 ... side by side with frames of maple, the `shared` ones with their neighbour's at the
    left; `height` is that of the second."""

    def findings() -> Any:
        first = spec("W1", bays=bays)
        construction = replace(first.construction, frame=joint, **made)
        materials = replace(first.materials, frame="maple")
        one = replace(first, construction=construction, materials=materials)
        marks = [f"W{number}" for number in range(1, cases + 1)]
        specs = [replace(one, mark=mark, frame_with_left=mark in shared.split()) for mark in marks]
        if cases > 1:
            specs[1] = replace(specs[1], height=height)
        wide = sum((F(36) for _ in specs), left.width if left and left.width else F(0))
        plain = job(*specs, construction=construction, opening=wide, left=left)
        run = replace(plain.runs[0], left_scribe=left_scribe, right_scribe=right_scribe)
        return of(lambda: replace(plain, runs=(run,), sheets={**plain.sheets, "maple": board}))()

    return findings


DOWELS, TENONS, POCKETS, NONE = (
    FaceFrame.DOWELS,
    FaceFrame.MORTISE_AND_TENON,
    FaceFrame.POCKET_SCREWS,
    FaceFrame.NONE,
)
ALL = "W2 W3"
LONG = replace(BOARD, others=(OtherSize("maple 10 ft", F(120), F(11, 2)),))

ROWS = [
    Row(
        "frame-thin-for-joint",
        "cases.W1.frame_dowel",
        '17/32" are too thick for the frame of W1, 3/4" thick',
        '1/4"; 1/2" at most',
        framed(DOWELS, cases=1, frame_dowel=F(17, 32), frame_rail=F(9, 4), frame_mullion=F(9, 4)),
        framed(DOWELS, cases=1, frame_dowel=F(1, 2), frame_rail=F(9, 4), frame_mullion=F(9, 4)),
    ),
    Row(
        "frame-thin-for-joint",
        "cases.W1.frame_mortise",
        'mortises of 17/32" are too thick',
        '1/4"; 1/2" at most',
        framed(TENONS, cases=1, frame_mortise=F(17, 32)),
        framed(TENONS, cases=1, frame_mortise=F(1, 2)),
    ),
    Row(
        "frame-narrow-for-joint",
        "cases.W1.frame_rail",
        'the rails of W1 are 1 15/32" wide; two dowels side by side take 1 1/2"',
        'frame_rail 1 1/2" or more, or frame_dowel smaller',
        framed(DOWELS, cases=1, frame_rail=F(47, 32)),
        framed(DOWELS, cases=1, frame_rail=F(3, 2)),
    ),
    Row(
        "frame-narrow-for-joint",
        "cases.W1.frame_mullion",
        'the mullions of W1 are 31/32" wide; a tenon between its shoulders takes 1"',
        'frame_mullion 1" or more',
        framed(TENONS, cases=1, frame_mullion=F(31, 32)),
        framed(TENONS, cases=1, frame_mullion=F(1)),
    ),
    Row(
        "frame-joint-deep",
        "cases.W1.frame_dowel_depth",
        'dowel holes 1 13/32" deep go through the stiles',
        'frame_dowel_depth 1 3/8" or less, or frame_stile 1 17/32"',
        framed(DOWELS, cases=1, frame_dowel_depth=F(45, 32), bays=(Bay(),)),
        framed(DOWELS, cases=1, frame_dowel_depth=F(11, 8), bays=(Bay(),)),
    ),
    Row(
        "frame-joint-deep",
        "cases.W1.frame_tenon",
        'mortises 1 13/32" deep go through the stiles',
        'frame_tenon 1 5/16" or less',
        framed(TENONS, cases=1, frame_tenon=F(43, 32), bays=(Bay(),)),
        framed(TENONS, cases=1, frame_tenon=F(21, 16), bays=(Bay(),)),
    ),
    Row(
        "no-case-at-left",
        "cases.W1.frame_with_left",
        "W1 is to share the face frame of the case at its left, but it is the first of run",
        "Leave frame_with_left out",
        framed(POCKETS, shared="W1 W2"),
        framed(POCKETS, shared="W2"),
    ),
    Row(
        "frame-over-unlike",
        "cases.W2.frame_with_left",
        "W1 and W2 share a face frame and differ in height",
        "leave frame_with_left out",
        framed(POCKETS, shared="W2", height=F(35)),
        framed(POCKETS, shared="W2"),
    ),
    Row(
        "no-frame-to-share",
        "cases.W2.frame_with_left",
        "W1 and W2 are to share a face frame, but have none",
        "pocket screws",
        framed(NONE, shared="W2"),
        framed(POCKETS, shared="W2"),
    ),
    Row(
        "scribe-behind-filler",
        "runs.run.left_scribe",
        "a filler stands between W1 and the wall at its left",
        "Remove left_scribe",
        framed(POCKETS, left=Filler(F(2), F(1, 2), "ply"), left_scribe=F(1, 2)),
        framed(POCKETS, left_scribe=F(1, 2)),
    ),
    Row(
        "scribe-without-frame",
        "runs.run.right_scribe",
        "W3 has no face frame",
        "give W3 a frame",
        framed(NONE, right_scribe=F(1, 2)),
        framed(POCKETS, right_scribe=F(1, 2)),
    ),
    Row(
        "mullion-too-narrow",
        "cases.W1.frame_mullion",
        'the mullion over W1 and W2 is 1 13/32" wide; the two sides behind it are 1 7/16" thick',
        'frame_mullion 1 7/16"',
        framed(POCKETS, shared="W2", frame_mullion=F(45, 32)),
        framed(POCKETS, shared="W2", frame_mullion=F(23, 16)),
    ),
    Row(
        "frame-too-long",
        "cases.W3.frame_with_left",
        'the rails of the frame over W1, W2 and W3 are 105" long; maple boards gives 95 1/2"',
        "a new frame at W3",
        framed(POCKETS, shared=ALL),
        framed(POCKETS, shared=ALL, board=LONG),
    ),
]


@each(ROWS)
def test_each_comes_about_and_its_near_miss_does_not(row: Row) -> None:
    check(row)
