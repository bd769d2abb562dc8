"""Strips that dividers part, and shims where a wall is not even."""

from fractions import Fraction as F

from bearing.hung_jobs import hung, on_studs
from casewright.bearing.hung_cases import Hanging
from casewright.bearing.wall_shims import Shim, even_readings
from casewright.strength.hung_on_screws import HungRow


def only(hangings: tuple[Hanging, ...]) -> tuple[Hanging, HungRow]:
    (hanging,) = hangings
    assert hanging.row is not None
    return hanging, hanging.row


def test_a_strip_takes_screws_in_every_bay() -> None:
    """W2 stands from 32 to 62 along the wall, with a divider in its middle: a stud behind each bay, and one
    behind the divider, where no piece of a strip reaches it."""
    framing = 'framing = { kind = "wood studs", studs = [8, 24, 40, 47, 54] }'
    _, row = only(hung(framing).borne.hangings)
    wide = row.cases[1]
    assert len(wide.case.strip.pieces) == 2 and len(row.cases[0].case.strip.pieces) == 1
    for places in (wide.upper_places, wide.lower_places):
        assert [place.across for place in places] == [40, 40, 54, 54]


def test_readings_stand_at_equal_steps() -> None:
    readings = even_readings((F(1), F(2), F(4)), F(10), F(30))
    assert [(one.along, one.gap) for one in readings] == [(F(10), F(1)), (F(20), F(2)), (F(30), F(4))]


def test_the_cases_touch_the_wall_where_it_stands_out_most() -> None:
    """Read 1/2 at 0, nothing at 31 and 1/4 at 62: the wall stands out most at 31. At the stud 16 along, 15
    before it, it is 15/31 of a half back; at 32, 1/31 of a quarter; at 48, 17/31 of it."""
    hanging, _ = only(on_studs('wall_gaps = ["1/2", 0, "1/4"]').borne.hangings)
    assert hanging.shims == (
        Shim(F(16), F(1, 2) * 15 / 31),
        Shim(F(32), F(1, 4) * 1 / 31),
        Shim(F(48), F(1, 4) * 17 / 31),
    )
    assert only(on_studs().borne.hangings)[0].shims == ()


def test_only_what_is_behind_the_cases_counts() -> None:
    """The cases begin 2 in from the end of the opening; the wall juts out at the very end, beyond them."""
    hanging, _ = only(on_studs("wall_gaps = [0, 1, 1]").borne.hangings)
    at_left = F(2, 31)
    assert hanging.shims[0] == Shim(F(16), F(16, 31) - at_left)


def test_shims_lengthen_the_way_to_the_stud() -> None:
    _, tight = only(on_studs("wall_gaps = [1, 1, 1]").borne.hangings)
    _, packed = only(on_studs("wall_gaps = [0, 1, 1]").borne.hangings)
    most = max(shim.thick for shim in on_studs("wall_gaps = [0, 1, 1]").borne.hangings[0].shims)
    near, far = (row.cases[0].case.strip.behind for row in (tight, packed))
    assert far - near == most > 0
    assert packed.cases[0].bears < tight.cases[0].bears or packed.cases[0].length > tight.cases[0].length
