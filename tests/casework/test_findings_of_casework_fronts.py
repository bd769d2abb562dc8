"""Doors and fronts that cannot be hung, each with the nearest job where they can."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

from casework.odd_jobs import of
from casework.solid_jobs import solid
from casewright.casework.front_choices import DoorKind, Front, FrontKind, FrontLie
from casewright.casework.job import Bay, CaseSpec, Construction, FaceFrame, FittedWith, Job, TopKind
from casewright.findings import Weight
from casewright.jobfile.catalogue import packaged_catalogue
from finding_rows import Provoke, Row, check, each
from samples import job, spec

HINGES = {key: replace(packaged_catalogue().hinges[name], key=key) for key, name in (
    ("cup", "full overlay"), ("half", "half overlay"), ("inset", "inset"),
)}  # fmt: skip
DOOR, PAIR = Front(FrontKind.DOOR), Front(FrontKind.TWO_DOORS)
WARN = Weight.WARN


def fronted(
    *bays: Bay, width: F = F(36), height: F = F(69, 2), hinge: str = "cup", more: Any = None, **made: Any
) -> Provoke:
    """A case with those bays, and with hinges of its own."""

    def make() -> Job:
        construction = Construction(**made)
        one = spec(bays=bays, width=width, height=height, construction=construction)
        fitted = FittedWith(hinge or None, **(more or {}))
        plain = job(replace(one, fitted=fitted), construction=construction)
        return replace(plain, hinges=HINGES)

    return of(make)


def bay(*fronts: Front, **inside: Any) -> Bay:
    return Bay(fronts=fronts, **inside)


def drawer(height: F | None = None) -> Front:
    return Front(FrontKind.FIXED, height)


def two(lap: F, gap: F = F(1, 8)) -> Provoke:
    """Two cases side by side whose doors lap so far over their sides."""

    def make() -> Job:
        made = Construction(fronts=FrontLie.PARTIAL_OVERLAY, front_lap=lap, front_gap=gap)
        cases: list[CaseSpec] = [spec(mark, bays=(bay(PAIR),), construction=made) for mark in ("B1", "B2")]
        return job(*cases, construction=made)

    return of(make)


def two_under_a_frame(lap: F) -> Provoke:
    """The same under one face frame, with a mullion of 1 1/2 in before the sides that meet."""

    def make() -> Job:
        frame = FaceFrame.POCKET_SCREWS
        made = Construction(fronts=FrontLie.PARTIAL_OVERLAY, front_lap=lap, frame=frame)
        one, other = (spec(mark, bays=(bay(PAIR),), construction=made) for mark in ("B1", "B2"))
        return job(one, replace(other, frame_with_left=True), construction=made)

    return of(make)


def thick(**made: Any) -> Provoke:
    """Framed doors of solid oak with solid panels."""
    return of(lambda: solid({"panel": "thin-oak"}, bays=(bay(PAIR),), door=DoorKind.FRAME_AND_PANEL, **made))


def slab(front: Front, **made: Any) -> Provoke:
    return of(lambda: solid({"front": "cherry"}, bays=(bay(front),), **made))


PINS: dict[str, Any] = {"pin_setback": F(37) / F("25.4")}  # on the line of the plates

LAPPED: dict[str, Any] = {"fronts": FrontLie.PARTIAL_OVERLAY}

ROWS = [
    Row("front-takes-all", "cases.B1.bays[0].fronts[0].height", 'to be 10" high', "Leave out",
        fronted(bay(drawer(F(10)))), fronted(bay(drawer()))),
    Row("nothing-for-fronts", "cases.B1.bays[0].fronts[1].height", 'of the 30 3/8"', "front 2",
        fronted(bay(drawer(), drawer(F(121, 4)))), fronted(bay(drawer(), drawer(F(241, 8))))),
    Row("fronts-do-not-fill", "cases.B1.bays[0].fronts", 'add up to 20 1/8"', "height of one",
        fronted(bay(drawer(F(10)), drawer(F(10)))), fronted(bay(drawer(F(10)), drawer(F(81, 4))))),
    Row("fronts-meet", "cases.B1.front_lap", 'less than 1/8"', '21/32"', two(F(11, 16)), two(F(21, 32))),
    Row("fronts-meet", "cases.B1.front_lap", 'half a mullion 3/4" wide', '11/16"',
        two_under_a_frame(F(23, 32)), two_under_a_frame(F(11, 16))),
    Row("fronts-meet", "cases.B1.front_lap", "bays 1 and 2", "full overlay",
        fronted(bay(DOOR), bay(DOOR), fronts=FrontLie.PARTIAL_OVERLAY, front_lap=F(5, 16)),
        fronted(bay(DOOR), bay(DOOR), fronts=FrontLie.PARTIAL_OVERLAY, front_lap=F(9, 32))),
    Row("fronts-meet", "cases.B1.front_lap", "over the rails between them", '11/16"',
        fronted(bay(PAIR, drawer(F(6))), frame=FaceFrame.POCKET_SCREWS, **LAPPED, front_lap=F(23, 32)),
        fronted(bay(PAIR, drawer(F(6))), frame=FaceFrame.POCKET_SCREWS, **LAPPED, front_lap=F(11, 16))),
    Row("no-hinge", "cases.B1.fitted_with.hinge", "nothing is bored", "one of the job's hinges",
        fronted(bay(PAIR), hinge=""), fronted(bay(PAIR)), WARN),
    Row("hinge-does-not-reach", "cases.B1.fitted_with.hinge", "B1-DO1 stands inside B1-L", "another overlay",
        fronted(bay(PAIR), fronts=FrontLie.INSET), fronted(bay(PAIR)), WARN),
    Row("hinge-does-not-reach", "cases.B1.fitted_with.hinge", "is for doors that stand inside", "crank",
        fronted(bay(DOOR), hinge="inset", width=F(20)), fronted(bay(PAIR)), WARN),
    Row("hinge-does-not-reach", "cases.B1.fitted_with.divider_hinge", "over B1-D1", "divider_hinge",
        fronted(bay(DOOR), bay(DOOR)), fronted(bay(DOOR), bay(DOOR), more={"divider_hinge": "half"}), WARN),
    Row("cup-off-the-stile", "cases.B1.door_stile", 'a stile 1 5/8" wide', '1 21/32"',
        fronted(bay(PAIR), door=DoorKind.FRAME_AND_PANEL, door_stile=F(13, 8)),
        fronted(bay(PAIR), door=DoorKind.FRAME_AND_PANEL, door_stile=F(53, 32))),
    Row("hinges-too-close", "B1-DO1", "it will sag", "two doors",
        fronted(bay(DOOR), width=F(36)), fronted(bay(PAIR), width=F(36)), WARN),
    Row("door-beyond-hinges", "B1-DO1", "beyond every chart", "lower or lighter",
        fronted(bay(DOOR), height=F(110), width=F(20)), fronted(bay(DOOR), height=F(100), width=F(20)), WARN),
    Row("plate-at-a-shelf", "B1-L.plate-DO1-1", "of its dado", "from_end",
        fronted(bay(DOOR, fixed=(F(1), F(1), F(1), F(1), F(1))), width=F(20)),
        fronted(bay(DOOR, fixed=(F(10),)), width=F(20)), WARN),
    Row("plate-meets-pins", "B1-L.plate-DO1-1", "run into pin holes", "pin_setback",
        fronted(bay(DOOR, adjustable=3), width=F(20), pin_pitch=F(3, 8), pin_first=F(1), **PINS),
        fronted(bay(DOOR, adjustable=3), width=F(20), pin_first=F(1), **PINS), WARN),
    Row("cups-too-deep", "B1-DO1.cups", "hinge cups are", "less deep",
        of(lambda: thin_doors("thin")), of(lambda: thin_doors("ply"))),
    Row("plates-too-deep", "B1-L.plate-DO1-1", "hinge plate holes are", "less deep",
        of(lambda: deep_plates(F(23, 32))), of(lambda: deep_plates(F(11, 16)))),
    Row("cups-off-the-part", "B1-DO1.cups", "the last hinge cup", "nearer the end",
        of(lambda: from_end(-F(4))), of(lambda: from_end(F(4)))),
    Row("plates-off-the-part", "B1-L.plate-DO1-1", "in from the edge", "back less",
        of(lambda: deep_plates(F(1, 2), F(24))), of(lambda: deep_plates(F(1, 2), F(20)))),
    Row("panel-swells", "cases.B1.panel_play", "push the frame apart", "panel_play to",
        thick(panel_play=F(1, 32)), thick(panel_play=F(1, 4)), WARN),
    Row("panel-slips-out", "cases.B1.door_tongue", "slip out", "door_tongue",
        thick(panel_play=F(1, 4), door_tongue=F(1, 4)), thick(panel_play=F(1, 4)), WARN),
    Row("front-swells", "cases.B1.front_gap", "beside it", "front_gap to",
        slab(DOOR, fronts=FrontLie.INSET), slab(PAIR, fronts=FrontLie.INSET, front_gap=F(3, 16)), WARN),
    Row("front-swells", "cases.B1.front_gap", "above and below it", "front_gap to",
        slab(drawer(), top=TopKind.BUTT), slab(drawer(), top=TopKind.BUTT, front_gap=F(1)), WARN),
]  # fmt: skip


def thin_doors(key: str) -> Job:
    one = spec(bays=(bay(PAIR),))
    one = replace(one, materials=replace(one.materials, front=key), fitted=FittedWith("cup"))
    return replace(job(one), hinges=HINGES)


def deep_plates(depth: F, setback: F = F(37) / F("25.4")) -> Job:
    hinge = replace(HINGES["cup"], plate_pilot_depth=depth, plate_setback=setback)
    return replace(job(spec(bays=(bay(PAIR),))), hinges={"cup": hinge})


def from_end(end: F) -> Job:
    return replace(job(spec(bays=(bay(PAIR),))), hinges={"cup": replace(HINGES["cup"], from_end=end)})


@each(ROWS)
def test_fronts(row: Row) -> None:
    check(row)
