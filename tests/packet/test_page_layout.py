"""Where the typesetter puts things: columns are read down one and then the next, pages hold all they say."""

from __future__ import annotations

import json
from collections.abc import Sequence
from importlib.resources import as_file, files
from itertools import groupby, pairwise

import typst
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.drawings.kit.pages import Paper
from casewright.packet.typesetting import TEMPLATES

PAPERS = {"us-letter": Paper.LETTER, "a4": Paper.A4}
FOOT = 30.0
FOOT_OF_PAGE = 34.0

SETTINGS = """
#import "/look.typ": set-in
#import "/cuts.typ": at-the-table-saw
#let d = json(bytes(sys.inputs.data))
#show: body => set-in(d, body)
#let row(n, parts) = (
  number: [#n], where: "", title: "Rip to 4", guide: "far side 4 1/8", hints: (), dangers: (),
  steps: range(d.pieces).map(piece => (
    done: false,
    piece: [#metadata(n * d.pieces + piece)<cut>ply 1A], size: "96 × 48", edge: "near edge",
    critical: true, becomes: parts,
    rest: "", more: "",
  )),
)
#at-the-table-saw((
  kerf: "1/8", always: d.always,
  rows: d.results.enumerate().map(((n, parts)) => row(n, parts)),
))
#context [#metadata(query(<cut>).map(it => {
  let at = it.location().position()
  (it.value, at.page, at.x.pt(), at.y.pt())
})) <places>]
"""

words = st.sampled_from(
    ["", "B1-TK", "W1-L, W1-R, T2-F11, T2-F12 and 20 more", "T1-M1a, T1-M1b, T2-D1, T2-F21"]
)


def places(
    results: Sequence[str], always: int, paper: str, pieces: int = 1
) -> list[tuple[int, int, float, float]]:
    """Number, page, x and y of each piece at settings for so many pieces, below lines that hold for all."""
    data = {"paper": paper, "results": results, "always": ["Guard on."] * always, "pieces": pieces}
    with as_file(files("font_source_sans_pro") / "files") as typeface:
        told: str = typst.query(
            SETTINGS.encode(),  # type: ignore[type-var]  # its types want a folder of the kind the text is
            "<places>",
            field="value",
            one=True,
            root=TEMPLATES,
            font_paths=typst.Fonts(font_paths=[typeface], include_system_fonts=False),
            sys_inputs={"data": json.dumps(data)},
        )
    return [(number, page, x, y) for number, page, x, y in json.loads(told)]


@settings(deadline=None, max_examples=40)
@given(st.lists(words, min_size=1, max_size=260), st.integers(0, 20), st.sampled_from(sorted(PAPERS)))
def test_columns_of_settings_read_on_from_page_to_page(results: list[str], always: int, paper: str) -> None:
    """Regression: column one ran over the page's end, so cut 23 came after cut 93."""
    found = sorted(places(results, always, paper), key=lambda place: (place[1], round(place[2]), place[3]))
    assert [number for number, *_ in found] == list(range(len(results)))
    assert all(y < PAPERS[paper].value[1] - FOOT for *_, y in found)
    columns = [list(group) for _, group in groupby(found, key=lambda place: (place[1], round(place[2])))]
    pages = found[-1][1]
    for page in range(1, pages + 1):
        assert sum(column[0][1] == page for column in columns) <= 2
    # What lies in one column lies in it without gaps or overlaps: rows are 20 to 70 points high.
    for column in columns:
        assert all(18.0 < low - high < 80.0 for (*_, high), (*_, low) in pairwise(column))


def test_columns_end_at_about_one_height() -> None:
    for count in (6, 31, 200):
        found = places(["B1-TK"] * count, 3, "us-letter")
        last = [place for place in found if place[1] == found[-1][1]]
        in_column = [len(list(group)) for _, group in groupby(last, key=lambda place: round(place[2]))]
        assert len(in_column) == 2 and max(in_column) - min(in_column) <= 2


def test_a_setting_for_many_pieces_goes_on_in_the_next_column() -> None:
    """One block of a hundred pieces would run off the page."""
    found = places([""], 3, "us-letter", pieces=100)
    assert [number for number, *_ in found] == list(range(100))
    assert all(y < PAPERS["us-letter"].value[1] - FOOT for *_, y in found)


CARDS = """
#import "/look.typ": below, packed, set-in
#let d = json(bytes(sys.inputs.data))
#show: body => set-in(d, body)
#block(height: d.above * 1pt)
#below("cards", room => packed(2, 16pt, room, d.heights.enumerate().map(((n, high)) => block(
  height: high * 1pt, above: 0pt, below: 0pt, width: 100%, [#metadata((n, high))<card>],
))))
#context [#metadata(query(<card>).map(it => {
  let at = it.location().position()
  (it.value.at(0), it.value.at(1), at.page, at.x.pt(), at.y.pt())
})) <places>]
"""


@settings(deadline=None, max_examples=30)
@given(st.lists(st.integers(20, 400), min_size=1, max_size=24), st.integers(0, 600))
def test_packed_cards_share_no_place_and_run_off_no_page(heights: list[int], above: int) -> None:
    """Regression: cards that moved to the next page found it empty, and two stood in one place."""
    with as_file(files("font_source_sans_pro") / "files") as typeface:
        told: str = typst.query(
            CARDS.encode(),  # type: ignore[type-var]  # as above
            "<places>",
            field="value",
            one=True,
            root=TEMPLATES,
            font_paths=typst.Fonts(font_paths=[typeface], include_system_fonts=False),
            sys_inputs={"data": json.dumps({"paper": "us-letter", "heights": heights, "above": above})},
        )
    found = json.loads(told)
    assert sorted((number, high) for number, high, *_ in found) == list(enumerate(heights))
    columns: dict[tuple[int, int], list[tuple[float, int]]] = {}
    for _, high, page, x, y in found:
        columns.setdefault((page, round(x)), []).append((y, high))
    bottom = Paper.LETTER.value[1] - FOOT_OF_PAGE
    for cards in columns.values():
        for (y, high), (below, _) in pairwise(sorted(cards)):
            assert y + high <= below + 0.5
        assert all(y + high <= bottom + 0.5 for y, high in cards)
