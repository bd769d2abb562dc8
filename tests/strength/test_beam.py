"""Closed forms and the solver against published spans, beam tables and each other."""

from collections.abc import Sequence
from fractions import Fraction as F
from math import cbrt, floor

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.strength import beam
from oracles import beam_tables as tables
from oracles.beam_solver import BeamSupport, BentBeam, EvenLoad, LoadAt, bend

ENDS = (BeamSupport(0.0), BeamSupport(30.0))
HELD = (BeamSupport(0.0, True), BeamSupport(30.0, True))
EI = 400_000.0
whole = st.integers(1, 60)
place = st.integers(1, 29).map(float)
pounds = st.integers(1, 200).map(float)

# Architectural Woodwork Standards, ed. 1 (2009), 4.4.14.10.11 to .13: the longest shelf at 40 and at 50
# lb/ft2.
AWS_SPANS = [
    (950_000, F(3, 4), 40, 37),
    (950_000, F(1), 53, 49),
    (1_800_000, F(3, 4), 49, 46),
    (1_800_000, F(1), 66, 61),
    (1_820_000, F(3, 4), 49, 46),
    (1_820_000, F(1), 66, 61),
]


def longest_by_the_standard(modulus: int, thickness: F, per_foot: int) -> float:
    """Where 5 w L4 / 384 EI is L / 144, a foot deep: L3 = 384 EI / 720 w."""
    load, stiffness = F(per_foot, 12), modulus * 12 * thickness**3 / 12
    return cbrt(384 * stiffness / (720 * load))


@pytest.mark.parametrize(("modulus", "thickness", "at_40", "at_50"), AWS_SPANS)
def test_the_published_shelf_spans(modulus: int, thickness: F, at_40: int, at_50: int) -> None:
    """Eleven of the twelve are the formula cut down to whole inches. The twelfth, hardwood plywood 3/4 in
    thick at 50 lb/ft2, comes to 45.98 in and is printed as 46: rounded, where the others were cut."""
    for per_foot, printed in ((40, at_40), (50, at_50)):
        longest = longest_by_the_standard(modulus, thickness, per_foot)
        twelfth = (modulus, thickness, per_foot) == (1_800_000, F(3, 4), 50)
        assert (round(longest) if twelfth else floor(longest)) == printed
        load, stiffness = F(per_foot, 12), modulus * 12 * thickness**3 / 12
        span = F(longest)
        sag = beam.simple_uniform(load, span, stiffness)
        assert float(sag / (span / 144)) == pytest.approx(1, abs=1e-9)
    assert floor(longest_by_the_standard(1_800_000, F(3, 4), 50)) == 45


def test_a_worked_beam_in_metres() -> None:
    """A web-derived set of worked problems: 6 m, 2 kN/m, 200 GPa, I 8e-6 m4 sags 21 mm (exactly 21.094)."""
    sag = beam.simple_uniform(F(2000), F(6), F(200) * 10**9 * F(8, 10**6))
    assert float(sag) == pytest.approx(0.021094, abs=5e-7)


def test_the_board_makers_formula() -> None:
    """European MDF association: 5 W L3 x 9.81 / (32 E b t3) in mm, W in kg: 300 x 18, 800 long, 20 kg:
    3.59."""
    sag = beam.simple_uniform(F(20) * F("9.81") / 800, F(800), F(2500) * 300 * 18**3 / 12)
    assert float(sag) == pytest.approx(3.59, abs=0.005)


@pytest.mark.parametrize(
    ("supports", "loads", "expected"),
    [
        (ENDS, [EvenLoad(2.0, 0.0, 30.0)], beam.simple_uniform(F(2), F(30), F(EI))),
        (ENDS, [LoadAt(50.0, 15.0)], tables.simple_at_middle(F(50), F(30), F(EI))),
        (HELD, [EvenLoad(2.0, 0.0, 30.0)], tables.fixed_uniform(F(2), F(30), F(EI))),
        (HELD, [LoadAt(50.0, 15.0)], tables.fixed_at_middle(F(50), F(30), F(EI))),
        ([BeamSupport(0.0, True)], [EvenLoad(2.0, 0.0, 30.0)], tables.cantilever_uniform(F(2), F(30), F(EI))),
        ([BeamSupport(0.0, True)], [LoadAt(50.0, 30.0)], tables.cantilever_at_end(F(50), F(30), F(EI))),
        ([*ENDS, BeamSupport(15.0)], [EvenLoad(2.0, 0.0, 30.0)], beam.two_spans_uniform(F(2), F(15), F(EI))),
    ],
)  # fmt: skip
def test_the_solver_agrees_with_the_beam_tables(
    supports: Sequence[BeamSupport], loads: list[EvenLoad | LoadAt], expected: F
) -> None:
    assert bend(30.0, EI, supports, loads).most == pytest.approx(float(expected), rel=1e-5)


