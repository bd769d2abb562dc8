"""Every finding of a job that cannot be built, or should be looked at, and the nearest that is sound."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casework.odd_jobs import STEP, built, changed, in_run, moved, of, shaped, shared
from casewright.casework.job import Bay, Construction, Filler, ToeKind, TopKind
from casewright.findings import Weight
from finding_rows import Row, check, each
from samples import MATERIALS, job, spec

DEEP = Construction(pin_depth=F(3, 8))
THROUGH = Construction(pin_depth=F(23, 64))  # just half the divider from each face
PAIR = (Bay(adjustable=1), Bay(adjustable=1))
FACED = (Bay(fixed=(F(10),)), Bay(fixed=(F(10),)))
BESIDE = (Bay(fixed=(F(10),)), Bay(fixed=(F(10) + F(23, 32),)))

ROWS = [
    Row("no-cases", "runs", "no cases", "at least one case", changed(runs=()), changed()),
    Row("run-empty", "runs.run", "no cases", "Add a case", in_run(cases=()), in_run()),
    Row(
        "mark-twice",
        "cases.B1",
        "B1 is used for 2 cases",
        "its own",
        of(lambda: job(spec("B1"), spec("B1"))),
        of(lambda: job(spec("B1"), spec("B2"))),
    ),
    Row(
        "mark-taken",
        "cases.job.mark",
        "a case marked “job”",
        "another mark",
        of(lambda: job(replace(spec("job"), chosen=frozenset({"dado_depth"})))),
        of(lambda: job(spec("job"))),
    ),
    Row("not-positive", "runs.run.opening", '0"', "length", shaped(opening=F(0)), shaped(opening=STEP)),
    Row("not-positive", "cases.B1.width", '3"', "length", shaped(width=F(-3)), shaped(width=STEP)),
    Row("not-positive", "cases.B1.height", '0"', "length", shaped(height=F(0)), shaped(height=STEP)),
    Row("not-positive", "cases.B1.depth", '0"', "length", shaped(depth=F(0)), shaped(depth=STEP)),
    Row("not-positive", "cases.B1.pin_pitch", '0"', "length", built(pin_pitch=F(0)), built(pin_pitch=STEP)),
    Row(
        "not-positive",
        "runs.run.left_filler.width",
        '0"',
        "length",
        of(lambda: job(left=Filler(F(0), F(1, 2), "ply"))),
        of(lambda: job(left=Filler(STEP, F(1, 2), "ply"))),
    ),
    Row(
        "unknown-material",
        "runs.run.right_filler.material",
        "'oak'",
        "ply, thin",
        of(lambda: job(right=Filler(F(1), F(1, 2), "oak"))),
        of(lambda: job(right=Filler(F(1), F(1, 2), "thin"))),
    ),
    Row(
        "unknown-material",
        "cases.B1.made_of.back",
        "'oak'",
        "ply, thin",
        of(lambda: job(replace(spec(), materials=replace(MATERIALS, back="oak")))),
        of(lambda: job(replace(spec(), materials=replace(MATERIALS, back="ply")))),
    ),
    Row("negative", "cases.B1.dado_play", '1/32"', "or more", built(dado_play=-STEP), built(dado_play=F(0))),
    Row(
        "groove-at-the-edge",
        "cases.B1.back_inset",
        "no wood behind it",
        "mounting strip",
        built(strips=0, back_inset=F(0)),
        built(strips=0, back_inset=STEP),
    ),
    Row(
        "groove-at-the-edge",
        "cases.B1.back_inset",
        "rear edge",
        "rabbets",
        built(strips=0, back_inset=F(0)),
        built(strips=1, back_inset=F(0)),
    ),
    Row(
        "toe-too-tall",
        "cases.B1.toe_height",
        '34 1/2"',
        "Lower",
        built(toe_height=F(69, 2)),
        built(toe_height=F(69, 2) - STEP),
    ),
    Row(
        "toe-too-tall",
        "cases.B1.toe_height",
        '40"',
        "raise",
        built(toe_height=F(40)),
        built(toe_height=F(40), toe=ToeKind.NONE),
    ),
    Row(
        "toe-too-deep",
        "cases.B1.toe_depth",
        '24"',
        "less",
        built(toe_depth=F(24)),
        built(toe_depth=F(24) - STEP),
    ),
    Row(
        "over-the-ceiling",
        "cases.B1.height",
        '34 1/2"',
        "lower",
        in_run(ceiling=F(69, 2) - STEP),
        in_run(ceiling=F(69, 2)),
    ),
    Row(
        "over-the-ceiling",
        "cases.B1.height",
        '94 1/2"',
        "lower",
        in_run(lift=F(60), ceiling=F(94)),
        in_run(lift=F(60), ceiling=F(189, 2)),
    ),
    Row("no-bays", "cases.B1.bays", "no bay", "at least one", shaped(bays=()), shaped(bays=(Bay(),))),
    Row(
        "no-share",
        "cases.B1.share",
        "0",
        "share greater",
        of(lambda: job(replace(spec(width=None), weight=F(0)), opening=F(36))),
        of(lambda: job(replace(spec(width=None), weight=F(1, 100)), opening=F(36))),
    ),
    Row("run-too-wide", "runs.run", '1/32" wider', "narrower", shaped(opening=F(36) - STEP), shaped()),
    Row(
        "run-leaves-room", "runs.run", '1/32"', "filler", shaped(opening=F(36) + STEP), shaped(), Weight.WARN
    ),
    Row(
        "no-such-part",
        "optional",
        "B9-L",
        "parts list",
        changed(optional=frozenset({"B9-L"})),
        changed(optional=frozenset({"B1-L"})),
        Weight.WARN,
    ),
    Row(
        "no-such-part",
        "sheet_of",
        "B9-L",
        "parts list",
        changed(sheet_of={"B9-L": "ply"}),
        changed(sheet_of={"B1-L": "ply"}),
        Weight.WARN,
    ),
    Row(
        "not-optional",
        "left_out",
        "B1-L",
        "optional",
        changed(left_out=frozenset({"B1-L"})),
        changed(left_out=frozenset({"B1-A1"})),
    ),
    Row(
        "bays-do-not-fill",
        "cases.B1.bays",
        '34 17/32"',
        "takes the rest",
        shared(F(17), F(33) + F(26, 32) - 17),
        shared(F(17), F(33) + F(27, 32) - 17),
    ),
    Row(
        "no-room-inside",
        "cases.B1",
        'clear width inside B1 would be 0"',
        "wider",
        shaped(width=F(23, 16)),
        shaped(width=F(23, 16) + STEP),
    ),
    Row(
        "no-room-inside",
        "cases.B1",
        "clear depth inside B1",
        "deeper",
        built(strips=0, back_inset=F(23) + F(49, 64)),
        built(strips=0, back_inset=F(23) + F(3, 4)),
    ),
    Row(
        "no-room-inside",
        "cases.B1",
        'clear height inside B1 would be 0"',
        "taller",
        shaped(height=F(4) + F(23, 16)),
        shaped(height=F(4) + F(23, 16) + STEP),
    ),
    Row(
        "no-size",
        "B1-A1",
        "adjustable shelf of B1 would be 0",
        "play",
        built(shelf_play=F(36) - F(23, 16)),
        built(shelf_play=F(36) - F(23, 16) - STEP),
    ),
    Row(
        "shelves-too-high",
        "cases.B1.bays[0].fixed",
        '0"',
        "Lower",
        shaped(bays=(Bay(fixed=(F(10), F(141, 8))),)),
        shaped(bays=(Bay(fixed=(F(10), F(141, 8) - STEP)),)),
    ),
    Row(
        "notch-too-large",
        "B1-L.notch-toe",
        '24" of 24"',
        "toe kick",
        moved("job.toe_depth", F(24)),
        moved("job.toe_depth", F(24) - STEP),
    ),
    Row(
        "dado-too-deep",
        "B1-L.dado-bottom",
        '23/32"',
        "shallower",
        built(dado_depth=F(23, 32)),
        built(dado_depth=F(11, 16)),
    ),
    Row("dado-too-deep", "B1-L.dado-bottom", '7/8" deep', "dado", built(dado_depth=F(7, 8)), built()),
    Row(
        "groove-too-deep",
        "B1-L.groove-back",
        '23/32"',
        "shallower",
        built(groove_depth=F(23, 32)),
        built(groove_depth=F(11, 16)),
    ),
    Row(
        "rabbet-too-deep",
        "B1-L.rabbet-top",
        '23/32"',
        "shallower",
        built(top=TopKind.RABBET, rabbet_depth=F(23, 32)),
        built(top=TopKind.RABBET, rabbet_depth=F(11, 16)),
    ),
    Row(
        "dados-meet",
        "B1-D1.dado-F11",
        '23/32"',
        "shallower",
        shaped(bays=FACED, construction=Construction(dado_depth=F(23, 64))),
        shaped(bays=FACED, construction=Construction(dado_depth=F(11, 32))),
    ),
    Row(
        "dados-meet",
        "B1-D1.dado-F11",
        '3/4"',
        "different heights",
        shaped(bays=FACED, construction=Construction(dado_depth=F(3, 8))),
        shaped(bays=BESIDE, construction=Construction(dado_depth=F(3, 8))),
    ),
    Row(
        "stretchers-too-wide",
        "cases.B1.stretcher_width",
        '11 17/32"',
        "narrower",
        built(stretcher_width=F(23, 2) + STEP),
        built(stretcher_width=F(23, 2)),
    ),
    Row(
        "will-not-stand-up",
        "cases.B1",
        '98 15/16"',
        "plinth",
        in_run(height=F(96), ceiling=F(98) + F(15, 16)),
        in_run(height=F(96), ceiling=F(98) + F(31, 32)),
        Weight.WARN,
    ),
    Row(
        "pins-meet",
        "B1-D1.pins-11-left-front",
        '3/4"',
        "Bore less deep",
        shaped(bays=PAIR, construction=DEEP),
        shaped(bays=PAIR, construction=THROUGH),
        Weight.WARN,
    ),
    Row(
        "shelf-too-deep",
        "B1-A1",
        '23 1/16"',
        "Set the shelf back",
        moved("job.shelf_setback", -STEP),
        moved("job.shelf_setback", F(0)),
    ),
    Row(
        "pins-too-deep",
        "B1-L.pins-11-right-front",
        '23/32"',
        "less deep",
        built(pin_depth=F(23, 32)),
        built(pin_depth=F(11, 16)),
    ),
    Row(
        "pins-off-the-part",
        "B1-L.pins-11-right-front",
        '24" wide',
        "back less",
        built(pin_setback=F(24) - F(1, 8)),
        built(pin_setback=F(24) - F(5, 32)),
    ),
    Row(
        "pins-off-the-part",
        "B1-L.pins-11-right-front",
        '34 1/2" long',
        "first hole",
        moved("B1-L.pins-11-right-front.first", F(37, 2)),
        moved("B1-L.pins-11-right-front.first", F(37, 2) - STEP),
    ),
    Row(
        "dado-off-the-part",
        "B1-L.dado-bottom",
        '34 17/32"',
        "Move it",
        moved("B1-L.dado-bottom.at", F(34) - F(3, 16)),
        moved("B1-L.dado-bottom.at", F(34) - F(7, 32)),
    ),
    Row(
        "groove-off-the-part",
        "B1-L.groove-back",
        'the left side is 24"',
        "Move it",
        moved("B1-L.groove-back.width", F(24) - F(11, 16)),
        moved("B1-L.groove-back.width", F(24) - F(23, 32)),
    ),
    Row(
        "rabbet-off-the-part",
        "B1-L.rabbet-top",
        '34 17/32"',
        "make the part larger",
        moved("B1-L.rabbet-top.width", F(69, 2) + STEP, TopKind.RABBET),
        moved("B1-L.rabbet-top.width", F(69, 2), TopKind.RABBET),
    ),
    Row(
        "no-height-for-shelf",
        "cases.B1.bays[0].adjustable",
        '28 1/4"',
        "lower",
        built(pin_first=F(28) + F(7, 32) + STEP),
        built(pin_first=F(28) + F(7, 32)),
    ),
    Row(
        "shelves-in-one-place",
        "cases.B1.bays[0].adjustable",
        "3 shelves",
        "fewer shelves",
        shaped(height=F(22), bays=(Bay(adjustable=3),)),
        shaped(height=F(22), bays=(Bay(adjustable=2),)),
    ),
]


@each(ROWS)
def test_each_is_said_of_the_wrong_job_and_not_of_its_neighbour(row: Row) -> None:
    check(row)


def test_of_pin_holes_that_meet_one_row_speaks_for_all() -> None:
    found = shaped(bays=PAIR, construction=DEEP)()
    assert [finding.code for finding in found] == ["pins-meet"]
