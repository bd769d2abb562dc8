"""Problems as JSON, answers as JSON: the published schemas, plain refusals, the example of the docs."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from fractions import Fraction as F
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.app.sheets.any_problem import answer_schema, problem_schema
from casewright.cli.main import main
from casewright.errors import PlanError
from casewright.planner.answer_json import answer
from casewright.planner.engine import MaxIterations
from casewright.planner.problem import FirstCut, Goal, Trim
from casewright.planner.problem_json import read_problem
from casewright.planner.solve import solve

SCHEMAS = {"problem": problem_schema(), "answer": answer_schema()}
DOCS = Path(__file__).parents[2] / "docs" / "breakdown.md"

JOB: dict[str, Any] = {
    "unit": "in",
    "bins": [
        {"name": "birch", "length": "8'", "width": "4'", "price": 62.5, "weight": 70},
        {"name": "rack", "length": 40, "width": "24 1/2", "count": 1, "price": 4, "offcut": True, "trim": 0},
    ],
    "items": [
        {"name": "side", "length": "34 1/2", "width": "23-1/4", "count": 2, "match": "sides"},
        {"name": "shelf", "length": 22.5, "width": "578mm", "may_turn": True},
    ],
    "kerf": "1/8",
    "trim": {"left": "1/4", "near": "1/4"},
    "hand_saw": {"kerf": "3/32", "clean_up": "1/4"},
    "limits": {"weight": 50, "length": "5'"},
    "goals": ["sheet-money", "cuts"],
    "stages": 3,
    "first_cut": "across",
    "keep": {"short": 3, "long": 12},
}


def schema(name: str) -> Any:
    return SCHEMAS[name]


def test_every_field_is_read() -> None:
    jsonschema.validate(JOB, schema("problem"))
    problem = read_problem(json.dumps(JOB))
    side, shelf = problem.items
    assert (side.length, side.width, side.count, side.may_turn, side.match) == (
        F("34.5"),
        F("23.25"),
        2,
        False,
        "sides",
    )
    assert (shelf.width, shelf.may_turn) == (F(578) * 5 / 127, True)
    birch, rack = problem.bins
    assert (birch.length, birch.width, birch.count, birch.price) == (F(96), F(48), None, F("62.5"))
    assert birch.trim == Trim(left=F(1, 4), near=F(1, 4)) and birch.weight_per_area == F(70, 96 * 48)
    assert rack.trim == Trim() and rack.offcut and rack.count == 1
    assert problem.table_saw.kerf == F(1, 8)
    assert problem.hand_saw and (problem.hand_saw.kerf, problem.hand_saw.clean_up) == (F(3, 32), F(1, 4))
    assert (problem.limits.max_weight, problem.limits.max_length) == (F(50), F(60))
    assert problem.goals == (Goal.SHEET_MONEY, Goal.CUTS)
    assert (problem.pattern.stages, problem.pattern.first_cut) == (3, FirstCut.ACROSS)
    assert problem.keep and (problem.keep.short, problem.keep.long) == (F(3), F(12))


def test_decimals_are_read_exactly_as_they_stand() -> None:
    text = '{"bins": [{"name": "a", "length": 27.1, "width": "41.3"}], "items": [{"name": 7, "length": 0.1'
    text += ', "width": "1/3"}]}'
    (box,), (item,) = read_problem(text).bins, read_problem(text).items
    assert (box.length, box.width) == (F(271, 10), F(413, 10))
    assert (item.name, item.length, item.width) == ("7", F(1, 10), F(1, 3))


def test_plain_numbers_count_the_unit_and_texts_say_their_own() -> None:
    text = '{"unit": "mm", "bins": [{"name": "a", "length": 2440, "width": "48 in"}], "items": []}'
    with pytest.raises(PlanError):
        read_problem_and_plan(text)
    box = read_problem(text).bins[0]
    assert box.length == 2440 and box.width == F("1219.2")


def read_problem_and_plan(text: str) -> None:
    solve(read_problem(text), MaxIterations(10))


def test_the_answer_keeps_to_its_schema() -> None:
    problem = read_problem(json.dumps(JOB))
    plan = solve(problem, MaxIterations(200))
    given_answer = answer(problem, plan, 0.25)
    jsonschema.validate(given_answer, schema("answer"))
    parts = [part for sheet in given_answer["sheets"] for part in sheet["parts"]]
    assert sorted(part["item"] for part in parts) == ["shelf", "side", "side"]


def test_the_bound_counts_sheets_when_they_cost_the_same_and_money_otherwise() -> None:
    box = {"length": 10, "width": 10}
    items = [{"name": "a", "length": 10, "width": 10, "count": 3}]
    one = read_problem(json.dumps({"bins": [{"name": "s", **box}], "items": items}))
    assert answer(one, solve(one, MaxIterations(50)), 0.0)["bound"] == 3
    bins = [{"name": "s", **box, "price": 7}, {"name": "t", **box, "price": 9}]
    two = read_problem(json.dumps({"bins": bins, "items": items}))
    assert answer(two, solve(two, MaxIterations(50)), 0.0)["bound"] == 21


BAD: list[tuple[str, str, str]] = [
    ("{", "the file", "not JSON"),
    ("[]", "the problem", "no object"),
    ('{"items": [], "bins": 3}', "bins", "no list"),
    ('{"bins": []}', "items", "missing"),
    ('{"bins": [], "items": [{"name": "a", "length": "5x", "width": 1}]}', "items[0].length", "5x"),
    ('{"bins": [], "items": [{"name": "a", "length": NaN, "width": 1}]}', "items[0].length", "nan"),
    (
        '{"bins": [], "items": [{"name": "a", "length": 1e300, "width": 1}]}',
        "items[0].length",
        "out of all measure",
    ),
    ('{"bins": [], "items": [{"name": "a", "length": true, "width": 1}]}', "items[0].length", "true"),
    ('{"bins": [], "items": [{"name": [], "length": 1, "width": 1}]}', "items[0].name", "no name"),
    (
        '{"bins": [], "items": [{"name": "a", "length": 1, "width": 1, "count": 1.5}]}',
        "items[0].count",
        "1.5",
    ),
    (
        '{"bins": [], "items": [{"name": "a", "length": 1, "width": 1, "may_turn": 1}]}',
        "items[0].may_turn",
        "1",
    ),
    ('{"bins": [], "items": [{"name": "a", "length": 0, "width": 1}]}', "items.a.length", "It is 0"),
    ('{"bins": [], "items": [], "goals": ["speed"]}', "goals[0]", "speed"),
    ('{"bins": [], "items": [], "goals": 1}', "goals", "no list"),
    ('{"bins": [], "items": [], "first_cut": "up"}', "first_cut", "up"),
    ('{"bins": [], "items": [], "kurf": 1}', "kurf", "no such field"),
    ('{"bins": [], "items": [], "kerf": ""}', "kerf", "is not a length"),
    ('{"bins": [], "items": [], "trim": {"top": 1}}', "trim.top", "no such field"),
    ("[" * 100_000, "the file", "nested"),
    (
        '{"bins": [], "items": [{"name": "\\ud800", "length": 1, "width": 1}]}',
        "items[0].name",
        "half a character",
    ),
    ('{"bins": [], "items": [3]}', "items[0]", "3 is no object"),
    ('{"bins": [], "items": [], "[key]": 3}', "[key]", "no such field"),
]


@pytest.mark.parametrize(("text", "place", "said"), BAD, ids=[b[1] + " " + b[2] for b in BAD])
def test_each_fault_is_named_with_its_place(text: str, place: str, said: str) -> None:
    with pytest.raises(PlanError) as caught:
        read_problem_and_plan(text)
    assert [f for f in caught.value.findings if f.place == place and said in f.text], caught.value


def test_all_faults_come_in_one_go() -> None:
    text = json.dumps(
        {
            "bins": [{"name": "s", "length": "96x", "width": 48}, {"name": "t", "length": 10, "width": -1}],
            "items": [{"name": "a", "length": 0, "width": 4, "count": 0, "colour": "red"}],
            "stages": "two",
        }
    )
    with pytest.raises(PlanError) as caught:
        read_problem(text)
    places = {finding.place for finding in caught.value.findings}
    assert places == {
        "bins[0].length",
        "bins.t.width",
        "items.a.length",
        "items.a.count",
        "items[0].colour",
        "stages",
    }


def test_what_is_sound_beside_a_field_that_cannot_be_read_is_still_looked_at() -> None:
    job = JOB | {"hand_saw": {"kerf": "1/8x", "clean_up": -1}, "keep": {"short": -2, "long": []}}
    with pytest.raises(PlanError) as caught:
        read_problem(json.dumps(job))
    places = [finding.place for finding in caught.value.findings]
    assert places == ["hand_saw.kerf", "keep.long", "hand_saw.clean_up", "keep"]


def test_a_fault_names_the_fields_and_the_choices_there_are() -> None:
    bins = [{"name": "s", "length": 96, "width": 48, "trim": {"top": 1}, "colour": 1}, 7]
    job = {**JOB, "bins": bins, "first_cut": "up", "keep": [1, 2], "limits": 3, "kerf": "8x3"}
    with pytest.raises(PlanError) as caught:
        read_problem(json.dumps(job))
    assert {finding.place: finding.fix for finding in caught.value.findings} == {
        "bins[0].trim.top": "Write “left”, “right”, “near” or “far”.",
        "bins[0].colour": "Write “name”, “length”, “width”, “count”, “price”, “trim”, “offcut” or “weight”.",
        "bins[1]": "Write {...} with name, length, width.",
        "first_cut": "Write “any”, “along” or “across”.",
        "keep": "Write {...} with short, long.",
        "limits": "Write {...} with weight, length.",
        "kerf": "",  # the sentence on a length says its fix
    }


def test_more_sheets_at_hand_than_anybody_counts_are_planned_with() -> None:
    """Once seen, as a ValueError out of the engine: it counts to a million."""
    job = {**JOB, "bins": [{"name": "s", "length": 96, "width": 48, "count": 10**11, "price": 5}]}
    plan = solve(read_problem(json.dumps(job)), MaxIterations(5))
    assert len(plan.sheets) == 1
    assert sorted(part.item or "" for part in plan.sheets[0].parts) == ["shelf", "side", "side"]


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=6,
)


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_no_garbage_gives_a_traceback(data: st.DataObject) -> None:
    """Any value in any field is either planned or refused with findings, and what the reader
    takes, the schema takes too."""
    job = json.loads(json.dumps(JOB))
    place = data.draw(
        st.sampled_from([job, *job["bins"], *job["items"], job["hand_saw"], job["limits"], job["keep"]])
    )
    place[data.draw(st.sampled_from(sorted(place)))] = data.draw(JSON)
    try:
        problem = read_problem(json.dumps(job))
        solve(problem, MaxIterations(1))
    except PlanError as refused:
        assert all(finding.text and finding.place for finding in refused.findings) and refused.findings
        return
    jsonschema.validate(without_nulls(job), schema("problem"))


def without_nulls(node: Any) -> Any:
    """Null is absent."""
    if isinstance(node, dict):
        return {name: without_nulls(value) for name, value in node.items() if value is not None}
    return [without_nulls(value) for value in node] if isinstance(node, list) else node


def test_the_example_of_the_docs_runs(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The page's problem, given to the page's command, gives the page's sentence."""
    page = DOCS.read_text()
    problem = re.search(r"```json\n(.*?)```", page, re.DOTALL)
    said = re.search(r"```text\n(.*?)\n```", page, re.DOTALL)
    assert problem and said
    file = tmp_path / "problem.json"
    file.write_text(problem[1])
    assert main(["breakdown", str(file), "--seconds", "1", "--json"]) == 0
    printed = json.loads(capsys.readouterr().out)
    jsonschema.validate(printed, schema("answer"))
    assert printed["statement"] == said[1]


