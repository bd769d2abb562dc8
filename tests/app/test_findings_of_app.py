"""Every finding of what a maker asks for in a command or on a page, and the nearest that is done."""

from __future__ import annotations

from fractions import Fraction as F
from functools import cache
from pathlib import Path
from typing import Any

from casewright.app.editing.arrangement import drop_run
from casewright.app.editing.text_edits import DropEntry, apply_edits
from casewright.app.fit.fit_page import explain_gap
from casewright.app.fit.typed_readings import as_built, check_square
from casewright.app.jobs.job_file import load
from casewright.app.jobs.worked_job import PlannedJob, WorkedJob
from casewright.app.new_job.from_opening import job_in_opening
from casewright.app.new_job.new_job_file import Wish, new_job
from casewright.app.papers.label_files import write_labels
from casewright.app.prevention import guard
from casewright.app.repair.mishap import Mishap, measured_wrong, repair_task
from casewright.app.repair.repair_page import FoundWays
from casewright.app.shop.step_list import known_part
from casewright.app.views.parts_page import reasons
from casewright.casework.project import draw_up
from casewright.lengths.length import Unit
from casewright.planner.engine import MaxIterations
from casewright.planner.plan import sheets_of_parts
from casewright.planner.solve import solve
from casewright.repair.facts import AsCut
from casewright.tolerance.outcomes.gap_spread import fit
from finding_rows import Provoke, Row, check, each, told
from samples import job

JOB = job()
PROJECT = draw_up(JOB)  # one case; its side is 34 1/2 by 24
WORKED = WorkedJob("", JOB, PROJECT)
FIT = fit(PROJECT)
HAIR = F(1, 64)
HALF_MARK = F(1, 64)  # of a rule in 1/32 in
SIDE = (F(69, 2), F(24))


@cache
def planned() -> PlannedJob:
    return WORKED.with_plan(
        {key: solve(problem, MaxIterations(5)) for key, problem in WORKED.problems.items()}
    )


def cut_to(length: F, width: F) -> Provoke:
    """The left side is said to measure this, spoiled."""
    return lambda: measured_wrong(PROJECT, "B1-L", AsCut(length, width), wrong=False)


def happened(**said: Any) -> Provoke:
    return lambda: told(lambda: repair_task(planned(), Mishap(**said)))


def flawed_under(mark: str, **said: Any) -> Provoke:
    """All of the sheet that a part was cut from is at fault."""
    sheets = sheets_of_parts(planned().plans)
    material, number = sheets[mark]
    return happened(flaws=[f"{material} {number}:0 x 0:96 x 48"], cut=[mark], **said)


def at_saw(mark: str, said: str) -> Provoke:
    return lambda: told(lambda: guard(PROJECT, mark, "length", said))


def begun(opening: str, name: str = "Sail loft", cases: int | None = None) -> Provoke:
    return lambda: told(lambda: new_job(Wish(name, Unit.INCH, opening, cases=cases)))


def built(*readings: str, cut: tuple[str, ...] = ()) -> Provoke:
    return lambda: told(lambda: as_built(FIT, readings, cut))


def square(case: str, rising: str, falling: str) -> Provoke:
    return lambda: told(lambda: check_square(FIT, case, rising, falling, sure=True))


def option(number: int, options: int = 2) -> Provoke:
    found = FoundWays(None, ("way",) * options, (), "Nothing is to be put right.", False, 0, 0)  # type: ignore[arg-type]
    return lambda: told(lambda: found.option(number))


def runs(number: int) -> Provoke:
    return lambda: told(lambda: drop_run({"runs": [{"cases": []}] * number}, 0))


def chosen(unit: str, kind: str) -> Provoke:
    return lambda: told(lambda: job_in_opening("Sail loft", unit, "60", kind))


def dotted(text: str) -> Provoke:
    return lambda: told(lambda: apply_edits(text, [DropEntry(("shop", "table_saw", "kerf"))]))


