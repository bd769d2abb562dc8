"""One base cabinet worked by hand, step by step, against the parts the program draws up.

The cabinet is a case of our own; the joints are common practice, no source. It is 30 in wide,
34 1/2 in high, 24 in deep. Sides, bottom and stretchers come of a sheet that measures 23/32 in
(sold as 3/4: what several trade pages give as usual), the back of one that measures 7/32.
Dados 1/4 deep, grooves 1/4 deep, back 1/16 small over both edges.

By hand:
 1. Sides: 34 1/2 long, 24 wide. The toe notch is 4 up and 3 in.
 2. The dado for the bottom begins 4 in up from the floor end and is 23/32 wide.
 3. Between the sides: 30 - 2 x 23/32 = 30 - 1 7/16 = 28 9/16.
 4. Bottom: 28 9/16 + 2 x 1/4 = 29 1/16 long, 24 wide.
 5. Stretchers: 28 9/16 long, 4 wide. Toe kick the same length, 4 high.
 6. Behind the back lies the mounting strip, 23/32 thick: so far in begins the groove, and it
    is 7/32 + 1/64 = 15/64 wide.
 7. Back, width: 28 9/16 + 2 x 1/4 - 1/16 = 29.
 8. Back, height: from the groove floor in the bottom to the top of the sides:
    34 1/2 - 4 - 23/32 + 1/4 = 30 1/32.
 9. Depth inside: 24 - 23/32 - 15/64 = 23 3/64. A shelf set back 1/4: 22 51/64 deep.
10. Shelf between the sides with 1/8 play: 28 9/16 - 1/8 = 28 7/16.
11. Clear height: 34 1/2 - 4 - 23/32 - 23/32 = 29 1/16. First pin 6 up, last at least 6 below
    the stretchers, 2 apart: (29 1/16 - 12) / 2 = 8.5, so 8 steps, 9 holes.
12. Holes are measured from the floor end: the first at 4 + 23/32 + 6 = 10 23/32.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.casework.parts.features.channel import Channel
from casewright.casework.parts.features.pin_row import PinRow
from casewright.casework.project import Project, draw_up
from samples import job, spec


@pytest.fixture(scope="module")
def cabinet() -> Project:
    return draw_up(job(spec("B1", width=F(30))))


@pytest.mark.parametrize(
    ("mark", "length", "width"),
    [
        ("B1-L", "34 1/2", "24"),
        ("B1-R", "34 1/2", "24"),
        ("B1-B", "29 1/16", "24"),
        ("B1-SF", "28 9/16", "4"),
        ("B1-SB", "28 9/16", "4"),
        ("B1-TK", "28 9/16", "4"),
        ("B1-K", "30 1/32", "29"),
        ("B1-A1", "28 7/16", "22 51/64"),
        ("B1-M1", "28 9/16", "4"),
    ],
)
def test_parts_as_by_hand(cabinet: Project, mark: str, length: str, width: str) -> None:
    by_hand = tuple(sum((F(piece) for piece in text.split()), F(0)) for text in (length, width))
    assert cabinet.dimensions(cabinet.parts[mark])[:2] == by_hand


def test_no_part_is_left_out_of_the_hand_calculation(cabinet: Project) -> None:
    by_hand = ["B1-L", "B1-R", "B1-B", "B1-SF", "B1-SB", "B1-TK", "B1-K", "B1-A1", "B1-M1"]
    assert sorted(cabinet.parts) == sorted(by_hand)


def test_features_as_by_hand(cabinet: Project) -> None:
    side = cabinet.parts["B1-L"]
    dado, groove = side.feature("dado-bottom"), side.feature("groove-back")
    assert isinstance(dado, Channel) and isinstance(groove, Channel)
    of = cabinet.sizes.of
    assert (of(dado.at), of(dado.width), of(dado.depth)) == (F(4), F(23, 32), F(1, 4))
    assert (of(groove.at), of(groove.width), of(groove.depth)) == (F(23, 32), F(15, 64), F(1, 4))
    rows = [feature for feature in side.features if isinstance(feature, PinRow)]
    assert len(rows) == 2
    for row in rows:
        assert of(row.number) == 9
        assert of(row.first) == F(10) + F(23, 32)
        assert of(row.pitch) == 2
