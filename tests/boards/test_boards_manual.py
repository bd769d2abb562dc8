"""The example and the figures of the boards' manual are those of the program."""

from __future__ import annotations

import re
from pathlib import Path

from casewright.jobfile.read.read_job import read_job
from casewright.shop.lumber import GRADES, GradeName
from casewright.shop.rough_boards import Milling
from casewright.workshop.boards.board_wording import share_words
from loft_job import LOFT

MANUAL = (Path(__file__).parents[2] / "docs" / "boards.md").read_text(encoding="utf-8")


def test_the_example_reads() -> None:
    (example,) = re.findall(r"```toml\n(.*?)```", MANUAL, re.DOTALL)
    start, end = LOFT.index("[materials.maple]"), LOFT.index("[made_of]")
    boards = read_job(LOFT[:start] + example + "\n" + LOFT[end:]).sheets["maple"].boards
    assert boards is not None and [board.name for board in boards.at_hand] == ["A"]
    assert len(boards.at_hand[0].defects) == 2 and len(boards.at_hand[0].widths) == 3


def test_the_figures_are_the_programs() -> None:
    usual = Milling()
    said = dict(re.findall(r"\| `(\w+)`[^|]*\| ([0-9/]+) in \|", MANUAL))
    assert said == {
        "end_trim": str(usual.end_trim),
        "over_length": str(usual.over_length),
        "over_width": str(usual.over_width),
        "first_edge": str(usual.first_edge),
        "glue_edge": str(usual.glue_edge),
        "widest_piece": str(usual.widest_piece),
        "widest_strip": str(usual.widest_strip),
    }
    for name in (GradeName.FAS, GradeName.COMMON_1):
        words = f"{name.value} {share_words(GRADES[name].least_yield)}"
        assert words in " ".join(MANUAL.split())
