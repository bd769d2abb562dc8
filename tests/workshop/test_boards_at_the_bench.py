"""Face frames from rough boards: what is planned, done at the bench in which order, and bought."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from casewright.app.jobs.worked_job import open_job
from casewright.app.papers.packet_files import board_statements, packet_of
from casewright.app.sheets.boards_page import boards_view
from casewright.app.sheets.plan_file import plan_json
from casewright.app.sheets.plan_text import plan_words
from casewright.boards.board_faults import board_plan_faults
from casewright.boards.buying_odds import buying_odds
from casewright.boards.plan_boards import lone_misfits, plan_boards
from casewright.cli.main import main
from casewright.jobfile.write.other_unit import in_other_unit
from casewright.jobfile.write.write_job import write_job
from casewright.lengths.length import MM, Unit
from casewright.packet.csv_tables import buying_csv
from casewright.packet.cut_places import cut_places
from casewright.packet.leaves import Leaves, Moment
from casewright.packet.shop_packet import packet_data
from casewright.shop.lumber import GRADES, GradeName
from casewright.workshop.operations import Machine, Operation, OperationKind
from loft_job import LOFT, loft


def of_kind(kind: OperationKind) -> list[Operation]:
    return [one for one in loft().work.operations if one.kind is kind and one.piece.startswith("maple")]


def test_the_judge_finds_nothing_wrong_and_no_sheet_is_asked_for_maple() -> None:
    worked = loft().worked
    assert list(worked.problems) == ["ply"] and list(loft().board_plans) == ["maple"]
    problem, plan = worked.board_problems["maple"], worked.board_plans["maple"]
    assert not board_plan_faults(problem, plan) and not plan.unplaced
    frames = {part.mark for part in loft().project if part.material == "maple"}
    assert set(plan.board_of) == frames and frames


def test_rough_sizes_are_marked_no_finer_than_an_eighth() -> None:
    for board, length, strip in loft().board_plans["maple"].strips():
        sizes = (length.x, length.length, strip.y, strip.width)
        assert all((8 * size).denominator == 1 for size in sizes), (board.number, sizes)


def test_each_step_waits_for_the_one_before() -> None:
    """As makers do it, an edge jointed again once planed; what is cut to size waits for the dry fit."""
    work = loft().work
    order = [one.key for one in loft().ordered.operations]
    for mark in loft().board_plans["maple"].board_of:
        mine = [one for one in work.by_part[mark] if one.key.startswith("maple")]
        kinds = [one.kind for one in sorted(mine, key=lambda one: order.index(one.key))]
        assert kinds == [
            OperationKind.ROUGH_CROSSCUT,
            OperationKind.JOINT,
            OperationKind.ROUGH_RIP,
            OperationKind.PLANE,
            OperationKind.EDGE_AGAIN,
            OperationKind.RIP,
            OperationKind.CROSSCUT,
        ], mark
        length, width, thick = loft().project.dimensions(loft().project.parts[mark])
        assert (mine[-1].makes, mine[-2].makes, mine[-4].makes) == (length, width, thick)
        fit = order.index(f"{loft().project.parts[mark].case} dry fit")
        assert order.index(mine[-2].key) > fit


def test_strips_are_ripped_from_the_jointed_edge_outwards() -> None:
    order = [one.key for one in loft().ordered.operations]
    before: tuple[object, ...] = ()
    places = [order.index(one.key) for one in of_kind(OperationKind.ROUGH_RIP)]
    strips = [
        (board.number, length.x, strip.y) for board, length, strip in loft().board_plans["maple"].strips()
    ]
    for at, (place, strip) in enumerate(zip(places, strips, strict=True)):
        if before and before[:2] == strip[:2]:
            assert place > places[at - 1]
        before = strip


def test_the_words_name_every_part_and_what_holds_at_each_machine() -> None:
    told = {one.title: one for one in loft().told}
    crosscut = told["Crosscut boards to rough length"]
    assert crosscut.machine == Machine.CROSSCUT_SAW.value
    assert "(“A”)" in crosscut.steps[0].hold and "left end" in crosscut.steps[0].hold
    planed = told["Plane to thickness"]
    assert any('3/4"' in line for line in planed.setting) and planed.cautions
    for title, word in (
        ("Crosscut boards to rough length", "pinches"),
        ("Joint a face and an edge", "jointer"),
        ("Plane to thickness", "planer"),
    ):
        assert any(word in caution.text for caution in told[title].cautions), title
    # What goes over the jointer are the lengths, which one maker carries, not the board.
    assert not any("helper" in caution.text for caution in told["Joint a face and an edge"].cautions)
    edges = told["Joint an edge of each strip again"]
    assert any("near edge down" in line for line in edges.setting)
    assert any("jointer" in caution.text for caution in edges.cautions)
    rip = told['Rip to rough width, 1 3/4"']
    named = " ".join(step.hold for step in rip.steps)
    assert all(mark in named for mark in loft().board_plans["maple"].board_of)


def test_the_plan_says_what_to_buy_and_what_is_proved() -> None:
    words = plan_words(loft())
    (bought,) = loft().board_purchases
    plan = loft().board_plans["maple"]
    assert f"{float(plan.feet_to_buy):.1f} bf" in words and "Board 1 (“A”)" in words
    assert bought.clear_feet == plan.feet_to_buy and bought.at_hand == ("A",)
    assert bought.feet == 4 and bought.money == 38
    said = plan_json(loft())
    assert said["boards"]["maple"]["board_feet_to_buy"] == float(plan.feet_to_buy)
    listed = buying_csv(loft().project, loft().purchases, loft().worked.hardware, loft().board_purchases)
    assert 'hard maple, FAS, board feet",,,1,4,9.50,38.00' in listed.decode()


def test_command_plan_yard_page_and_sheets_page_name_the_same_board_feet_and_odds(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """What to buy was a number with its odds on the command, and clear boards with “buy more” on paper."""
    text = LOFT.replace("length = 98", "length = 40").replace("[30, 33]", "[30, 31]")
    text = text.replace("[94, 98]", "[38, 40]")
    (tmp_path / "loft.toml").write_text(text)
    assert main(["boards", str(tmp_path / "loft.toml")]) == 0
    first = capsys.readouterr().out.splitlines()[0].removeprefix("hard maple: ")
    said = re.fullmatch(
        r"Buy at least (\d+ bf) of 4/4 FAS \(\$[\d.]+\): (enough in \d+ of 40 lots .*)\.", first
    )
    assert said is not None
    planned = open_job(text).planned(0.2)
    yard: Any = packet_data(packet_of(planned, leaves=Leaves((Moment.YARD,))))["buying"]
    (line,) = [one for one in yard["lines"] if one["name"] == "hard maple"]
    assert line["count"] == said[1] and line["note"].startswith(said[2])
    (view,) = boards_view(planned)
    assert view.buy == first and first in plan_words(planned)
    assert any(first in one for one in board_statements(planned))
    front: Any = packet_data(packet_of(planned, leaves=Leaves((Moment.FRONT,))))["figures"]
    assert {"value": said[1], "caption": "boards to buy"} in front


def test_nothing_is_bought_where_the_plan_takes_all_from_boards_at_hand() -> None:
    planned = open_job(LOFT.replace("length = 98", "length = 150")).planned(0.2)
    (bought,) = planned.board_purchases
    assert not planned.board_plans["maple"].to_buy and bought.feet == bought.money == 0
    (view,) = boards_view(planned)
    assert view.buy == "Nothing to buy; the boards at hand are enough."


def test_labels_say_the_board_and_the_step() -> None:
    places = cut_places(loft().ordered)
    for mark, number in loft().board_plans["maple"].board_of.items():
        assert places[mark].sheet == f"maple board {number}"
        batch = loft().ordered.batches[places[mark].step - 1]
        assert any(one.parts == (mark,) and one.kind is OperationKind.CROSSCUT for one in batch.operations)


@pytest.mark.parametrize("material", ["maple"])
def test_a_job_planned_twice_has_the_same_boards(material: str) -> None:
    again = open_job(f"{LOFT}\n# once more\n")
    assert again.board_plans[material] == loft().board_plans[material]


def test_a_revision_that_leaves_the_boards_parts_alone_cuts_no_board_up_again() -> None:
    plan_boards.cache_clear()
    once = open_job(f"{LOFT}\n# first\n").board_plans["maple"]
    before = plan_boards.cache_info().misses
    renamed = open_job(LOFT.replace('job = "Loft"', 'job = "Attic"').replace("price = 82", "price = 90"))
    assert renamed.board_plans["maple"] is once
    assert plan_boards.cache_info().misses == before
    wider = open_job(LOFT.replace("opening = 60", "opening = 61"))
    assert wider.board_plans["maple"] != once and plan_boards.cache_info().misses == before + 1


def test_the_command_says_how_much_to_buy(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    job = tmp_path / "loft.toml"
    job.write_text(
        LOFT.replace("length = 98", "length = 40")
        .replace("[30, 33]", "[30, 31]")
        .replace("[94, 98]", "[38, 40]")
    )
    assert main(["boards", str(job), "--lots", "12"]) == 0
    said = capsys.readouterr().out
    feet = int(re.search(r"Buy at least (\d+) bf of 4/4 FAS \(\$", said)[1])  # type: ignore[index]
    worked = open_job(job.read_text())
    odds = buying_odds(worked.board_problems["maple"], GRADES[GradeName.FAS], 12)
    assert feet == odds.to_buy() and f"enough in {odds.lots_enough(Fraction(feet))} of 12" in said
    assert main(["boards", str(job), "--lots", "12", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)[0]["board_feet"] == feet


def loft_to_buy(tmp_path: Path, size: str) -> str:
    """The loft with nothing at hand and boards of this usual size, as a file."""
    job = tmp_path / "loft.toml"
    start = LOFT.index("[[materials.maple.boards.at_hand]]")
    text = LOFT[:start] + LOFT[LOFT.index("[made_of]") :]
    job.write_text(text.replace("size = [96, 7]", f"size = {size}"))
    return str(job)


def test_where_a_part_fits_no_board_the_command_says_so(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    job = loft_to_buy(tmp_path, "[30, 7]")
    assert lone_misfits(open_job(Path(job).read_text()).board_problems["maple"])
    assert main(["boards", job, "--lots", "2"]) == 1
    assert "in 2 of 2 lots drawn at random some part fits no board" in capsys.readouterr().out


def test_where_too_many_boards_are_needed_the_command_says_that(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("casewright.boards.buying_odds.MOST_BOARDS", 1)
    job = loft_to_buy(tmp_path, "[96, 7]")
    assert not lone_misfits(open_job(Path(job).read_text()).board_problems["maple"])
    assert main(["boards", job, "--lots", "2"]) == 1
    said = capsys.readouterr().out
    assert "in 2 of 2 lots drawn at random not even" in said and "boards give every part" in said
    assert "fits no board" not in said and "divide the cases over two job files" in said


def test_a_job_without_boards_says_how_to_have_them(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    job = tmp_path / "sheets.toml"
    job.write_text(
        LOFT[: LOFT.index("[materials.maple]")] + LOFT[LOFT.index("[made_of]") :].replace("maple", "ply")
    )
    assert main(["boards", str(job)]) == 1
    assert "[materials.KEY.boards]" in capsys.readouterr().out
    assert main(["boards", str(job), "--lots", "0"]) == 2
    assert "--lots 0" in capsys.readouterr().err


def test_in_millimetres_what_is_cut_off_is_marked_in_whole_ones_too() -> None:
    worked = open_job(in_other_unit(LOFT, Unit.MM).text)
    problem, plan = worked.board_problems["maple"], worked.board_plans["maple"]
    assert not board_plan_faults(problem, plan) and not plan.unplaced
    for size in (problem.kerf, problem.milling.end_trim, problem.milling.first_edge):
        assert size > 0 and (size / MM / 2).denominator == 1


def test_waste_before_a_strip_is_ripped_off_however_narrow() -> None:
    """A narrow defect between two strips was left on the second, which then came out with it, and too narrow:
    waste was named only where it was wider than an inch."""
    narrow = 'defects = [{ along = [2, 92], across = ["1 7/8", "2 1/2"] }, { along = [94, 98] }]'
    text = LOFT.replace("defects = [{ along = [30, 33], across = [1, 2] }, { along = [94, 98] }]", narrow)
    planned = open_job(text).planned(0.2)
    problem, plan = planned.worked.board_problems["maple"], planned.board_plans["maple"]
    held = {step.key: step.hold for batch in planned.told for step in batch.steps}
    seen = set()
    for board in plan.boards:
        number = 0
        for length in board.lengths:
            free = problem.milling.first_edge
            for strip in length.strips:
                number += 1
                waste = strip.y > free
                said = held[f"maple board {board.number} strip {number}"]
                assert ("rip off the waste up to" in said) is waste, (said, strip.y, free)
                seen.add(waste and strip.y - free < 1)
                free = strip.y + strip.width + problem.kerf
    assert seen == {True, False}


def test_a_strip_as_wide_as_its_board_is_not_ripped() -> None:
    """A stile 1 1/2 in wide and 1/4 in to be jointed and ripped off later: 1 3/4 in, and 1/8 in for the first
    edge. A board 1 7/8 in wide is jointed and goes to the planer as it is; one 2 in wide is ripped."""

    def rough_steps(width: str) -> list[str]:
        made = open_job(LOFT.replace("size = [96, 7]", f'size = [96, "{width}"]')).planned(0.2)
        to_buy = {f"maple board {one.number}" for one in made.board_plans["maple"].to_buy}
        kinds = (OperationKind.JOINT, OperationKind.ROUGH_RIP)
        mine = [one for one in made.work.operations if one.kind in kinds and one.piece in to_buy]
        planing = next(one for one in made.work.operations if one.kind is OperationKind.PLANE)
        assert to_buy and {one.piece for one in mine if one.key in planing.after} == to_buy
        return [one.kind.name for one in mine]

    assert "ROUGH_RIP" not in rough_steps("1 7/8")
    assert "ROUGH_RIP" in rough_steps("2")


def test_the_longest_length_is_read_and_written_in_either_unit() -> None:
    text = LOFT.replace("price = 9.5", "price = 9.5\nlongest_length = 36")
    inches, mm = open_job(text), open_job(in_other_unit(text, Unit.MM).text)
    again = open_job(write_job(inches.needed().job))
    for worked, off in ((inches, 0), (again, 0), (mm, MM)):
        longest = worked.board_problems["maple"].milling.longest_length
        assert longest is not None and abs(longest - 36) <= off
