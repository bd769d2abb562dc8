"""Every drawing of the packet of every example: no words over words, no line through words."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from functools import cache
from io import BytesIO
from math import hypot
from typing import Any

import pytest
from pypdf import PdfReader

from casewright.app.jobs.worked_job import PlannedJob
from casewright.app.papers.packet_files import packet_of
from casewright.drawings.kit.draughting import SMALLEST
from casewright.packet.leaves import Leaves, Moment
from casewright.packet.shop_packet import packet, packet_data
from example_files import EXAMPLES
from packet.drawn_words import Picture, picture, pictures
from planned_once import planned_once

JOBS = sorted(path.stem for path in EXAMPLES.glob("*.toml"))

DEMO = "pottery-studio"

DRAWN = {"walls", "trestles", "maps", "joints", "cards", "cases", "hanging"}
"""The parts of the packet that have drawings."""


def planned(name: str) -> PlannedJob:
    return planned_once((EXAMPLES / f"{name}.toml").read_text(), 0.3)


@cache
def data(name: str) -> Any:
    return packet_data(packet_of(planned(name)))


def drawn(name: str, section: str) -> list[Picture]:
    return list(pictures(data(name)[section]))


@pytest.mark.parametrize("name", JOBS)
def test_words_stand_clear_of_words_and_lines(name: str) -> None:
    """On every drawing of every page; of the large example, whose sixty cases are much alike, on a third."""
    sections = {section: drawn(name, section) for section in data(name)}
    shown = [one for pictures in sections.values() for one in pictures]
    boards = {"boards"} if any(good.boards for good in planned(name).project.job.sheets.values()) else set()
    assert {section for section, pictures in sections.items() if pictures} == DRAWN | boards
    assert all(one.words for one in shown)
    looked_at = shown[::3] if len(shown) > 300 else shown
    assert [clash for one in looked_at for clash in one.collisions()] == []


@pytest.mark.parametrize("section", sorted(DRAWN))
def test_a_label_moved_onto_a_line_is_counted(section: str) -> None:
    """Each word of a drawing in turn, drawn last and moved over the middle of the first line that is long
    enough to run through it."""
    shown = next(one for one in drawn(DEMO, section) if one.lines)
    line = max(shown.lines, key=lambda one: hypot(one.start[0] - one.end[0], one.start[1] - one.end[1]))
    x, y = ((a + b) / 2 for a, b in zip(line.start, line.end, strict=True))
    for place, word in enumerate(shown.words):
        ink, half = word.ink, ((word.ink.right - word.ink.left) / 2, (word.ink.low - word.ink.top) / 2)
        moved = replace(
            word, ink=replace(ink, left=x - half[0], right=x + half[0], top=y - half[1], low=y + half[1])
        )
        words = (*shown.words[:place], *shown.words[place + 1 :], moved)
        assert (
            f"{shown.title}: a line through “{word.text}”"
            in replace(shown, words=words, backings=()).collisions()
        )


@pytest.mark.parametrize("name", JOBS)
def test_every_part_of_a_sheet_bears_its_mark_on_the_map(name: str) -> None:
    maps = drawn(name, "maps")
    sheets = [sheet for plan in planned(name).plans.values() for sheet in plan.sheets]
    assert len(maps) == len(sheets)
    for shown, sheet in zip(maps, sheets, strict=True):
        marks = [word.text.split()[0] for word in shown.words]
        assert all(marks.count(str(piece.item)) == 1 for piece in sheet.parts), shown.title


def test_no_print_of_the_packet_is_smaller_than_can_be_read() -> None:
    """Read back from the PDF, labels aside, which are as large as their stock."""
    moments = tuple(moment for moment in Moment if moment is not Moment.LABELS)
    contents = replace(packet_of(planned(DEMO)), leaves=Leaves(moments))
    sizes: Counter[float] = Counter()

    def see(text: str, user: list[float], matrix: list[float], _: object, size: float) -> None:
        if text.strip():
            across = matrix[0] * user[0] + matrix[1] * user[2], matrix[0] * user[1] + matrix[1] * user[3]
            sizes[round(size * hypot(*across), 2)] += len(text.strip())

    for page in PdfReader(BytesIO(packet(contents))).pages:
        page.extract_text(visitor_text=see)
    assert sum(sizes.values()) > 20_000
    assert min(sizes) >= SMALLEST, sizes


@pytest.mark.parametrize("name", JOBS)
def test_a_card_shows_the_mark_of_each_part_it_draws(name: str) -> None:
    for card in data(name)["cards"]:
        texts = {word.text for word in picture(card["picture"]["svg"]).words}
        assert texts & set(card["marks"]), card["marks"]


def test_what_collides_is_found() -> None:
    """What this file asserts of the packet, on drawings made to fail."""
    head = '<svg xmlns="http://www.w3.org/2000/svg"><title>t</title>'
    one = '<text x="10" y="20" font-size="10" text-anchor="start">24 1/2</text>'
    other = '<text x="30" y="22" font-size="10" text-anchor="start">dado</text>'
    line = '<polyline points="0,17 99,17" fill="none" stroke="#000" stroke-width="0.8"/>'
    paper = '<polygon points="8,10 50,10 50,22 8,22" fill="#fff"/>'
    assert len(picture(f"{head}{one}{other}</svg>").collisions()) == 1
    assert len(picture(f"{head}{line}{one}</svg>").collisions()) == 1
    assert len(picture(f"{head}{paper}{line}{one}</svg>").collisions()) == 1
    assert picture(f"{head}{line}{paper}{one}</svg>").collisions() == []
    assert picture(f"{head}{one}</svg>").collisions() == []
