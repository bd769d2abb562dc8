"""Shelves held against published limits: the answer, its words, and changes that meet the limit."""

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.strength.creep import creep_of_kind, creep_of_wood
from casewright.strength.loaded_shelf import LoadedShelf, sag_of
from casewright.strength.loads import LoadPer, load_given, shelf_uses
from casewright.strength.panel_stiffness import sheet_kinds, with_modulus
from casewright.strength.sag_limits import sag_limits
from casewright.strength.shelf_answer import USUAL_HEIGHTS, CureKind, against_limit, cures, longest_span
from loaded_shelves import oak_strip, panel, shelf

AWS, KCMA, EYE = (sag_limits()[name] for name in ("architectural woodwork", "kitchen cabinets", "the eye"))


@pytest.mark.parametrize(
    ("thickness", "at_40", "at_50"), [(F(3, 4), "40.03", "37.16"), (F(1), "53.37", "49.54")]
)
def test_the_longest_span_is_the_standards(thickness: F, at_40: str, at_50: str) -> None:
    """Architectural Woodwork Standards, ed. 1, 4.4.14.10.11: fir plywood, L/144; here to the sixteenth
    below."""
    for pounds, exact in ((40, F(at_40)), (50, F(at_50))):
        one = replace(
            shelf("fir plywood", depth=F(12), thickness=thickness),
            load=load_given(F(pounds), LoadPer.SQUARE_FOOT),
        )
        longest = longest_span(one, AWS)
        assert longest is not None
        assert 0 <= exact + F(1, 200) - longest < F(1, 16) + F(1, 100)
        assert against_limit(replace(one, span=longest), AWS).meets
        assert not against_limit(replace(one, span=longest + F(1, 16)), AWS).meets


def test_what_the_limits_allow() -> None:
    """36 in: KCMA 3/16, woodwork standard 1/4, eye 3/32, board makers 0.15; 1/4 at most for KCMA at any
    span."""
    allowed = {name: limit.allowed(F(36)) for name, limit in sag_limits().items()}
    assert allowed["kitchen cabinets"] == allowed["plywood makers"] == F(3, 16)
    assert allowed["architectural woodwork"] == allowed["laboratory furniture"] == F(1, 4)
    assert (allowed["the eye"], allowed["board makers"]) == (F(3, 32), F(3, 20))
    assert KCMA.allowed(F(60)) == F(1, 4) == KCMA.allowed(F(48))


def test_every_limit_and_load_says_where_it_is_from() -> None:
    for limit in sag_limits().values():
        assert limit.source and limit.figure
        assert limit.load is None or limit.load in shelf_uses()
    for use in shelf_uses().values():
        assert use.pounds.source and use.pounds.value > 0
        low, high = use.low or use.pounds, use.high or use.pounds
        assert low.value <= use.pounds.value <= high.value


def test_a_foot_of_books_on_a_shelf_ten_inches_deep() -> None:
    """20 to 40 lb a foot at 10 in deep is 24 to 48 lb/ft2; KCMA's 15 lb/ft2 is 12.5 lb a foot."""
    for pounds, per_foot in ((20, 24), (40, 48)):
        assert load_given(F(pounds), LoadPer.FOOT).per_square_inch(F(30), F(10)) * 144 == per_foot
    assert shelf_uses()["kitchen, as tested"].on_shelf(F(12), F(10)) == F("12.5")


def test_every_sheet_kind_creeps_by_a_figure() -> None:
    for kind in sheet_kinds():
        creep = creep_of_kind(kind)
        assert creep is not None and creep.spread[0].value <= creep.after_years.value <= creep.spread[1].value
    mdf = creep_of_kind("MDF")
    assert mdf is not None and [one.value for one in mdf.spread] == [F("1.5"), F("3.25")]
    assert [one.value for one in creep_of_wood().spread] == [F("1.5"), F(3)]
    assert creep_of_kind("bamboo") is None
    assert creep_of_wood().after_years.value == F("1.6")


def test_after_years_a_bare_shelf_sags_by_its_creep() -> None:
    one = shelf("MDF")
    assert sag_of(one, years=True).most == F("3.25") * sag_of(one, years=False).most


def test_after_years_an_edged_shelf_sags_by_both_creeps() -> None:
    """MDF gives more than oak as the years go, so the sag at the front grows by between 1.6 and 3.25."""
    one = shelf("MDF", front=oak_strip())
    grown = sag_of(one, years=True).front / sag_of(one, years=False).front
    assert F("1.6") < grown < F("3.25")


def test_a_shelf_that_meets_one_figure_and_not_another() -> None:
    verdict = against_limit(shelf(span=F(32)), KCMA)
    assert verdict.meets
    sags = (verdict.at_once.most, verdict.after_years.most, verdict.allowed)
    assert [round(float(sag), 3) for sag in sags] == [0.046, 0.084, 0.167]
    assert not list(cures(shelf(span=F(32)), KCMA))
    assert not against_limit(shelf(use="books", span=F(32)), EYE).meets


def test_pots_on_long_mdf_do_not_meet_the_woodwork_standard_after_years() -> None:
    """The shelf of the issue: MDF, 31 1/2 in, for pots at 40 lb/ft2."""
    one = replace(
        shelf("MDF", span=F("31.5"), thickness=F(3, 4)), load=load_given(F(40), LoadPer.SQUARE_FOOT)
    )
    assert against_limit(one, AWS).sag.most == against_limit(one, AWS).at_once.most
    assert not against_limit(one, AWS).meets
    assert against_limit(one, AWS).after_years.most > F(3, 4)


