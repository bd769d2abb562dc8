"""Lengths are worked out in the core alone: mypy refuses sums on them where they are only shown.

`make check` runs mypy over every layer. This test writes sums into a file of each layer, and sees that the
plugin in `tools/length_arithmetic.py` refuses each of them and nothing else.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from mypy import api

ROOT = Path(__file__).parents[1]

# A line that ends in `# no` is to be refused in every layer, `# drawn` in every layer but drawings.
SAMPLE = """
from collections import Counter
from fractions import Fraction
from casewright.casework.build.case import Case
from casewright.casework.parts.part import Part
from casewright.casework.project import Project

def show(length: Fraction) -> str: return str(length)

def lines(project: Project, case: Case, side: Part) -> list[object]:
    of = project.sizes.of
    width = of(case.width)
    widths = [of(one.width) for one in project.cases.values()]
    width += of(side.thickness)  # no
    return [
        case.width - 2 * side.thickness,  # no
        of(case.width) - of(side.thickness),  # no
        show(2 * of(side.thickness)),  # no
        width / 2,  # no
        -width,  # no
        abs(width),  # no
        round(width, 3),  # no
        sum(widths, Fraction(0)),  # no
        Fraction(2.5),  # no
        float(width) - 2 * float(of(side.thickness)),  # drawn
        f"{float(width) - 0.5:.2f} wide",  # no
        str(float(width)),  # no
        f"{show(width)} wide, {len(widths)} of them", str(len(widths)),
        max(widths), width > of(side.thickness), sorted(widths, reverse=True),
        Fraction(0), len(widths) - 1, sum(len(one.parts) for one in project.cases.values()),
        2.0 * 3.5 + abs(-1.5), Counter(widths).total() * 2,
    ]
"""
LAYERS = ("drawings", "packet", "app", "web", "cli", "tools", "workshop", "casework")


def refused_lines(said: str, path: Path) -> set[int]:
    return {int(line) for line in re.findall(rf"{re.escape(str(path))}:(\d+): error", said)}


@pytest.fixture(scope="module")
def said(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """The folder of the samples, one for each layer, and what mypy says of them."""
    folder = tmp_path_factory.mktemp("layers")
    files = [path_in(folder, layer) for layer in LAYERS]
    for file in files:
        file.parent.mkdir(parents=True)
        file.write_text(SAMPLE)
    cache = folder / "cache"
    options = ["--config-file", str(ROOT / "pyproject.toml"), "--cache-dir", str(cache)]
    out, fault, _ = api.run([*options, "--show-absolute-path", *map(str, files)])
    assert not fault, fault
    return folder, out


def path_in(folder: Path, layer: str) -> Path:
    inside = {"tools": "tools", "drawings": "casewright/drawings/views"}.get(layer, f"casewright/{layer}")
    return folder / inside / f"sample_of_{layer}.py"


@pytest.mark.parametrize("layer", LAYERS)
def test_a_sum_on_lengths_is_refused_where_lengths_are_only_shown(layer: str, said: tuple[Path, str]) -> None:
    shows = layer not in ("workshop", "casework")
    marks = ("# no",) if layer == "drawings" else ("# no", "# drawn")
    expected = {
        number for number, line in enumerate(SAMPLE.splitlines(), 1) if shows and line.endswith(marks)
    }
    folder, out = said
    assert refused_lines(out, path_in(folder, layer)) == expected, out
