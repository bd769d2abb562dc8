"""The published schema and the shop's data files say what the program does."""

from __future__ import annotations

import json
import re
import tomllib
from importlib import import_module
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from casewright.casework.project import draw_up
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.jobfile.job_schema import job_schema, published_schema
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.table import Table
from casewright.lengths.length import MM

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
SCHEMA = json.loads(published_schema())


def test_the_published_schema_is_the_models() -> None:
    assert job_schema() == SCHEMA, "write src/casewright/jobfile/schema.json anew: casewright schema"
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_schema_takes_the_examples(path: Path) -> None:
    values = tomllib.loads(path.read_text(encoding="utf-8"))
    jsonschema.validate(values, SCHEMA, cls=jsonschema.Draft202012Validator)


@pytest.mark.parametrize(
    "wrong",
    [{"unit": "cm"}, {"hue": "blue"}, {"runs": []}, {"made_of": {"case": 3}}, {"optional": "B1"}],
    ids=["choice", "unknown", "empty", "type", "list"],
)
def test_the_schema_refuses_what_the_program_refuses(wrong: dict[str, Any]) -> None:
    values = tomllib.loads(EXAMPLES[0].read_text(encoding="utf-8")) | wrong
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(values, SCHEMA, cls=jsonschema.Draft202012Validator)


@pytest.fixture
def tools(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(str(ROOT / "tools"))


@pytest.mark.usefixtures("tools")
def test_the_large_example_is_the_one_its_script_writes() -> None:
    school = import_module("school_example").school
    assert (ROOT / "examples" / "school-workshop.toml").read_text(encoding="utf-8") == school()


MANUAL = (ROOT / "docs" / "job-file.md").read_text(encoding="utf-8")


@pytest.mark.usefixtures("tools")
def test_the_manuals_tables_are_the_models() -> None:
    writer = import_module("job_file_tables")
    assert writer.with_tables(MANUAL) == MANUAL, "run tools/job_file_tables.py"
    listed = set(re.findall(r"<!-- table (\w+) -->", MANUAL))
    known = {name: one for kind in writer.MODULES for name, one in vars(kind).items()}.values()
    of_tables = (one for one in known if isinstance(one, type) and issubclass(one, Table))
    every = {one.__name__ for one in of_tables if one is not Table}
    assert listed == every


def test_the_manuals_example_draws_up() -> None:
    (text,) = re.findall(r"```toml\n(.*?)```", MANUAL, re.DOTALL)
    project = draw_up(read_job(text))
    assert not project.findings and len(project.cases) == 2


def test_every_entry_of_the_stock_says_its_source() -> None:
    stock = packaged_catalogue()
    named = {*stock.sheets, *stock.hand_saws, *stock.table_saws, *stock.dado_stacks, *stock.pin_jigs}
    named |= {*stock.hinges, *stock.hinge_charts, *stock.slides}
    assert set(stock.sources) == named and len(named) > 25
    assert all(any(word in said for word in ("memory", "practice", "page", "PS 1", "table", "assumed"))
               for said in stock.sources.values())  # fmt: skip


def test_no_length_of_the_stock_leaves_its_unit_open() -> None:
    """A bare number would mean one thing in a job in inches and another in one in millimetres."""
    for name in ("sheets", "machines", "practice", "hinges", "slides"):
        text = files("casewright.shop").joinpath("data", f"{name}.toml").read_text(encoding="utf-8")
        bare = [path for path, value in scalars(tomllib.loads(text)) if isinstance(value, int | float)]
        assert {path[-1] for path in bare} <= {
            "holes",
            "strips",
            "grain",
            "hinges",
            "inset",
            "from_inside",
        }, name


def scalars(values: Any, path: tuple[str, ...] = ()) -> list[tuple[tuple[str, ...], Any]]:
    if isinstance(values, dict):
        return [one for key, value in values.items() for one in scalars(value, (*path, key))]
    if isinstance(values, list):
        return [one for value in values for one in scalars(value, path)]
    return [(path, values)]


def test_nominal_and_usual_thickness_against_published_ranges() -> None:
    """PS 1 performance category 23/32: 0.688 to 0.750 in; EN 312 particleboard +/-0.3 mm."""
    sheets = packaged_catalogue().sheets
    fir = sheets["softwood ply 23/32"].usual
    assert float(fir.middle) - 1.4 * fir.deviation >= 0.688
    assert float(fir.middle) + 3 * fir.deviation <= 0.750
    board = sheets["particleboard 3/4"].usual
    assert 3 * board.deviation == pytest.approx(float(MM * 3 / 10), rel=0.02)
    hardwood = sheets["hardwood ply 3/4"]
    assert hardwood.thickness < hardwood.nominal, "3/4 in hardwood plywood is thinner than 3/4 in"