def test_every_cure_meets_the_limit_and_the_size_before_it_does_not() -> None:
    one = shelf(use="books", span=F(36))
    others = [(F(3, 4), panel("MDF")), (F(3, 4), panel("birch plywood"))]
    stiffer = replace(
        panel("birch plywood"), stiffness=with_modulus(sheet_kinds()["birch plywood"], F(10**7))
    )
    panels = [*others, (F(3, 4), stiffer)]
    found = list(cures(one, EYE, oak_strip(), (F(15, 32), F(1), F(3, 2)), panels, can_fix=True))
    assert {cure.kind for cure in found} == set(CureKind) - {CureKind.FRONT_STRIP, CureKind.FIXED_TO_BACK}
    for cure in found:
        assert against_limit(cure.changed, EYE).meets, cure
    by_kind = {cure.kind: cure for cure in found}
    strips = by_kind[CureKind.BOTH_STRIPS]
    assert strips.size is not None
    lower = [height for height in USUAL_HEIGHTS if F(23, 32) < height < strips.size]
    for height in lower:
        other = oak_strip(height)
        assert not against_limit(replace(one, front=other, back=other), EYE).meets
    assert strips.size > one.thickness
    assert by_kind[CureKind.OTHER_PANEL].changed.material == stiffer
    assert by_kind[CureKind.THICKER].size == F(1)
    assert by_kind[CureKind.MIDDLE_SUPPORT].changed.clear_span == 18
    assert by_kind[CureKind.SHORTER].size == longest_span(one, EYE)


def test_an_edging_lower_than_the_panel_is_no_cure() -> None:
    """A panel 1 1/8 in thick that just misses is offered edgings from 1 1/4 in."""
    spans = (shelf(use="books", span=F(n, 4), thickness=F(9, 8), back_held=True) for n in range(160, 400))
    missed = next(one for one in spans if not against_limit(one, EYE).meets)
    first = next(cures(missed, EYE, oak_strip()))
    assert (first.kind, first.size) == (CureKind.FRONT_STRIP, F(5, 4))


def test_a_front_edging_serves_where_the_back_is_held() -> None:
    one = shelf(use="books", span=F(48), back_held=True)
    found = list(cures(one, EYE, oak_strip(), can_fix=True))
    assert found[0].kind is CureKind.FRONT_STRIP
    assert CureKind.FIXED_TO_BACK not in {cure.kind for cure in found}
    assert CureKind.BOTH_STRIPS not in {cure.kind for cure in found}


shelves_of_any_kind = st.builds(
    shelf,
    kind=st.sampled_from(sorted(sheet_kinds())),
    use=st.sampled_from(sorted(shelf_uses())),
    span=st.integers(12 * 16, 60 * 16).map(lambda n: F(n, 16)),
    depth=st.integers(8, 24).map(F),
    front=st.none() | st.just(oak_strip()),
    back_held=st.booleans(),
    middle=st.booleans(),
)


@settings(deadline=None, max_examples=60)
@given(one=shelves_of_any_kind, longer=st.integers(1, 64), times=st.integers(2, 5))
def test_more_load_or_span_never_sags_less(one: LoadedShelf, longer: int, times: int) -> None:
    # A load of the maker's own, as those of the woodwork standard end at 200 lb on a shelf.
    one = replace(one, load=load_given(one.load.pounds.value, one.load.per))
    here = sag_of(one, years=False).most
    assert sag_of(replace(one, span=one.span + F(longer, 16)), years=False).most > here
    more = replace(one, load=load_given(one.load.pounds.value * times, one.load.per))
    assert float(sag_of(more, years=False).most) == pytest.approx(float(here) * times, rel=1e-5, abs=1e-8)
    assert sag_of(one, years=True).most > here


def test_a_support_at_the_middle() -> None:
    """A shelf whole over three supports: w L4 / 185 EI of each half, by the beam tables."""
    one = shelf(use="books", middle=True)
    half = one.span / 2
    stiffness = panel("hardwood plywood").stiffness.along.value * 11 * F(23, 32) ** 3 / 12
    assert float(sag_of(one, years=False).most) == pytest.approx(
        float(F(25, 12) * half**4 / (185 * stiffness)), rel=3e-3
    )


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"span": F(0)}, "the span of a shelf must be more than zero, not 0 in"),
        ({"depth": F(-2)}, "the depth of a shelf must be more than zero, not -2 in"),
        ({"thickness": F(0)}, "the thickness of a shelf must be more than zero"),
    ],
)
def test_a_shelf_that_cannot_be_is_refused(changes: dict[str, Any], said: str) -> None:
    with pytest.raises(ValueError, match=said):
        replace(shelf(), **changes)


def test_a_load_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="must be more than zero, not -5 lb"):
        load_given(F(-5), LoadPer.FOOT)


def test_a_shelf_no_span_of_which_will_do_has_no_longest() -> None:
    weak = replace(panel("MDF"), stiffness=with_modulus(sheet_kinds()["MDF"], F(1)))
    assert longest_span(replace(shelf("MDF"), material=weak), AWS) is None
