"""One job, one plan: whoever asks, by whatever way in, gets the same answer.

Each way is asked on its own, with nothing kept from the way before, and answers in its own form;
only what it prints is read. One joint once was 33 % on paper and 2.8 % on the tablet, first batches
differed from way to way, and the parts list had 61, 63 and 88 lines.
"""

from __future__ import annotations

import html
import json
import re
from collections.abc import Callable
from contextlib import redirect_stdout
from io import BytesIO, StringIO
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

import casewright
from casewright.app.fit.fit_page import case_lines, worth_a_look
from casewright.app.jobs import worked_job as worked
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.cli.main import main
from casewright.lengths.quantities import weighed
from casewright.tolerance.tolerance_wording import share_figure
from casewright.web.web_app import make_app
from casewright.workshop.assembly.case_lifts import case_lift
from casewright.workshop.sheets.purchases import money_of, sheets_of
from job_texts import ALCOVE
from web_bench import Client

Answers = dict[str, Any]

SECONDS = 0.1  # work is counted, so that every way has the same plan
CASES = ("B1", "B2")
PART = "B1-L"

QUESTIONS = {
    "parts": "How many parts are there?",
    "lines": "How many lines has the parts list?",
    "first line": "Which parts are on its first line?",
    "sheets": "How many sheets of each material are cut?",
    "to buy": "How many sheets are bought?",
    "money": "What do they cost?",
    "settings": "How many settings are made?",
    "cutters": "How often is the cutter changed?",
    "batches": "How many batches of work are there?",
    "first batch": "What is done first?",
    "last batch": "What is done last?",
    "minutes": "How long does it all take?",
    "steps of a part": "Through how many steps does one part go?",
    "joints to look at": "Which joints are worth a look at the dry fit?",
    "one case": "What happens to the first case, in a sentence?",
    "cases": "What happens to each case, in five shares?",
    "diagonals": "What do the diagonals of each case measure?",
    "look-alikes": "How many pairs of sizes are easily confused?",
    "findings": "What is found in the job file, and on which lines?",
    "to mind": "What is there to mind in the job and its plan?",
    "screws": "How many screws are there?",
    "pins": "How many shelf pins?",
    "weights": "What does each case weigh?",
    "all parts": "What do all parts weigh?",
    "length": "How long is one part?",
    "revision": "Which revision is it?",
    "plan": "By which plan is it cut?",
}


SHARES = ("by_hand", "clamp", "ease", "recut", "shown")
SHARE = r"[<>]?\d+ %"
ROW = rf"(B\d) ((?:{SHARE} ){{5}})"
LOOK = r"((?:B\d-|The run)[^.]*\. Largest cause: [^.]*\.) Show its chain"


def plain_length(text: str) -> str:
    return " ".join(text.replace("~", "").replace('"', "").split())


def from_python(_: Path) -> Answers:
    job = casewright.open_job(ALCOVE)
    planned = job.planned(SECONDS)
    told = planned.told
    unit = planned.project.job.unit
    lifts = {mark: case_lift(planned.project, mark).carried for mark in planned.project.cases}
    weights = {mark: weighed(pounds, unit) for mark, pounds in lifts.items() if pounds is not None}
    assert job.weight is not None
    return {
        "parts": len(planned.project.parts),
        "lines": len(job.parts_list),
        "first line": list(job.parts_list[0].marks),
        "sheets": {material: len(one.sheets) for material, one in planned.plans.items()},
        "to buy": sheets_of(planned.purchases),
        "money": float(money_of(planned.purchases)),
        "settings": planned.ordered.settings,
        "cutters": planned.ordered.cutters,
        "batches": len(planned.ordered.batches),
        "first batch": told[0].title,
        "last batch": told[-1].title,
        "minutes": round(sum(batch.minutes for batch in told), 1),
        "steps of a part": len(planned.work.by_part[PART]),
        "joints to look at": [look.text for look in worth_a_look(planned.fit)],
        "one case": case_lines(planned.fit)[0].sentence,
        "cases": {
            case.place: [case.share(name) for name in SHARES]
            for case in case_lines(planned.fit)
            if case.place in CASES
        },
        "diagonals": {
            case.place: plain_length(case.diagonal) for case in case_lines(planned.fit) if case.place in CASES
        },
        "look-alikes": len(job.look_alikes),
        "findings": [(finding.code, finding.line) for finding in job.all_findings],
        "to mind": sorted(finding.text for finding in planned.findings),
        "screws": sum(count for _, count in job.hardware.screws),
        "pins": job.hardware.shelf_pins,
        "weights": weights,
        "all parts": weighed(job.weight, unit),
        "length": str(planned.project.dimensions(planned.project.parts[PART])[0]),
        "revision": job.revision,
        "plan": planned.plan_name,
    }