@pytest.mark.parametrize("table", ["problem", "answer"])
def test_the_schema_is_one_and_the_command_prints_it(table: str, capsys: pytest.CaptureFixture[str]) -> None:
    jsonschema.Draft202012Validator.check_schema(schema(table))
    assert main(["schema", table]) == 0
    assert json.loads(capsys.readouterr().out) == schema(table)


@pytest.mark.parametrize(
    "wrong",
    [
        {"kurf": 1},
        {"items": []},
        {"unit": "cm"},
        {"stages": 0},
        {"goals": ["cuts", "cuts"]},
        {"trim": {"top": 1}},
        {"keep": {"short": 1}},
        {"bins": [{"name": "s", "length": 1, "width": True}]},
        {"items": [{"name": "s", "length": 1, "width": 1, "count": 0}]},
        {"bins": [{"name": "s", "length": 1, "width": 1, "weight": 0}]},
    ],
)
def test_the_schema_refuses_what_the_reader_refuses(wrong: dict[str, Any]) -> None:
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(JOB | wrong, schema("problem"))
    with pytest.raises(PlanError):
        read_problem_and_plan(json.dumps(JOB | wrong))


@pytest.mark.parametrize("table", ["problem", "answer"])
def test_the_docs_name_every_field_of_the_schemas(table: str) -> None:
    page = DOCS.read_text()
    missing = [name for name in _names(schema(table)) if f"`{name}`" not in page]
    assert not missing


