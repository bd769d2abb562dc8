"""A way chosen from the command line: the job and the plan after it, which every later command follows."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest

from casewright.app.jobs.worked_job import open_job
from casewright.app.papers.notices import made_notice
from casewright.app.papers.packet_files import documents, packet_of
from casewright.app.sheets.made_already import MadeAlready
from casewright.app.sheets.plan_keeping import FileShelf
from casewright.app.sheets.sheets_page import sheets_view
from casewright.cli.main import main
from casewright.packet.shop_packet import packet_data
from casewright.planner.plan import Plan
from web_bench import JOB


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "larder.toml"
    path.write_text(JOB)
    assert main(["plan", str(path), "--seconds", "0.3"]) == 0
    return path


def put_right(job: Path, capsys: pytest.CaptureFixture[str], *more: str) -> dict[str, Any]:
    capsys.readouterr()
    assert main(["put-right", str(job), *more, "--json"]) in (0, 1)
    answer: dict[str, Any] = json.loads(capsys.readouterr().out)
    return answer


def plans_in(job: Path) -> Mapping[str, Plan]:
    record = FileShelf.beside(str(job)).read()
    assert record is not None
    return record.plans


def kinds(answer: dict[str, Any]) -> list[str]:
    ways = answer["ways"]
    assert isinstance(ways, list)
    return [way["kind"] for way in ways]


def test_the_plan_after_an_exchange_is_kept_beside_the_job(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "after.toml"
    answer = put_right(job, capsys, "--wrong", "B1-L:mirrored", "--choose", "1", "--out", str(out))
    assert kinds(answer)[0] == "let pieces change places"
    assert answer["labels_again"] == ["B1-L", "B1-R"] and answer["begun"]
    assert main(["plan", str(out), "--json"]) == 0
    plan = json.loads(capsys.readouterr().out)
    assert plan["plan"] == answer["plan"]
    before = json.loads(job.with_suffix(".plan.json").read_text())
    assert before["plan"] != plan["plan"]
    places = [json.dumps(one["exact"]["ply"]["sheets"]) for one in (before, plan)]
    swapped = places[0].replace("B1-L", "~").replace("B1-R", "B1-L").replace("~", "B1-R")
    assert places[1] == swapped
    # Planned again, the sheets that are begun stay as they are, and stay noted.
    assert main(["plan", str(out), "--again", "--seconds", "0.3"]) == 0
    assert "kept as they are, because they are begun" in capsys.readouterr().err
    assert json.loads(out.with_suffix(".plan.json").read_text())["made"]["sheets"] == answer["begun"]


def test_sheets_that_are_begun_are_not_bought_again(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "after.toml"
    used = {key: len(plan.sheets) for key, plan in plans_in(job).items()}
    put_right(job, capsys, "--wrong", "B1-L:mirrored", "--choose", "1", "--out", str(out))
    made = FileShelf.beside(str(out)).made()
    begun = Counter(name.rpartition(" ")[0] for name in made.sheets)
    assert begun["ply"] >= 1 and begun["ply"] < used["ply"]
    assert main(["plan", str(out), "--json"]) == 0
    bought = {one["material"]: one for one in json.loads(capsys.readouterr().out)["buy"]}
    for key, sheets in used.items():
        assert (bought[key]["sheets"], bought[key]["already_here"]) == (sheets - begun[key], begun[key])
    planned = open_job(out.read_text()).with_plan(plans_in(out))
    page: Any = packet_data(packet_of(planned, made=made))["buying"]
    [ply] = [line for line in page["lines"] if line["name"] == planned.project.job.sheets["ply"].name]
    assert ply["count"] == used["ply"] - begun["ply"]
    assert f"already here and begun: {begun['ply']}" in ply["note"]
    [ply_view, _] = sheets_view(planned, made)
    assert f"Already here and begun: {begun['ply']}." in ply_view.buy
    table = next(one for one in documents(planned, made=made) if one.path == "buying.csv").make().decode()
    assert f",{used['ply'] - begun['ply']}," in table.splitlines()[1]


def test_a_piece_left_of_a_begun_sheet_is_bought_with_it_and_comes_from_no_rack(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "after.toml"
    answer = put_right(
        job, capsys, "--lost", "B1-TK", "--cut-through", "ply 3", "--choose", "1", "--out", str(out)
    )
    assert kinds(answer)[0] == "cut it again from wood on hand"
    planned = open_job(out.read_text()).with_plan(plans_in(out))
    names = {sheet.bin for sheet in planned.plans["ply"].sheets}
    assert any("piece" in name for name in names), names
    [ply] = [one for one in planned.purchases if one.material == "ply"]
    whole = [sheet for sheet in planned.plans["ply"].sheets if "piece" not in sheet.bin]
    assert (ply.sheets, ply.offcuts) == (len(whole), ())


def test_steps_and_a_second_mishap_go_on_from_what_is_cut(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "after.toml"
    put_right(job, capsys, "--wrong", "B1-L:mirrored", "--choose", "1", "--out", str(out))
    assert main(["steps", str(out), "--json"]) == 0
    steps = json.loads(capsys.readouterr().out)
    own = [step["key"] for batch in steps["batches"] for step in batch["steps"] if step["parts"] == ["B1-R"]]
    assert own and set(own) <= set(steps["done"])
    assert not {key for key in steps["done"] if key.startswith("B1-L ")}
    assert main(["steps", str(out), "--part", "B1-R"]) == 0
    words = capsys.readouterr().out
    assert f"{len(steps['done'])} steps are done already" in words and "[ ] B1-R" not in words
    planned = open_job(out.read_text()).with_plan(plans_in(out))
    made = FileShelf.beside(str(out)).made()
    [way, notice] = made_notice(planned, made)
    assert made.mends and way.lines == made.mends
    assert "All that is cut into B1-R." in notice.lines
    assert any(line.startswith("Sheet ") and "cuts 1" in line for line in notice.lines)
    assert made_notice(planned, MadeAlready()) == ()
    # B1-R is there, and finished: another left side made as a right one cannot be cut in its place.
    again = put_right(out, capsys, "--wrong", "B1-L:mirrored")
    assert kinds(again)[0] != "let pieces change places"


def test_a_part_begun_as_the_other_of_its_pair_is_cut_on_as_that_one(
    job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Its groove and one dado are cut so far, which no turn puts right; its mate lacks the rest."""
    begun = put_right(
        job, capsys, "--wrong", "B1-L:mirrored", "--worked", "B1-L:groove-back,B1-L:dado-bottom"
    )
    assert kinds(begun)[0] == "let pieces change places"
    steps = " ".join(begun["ways"][0]["steps"])
    assert (
        "while nothing but dado-bottom and groove-back is cut into it: mark it B1-R, and cut the rest"
        in steps
    )
    whole = " ".join(put_right(job, capsys, "--wrong", "B1-L:mirrored")["ways"][0]["steps"])
    assert "cut the rest" not in whole and "B1-R" in whole


