"""Causes that many faults follow from: each said once, with the case, run or sheet that is to blame."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from casework.odd_jobs import STEP, built, in_run, of
from casewright.casework.job import (
    BackKind,
    Bay,
    CaseKind,
    CaseSpec,
    Construction,
    Filler,
    Job,
    Run,
    ToeKind,
    Worktop,
)
from casewright.findings import Weight
from casewright.lengths.length import MM, Mark, Unit
from finding_rows import Provoke, Row, check, each
from samples import SHEETS, job, spec

THIN = Construction(back=BackKind.APPLIED, strips=2)


def topped(*cases: CaseSpec, ceiling: F | None = None) -> Provoke:
    """A run with a worktop 1 1/2 in thick."""

    def make() -> Job:
        plain = job(*cases)
        run = replace(plain.runs[0], worktop=Worktop(F(3, 2)), ceiling=ceiling)
        return replace(plain, runs=(run,))

    return of(make)


def sharing(width: F, opening: F = F(60)) -> Provoke:
    """B1 of this width beside B2, which takes what is left."""
    return of(lambda: job(spec("B1", width=width), spec("B2", width=None), opening=opening))


def measured(*readings: str, unit: Unit = Unit.INCH) -> Provoke:
    """The ply, sold as 3/4 in, as a caliper reads it."""

    def make() -> Job:
        ply = replace(SHEETS["ply"], readings=tuple(F(one) * unit.length for one in readings))
        mark = Mark.THIRTY_SECOND if unit is Unit.INCH else Mark.HALF_MILLIMETRE
        return replace(job(), sheets={**SHEETS, "ply": ply}, unit=unit, mark=mark)

    return of(make)


def hung(made: Construction = THIN, *, strip: F = F(3, 4), lift: F = F(60)) -> Provoke:
    """Two wall cases; their strips of a sheet that is so thick."""
    sheet = replace(SHEETS["ply"], key="strip", readings=(strip,), nominal=strip)

    def case(mark: str) -> CaseSpec:
        plain = spec(mark, kind=CaseKind.WALL, construction=made, height=F(30), depth=F(12))
        return replace(plain, materials=replace(plain.materials, strip="strip"))

    return of(lambda: replace(job(case("W1"), case("W2"), lift=lift), sheets={**SHEETS, "strip": sheet}))


def second(lift: F = F(0), along: F = F(0), wall: str = "wall") -> Provoke:
    """A base case 36 in wide and 34 1/2 in high at the left end of the wall, and another run."""
    base = job(spec("B1"))
    hangs = spec("W1", height=F(30), depth=F(12), construction=Construction(toe=ToeKind.NONE))
    other = Run("other", F(36), (hangs,), wall, along, lift)
    return of(lambda: replace(base, runs=(*base.runs, other)))


def shelved(setback: F, back: BackKind = BackKind.APPLIED) -> Provoke:
    """A case with shelves on pins, and strips 23/32 in thick in front of its back where it is applied."""
    return built(back=back, strips=2, pin_setback=setback, pin_first=F(3))


def bays(*widths: F | None) -> Provoke:
    """B1, 36 in wide and 34 9/16 in inside, with these bays and shelves in each."""
    return of(lambda: job(spec("B1", bays=tuple(Bay(fixed=(F(10),), adjustable=2, width=w) for w in widths))))


INSIDE = F(36) - 2 * F(23, 32)

ROWS = [
    Row(
        "bay-too-wide",
        "cases.B1.bays[0].width",
        'bay 1 is 40" wide; B1 is only 34 9/16" wide inside',
        "Make the bay narrower, or B1 wider",
        bays(F(40), None),
        bays(F(20), None),
    ),
    Row(
        "bay-too-wide",
        "cases.B1.bays[0].width",
        'the only bay of B1 is 34 19/32" wide',
        "Make the bay narrower, or B1 wider",
        bays(INSIDE + STEP),
        bays(INSIDE),
    ),
    Row(
        "nothing-for-bays",
        "cases.B1.bays[1].width",
        "nothing is left for bay 1 and bay 3",
        'the widest is bay 2, 33 1/8"',
        bays(None, INSIDE - F(23, 16), None),
        bays(None, INSIDE - F(6), None),
    ),
    Row(
        "bay-takes-all",
        "cases.B1.bays[0].width",
        'to be 20" wide, but takes all of the 34 9/16" inside',
        "Leave out its width",
        bays(F(20)),
        bays(INSIDE),
        Weight.WARN,
    ),
    Row(
        "case-too-wide",
        "cases.B1.width",
        'B1 is 60 1/32" wide',
        "Make B1 narrower",
        sharing(F(60) + STEP),
        sharing(F(57)),
    ),
    Row(
        "case-too-wide",
        "cases.B1.width",
        'room for 34"',
        "correct the opening",
        of(lambda: job(spec("B1"), opening=F(36), left=Filler(F(2), F(0), "ply"))),
        of(lambda: job(spec("B1"), opening=F(38), left=Filler(F(2), F(0), "ply"))),
    ),
    Row(
        "no-room-for-cases",
        "runs.run.opening",
        'the 2" opening',
        "filler narrower",
        of(lambda: job(spec("B1"), opening=F(2), left=Filler(F(2), F(0), "ply"))),
        of(lambda: job(spec("B1"), opening=F(38), left=Filler(F(2), F(0), "ply"))),
    ),
    Row(
        "nothing-to-share",
        "cases.B1.width",
        "nothing is left for B2",
        'the widest is B1, 60"',
        sharing(F(60)),
        sharing(F(57)),
    ),
    Row(
        "share-too-small",
        "runs.run",
        'for B2 is only 1 7/16"',
        "such as B1",
        sharing(F(60) - F(23, 16)),
        sharing(F(60) - F(3)),
    ),
    Row(
        "no-case-for-worktop",
        "runs.run.worktop",
        "no base case",
        "Leave worktop out",
        topped(spec(kind=CaseKind.OPEN)),
        topped(spec()),
    ),
    Row(
        "worktop-not-level",
        "runs.run.worktop",
        "B2 is lower than the highest base case",
        "a run of their own",
        topped(spec(), spec("B2", height=F(69, 2) - STEP)),
        topped(spec(), spec("B2", kind=CaseKind.TALL, height=F(84))),
    ),
    Row(
        "over-the-ceiling",
        "cases.B1.height",
        '36"',
        "lower",
        topped(spec(), ceiling=F(36) - STEP),
        topped(spec(), ceiling=F(36)),
    ),
    Row(
        "beyond-the-wall",
        "runs.run.opening",
        'the opening is 36" wide; wall is only 35 31/32" long',
        "length of the wall",
        in_run(wall_length=F(36) - STEP),
        in_run(wall_length=F(36)),
    ),
    Row(
        "beyond-the-wall",
        "runs.run.opening",
        'the opening ends 46" along the wall',
        "along smaller",
        in_run(wall_length=F(46) - STEP, along=F(10)),
        in_run(wall_length=F(46), along=F(10)),
    ),
    Row(
        "runs-share-room",
        "runs.other.lift",
        'W1 would hang at 34 15/32", but B1 reaches up to 34 1/2"',
        'Raise lift to 34 1/2"',
        second(lift=F(69, 2) - STEP),
        second(lift=F(69, 2)),
    ),
    Row(
        "runs-share-room",
        "runs.other.along",
        'run ends 36" along wall, and other begins at 35 31/32"',
        'along of other to 36"',
        second(along=F(36) - STEP),
        second(along=F(36)),
    ),
    Row(
        "runs-share-room",
        "runs.other.along",
        "B1 of run and W1 of other",
        "another wall",
        second(),
        second(wall="north"),
    ),
    Row(
        "not-that-sheet",
        "materials.ply.readings[0]",
        "1.76 and 1.77 mm cannot be a sheet of birch ply, sold as 19.05 mm",
        "decimal point misplaced? 17.6",
        measured("1.76", "1.77", "17.6", unit=Unit.MM),
        measured("17.6", "17.7", unit=Unit.MM),
    ),
    Row(
        "not-that-sheet",
        "materials.ply.readings[1]",
        "0.695 mm",
        'in inches? Then write "0.695 in"',
        measured("17.7", "0.695", unit=Unit.MM),
        measured("0.695", "0.7"),
    ),
    Row(
        "not-that-sheet",
        "materials.ply.readings[0]",
        "17.7 in",
        'in millimetres? Then write "17.7 mm"',
        measured("17.7"),
        measured("0.7"),
    ),
    Row(
        "not-that-sheet",
        "materials.ply.readings[0]",
        "(and 1 more)",
        "Read the caliper again",
        measured("1.1", "1.1", "1.1"),
        measured("0.9"),
    ),
    Row(
        "reading-apart",
        "materials.ply.readings[2]",
        "18.60 mm stands apart: the middle reading of birch ply is 17.62 mm",
        "Read it again",
        measured("17.6", "17.65", "18.6", "17.6", unit=Unit.MM),
        measured("17.6", "17.65", "18.1", "17.6", unit=Unit.MM),
        Weight.WARN,
    ),
    Row(
        "nothing-to-hang-by",
        "cases.W1.strips",
        "W1 and W2 have no mounting strip, and a back too thin",
        "strips = 2",
        hung(replace(THIN, strips=0)),
        hung(),
        Weight.WARN,
    ),
    Row(
        "nothing-to-hang-by",
        "cases.W1.strips",
        "no back and no mounting strip",
        "back of 1/2 in",
        hung(replace(THIN, strips=0, back=BackKind.NONE)),
        hung(replace(THIN, back=BackKind.NONE)),
        Weight.WARN,
    ),
    Row(
        "toe-kick-hung",
        "cases.W1.toe",
        "W1 and W2 hang above the floor with a toe kick below",
        'toe = "none"',
        hung(replace(THIN, toe=ToeKind.NOTCH)),
        hung(replace(THIN, toe=ToeKind.NONE)),
        Weight.WARN,
    ),
    Row(
        "weak-strips",
        "cases.W1.strip_width",
        'only 1 31/32" wide',
        "strip_width 3 to 4 in",
        hung(replace(THIN, strip_width=F(2) - STEP)),
        hung(replace(THIN, strip_width=F(2))),
        Weight.WARN,
    ),
    Row(
        "weak-strips",
        "cases.W1.made_of.strip",
        'only 13/32" thick',
        "1/2 in (12 mm)",
        hung(strip=F(13, 32)),
        hung(strip=F(7, 16)),
        Weight.WARN,
    ),
    Row(
        "strips-too-wide",
        "cases.B1.strip_width",
        "2 mounting strips",
        "fewer strips",
        built(back=BackKind.APPLIED, strips=2, strip_width=F(15)),
        built(back=BackKind.APPLIED, strips=2, strip_width=F(14)),
    ),
    Row(
        "deep-joint",
        "dado_depth",
        'dados 7/16" deep take more than half of the birch ply, 23/32" thick, in B1',
        'dado_depth 3/8" or less',
        built(dado_depth=F(7, 16)),
        built(dado_depth=F(13, 32)),
        Weight.WARN,
    ),
    Row(
        "deep-joint",
        "cases.B1.groove_depth",
        "grooves",
        "groove_depth",
        of(
            lambda: job(
                spec(construction=Construction(groove_depth=F(1, 2)), chosen=frozenset({"groove_depth"}))
            )
        ),
        of(lambda: job(spec(chosen=frozenset({"groove_depth"})))),
        Weight.WARN,
    ),
    Row(
        "deep-joint",
        "rabbet_depth",
        "rabbets",
        "rabbet_depth",
        built(back=BackKind.RABBET, rabbet_depth=F(1, 2)),
        built(back=BackKind.GROOVE, rabbet_depth=F(1, 2)),
        Weight.WARN,
    ),
    Row(
        "pins-behind-strip",
        "cases.B1.pin_setback",
        'strips 23/32" thick: no shelf reaches it',
        'pin_setback 31/32" or more',
        shelved(F(23, 32) + F(3, 32)),
        shelved(F(23, 32) + F(4, 32)),
    ),
    Row(
        "pins-behind-strip",
        "cases.B1.pin_setback",
        "behind mounting strips",
        "in grooves",
        shelved(F(1, 2)),
        shelved(F(1, 2), BackKind.GROOVE),
    ),
    Row(
        "pins-run-together",
        "cases.B1.pin_pitch",
        '1/4" across would run together, 1/4" apart',
        "pin_pitch larger",
        built(pin_pitch=F(1, 4)),
        built(pin_pitch=F(1, 4) + STEP),
    ),
    Row(
        "too-many-pin-holes",
        "cases.B1.pin_pitch",
        "more than 200 holes each",
        "pin_pitch larger",
        built(pin_pitch=F(69, 2) / 201, pin_diameter=F(1, 8)),
        built(pin_pitch=F(69, 2) / 200, pin_diameter=F(1, 8)),
    ),
    Row(
        "pin-rows-cross",
        "cases.B1.pin_setback",
        'pin rows 12" from front and back',
        "pin_setback smaller",
        built(pin_setback=F(12)),
        built(pin_setback=F(11)),
    ),
]


@each(ROWS)
def test_each_cause_is_said_of_the_wrong_job_and_not_of_its_neighbour(row: Row) -> None:
    check(row)


def only(provoke: Provoke) -> list[str]:
    return [finding.code for finding in provoke()]


def test_what_follows_from_a_cause_is_not_said_again() -> None:
    assert only(sharing(F(62))) == ["case-too-wide"]
    assert only(sharing(F(60))) == ["nothing-to-share"]
    assert only(second(lift=F(20))) == ["runs-share-room"]
    assert only(measured("1.76", "1.76", unit=Unit.MM)) == ["not-that-sheet"]
    assert only(built(dado_depth=F(1))) == ["dado-too-deep"]


def test_a_cause_in_many_places_is_said_once_with_their_number() -> None:
    (finding,) = built(dado_depth=F(1))()
    assert finding.text.endswith("The same in one other place.")
    cases = [spec(f"B{n}", construction=Construction(dado_depth=F(1))) for n in range(1, 4)]
    (many,) = of(lambda: job(*cases, construction=Construction(dado_depth=F(1))))()
    assert many.place == "B1-L.dado-bottom" and many.text.endswith("The same in 5 other places.")


def test_a_wall_as_long_for_every_run_along_it() -> None:
    """One run says how long the wall is; the other, which reaches past its end, is named."""
    base = job(spec("B1"))
    first = replace(base.runs[0], wall_length=F(60))
    other = Run("other", F(36), (spec("B2"),), along=F(36))
    (finding,) = of(lambda: replace(base, runs=(first, other)))()
    assert (finding.code, finding.place) == ("beyond-the-wall", "runs.other.opening")


def test_half_a_millimetre_apart_is_usual_and_more_is_not() -> None:
    assert only(measured("17.6", "17.6", "18.1", unit=Unit.MM)) == []
    assert only(measured("17.6", "17.6", "18.11", unit=Unit.MM)) == ["reading-apart"]
    assert only(measured("17.6", "18.6", unit=Unit.MM)) == [], "of two, neither is the odd one"
    assert F(1, 48) > MM / 2


def test_a_bay_too_wide_is_the_only_thing_said_of_its_shelves() -> None:
    assert [found.code for found in bays(F(40), None)()] == ["bay-too-wide"]
