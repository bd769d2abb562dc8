"""What parts weigh: the figure and its source, and what it gives for a part worked out by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.parts.weights import weight_of
from casewright.casework.project import draw_up
from casewright.lengths.length import Mark, Unit
from casewright.lengths.quantities import weighed
from casewright.shop import materials
from samples import SHEETS, job


def test_a_square_foot_is_144_square_inches() -> None:
    assert materials.SQUARE_INCHES_IN_A_FOOT == 12**2, "by definition"


@pytest.mark.parametrize(
    ("unit", "mark", "said"), [(Unit.INCH, Mark.THIRTY_SECOND, "12 lb"), (Unit.MM, Mark.MILLIMETRE, "5 kg")]
)
def test_a_part_weighs_its_square_feet(unit: Unit, mark: Mark, said: str) -> None:
    """A side of 34 1/2 by 24 in is 5 3/4 square feet: at 2 lb each 11.5 lb, 5.2 kg."""
    sheets = {key: replace(sheet, weight=F(2)) for key, sheet in SHEETS.items()}
    drawn = draw_up(replace(job(), sheets=sheets, unit=unit, mark=mark))
    pounds = weight_of(drawn, [drawn.parts["B1-L"]])
    assert pounds == F(23, 2)
    assert weighed(pounds, unit) == said


def test_parts_together_weigh_what_they_weigh_alone_and_one_unknown_makes_all_unknown() -> None:
    known = draw_up(replace(job(), sheets={k: replace(s, weight=F(2)) for k, s in SHEETS.items()}))
    alone = [weight_of(known, [part]) for part in known]
    assert None not in alone and weight_of(known, known) == sum(pounds or 0 for pounds in alone)
    back = known.parts["B1-K"].material
    assert back != known.parts["B1-L"].material
    partly = draw_up(
        replace(job(), sheets={k: replace(s, weight=F(2) if k != back else F(0)) for k, s in SHEETS.items()})
    )
    assert weight_of(partly, partly) is None
    assert weight_of(partly, [partly.parts["B1-L"]]) == F(23, 2)
