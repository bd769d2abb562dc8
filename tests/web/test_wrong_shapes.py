"""A text whose tables and lists are of the wrong sort gets findings, and every page still opens."""

from __future__ import annotations

import random
import re
import tomllib
from html import unescape
from itertools import islice
from pathlib import Path

import pytest

from any_job import core_answers, failing_pages, pages
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.cli.main import main
from casewright.errors import JobError
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.shape import in_shape
from job_mutations import mutants
from web_bench import JOB, Client

HEAD = 'job = "Larder"\nunit = "in"\n'
RUN = f'{HEAD}[[runs]]\nname = "north"\nopening = 62\n'
BAYS = "bays = [{ fixed = [10], adjustable = 1 }]"


def without(old: str, new: str, text: str = JOB) -> str:
    assert old in text
    return text.replace(old, new)


WRONG = {
    "one table for the runs": without("[[runs]]", "[runs]", without("[[runs.cases]]", "[[runs.others]]")),
    "a number for the cases": f"{RUN}cases = 3\n",
    "a table for the cases": f'{RUN}[runs.cases]\nmark = "B1"\n',
    "numbers among the cases": f'{RUN}cases = [1, "B1", [{{ mark = "B1" }}]]\n',
    "a text for the runs": f'{HEAD}runs = "north"\n',
    "a number for the runs": f"{HEAD}runs = 5\n",
    "numbers among the runs": f"{HEAD}runs = [1, 2]\n",
    "a table for the bays": without(BAYS, "bays = { adjustable = 1 }"),
    "a number for the bays": without(BAYS, "bays = 2"),
    "numbers among the bays": without(BAYS, "bays = [1, {}, [2]]"),
    "a number for the fronts": without(BAYS, "bays = [{ fronts = 3 }]"),
    "numbers among the fronts": without(BAYS, 'bays = [{ fronts = [1, "door", [2]] }]'),
    "numbers for hinges and slides": f"{JOB}[hinges]\ncup = 3\n[slides]\nside = [1]\n",
    "numbers in hinges and slides": f'{JOB}[hinges.cup]\nlike = 3\nchart = 4\n[slides.side]\nlengths = "x"\n',
    "a number for what is fitted": f"fitted_with = 4\nhinges = 5\nslides = 6\n{JOB}",
    "one number for shelves": without("fixed = [10]", "fixed = 10"),
    "a number for the making": without("width = 24", "construction = 4\nmade_of = [1]"),
    "a list of fillers": without('{ width = 2, scribe = "1/2" }', "[{ width = 2 }]"),
    "a list of materials": without(
        "[materials.ply]", "[[materials]]", without("[materials.thin]", "[[materials]]")
    ),
    "a number for a material": f"{HEAD}materials = {{ ply = 4, thin = [1] }}\n",
    "a text for the materials": f'{HEAD}materials = "ply"\n',
    "lists of tables": f"{JOB}[[shop]]\nrule = 1\n[[base]]\nheight = 3\n[[construction]]\ntoe = 3\n",
    "numbers for tables": f"shop = 3\nconstruction = 4\nbase = 6\nsheet_of = 7\noptional = 8\n{JOB}",
    "numbers in the shop": f"{JOB}[shop]\nhand_saw = 3\ncarry = [1]\nrack = 4\n",
    "one table for the rack": f'{JOB}[shop.rack]\nname = "x"\n',
    "a number for a mark": without('mark = "B1"', "mark = 1", without('name = "north"', "name = 4")),
    "no mark and no name": without('mark = "B1"', "", without('name = "north"', "")),
    "tables for names": without(
        '"Larder"', "{ a = 1 }", without('"B1"', "{ a = 1 }", without('"in"', "[1]"))
    ),
    "dates and no numbers": without("width = 24", "width = 1979-05-27", without('"62 1/2"', "nan")),
    "no TOML": without("opening", "opening opening"),
    "nothing": "",
}
PLACES = (
    *("runs.0.opening", "runs.0.cases.0.width", "runs.0.cases.0.bays.0.adjustable", "shop.workmanship"),
    *(
        "materials.ply.price",
        "construction.toe",
        "sheet_of.B1-L",
        "optional",
        "edging.maple.stick",
        "edged.case",
        "hinges.cup.cup_edge",
        "fitted_with.hinge",
        "runs.0.cases.0.bays.0.fronts.0.height",
    ),
)
FORMS = (
    "cases/B1",
    "runs/0",
    "materials",
    "edging",
    "hardware",
    "machines",
    "prices",
    "construction",
    "settings",
)
ACTIONS = (
    *(f"cases/B1/{verb}" for verb in ("copy", "drop", "left", "right")),
    *(f"cases/B1/{verb}" for verb in ("add-bay", "drop-bay", "add-front", "drop-front")),
    *("hardware/hinges/add", "hardware/slides/add", "hardware/hinges/cup/drop"),
    *("runs", "runs/0/drop", "materials/add", "materials/ply/drop", "edging/add", "edging/maple/drop"),
)