ROWS = [
    Row(
        "comments-in-the-way",
        "shop.table_saw.kerf",
        "without losing comments",
        "in the text",
        dotted('shop.table_saw.kerf = "1/8" # thin\n'),
        dotted('shop.table_saw.kerf = "1/8"\n'),
    ),
    Row("no-size", "B1-L", "length and a width", "only its mark", cut_to(F(0), F(24)), cut_to(HAIR, F(24))),
    Row(
        "too-large",
        "B1-L",
        '~96 1/32" is larger than a sheet of birch ply',
        "unit",
        cut_to(F(24), F(96) + HAIR),
        cut_to(F(24), F(96)),
    ),
    Row(
        "larger",
        "B1-L",
        '34 1/2 × 24" planned',
        'trim it to size, 1/32" off its length.',
        cut_to(SIDE[0] + HALF_MARK + HAIR, SIDE[1] - HALF_MARK),
        cut_to(SIDE[0] + HALF_MARK, SIDE[1]),
    ),
    Row(
        "larger",
        "B1-L",
        '34 1/2 × 24" planned',
        "trim it to size",
        cut_to(SIDE[0], SIDE[1] + HALF_MARK + HAIR),
        cut_to(SIDE[0] - HALF_MARK - HAIR, SIDE[1] + HALF_MARK + HAIR),
    ),
    Row(
        "larger",
        "B1-L",
        '35 × 24"',
        "nothing is measured from",
        happened(spoiled=["B1-L:35 x 24"], worked=["B1-L"]),
        happened(spoiled=["B1-L:35 x 24"], worked=["B1-L"], wrong=["B1-L:dado-bottom:too far"]),
    ),
    Row(
        "said-twice",
        "B1-L",
        "twice",
        "once",
        happened(spoiled=["B1-L:33 x 24", "B1-L:32 x 24"]),
        happened(spoiled=["B1-L:33 x 24", "B1-R:32 x 24"]),
    ),
    Row(
        "spoiled-and-lost",
        "B1-L",
        "as lost",
        "Leave out one",
        happened(spoiled=["B1-L:33 x 24"], lost=["B1-L"]),
        happened(spoiled=["B1-L:33 x 24"], lost=["B1-R"]),
    ),
    Row(
        "spoiled-and-good",
        "B1-L",
        "good part",
        "Leave out one",
        happened(damaged=["B1-L:front edge"], cut=["B1-L"]),
        happened(damaged=["B1-L:front edge"], cut=["B1-R"]),
    ),
    Row(
        "spoiled-and-glued",
        "B1-L",
        "glued up",
        "where",
        happened(spoiled=["B1-L:33 x 24"], glued=["B1"]),
        happened(damaged=["B1-L:front edge"], glued=["B1"]),
    ),
    Row(
        "no-such-part",
        "wrong",
        "“B1-LL”",
        "B1-L",
        happened(wrong=["B1-LL:mirrored"]),
        happened(wrong=["B1-L:mirrored"]),
    ),
    Row(
        "no-mirror-image",
        "B1-K",
        "no features",
        "measures",
        happened(wrong=["B1-K:mirrored"]),
        happened(wrong=["B1-B:mirrored"]),
    ),
    Row(
        "no-such-feature",
        "B1-L",
        "“dado-botom”",
        "dado-bottom",
        happened(wrong=["B1-L:dado-botom:wrong end"]),
        happened(wrong=["B1-L:dado-bottom:wrong end"]),
    ),
    Row(
        "how-is-it-wrong",
        "B1-L",
        "“askew”",
        "wrong end",
        happened(wrong=["B1-L:dado-bottom:askew"]),
        happened(wrong=["B1-L:dado-bottom:too deep"]),
    ),
    Row(
        "how-far-out",
        "B1-L",
        "soon",
        "too wide:1/64",
        happened(wrong=["B1-L:dado-bottom:too wide:soon"]),
        happened(wrong=["B1-L:dado-bottom:too wide:1/64"]),
    ),
    Row(
        "out-too-far",
        "B1-L",
        "-34 1/2",
        "unit",
        happened(wrong=["B1-L:dado-bottom:out of place:-34 1/2"]),
        happened(wrong=["B1-L:dado-bottom:out of place:-34 1/4"]),
    ),
    Row(
        "not-glued",
        "B1-K",
        "B1",
        "glued up as well",
        happened(wrong=["B1-K:not in"], glued=["B2"]),
        happened(wrong=["B1-K:not in"], glued=["B1"]),
    ),
    Row(
        "no-such-material",
        "B1-TK",
        "“teak”",
        "thin",
        happened(wrong=["B1-TK:made of:teak"]),
        happened(wrong=["B1-TK:made of:thin"]),
    ),
    Row(
        "material-as-planned",
        "B1-TK",
        "ply",
        "sheet",
        happened(wrong=["B1-TK:made of:ply"]),
        happened(wrong=["B1-TK:made of:thin"]),
    ),
    Row(
        "how-thick",
        "B1-TK",
        "thickish",
        "11/16",
        happened(wrong=["B1-TK:made of:ply:thickish"]),
        happened(wrong=["B1-TK:made of:ply:11/16"]),
    ),
    Row(
        "thick-too-far-off",
        "B1-TK",
        "1 1/8",
        "unit",
        happened(wrong=["B1-TK:made of:ply:1 1/8"]),
        happened(wrong=["B1-TK:made of:ply:1"]),
    ),
    Row(
        "made-as-no-other",
        "B1-L",
        "“B1-X”",
        "B1",
        happened(wrong=["B1-L:made as:B1-X"]),
        happened(wrong=["B1-L:made as:B1-R"], worked=["B1-L"]),
    ),
    Row(
        "mixed-up-alike",
        "B1-L",
        "same size",
        "labels",
        happened(wrong=["B1-L:made as:B1-R"]),
        happened(wrong=["B1-L:made as:B1-R"], worked=["B1-L"]),
    ),
    Row(
        "no-such-sheet",
        "flaw",
        "“ply 99”",
        "ply",
        happened(flaws=["ply 99:8 x 8:2 x 2"]),
        happened(flaws=["ply 1:8 x 8:2 x 2"]),
    ),
    Row(
        "flaw-place",
        "ply 1",
        "“8” is not two lengths",
        "30 x 12",
        happened(flaws=["ply 1:8:2 x 2"]),
        happened(flaws=["ply 1:8 x 8:2 x 2"]),
    ),
    Row(
        "flaw-off-the-sheet",
        "ply 1",
        "95 x 8 in",
        "near edge",
        happened(flaws=["ply 1:95 x 8:2 x 2"]),
        happened(flaws=["ply 1:94 x 8:2 x 2"]),
    ),
    Row(
        "worked-at-a-flaw",
        "B1-L",
        "worked already",
        "B1-L:front edge",
        flawed_under("B1-L", worked=["B1-L"]),
        flawed_under("B1-L"),
    ),
    Row(
        "wrong-in-two-ways",
        "B1-L",
        "from the wrong end and as",
        "once",
        happened(wrong=["B1-L:dado-bottom:wrong end", "B1-L:dado-bottom:out of place"]),
        happened(wrong=["B1-L:dado-bottom:wrong end", "B1-L:dado-bottom:too deep"]),
    ),
    Row(
        "where-is-it-damaged",
        "B1-L",
        "“yonder edge”",
        "front",
        happened(damaged=["B1-L:yonder edge"]),
        happened(damaged=["B1-L:rear edge"]),
    ),
    Row(
        "damage-size",
        "B1-L",
        "not a length and a depth",
        "2 x 1/4",
        happened(damaged=["B1-L:front edge:2"]),
        happened(damaged=["B1-L:front edge:2 x 1/4"]),
    ),
    Row(
        "damage-off-the-part",
        "B1-L",
        "2 x 24",
        "how deep it goes in",
        happened(damaged=["B1-L:front edge:2 x 24"]),
        happened(damaged=["B1-L:front edge:2 x 23 63/64"]),
    ),
    Row(
        "length",
        "B1-L",
        "soon",
        "B1-L:33 1/2 x 24",
        happened(spoiled=["B1-L: soon x 24"]),
        happened(spoiled=["B1-L: 33 x 24"]),
    ),
    Row(
        "length",
        "B1-L",
        "'33' is not a length and a width",
        "along the grain first",
        happened(spoiled=["B1-L:33"]),
        happened(spoiled=["B1-L:33 × 24"]),
    ),
    Row(
        "no-such-part", "spoiled", "“B1-LL”", "B1-L", happened(spoiled=["B1-LL"]), happened(spoiled=["B1-L"])
    ),
    Row(
        "no-such-part",
        "lost",
        "part or piece “B1-LL”",
        "Did you mean “B1-L”",
        happened(lost=["B1-LL"]),
        happened(lost=["B1-L"]),
    ),
    Row("no-such-case", "glued", "“B7”", "B1", happened(glued=["B7"]), happened(glued=["B1"])),
    Row(
        "no-such-sheet",
        "all-cut-of",
        "“ply 99”",
        "ply 1",
        happened(sheets=["ply 99"]),
        happened(sheets=["ply 1"]),
    ),
    Row(
        "no-such-sheet",
        "cut-through",
        "“oak 1”",
        "ply 1",
        happened(through=["oak 1"]),
        happened(through=["ply 1"]),
    ),
    Row(
        "no-such-part",
        "B1-LL",
        "no part with this mark",
        "B1-L",
        lambda: told(lambda: known_part(PROJECT, "B1-LL")),
        lambda: told(lambda: known_part(PROJECT, "B1-L")),
    ),
    Row(
        "no-such-part", "B1-LL", "no part with this mark", "B1-L", at_saw("B1-LL", "34"), at_saw("B1-L", "34")
    ),
    Row("length", "B1-L.length", "soon", "again", at_saw("B1-L", "soon"), at_saw("B1-L", "34")),
    Row(
        "no-such-size",
        "B1-L.breadth",
        "no size",
        "B1-L",
        lambda: told(lambda: reasons(PROJECT, "B1-L.breadth", 1)),
        lambda: told(lambda: reasons(PROJECT, "B1-L", 1)),
    ),
    Row(
        "bad-name",
        "name",
        "UTF-8",
        "readable characters",
        begun("60", "loft \ud800"),
        begun("60", "loft \ud7ff"),
    ),
    Row("bad-name", "name", "“ ”", "visible character", begun("60", " "), begun("60", "l")),
    Row("not-positive", "opening", "“0”", "greater than zero", begun("0"), begun("60")),
    Row(
        "opening-too-narrow",
        "opening",
        "“1” is too narrow for one case",
        "Measure the opening",
        begun("1"),
        begun("9"),
    ),
    Row(
        "opening-too-narrow",
        "opening",
        "“30” is too narrow for 40 cases",
        "3 or fewer",
        begun("30", cases=40),
        begun("30", cases=3),
    ),
    Row("no-such-choice", "unit", "“yard”", "“in” or “mm”", chosen("yard", "base"), chosen("in", "base")),
    Row("no-such-choice", "kind", "“boat”", "wall", chosen("in", "boat"), chosen("in", "wall")),
    Row("last-run", "runs", "only one", "Add another", runs(1), runs(2)),
    Row("no-such-way", "choose", "no way 3", "1 to 2", option(3), option(2)),
    Row("no-such-way", "choose", "no way 0", "1 to 2", option(0), option(1)),
    Row("no-such-way", "choose", "no way 1", "Nothing is to be put right", option(1, 0), option(1, 1)),
    Row(
        "diagonals",
        "B1",
        "no case with these sides",
        "over the outside",
        square("B1", "72", "14"),
        square("B1", "72", "15"),
    ),
    Row(
        "diagonals",
        "B1",
        "soon",
        "over the outside",
        square("B1", "soon", "14"),
        square("B1", "49 7/8", "49 7/8"),
    ),
    Row("no-such-name", "Z9", "no case", "B1", square("Z9", "50", "50"), square("B1", "50", "50")),
    Row("no-such-name", "B1.wide", "no size", "B1.width", built("B1.wide=9"), built("B1.width=36")),
    Row("no-such-name", "B1.raising", "no size", "B1.rising", built("B1.raising=9"), built("B1.rising=50")),
    Row("no-such-name", "B1-LL", "no part", "B1-L", built(cut=("B1-LL",)), built(cut=("B1-L",))),
    Row(
        "no-such-name",
        "gap",
        "no gap",
        "B1",
        lambda: told(lambda: explain_gap(FIT, "gap")),
        lambda: told(lambda: explain_gap(FIT, next(iter(FIT.gaps)))),
    ),
    Row(
        "reading", "B1-L.length", "no =", "B1-L.length = ", built("B1-L.length"), built("B1-L.length=34 1/2")
    ),
    Row(
        "reading",
        "B1-L.length=soon",
        "soon",
        "caliper",
        built("B1-L.length=soon"),
        built("B1-L.length=34 1/2 caliper"),
    ),
]