def from_commands(folder: Path) -> Answers:
    file = folder / "alcove.toml"
    file.write_text(ALCOVE, encoding="utf-8")

    def run(command: str, *words: str) -> Any:
        said = StringIO()
        with redirect_stdout(said):
            main([command, str(file), *words, "--json"])
        return json.loads(said.getvalue())

    seconds = ("--seconds", f"{SECONDS:g}")
    parts, steps, planned = run("parts"), run("steps", *seconds), run("plan", *seconds)
    fit, one_case = run("fit", *seconds), run("fit", *seconds, "--case", "B1")
    of_part = run("steps", *seconds, "--part", PART)["batches"]
    assert planned["plan"] == steps["plan"] == fit["plan"]
    return {
        "plan": planned["plan"],
        "parts": sum(line["count"] for line in parts),
        "lines": len(parts),
        "first line": parts[0]["marks"],
        "sheets": {material: len(one["sheets"]) for material, one in planned["materials"].items()},
        "to buy": sum(line["sheets"] for line in planned["buy"]),
        "money": sum(line["money"] for line in planned["buy"]),
        "settings": steps["settings"],
        "cutters": steps["cutters"],
        "batches": len(steps["batches"]),
        "first batch": steps["batches"][0]["title"],
        "last batch": steps["batches"][-1]["title"],
        "minutes": round(sum(batch["minutes"] for batch in steps["batches"]), 1),
        "steps of a part": sum(PART in step["parts"] for batch in of_part for step in batch["steps"]),
        "joints to look at": fit["look_at"],
        "one case": one_case["cases"][0]["sentence"],
        "cases": {
            case["place"]: [share_figure(case[name]) for name in SHARES]
            for case in fit["cases"]
            if case["place"] in CASES
        },
        "diagonals": {
            case["place"]: plain_length(case["diagonal"]) for case in fit["cases"] if case["place"] in CASES
        },
        "look-alikes": sum("stack them away" in one["advice"] for one in run("look-alikes")),
        "findings": [(finding["code"], finding["line"]) for finding in run("check")["findings"]],
        "length": next(line["exact"][0] for line in parts if PART in line["marks"]),
    }


def from_pages(folder: Path) -> Answers:
    client = client_of(folder)

    def text(path: str) -> str:
        return words_of(client.get(f"/jobs/alcove{path}").text)

    client.get("/jobs/alcove/sheets/progress")
    parts, sheets, fit, case = text("/parts"), text("/sheets"), text("/fit"), text("/fit/case?mark=B1")
    count = re.search(r"(\d+) parts, (\d+) different", parts)
    assert count
    bought = re.findall(r"Buy (\d+) sheets?(?: at [\d.]+)?, ([\d.]+?)\.? ", sheets)
    rows = re.findall(ROW + r'~?(\d[\d /]*)"', fit)
    found = client.get("/api/jobs/alcove/findings").json()
    sizes = client.get("/api/jobs/alcove/sizes").json()
    named = [re.search(r"[Pp]lan (\w{6})\b", page) for page in (sheets, fit, text("/papers"))]
    assert len({found[1] for found in named if found}) == 1
    return {
        "plan": named[0] and named[0][1],
        "parts": int(count[1]),
        "lines": int(count[2]),
        "to buy": sum(int(number) for number, _ in bought),
        "money": sum(float(money) for _, money in bought),
        "joints to look at": re.findall(LOOK, fit),
        "one case": re.findall(r"B1 at the dry fit (B1: .*? %\.)", case)[0],
        "cases": {mark: re.findall(SHARE, shares) for mark, shares, _ in rows},
        "diagonals": {mark: plain_length(length) for mark, _, length in rows},
        "look-alikes": parts.count("stack them away"),
        "findings": [(finding["code"], finding["line"]) for finding in found],
        "length": sizes[f"{PART}.length"],
    }


def from_paper(folder: Path) -> Answers:
    client = client_of(folder)
    client.get("/jobs/alcove/sheets/progress")
    reader = PdfReader(BytesIO(client.get("/jobs/alcove/papers/packet.pdf").content))
    pages = [words_of(page.extract_text()) for page in reader.pages]
    whole = " ".join(pages)
    cover = pages[0]
    warned = next(page for page in pages if "Joints to look at" in page)
    looks = whole.partition("Joints to look at")[2].partition(" At the yard SHEET GOODS")[0]
    buying = next(page for page in pages if " At the yard SHEET GOODS" in page)
    figures = re.search(r"(\d+) CASES (\d+) PARTS (\d+) SHEETS TO BUY (\S+) SHEET GOODS (\d+ lb) ALL", cover)
    settings = re.search(r"(\d+) settings with (\d+) changes of cutter", whole)
    assert figures and settings
    maps = " ".join(page for page in pages if "Hatched: keep" in page)
    leaves = re.findall(r"(B\d) \w+ case (\d+ lb)\W.*?both diagonals\D* ~?(\d+ \d+/\d+)", whole)
    # All that python finds, as far as it stands on the cover.
    minded = sorted(text for text in to_mind() if words_of(text) in cover)
    return {
        "parts": int(figures[2]),
        "sheets": {"ply": maps.count("in sheet") - 1, "thin": maps.count("in sheet 1 of 1")},
        "to buy": int(figures[3]),
        "money": float(figures[4]),
        "settings": int(settings[1]),
        "cutters": int(settings[2]),
        "joints to look at": re.findall(LOOK.removesuffix(" Show its chain"), looks),
        "diagonals": {case: square for case, _, square in leaves},
        "look-alikes": warned.count("stack them away"),
        "to mind": minded,
        "screws": sum(int(count) for count in re.findall(r"spares not included (\d+)", buying)),
        "pins": int(re.findall(r"adjustable shelf (\d+)", buying)[0]),
        "weights": {case: weighs for case, weighs, _ in leaves},
        "all parts": figures[5],
        "revision": re.findall(r"revision (\w+) plan \w+ page 1", cover)[0],
        "plan": re.findall(r"revision \w+ plan (\w+) page 1", cover)[0],
    }