@settings(deadline=None)
@given(at=place, weight=pounds)
def test_a_load_off_the_middle(at: float, weight: float) -> None:
    """Under the load P a2 b2 / 3EIL; the most, by the tables, P b (L2 - b2)^1.5 / (9 sqrt 3 EI L)."""
    bent = bend(30.0, EI, ENDS, [LoadAt(weight, at)])
    under = tables.simple_under_load(F(weight), F(at), F(30), F(EI))
    assert bent.at(at) == pytest.approx(float(under), rel=1e-9)
    short = min(at, 30 - at)
    most = weight * short * (900 - short**2) ** 1.5 / (9 * 3**0.5 * EI * 30)
    assert bent.most == pytest.approx(most, rel=1e-5)


@settings(deadline=None)
@given(span=st.integers(10, 60).map(F), tenths=st.integers(0, 20))
def test_pins_that_stand_in_from_the_ends(span: F, tenths: int) -> None:
    overhang = span * tenths / 100
    sag = tables.overhanging_uniform(F(2), span, overhang, F(EI))
    length = float(span + 2 * overhang)
    pins = [BeamSupport(float(overhang)), BeamSupport(float(span + overhang))]
    bent = bend(length, EI, pins, [EvenLoad(2.0, 0.0, length)])
    assert bent.at(length / 2) == pytest.approx(float(sag.between), rel=1e-8)
    assert bent.at(0.0) == pytest.approx(float(sag.beyond), rel=1e-6, abs=1e-12)
    assert bent.most == pytest.approx(float(sag.most), rel=1e-5)


def test_an_overhang_past_the_form_is_refused() -> None:
    with pytest.raises(ValueError, match="more than a fifth of the span"):
        tables.overhanging_uniform(F(1), F(20), F("4.1"), F(EI))


@given(load=whole, more=whole, span=whole, longer=whole)
def test_more_load_or_more_span_sags_more(load: int, more: int, span: int, longer: int) -> None:
    for sag in (beam.simple_uniform, beam.two_spans_uniform):
        here = sag(F(load), F(span), F(EI))
        assert sag(F(load + more), F(span), F(EI)) > here
        assert sag(F(load), F(span + longer), F(EI)) > here
        assert sag(F(load), F(span), F(EI) * 2) * 2 == here


@st.composite
def beams(draw: st.DrawFn) -> tuple[list[BeamSupport], list[EvenLoad | LoadAt]]:
    """Two to four supports of any kind and one to three loads on a beam 30 in long."""
    places = draw(st.lists(st.integers(0, 30), min_size=2, max_size=4, unique=True))
    supports = [BeamSupport(float(one), draw(st.booleans())) for one in places]
    loads: list[EvenLoad | LoadAt] = []
    for _ in range(draw(st.integers(1, 3))):
        if draw(st.booleans()):
            loads.append(LoadAt(draw(pounds), draw(place)))
        else:
            start = draw(st.integers(0, 28))
            loads.append(EvenLoad(draw(pounds) / 10, float(start), float(draw(st.integers(start + 1, 30)))))
    return supports, loads


def sags(bent: BentBeam) -> list[float]:
    return [bent.at(float(one)) for one in range(31)]


@settings(max_examples=60, deadline=None)
@given(beams())
def test_loads_together_sag_as_the_sum_of_each(
    case: tuple[list[BeamSupport], list[EvenLoad | LoadAt]],
) -> None:
    supports, loads = case
    together = sags(bend(30.0, EI, supports, loads))
    each = [sags(bend(30.0, EI, supports, [one])) for one in loads]
    scale = max(map(abs, together)) + 1e-9
    for total, parts in zip(together, zip(*each, strict=True), strict=True):
        assert total == pytest.approx(sum(parts), abs=1e-7 * scale + 1e-12)


@settings(max_examples=60, deadline=None)
@given(beams())
def test_the_mirror_image_sags_alike(case: tuple[list[BeamSupport], list[EvenLoad | LoadAt]]) -> None:
    supports, loads = case
    turned = [BeamSupport(30 - one.at, one.fixed) for one in supports]
    mirrored: list[EvenLoad | LoadAt] = [
        EvenLoad(one.per_inch, 30 - one.end, 30 - one.start)
        if isinstance(one, EvenLoad)
        else LoadAt(one.pounds, 30 - one.at)
        for one in loads
    ]
    here, there = sags(bend(30.0, EI, supports, loads)), sags(bend(30.0, EI, turned, mirrored))
    scale = max(map(abs, here)) + 1e-9
    assert here == pytest.approx(there[::-1], abs=1e-7 * scale)


@pytest.mark.parametrize(
    ("length", "supports", "said"),
    [
        (30.0, [BeamSupport(0.0)], "two supports"),
        (30.0, [BeamSupport(0.0), BeamSupport(31.0)], "off the beam"),
        (0.0, list(ENDS), "more than zero"),
    ],
)
def test_a_beam_that_cannot_stand_is_refused(length: float, supports: list[BeamSupport], said: str) -> None:
    with pytest.raises(ValueError, match=said):
        bend(length, EI, supports, [])
