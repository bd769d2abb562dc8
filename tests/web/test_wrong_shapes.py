"""A text whose tables and lists are of the wrong sort gets findings, and every page still opens."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from fastapi.routing import APIRoute

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.errors import JobError
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.shape import in_shape
from casewright.web import routes
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
FILLED = {"mark": "B1", "index": "0", "kind": "base", "number": "1", "name": "B1.width", "path": "B1"}


PLACES = (
    *("runs.0.opening", "runs.0.cases.0.width", "runs.0.cases.0.bays.0.adjustable", "shop.rule"),
    *("materials.ply.price", "construction.toe", "sheet_of.B1-L", "optional"),
)
ACTIONS = (
    *(f"cases/B1/{verb}" for verb in ("copy", "drop", "left", "right", "add-bay", "drop-bay")),
    *("runs", "runs/0/drop", "materials/add", "materials/ply/drop"),
)


def pages() -> list[str]:
    """Every address of a job that can be looked at."""
    found = [route for module in routes.modules() for route in module.router.routes]
    paths = [one.path for one in found if isinstance(one, APIRoute) and "GET" in (one.methods or ())]
    return [
        re.sub(r"{(\w+)(?::path)?}", lambda step: FILLED.get(step[1], "{job}"), path)
        for path in paths
        if "{job}" in path
    ]


@pytest.mark.parametrize("text", WRONG.values(), ids=WRONG.keys())
def test_no_page_breaks_on_a_text_of_the_wrong_shape(client: Client, saved: KeptJobs, text: str) -> None:
    with pytest.raises(JobError) as refused:
        read_job(text)
    for finding in refused.value.findings:
        assert finding.line and finding.column and finding.place and finding.text and finding.fix
    job = saved.start(text).id
    addresses = pages()
    assert len(addresses) > 40
    for address in addresses:
        answer = client.get(address.format(job=job))
        assert answer.status_code < 500, f"{address}: {answer.text[:200]}"


@pytest.mark.parametrize("text", WRONG.values(), ids=WRONG.keys())
def test_no_change_breaks_on_a_text_of_the_wrong_shape(client: Client, saved: KeptJobs, text: str) -> None:
    job = saved.start(text).id
    for path in PLACES:
        for form in ("cases/B1", "runs/0", "materials", "machines", "construction", "settings"):
            answer = client.post(f"/jobs/{job}/{form}", data={path: "2", "based_on": "1"}, htmx=True)
            assert answer.status_code < 500, (form, path)
        entries = {"entries": [{"path": path, "value": 2}], "based_on": 1}
        assert client.ask("PATCH", f"/api/jobs/{job}", json=entries).status_code < 500, path
    for action in ACTIONS:
        sent = {"name": "new", "opening": "60", "sheet": "mdf 3/4"}
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
