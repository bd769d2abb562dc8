"""The packet command writes every document of a job, in every format, and says what it left out."""

from __future__ import annotations

import csv
import json
import re
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from io import BytesIO, StringIO
from pathlib import Path
from typing import Any

import pytest
import trimesh
from ezdxf.filemanagement import readfile
from pypdf import PdfReader

from casewright.app.choices import FORMATS
from casewright.app.jobs.job_file import load
from casewright.app.jobs.worked_job import PlannedJob, open_job
from casewright.app.papers import packet_files
from casewright.app.papers.notices import matters, notices
from casewright.app.papers.packet_files import Document, documents, write_packet
from casewright.cli.main import main
from casewright.errors import CasewrightError
from casewright.packet.shop_packet import packet, packet_data
from example_files import example_file
from job_texts import ALCOVE
from planned_once import planned_once

ROOT = Path(__file__).parents[2]
STUDIO = example_file("pottery-studio")
FERRY = example_file("ferry-canteen")
Capture = pytest.CaptureFixture[str]


@pytest.fixture(scope="module")
def ferry(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The whole packet of the millimetre example."""
    folder = tmp_path_factory.mktemp("packet")
    written = write_packet(load(FERRY), str(folder), 0.5)
    assert written.missing == () and written.plan.complete
    on_disk = {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}
    assert on_disk == set(written.files)
    return folder


def test_there_is_a_file_in_every_format(ferry: Path) -> None:
    kinds = {path.suffix.removeprefix(".") for path in ferry.rglob("*") if path.is_file()}
    assert kinds == {*FORMATS, "toml"}
    assert (ferry / "job.toml").read_text(encoding="utf-8") == load(FERRY)


def test_every_part_has_its_line_its_drawing_and_its_solid(ferry: Path) -> None:
    project = open_job(load(FERRY)).needed()
    rows = list(csv.DictReader(StringIO((ferry / "parts.csv").read_text(encoding="utf-8"))))
    assert [row["mark"] for row in rows] == list(project.parts)
    for suffix in ("svg", "dxf"):
        assert {path.stem for path in (ferry / "parts").glob(f"*.{suffix}")} == set(project.parts)
    scene = trimesh.load(ferry / "job.glb", file_type="glb")
    assert isinstance(scene, trimesh.Scene)
    assert set(project.parts) <= set(scene.graph.nodes)
    step = (ferry / "job.step").read_text(encoding="utf-8")
    assert step.startswith("ISO-10303-21;") and all(f"'{mark}'" in step for mark in project.parts)


def test_sheets_and_plan_agree(ferry: Path) -> None:
    told = json.loads((ferry / "plan.json").read_text(encoding="utf-8"))
    for material, answer in told["materials"].items():
        assert len(list((ferry / "sheets").glob(f"{material}-*.dxf"))) == len(answer["sheets"])
        drawn = readfile(ferry / "sheets" / f"{material}-1.dxf")
        assert drawn.dxfversion == "AC1024" and not drawn.audit().errors


def test_the_packet_says_its_revision_and_where_its_cautions_are(ferry: Path) -> None:
    pages = [page.extract_text() for page in PdfReader(ferry / "packet.pdf").pages]
    assert all(open_job(load(FERRY)).revision in page for page in pages if "page" in page.split("\n")[0])
    cautions = next(number for number, page in enumerate(pages, 1) if "\nCautions\n" in page)
    assert f"Cautions: page {cautions}" in pages[0]


def test_a_second_packet_of_the_same_job_is_the_same(ferry: Path, tmp_path: Path) -> None:
    write_packet(load(FERRY), str(tmp_path), 0.2, ["csv", "svg", "glb"])
    for name in ("parts.csv", "job.glb", "parts/B1-L.svg"):
        assert (tmp_path / name).read_bytes() == (ferry / name).read_bytes(), name


def test_the_command_writes_what_is_asked_for(tmp_path: Path, capsys: Capture) -> None:
    folder = tmp_path / "bench"
    words = ["packet", STUDIO, "--out", str(folder), "--only", "csv", "--seconds", "0.3"]
    assert main([*words, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert set(told["files"]) == {"parts.csv", "buying.csv", "costs.csv", "job.toml"} and told["complete"]
    (folder / "mine.txt").write_text("keep", encoding="utf-8")
    assert main([*words, "--progress"]) == 0
    said = capsys.readouterr()
    assert (
        re.search(rf"4 files of plan \w{{6}} in {folder}\.\n", said.out) and "writing parts.csv" in said.err
    )
    assert (folder / "mine.txt").read_text(encoding="utf-8") == "keep"


def test_a_missing_extra_is_named_and_the_rest_is_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    monkeypatch.setitem(__import__("sys").modules, "casewright.solids.boundary", None)
    words = ["packet", STUDIO, "--out", str(tmp_path), "--only", "csv", "step", "--seconds", "0.3"]
    assert main(words) == 1
    said = capsys.readouterr().out
    assert "job.step was not written: STEP files need a geometry kernel" in said
    assert (tmp_path / "parts.csv").exists() and not (tmp_path / "job.step").exists()


def test_without_the_step_extra_a_whole_packet_ends_well(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Capture
) -> None:
    """Nobody asked for STEP by name: one line says what is left out and how to get it."""
    monkeypatch.setitem(sys.modules, "casewright.solids.boundary", None)
    monkeypatch.setattr(packet_files, "documents", few_documents)
    assert main(["packet", STUDIO, "--out", str(tmp_path), "--seconds", "0.3"]) == 0
    (left_out,) = (line for line in capsys.readouterr().out.splitlines() if "job.step" in line)
    assert "install casewright with its extra `step`." in left_out
    assert (tmp_path / "parts.csv").exists() and not (tmp_path / "job.step").exists()


def few_documents(*given: Any, **named: Any) -> Iterator[Document]:
    """Of every document the tables and the STEP file: the rest takes long and is not what is looked at."""
    return (one for one in documents(*given, **named) if one.format in ("csv", "step"))


def test_a_folder_that_cannot_be_is_told(tmp_path: Path, capsys: Capture) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    for folder in (str(tmp_path / "file"), "\x00"):
        assert main(["packet", STUDIO, "--out", folder, "--only", "csv", "--seconds", "0.1"]) == 2
        assert "choose another folder." in capsys.readouterr().err


def test_a_write_cut_short_leaves_no_half_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(self: Path, content: bytes) -> int:
        raise OSError(28, "No space left on device")

    (tmp_path / "parts.csv").write_text("old", encoding="utf-8")
    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(CasewrightError, match="No space left"):
        write_packet(load(STUDIO), str(tmp_path), 0.1, ["csv"])
    assert (tmp_path / "parts.csv").read_text(encoding="utf-8") == "old"


def planned(name: str) -> PlannedJob:
    return planned_once(load(name), 0.3)


@cache
def paper(name: str) -> bytes:
    return packet(packet_files.packet_of(planned(name)))


def test_the_front_tells_three_things_joints_before_look_alikes() -> None:
    """What is said of the studio comes first; what is left is filled with the joints to look at."""
    made = planned(STUDIO)
    data: Any = packet_data(packet_files.packet_of(made))
    front = data["findings"]
    findings = [finding.text for finding in made.findings]
    told = [*findings, *(one.text for one in matters(made))]
    assert len(front) == 3 and all(any(one["text"] in text for text in told) for one in front)
    assert all(one["fix"] or "Cut" in one["text"] for one in front)


def test_the_demo_takes_no_more_paper_than_its_work_needs() -> None:
    """34 pages for its cases, and a fifth of the whole at most, 8 pages, for its doors and its drawer."""
    assert len(PdfReader(BytesIO(paper(STUDIO))).pages) <= 42


WORD = re.compile(r'yMax="([\d.]+)">([^<]*)')


def lowest_words(page: str) -> float:
    """How far above the bottom of a page its lowest words but the foot stand, as a part of its height."""
    height = float(page.partition('"')[0])
    lowest = max(low for low in (float(word[1]) for word in WORD.finditer(page)) if low < height - 34)
    return 1 - lowest / height


@pytest.mark.parametrize("example", [STUDIO, FERRY], ids=["studio", "ferry"])
def test_from_the_trestles_on_no_page_is_half_blank_but_the_last(example: str) -> None:
    made = subprocess.run(
        ["pdftotext", "-bbox", "-", "-"], input=paper(example), capture_output=True, check=True
    )
    pages = re.split(r'<page width="[\d.]+" height=', made.stdout.decode())[1:]
    pages = [page.removeprefix('"') for page in pages]
    words = [" ".join(word[2] for word in WORD.finditer(page)) for page in pages]
    begin = next(n for n, said in enumerate(words) if n and "At the trestles" in said)
    # The costs are the maker's alone and taken out before the packet goes to the benches, so they begin anew.
    end = next((n for n, said in enumerate(words) if "For the maker alone" in said), len(words))
    assert end - begin > 15
    for page, said in list(zip(pages, words, strict=True))[begin : end - 1]:
        assert lowest_words(page) < 0.45, said[:200]


def test_a_job_of_a_single_case_is_ten_pages_at_most() -> None:
    """The first case of the alcove alone, with a filler, shelves, a back and a toe kick."""
    alone = open_job(ALCOVE.rpartition("[[runs.cases]]")[0]).planned(0.3)
    assert len(alone.project.cases) == 1
    assert len(PdfReader(BytesIO(packet(packet_files.packet_of(alone)))).pages) <= 10


def test_the_cover_warns_of_sizes_easily_confused_but_not_of_all() -> None:
    """The bottom and top of a tall case with a top in rabbets differ by twice rabbet less dado: 1/4 in."""
    alike, *_ = notices(planned(STUDIO))
    assert any("T1-T, T2-T" in line and "T1-B, T2-B" in line for line in alike.lines)
    many, *_ = notices(planned(str(ROOT / "examples" / "school-workshop.toml")))
    assert len(many.lines) == 5 and many.lines[-1].endswith("more such pairs of sizes.")


def test_the_cover_names_pairs_and_nearly_square_parts_with_how_to_mark_them() -> None:
    first = notices(planned(STUDIO))[0].lines
    [pairs] = [line for line in first if line.startswith("Mirror images")]
    assert "B1-L and B1-R" in pairs and "like a book" in pairs
    school = notices(planned(str(ROOT / "examples" / "school-workshop.toml")))[0].lines
    assert school[0].startswith("Nearly square") and "that way)" in school[0]
    assert school[1].startswith("Mirror images") and school[1].endswith(" more.")


def test_the_cover_names_the_joints_worth_a_look_and_why(tmp_path: Path) -> None:
    """Without play in the dadoes, panels that are a hair too thick want easing."""
    tight = tmp_path / "tight.toml"
    text = Path(STUDIO).read_text(encoding="utf-8")
    assert 'dado_play = "1/64"' in text
    tight.write_text(text.replace('dado_play = "1/64"', "dado_play = 0"), encoding="utf-8")
    (risks,) = (one for one in notices(planned(str(tight))) if "put together dry" in one.title)
    told = risks.lines[:-1] if "more" in risks.lines[-1] else risks.lines
    assert told and all("by hand" in line and "Largest cause: " in line for line in told)
    first = matters(planned(str(tight)))[0]
    assert first.text == risks.lines[0] and "before any glue" in first.fix
    (slides,) = (one for one in notices(planned(STUDIO)) if "put together dry" in one.title)
    assert all(" beside its slide on " in line for line in slides.lines), (
        "with a play of 1/64 nothing that is housed is likelier than one in ten"
    )


def test_drawings_of_parts_that_are_gone_are_taken_out_and_nothing_else(tmp_path: Path) -> None:
    """A part's drawing from the packet before would be cut by somebody."""
    folder = tmp_path / "bench"
    write_packet(ALCOVE, str(folder), 0.1, ["csv", "json", "svg"])
    (folder / "parts" / "mine.svg").write_text("keep", encoding="utf-8")
    assert (folder / "parts" / "B2-A1.svg").exists()
    without = ALCOVE.replace("bays = [{ adjustable = 1 }]", "bays = [{ adjustable = 0 }]")
    write_packet(without, str(folder), 0.1, ["csv", "json", "svg"])
    left = {path.stem for path in (folder / "parts").iterdir()}
    assert "B2-A1" not in left and {"mine", "B2-L"} <= left


def test_single_leaves_are_named_and_nothing_else_is_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job, out = tmp_path / "alcove.toml", tmp_path / "leaves"
    job.write_text(ALCOVE)
    asked = ["packet", str(job), "--moment", "yard", "hanging", "--case", "B1", "--out", str(out)]
    assert main([*asked, "--seconds", "0.1"]) == 0
    assert {path.name for path in out.iterdir()} == {"moment-yard-hanging.pdf", "case-B1.pdf"}
    assert "moment-yard-hanging.pdf and" in capsys.readouterr().out
    assert main(["packet", str(job), "--case", "Q9", "--out", str(out)]) == 2
    assert "Q9: the job has no case with this mark" in capsys.readouterr().err