def from_tablet(folder: Path) -> Answers:
    client = client_of(folder)
    client.post("/jobs/alcove/shop/hand-out")
    work = client.get("/jobs/alcove/shop/work").json()
    settings = re.search(r"(\d+) settings with (\d+) changes of cutter", work["statement"])
    assert settings
    batches = work["batches"]
    squares = {
        case: next(plain_length(s["text"]) for s in one["sizes"] if s["name"] == f"{case}.rising")
        for case, one in work["cases"].items()
    }
    # With the work handed out, the fit page is the benches' own.
    fit = words_of(client.get("/jobs/alcove/fit").text)
    rows = re.findall(ROW, fit)
    return {
        "parts": len(work["parts"]),
        "settings": int(settings[1]),
        "cutters": int(settings[2]),
        "batches": len(batches),
        "first batch": batches[0]["title"],
        "last batch": batches[-1]["title"],
        "minutes": round(sum(batch["minutes"] for batch in batches), 1),
        "steps of a part": sum(PART in step["parts"] for batch in batches for step in batch["steps"]),
        "joints to look at": re.findall(LOOK, fit),
        "cases": {mark: re.findall(SHARE, shares) for mark, shares in rows},
        "diagonals": squares,
    }


WAYS: dict[str, Callable[[Path], Answers]] = {
    "python": from_python,
    "commands": from_commands,
    "pages": from_pages,
    "paper": from_paper,
    "tablet": from_tablet,
}


def client_of(folder: Path, text: str = ALCOVE) -> Client:
    saved = KeptJobs.open(folder / "shop.sqlite3")
    saved.start(text)
    return Client(make_app(saved, planning_seconds=SECONDS))


def to_mind() -> list[str]:
    return [finding.text for finding in casewright.open_job(ALCOVE).planned(SECONDS).findings]


def words_of(text: str) -> str:
    """What stands on a page, without its markup and with single spaces."""
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())


@pytest.fixture(scope="module")
def answers(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Answers]:
    found: dict[str, Answers] = {}
    for name, ask in WAYS.items():
        worked.open_job.cache_clear()
        found[name] = ask(tmp_path_factory.mktemp(name))
    return found


@pytest.mark.parametrize("question", QUESTIONS)
def test_all_ways_in_give_one_answer(answers: dict[str, Answers], question: str) -> None:
    asked = {way: found[question] for way, found in answers.items() if question in found}
    assert asked["python"] not in (None, [], {}, 0, ""), "the job has to have something to answer with"
    assert all(answer == asked["python"] for answer in asked.values()), (QUESTIONS[question], asked)


def test_every_way_in_is_asked_and_no_question_stands_alone(answers: dict[str, Answers]) -> None:
    assert set().union(*answers.values()) == set(QUESTIONS) == set(answers["python"])
    assert all(len(found) >= 10 for found in answers.values())
    alone = [one for one in QUESTIONS if sum(one in found for found in answers.values()) < 2]
    assert alone == []


def test_the_plan_is_what_changes_the_chances() -> None:
    """Else the questions about joints could not tell an answer with the plan from one without."""
    job = casewright.open_job(ALCOVE)
    with_plan, without = (one.fit.in_place("B1") for one in (job.planned(SECONDS), job))
    assert [gap.chance for gap in with_plan] != [gap.chance for gap in without]


def test_each_answer_is_worked_out_once() -> None:
    job = casewright.open_job(ALCOVE)
    planned = job.planned(SECONDS)
    assert casewright.open_job(ALCOVE) is job and job.planned(SECONDS) is planned
    assert job.with_plan(dict(planned.plans)) is planned
    for one in ("findings", "solid_findings", "parts_list", "hardware", "fit", "bodies", "model"):
        assert getattr(job, one) is getattr(job, one)
    for one in ("work", "ordered", "fit", "told"):
        assert getattr(planned, one) is getattr(planned, one)
