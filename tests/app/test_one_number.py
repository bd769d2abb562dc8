"""One length, one number: every paper, page, command and label prints the mark that was chosen for it.

The bottom of B2 is 27.04 in long. Its nearest mark is 27 1/32; for the chains of its case and of the run
27 1/16 was chosen, and who prints the other one sends somebody to the saw with another number.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from contextlib import redirect_stdout
from fractions import Fraction
from io import BytesIO, StringIO
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

import casewright
from app.test_one_answer import SECONDS, client_of, words_of
from casewright.app.papers.downloads import download
from casewright.cli.main import main
from casewright.drawings.drawing_files import part_svg
from casewright.packet.labels.labels import label_of
from casewright.repair.prevention.cut_dimension import CutDimension
from casewright.repair.prevention.saw_check import check_at_saw
from job_texts import ALCOVE

TEXT = ALCOVE.replace('readings = ["23/32"]', 'readings = ["0.73"]')
PART, EXACT = "B2-B", Fraction(2704, 100)
CHOSEN, NEAREST = "27 1/16", "27 1/32"


def plain(text: str) -> str:
    """With single spaces, whatever spaces a typesetter took."""
    return " ".join(words_of(text).replace("\u2009", " ").split())


def command(*words: str) -> Callable[[Path], str]:
    def asked(folder: Path) -> str:
        file = folder / "alcove.toml"
        file.write_text(TEXT, encoding="utf-8")
        said = StringIO()
        with redirect_stdout(said):
            main([words[0], str(file), *words[1:]])
        return said.getvalue()

    return asked


def page(path: str) -> Callable[[Path], str]:
    return lambda folder: client_of(folder, TEXT).get(f"/jobs/alcove{path}").text


def paper(folder: Path) -> str:
    client = client_of(folder, TEXT)
    client.get("/jobs/alcove/sheets/progress")
    reader = PdfReader(BytesIO(client.get("/jobs/alcove/papers/packet.pdf").content))
    return " ".join(one.extract_text() for one in reader.pages)


def tablet(folder: Path) -> str:
    client = client_of(folder, TEXT)
    client.post("/jobs/alcove/shop/hand-out")
    work: Any = client.get("/jobs/alcove/shop/work").json()
    return json.dumps(work["batches"], ensure_ascii=False)


def planned() -> casewright.PlannedJob:
    return casewright.open_job(TEXT).planned(SECONDS)


def label(_: Path) -> str:
    project = planned().project
    return label_of(project, project.parts[PART], None, "", "").size


WAYS: dict[str, Callable[[Path], str]] = {
    "parts command": command("parts"),
    "steps command": command("steps", "--seconds", f"{SECONDS:g}"),
    "explain command": command("explain", f"{PART}.length"),
    "parts.csv": lambda _: download(planned(), "parts.csv")[0].decode(),
    "label": label,
    "drawing": lambda _: part_svg(planned().project, planned().project.parts[PART]).decode(),
    "parts page": page("/parts"),
    "packet": paper,
    "tablet": tablet,
}


@pytest.mark.parametrize("way", WAYS)
def test_every_way_prints_the_number_that_was_chosen(way: str, tmp_path: Path) -> None:
    said = plain(WAYS[way](tmp_path).replace('\\"', '"'))
    assert CHOSEN in said
    assert NEAREST not in said


def test_the_fit_and_the_guard_at_the_saw_take_the_same_number() -> None:
    job = planned()
    project = job.project
    assert project.sizes.of(f"{PART}.length") == EXACT
    assert project.job.mark.number(EXACT) == Fraction(27) + Fraction(1, 32)
    assert job.fit.error_model().mean(f"{PART}.length") == Fraction(27) + Fraction(1, 16)
    right = check_at_saw(project, PART, CutDimension.LENGTH, Fraction(27) + Fraction(1, 16))
    assert right.code == "right"
    assert check_at_saw(project, PART, CutDimension.LENGTH, EXACT).code == "right"
    assert check_at_saw(project, PART, CutDimension.LENGTH, EXACT + Fraction(1, 16)).code == "wrong-size"