@each(ROWS)
def test_each_is_said_of_the_wrong_wish_and_not_of_its_neighbour(row: Row) -> None:
    check(row)


def test_what_a_file_refuses(tmp_path: Path) -> None:
    text, noise, labels = (tmp_path / name for name in ("job.toml", "noise.toml", "labels.pdf"))
    text.write_text("job = 1")
    noise.write_bytes(b"\xff\xfe\x00")

    def read(name: str) -> Provoke:
        return lambda: told(lambda: load(name))

    def labelled(address: str, only: str = "B1-A1") -> Provoke:
        return lambda: told(lambda: write_labels(planned(), "letter 30", str(labels), address, [only]))

    sound = read(str(text))
    nowhere = str(tmp_path / "nowhere.toml")
    for row in (
        Row("file", nowhere, "cannot be read", "path of a job file", read(nowhere), sound),
        Row("file", str(noise), "UTF-8", "Save it as UTF-8", read(str(noise)), sound),
        Row("file", "a\0b", "not a valid file name", "path of a job file", read("a\0b"), sound),
        Row("no-such-part", "B1-LL", "no part with this mark", "“B1-L”", labelled("", "B1-LL"), labelled("")),
        # A mark of five signs and 146 before it; 150 in all is what a label's square code holds.
        Row(
            "address", "address", "151 characters", "140 characters", labelled("h" * 146), labelled("h" * 145)
        ),
        Row(
            "address",
            "address",
            "“bänk”",
            "address bar",
            labelled("bänk"),
            labelled("bank"),
        ),
    ):
        check(row)