def _names(node: Any) -> set[str]:
    found: set[str] = set()
    if isinstance(node, dict):
        found |= set(node.get("properties", {}))
        for value in node.values():
            found |= _names(value)
    elif isinstance(node, list):
        for value in node:
            found |= _names(value)
    return found


def test_the_command_refuses_bad_input_in_words_and_in_json(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "bad.json"
    file.write_text('{"bins": [], "items": []}')
    assert main(["breakdown", str(file), "--json"]) == 2
    captured = capsys.readouterr()
    assert json.loads(captured.out)["status"] == "refused"
    assert "items: No parts are asked for." in captured.err
    assert main(["breakdown", str(tmp_path / "none.json")]) == 2
    assert "cannot be read" in capsys.readouterr().err


def test_a_part_that_fits_no_sheet_is_named_and_the_rest_is_planned(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "large.json"
    bins = [{"name": "s", "length": 96, "width": 48}]
    items = [{"name": "a", "length": 10, "width": 10}, {"name": "b", "length": 99, "width": 10}]
    file.write_text(json.dumps({"bins": bins, "items": items}))
    assert main(["breakdown", str(file)]) == 1
    words = capsys.readouterr().out
    assert "1 part could not be placed" in words and "3 too long" in words and "1 x a" in words


def test_help_imports_nothing_heavy() -> None:
    """The help of the whole command must come at once: no numeric library is loaded for it."""
    script = (
        "import sys\nfrom casewright.cli.main import main\n"
        "try: main(['--help'])\nexcept SystemExit: pass\n"
        "assert 'numpy' not in sys.modules and 'casewright.planner.solve' not in sys.modules"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "breakdown" in done.stdout
