"""`casewright shop-test` and `shop-figures` list what readings say, and write it only when asked."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.jobs.worked_job import open_job
from casewright.app.learning.shop_test_sheet import take_test
from casewright.app.papers.notices import notices
from casewright.app.sheets.plan_search import plan_job
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import hand_out, read_record
from casewright.cli.main import main
from casewright.lengths.length import Unit
from casewright.tolerance.chains.roles import GapRole
from casewright.tolerance.outcomes.case_outcome import job_outcome
from example_files import example_file

STUDIO = example_file("pottery-studio")
STRIPS = [
    f"--read=strip {number}={width}" for number, width in enumerate(("3.007", "3.009", "3.006", "3.011"), 1)
]
DADOES = [f"--read=dado {number}={width}" for number, width in enumerate((".752", ".749", "0.755"), 1)]
Capture = pytest.CaptureFixture[str]


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return Path(shutil.copy(STUDIO, tmp_path / "studio.toml"))


def test_the_sheet_has_a_blank_for_every_reading(job: Path, capsys: Capture) -> None:
    assert main(["shop-test", str(job)]) == 0
    text = capsys.readouterr().out
    assert "about 15 minutes" in text and text.count("________") == 25
    assert main(["shop-test", str(job), "--json"]) == 0
    cuts = json.loads(capsys.readouterr().out)
    assert sum(len(cut["blanks"]) for cut in cuts) == 25 and "riving knife" in cuts[0]["caution"]


def test_readings_are_told_first_and_written_with_yes(job: Path, capsys: Capture) -> None:
    before = job.read_text()
    assert main(["shop-test", str(job), *STRIPS, *DADOES]) == 0
    text = capsys.readouterr().out
    assert "3 readings on 3 settings" in text and "Nothing was changed." in text
    assert job.read_text() == before
    assert main(["shop-test", str(job), *STRIPS, *DADOES, "--yes"]) == 0
    assert "Written into" in capsys.readouterr().out
    after = open_job(job.read_text()).needed().job.shop.deviations
    was = open_job(before).needed().job.shop.deviations
    assert after.dado_packed != was.dado_packed and after.cut != was.cut
    assert after.fence == was.fence, "one setting is too few"
    assert job.read_text().startswith(before.splitlines()[0]), "comments and order stay"


def test_a_file_of_readings_may_have_empty_lines_and_remarks(
    job: Path, tmp_path: Path, capsys: Capture
) -> None:
    lines = tmp_path / "test.txt"
    lines.write_text("# Saturday\n\nthickness 1-1 = 0.706\nthickness 1-2 = 18 mm\nfive-cut length =\n")
    assert main(["shop-test", str(job), "--readings", str(lines), "--yes"]) == 0
    assert "0.706 in, 0.709 in, instead of the 4 in the job file" in capsys.readouterr().out
    readings = open_job(job.read_text()).needed().job.sheets
    assert {len(sheet.readings) for sheet in readings.values()} >= {2}


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (["--read", "strip 1=76.2"], "would fit as mm"),
        (["--read", "strip 1"], "no = between"),
        (["--read", "strip 1=3", "--read", "strip 1=3.01"], "entered twice"),
        (["--readings", "not-there.txt"], "cannot be read"),
    ],
)
def test_what_cannot_be_right_is_one_sentence_and_changes_nothing(
    job: Path, capsys: Capture, words: list[str], sentence: str
) -> None:
    before = job.read_text()
    assert main(["shop-test", str(job), *words, "--yes"]) == 2
    err = capsys.readouterr().err
    assert sentence in err and len(err.splitlines()) == 1
    assert job.read_text() == before


def test_without_readings_the_record_says_how_to_take_some(
    job: Path, tmp_path: Path, capsys: Capture
) -> None:
    KeptJobs.open(tmp_path / "shop.casewright").start(job.read_text())
    words = ["shop-figures", str(job), "--record", str(tmp_path / "shop.casewright")]
    assert main(words) == 0
    assert "casewright shop-test" in capsys.readouterr().out
    assert main([*words, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["figures"] == []


def test_a_record_that_is_not_there_is_one_sentence(job: Path, tmp_path: Path, capsys: Capture) -> None:
    assert main(["shop-figures", str(job), "--record", str(tmp_path / "none.casewright")]) == 2
    assert "no file" in capsys.readouterr().err and not (tmp_path / "none.casewright").exists()


def test_the_record_s_readings_and_dry_fits_are_told_and_its_figures_written(
    job: Path, tmp_path: Path, capsys: Capture
) -> None:
    record = tmp_path / "shop.casewright"
    saved = KeptJobs.open(record)
    work = saved.start(job.read_text())
    plans = plan_job(work.worked.needed(), 0.2).plans
    hand_out(saved.file, work.id, work.revision.number, plans, "issue", saved.clock())
    take_test(saved, work, {"dado 1": "0.752", "dado 2": "0.749", "dado 3": "0.755"}, "sheet")
    floor = read_record(saved.file, work.id).floor
    assert floor is not None
    joint = floor.fit.in_place("B1")[0].gap
    tap = {"id": "tap", "bench": "saw", "seq": 9, "kind": "dry-fit", "joint": joint.name, "how": "remade"}
    assert not receive(saved.file, work.id, [tap], Unit.INCH, saved.clock()).refused
    words = ["shop-figures", str(job), "--record", str(record)]
    assert main([*words, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert [one["name"] for one in told["figures"]] == ["dado_packed"]
    assert "predicted under 1 of 1, happened 1" in told["dry_fits"][joint.role.value]
    assert main([*words, "--yes"]) == 0
    assert f"At the dry fit, {joint.role.value}: cut again" in capsys.readouterr().out
    assert "dado_packed = 0.003" in job.read_text()


def test_taps_of_enough_joints_change_what_is_predicted_in_every_answer(
    job: Path, tmp_path: Path, capsys: Capture
) -> None:
    record = tmp_path / "shop.casewright"
    saved = KeptJobs.open(record)
    work = saved.start(job.read_text())
    plans = plan_job(work.worked.needed(), 0.2).plans
    hand_out(saved.file, work.id, work.revision.number, plans, "issue", saved.clock())
    floor = read_record(saved.file, work.id).floor
    assert floor is not None
    dadoes = [gap.key for gap in floor.fit.gaps.values() if gap.role is GapRole.OWN_DADO]
    taps: list[object] = [
        {"id": f"t{at}", "bench": "saw", "seq": at, "kind": "dry-fit", "joint": joint, "how": "eased"}
        for at, joint in enumerate(dadoes, 1)
    ]
    assert len(taps) > 20
    words = ["shop-figures", str(job), "--record", str(record)]
    assert not receive(saved.file, work.id, taps[:19], Unit.INCH, saved.clock()).refused
    assert main([*words, "--yes"]) == 0
    assert "too few to change a prediction, which takes 20." in capsys.readouterr().out
    assert "[shop.dry_fits" not in job.read_text()
    assert not receive(saved.file, work.id, taps[19:], Unit.INCH, saved.clock()).refused
    before = open_job(job.read_text())
    assert main([*words, "--yes"]) == 0
    assert "from now on" in capsys.readouterr().out
    written = job.read_text()
    after = open_job(written)
    once = after.needed().job.shop.dry_fits.dado
    assert once is not None and once.happened == (0, 0, len(taps), 0) and once.worth < len(taps) / 2
    assert main([*words, "--yes"]) == 0 and job.read_text() == written, "the same taps count once"
    capsys.readouterr()
    by = f"(by your {len(taps)} dry fits)"
    assert main(["fit", str(job)]) == 0
    assert by in capsys.readouterr().out.splitlines()[0]
    assert main(["fit", str(job), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["job"]["dry_fits"] == len(taps) and by in told["job"]["sentence"]
    risky = {gap["dry_fits"] for gap in told["gaps"] if gap["role"] == GapRole.OWN_DADO.value}
    assert risky == {len(taps)}
    now, then = (job_outcome(one.with_plan(plans).fit) for one in (after, before))
    assert now.ease > then.ease + 0.05
    paper = " ".join(line for notice in notices(after.with_plan(plans)) for line in notice.lines)
    assert by in paper