def test_a_plan_that_is_there_is_not_replaced_unasked(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "after.toml"
    out.with_suffix(".plan.json").write_text("{}")
    said = ["put-right", str(job), "--wrong", "B1-L:mirrored", "--choose", "1", "--out", str(out)]
    assert main(said) == 2
    assert "already exists" in capsys.readouterr().err and not out.exists()
    assert main([*said, "--force"]) == 0
    assert "casewright labels" in capsys.readouterr().out


def test_which_features_are_cut_so_far_decides_what_a_turn_can_do(
    job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A dado laid out from the wrong end of a side that has nothing else yet: turned, it is right."""
    wrong = ["--wrong", "B1-L:dado-F11:wrong end"]
    told = put_right(job, capsys, *wrong)
    every = put_right(job, capsys, *wrong, "--worked", "B1-L")
    turn = "turn it end for end or over"
    assert turn in kinds(told) and turn not in kinds(every)
    steps = told["ways"][kinds(told).index(turn)]["steps"]
    assert any("while nothing but dado-F11 is cut into it" in step for step in steps)
    assert main(["put-right", str(job), *wrong, "--worked", "B1-L:pins-99"]) == 2
    assert "it has no feature “pins-99”" in capsys.readouterr().err


def test_two_parts_mixed_up_change_their_labels_and_nothing_else(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    mixed = ["--wrong", "B1-L:mixed up with:B2-L", "--worked", "B1-L,B2-L"]
    out = tmp_path / "after.toml"
    answer = put_right(job, capsys, *mixed, "--choose", "1", "--out", str(out))
    first = answer["ways"][0]
    assert (first["kind"], first["minutes"], first["buys"]) == ("let pieces change places", 2, False)
    assert first["parts"] == ["B2-L", "B1-L"] and out.read_text() == job.read_text()
    assert answer["labels_again"] == ["B1-L", "B2-L"]
    # Only cut to size, they are as large as each other, and nothing is wrong.
    assert main(["put-right", str(job), *mixed[:2]]) == 2
    assert "change them over" in capsys.readouterr().err
    # Sizes of their own: each piece is the other part, with nothing cut into it.
    sizes = put_right(job, capsys, "--wrong", "B1-B:mixed up with:B2-B")["ways"][0]
    assert sizes["kind"] == "let pieces change places" and sizes["minutes"] == 2


def test_a_part_of_another_sheet_is_told_with_what_that_measures(
    job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    told = ["--wrong", "B1-B:made of:ply:11/16"]
    plain = put_right(job, capsys, *told)["ways"][0]
    assert plain["kind"] == "cut its mate to match" and "dado-bottom of B1-L" in plain["steps"][0]
    worked = put_right(job, capsys, *told, "--cut", "B1-L,B1-R", "--worked", "B1-L,B1-R")
    assert "cut its mate to match" not in kinds(worked) and kinds(worked)[0] != "use it as it is"
    # A hundredth and a half of play is no play that anybody sees.
    hair = put_right(job, capsys, "--wrong", "B1-B:made of:ply:45/64", "--worked", "B1-L,B1-R")
    assert kinds(hair)[0] == "use it as it is"
    # Nothing of another thickness is wood for parts of this material.
    assert not any("spoiled B1-B" in step for way in worked["ways"] for step in way["steps"])


def test_a_fault_in_a_sheet_moves_what_is_not_cut_and_keeps_off_it(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "after.toml"
    [sheet] = plans_in(job)["thin"].sheets
    piece = next(one for one in sheet.parts if one.item == "B1-K")
    at = f"{int(piece.x) + 2} x {int(piece.y) + 2}"
    answer = put_right(job, capsys, "--flaw", f"thin 1:{at}:2 x 2", "--choose", "1", "--out", str(out))
    assert not answer["ways"][0]["buys"] and "B1-K" in answer["ways"][0]["parts"]
    cut = [one.item for sheet in plans_in(out)["thin"].sheets for one in sheet.parts]
    assert sorted(filter(None, cut)) == ["B1-K", "B2-K"]
    # What is cut first is told first, and no cut is said to be made.
    [named] = [f"thin {one.number}" for one in plans_in(out)["thin"].sheets]
    first, second, *_ = answer["ways"][0]["steps"]
    assert first.startswith(("Rip whole", "Crosscut whole")) and f", {named}: it is cut up" in second
    assert FileShelf.beside(str(out)).made().mends[:2] == (first, second)
    more = ("--flaw", f"thin 1:{at}:2 x 2", "--choose", "1", "--out", str(out), "--force")
    main(["put-right", str(job), *more])
    said = capsys.readouterr().out
    assert "cuts are made already" not in said and f"no sheets to buy: {named}." in said
    # Cut already, it is damaged there.
    told = put_right(job, capsys, "--flaw", f"thin 1:{at}:2 x 2", "--cut", "B1-K,B2-K")
    assert told["ways"][0]["parts"] == ["B1-K"]
    assert main(["put-right", str(job), "--flaw", "thin 1:95 x 1:2 x 2"]) == 2
    assert "does not lie within the sheet" in capsys.readouterr().err


def test_a_cut_that_is_changed_is_told_where_it_is_made(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "after.toml"
    wrong = "B1-K:made of:thin:0.27"
    told = put_right(job, capsys, "--wrong", wrong)
    number = kinds(told).index("cut its mate to match") + 1
    put_right(job, capsys, "--wrong", wrong, "--choose", str(number), "--out", str(out))
    assert main(["steps", str(out)]) == 0
    lines = [line for line in capsys.readouterr().out.splitlines() if "Changed: Set the dado" in line]
    assert {line.split()[2] for line in lines} >= {"B1-L", "B1-R"}
    assert all("See To put right." in line for line in lines)
    assert main(["steps", str(out), "--json"]) == 0
    steps = [one for batch in json.loads(capsys.readouterr().out)["batches"] for one in batch["steps"]]
    changed = {one["key"] for one in steps if one["changed"]}
    assert changed and all("groove" in key or "back" in key for key in changed)
    # On paper the same words stand first at the same parts.
    planned = open_job(out.read_text()).with_plan(plans_in(out))
    made = FileShelf.beside(str(out)).made()
    pages = packet_data(packet_of(planned, made=made))
    holds = [hold for row in _rows(pages) for hold in row["holds"] if hold["changed"]]
    marked = {mark for hold in holds for way in hold["ways"] for mark in way["marks"]}
    assert {"B1-L", "B1-R"} <= marked


def _rows(value: Any) -> Iterator[dict[str, Any]]:
    """Every row of a setting among the packet's pages."""
    if isinstance(value, dict):
        if "holds" in value:
            yield value
        for one in value.values():
            yield from _rows(one)
    elif isinstance(value, list | tuple):
        for one in value:
            yield from _rows(one)


def test_a_plan_after_parts_are_trimmed_to_match_stands_as_it_is(
    job: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A part that is kept short, and those trimmed to it, still lie in the plan as large as they were
    cut: they are not planned again, not even where somebody asks for another plan."""
    out = tmp_path / "after.toml"
    sheets = {key: len(plan.sheets) for key, plan in plans_in(job).items()}
    told = ["--spoiled", "B1-R:34 3/8 x 24", "--cut-through", f"ply {sheets['ply']}"]
    number = kinds(put_right(job, capsys, *told)).index("trim the other parts to match") + 1
    answer = put_right(job, capsys, *told, "--choose", str(number), "--out", str(out))
    for command in ("steps", "plan"):
        assert main([command, str(out), "--json"]) == 0, capsys.readouterr().err
        assert json.loads(capsys.readouterr().out)["plan"] == answer["plan"]
    assert main(["plan", str(out), "--again", "--seconds", "0.3"]) == 0
    assert len(plans_in(out)["ply"].sheets) == sheets["ply"]
    # Another mishap goes on from the sizes that they have now.
    again = put_right(out, capsys, "--spoiled", "B1-L:34 3/8 x 23")
    assert again["ways"] and not any("Trim" in step for step in again["ways"][0]["steps"])
    # In another size they are no longer what was cut.
    changed = re.sub(r"height = .+", "height = 33", out.read_text())
    assert changed != out.read_text()
    out.write_text(changed)
    assert main(["steps", str(out)]) == 2
    assert "the job has changed since this plan was made" in capsys.readouterr().err


def test_what_is_taken_of_a_damage_that_nobody_measured_is_said_first(
    job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["put-right", str(job), "--damaged", "B1-L:front edge"]) == 0
    first = capsys.readouterr().out.splitlines()[0]
    assert "the front edge of B1-L" in first and 'taken as 1/8" deep' in first
    told = first.rpartition(": ")[2].removesuffix(".")
    assert main(["put-right", str(job), "--damaged", told]) == 0
    assert "taken" not in capsys.readouterr().out