@pytest.mark.parametrize(("number", "text"), list(enumerate(WRONG.values())), ids=WRONG.keys())
def test_no_page_breaks_on_a_text_of_the_wrong_shape(
    client: Client, saved: KeptJobs, number: int, text: str
) -> None:
    """Each text is put to a third of the pages; which third goes round with the texts."""
    with pytest.raises(JobError) as refused:
        read_job(text)
    for finding in refused.value.findings:
        assert finding.line and finding.column and finding.place and finding.text and finding.fix
    job = saved.start(text).id
    addresses = pages()
    assert len(addresses) > 40
    assert failing_pages(client, job, addresses[number % 3 :: 3]) == []


@pytest.mark.parametrize(("number", "text"), list(enumerate(WRONG.values())), ids=WRONG.keys())
def test_no_change_breaks_on_a_text_of_the_wrong_shape(
    client: Client, saved: KeptJobs, number: int, text: str
) -> None:
    """Each text is put to a third of the forms, places and buttons; which of them goes round with the
    texts."""
    job = saved.start(text).id
    for turn, path in list(enumerate(PLACES, number))[number % 3 :: 3]:
        form = FORMS[turn % len(FORMS)]
        answer = client.post(f"/jobs/{job}/{form}", data={path: "2", "based_on": "1"}, htmx=True)
        assert answer.status_code < 500, (form, path)
        entries = {"entries": [{"path": path, "value": 2}], "based_on": 1}
        assert client.ask("PATCH", f"/api/jobs/{job}", json=entries).status_code < 500, path
    for action in ACTIONS[number % 3 :: 3]:
        sent = {"name": "new", "opening": "60", "sheet": "mdf 3/4", "like": "full overlay"}
        assert client.post(f"/jobs/{job}/{action}", data=sent, htmx=True).status_code < 500, action


@pytest.mark.parametrize("path", sorted((Path(__file__).parents[2] / "examples").glob("*.toml")), ids=str)
def test_a_sound_text_is_in_shape_already(path: Path) -> None:
    values = tomllib.loads(path.read_text(encoding="utf-8"))
    assert in_shape(values) == values


def test_what_stands_in_place_of_a_table_keeps_the_numbers_of_the_others() -> None:
    values = {
        "runs": [1, {"cases": [{"bays": 2, "mark": "B1"}, 3]}],
        "shop": [1],
        "materials": {"a": 1, "b": {}},
    }
    assert in_shape(values) == {"runs": [{}, {"cases": [{"mark": "B1"}, {}]}], "materials": {"b": {}}}


MUTANTS = 60  # `python -m benchmarks mutated_jobs` puts thousands to the same questions
SEED = 17


def test_no_mutated_job_breaks_a_command_or_a_page(client: Client, saved: KeptJobs) -> None:
    """A fifth of the pages of a job that cannot be drawn up, and one page in turn of each that can."""
    chance, addresses = random.Random(SEED), pages()
    seen = {"refused": 0, "drawn": 0}
    for number, text in enumerate(islice(mutants(SEED), MUTANTS)):
        worked = core_answers(text)
        seen["refused" if worked.project is None else "drawn"] += 1
        if number % 6 == 0:
            job = saved.start(text).id
            asked = chance.sample(addresses, 1 if worked.project else len(addresses) // 5)
            assert failing_pages(client, job, asked) == [], text
    assert min(seen.values()) > MUTANTS / 10, seen


@pytest.mark.parametrize(
    ("text", "fix"),
    [
        (WRONG["one table for the runs"], "double brackets: [[runs]]"),
        (WRONG["a table for the cases"], "double brackets: [[runs.cases]]"),
        (WRONG["a number for the cases"], "under [[runs.cases]]"),
        (WRONG["numbers among the runs"], "under [[runs]]"),
        (WRONG["lists of tables"], "single brackets: [shop]"),
        (WRONG["numbers for tables"], "under [construction]"),
    ],
)
def test_page_and_command_say_the_same_of_a_wrong_shape(
    client: Client, saved: KeptJobs, tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, fix: str
) -> None:
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    assert main(["check", str(path)]) == 2
    said = [line for line in capsys.readouterr().out.splitlines() if fix in line]
    assert said
    page = unescape(client.get(f"/jobs/{saved.start(text).id}/text").text)
    for line in said:
        number, _, words = line.removeprefix("line ").partition(", ")
        assert words.partition(": ")[2] in re.sub(r"<[^>]+>|\s+", " ", page).replace("  ", " "), page
        assert number in page
