"""Every drawing of the packet of every example: no words over words, no line through words."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest

from casewright.app.papers.packet_files import packet_of
from casewright.packet.shop_packet import packet_data
from example_files import EXAMPLES
from packet.drawn_words import Picture, picture, pictures
from planned_once import planned_once

JOBS = sorted(path.stem for path in EXAMPLES.glob("*.toml"))


@cache
def data(name: str) -> Any:
    return packet_data(packet_of(planned_once((EXAMPLES / f"{name}.toml").read_text(), 0.3)))


def drawn(name: str, section: str) -> list[Picture]:
    return list(pictures(data(name)[section]))


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("section", ["joints", "cards", "cases"])
def test_words_stand_clear_of_words_and_lines(name: str, section: str) -> None:
    shown = drawn(name, section)
    assert shown and all(one.words for one in shown)
    assert [clash for one in shown for clash in one.collisions()] == []


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
