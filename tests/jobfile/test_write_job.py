"""What is written reads back as the same job."""

from __future__ import annotations

import re
from dataclasses import fields, replace
from fractions import Fraction as F
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.front_choices import (
    DoorKind,
    DrawerBottom,
    DrawerGrain,
    DrawerJoint,
    Front,
    FrontGrain,
    FrontKind,
    FrontLie,
    Hung,
)
from casewright.casework.job import (
    BackKind,
    Bay,
    BottomJoint,
    CaseKind,
    CaseSpec,
    Construction,
    Edged,
    EdgesOf,
    FaceFrame,
    Filler,
    FittedWith,
    Job,
    Materials,
    Run,
    ShelfJoint,
    ToeKind,
    TopKind,
    Worktop,
)
from casewright.errors import LengthError
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.jobfile.read.hardware_entries import OWN_CHART
from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.table import NAME
from casewright.jobfile.write.literals import area_literal, modulus_literal
from casewright.jobfile.write.write_job import write_job
from casewright.lengths.length import MM, Mark, Unit
from casewright.shop.deviations import Workmanship
from casewright.shop.edging import Edging, PutOn
from casewright.shop.hinges import Hinge, HingeChart, HingeRow
from casewright.shop.machines import Carry, Shop
from casewright.shop.materials import Offcut, OtherSize, SheetGood, Spread
from casewright.shop.moisture import Air, Climate, Region
from casewright.shop.shelf_use import Holds, OwnUse, SagFigure
from casewright.shop.slides import Slide, SlideKind
from casewright.shop.woods import Sawn, known_woods

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
STOCK = packaged_catalogue()


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_written_out_reads_back_the_same(path: Path) -> None:
    job = read_job(path.read_text(encoding="utf-8"))
    written = write_job(job)
    assert read_job(written) == job
    assert write_job(read_job(written)) == written


lengths = st.one_of(
    st.fractions(F(1, 64), 200).map(lambda x: F(round(x * 64) or 1, 64)),
    st.integers(1, 40000).map(lambda tenths: tenths * MM / 10),
    st.integers(10, 200_000).map(lambda thousandths: F(thousandths, 1000)),
    st.fractions(F(1, 7), 99, max_denominator=7),
)
names = st.text(
    st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"]), min_size=1, max_size=30
).filter(lambda text: re.fullmatch(NAME, text) is not None)
spreads = st.floats(0.0005, 0.2)
amounts = st.integers(0, 10**6).map(lambda cents: F(cents, 100))
keys = st.from_regex(r"[a-z][a-z0-9_-]{0,8}", fullmatch=True)
choices = {
    "bottom": st.sampled_from(BottomJoint),
    "top": st.sampled_from(TopKind),
    "back": st.sampled_from(BackKind),
    "shelf": st.sampled_from(ShelfJoint),
    "toe": st.sampled_from(ToeKind),
    "frame": st.sampled_from(FaceFrame),
    "fronts": st.sampled_from(FrontLie),
    "door": st.sampled_from(DoorKind),
    "front_grain": st.sampled_from(FrontGrain),
    "drawer_grain": st.sampled_from(DrawerGrain),
    "drawer_joint": st.sampled_from(DrawerJoint),
    "drawer_bottom": st.sampled_from(DrawerBottom),
    "strips": st.integers(0, 6),
}
entries = st.sampled_from([entry.name for entry in fields(Construction)])


@st.composite
def changed(draw: st.DrawFn, made: Construction) -> tuple[Construction, frozenset[str]]:
    """A construction that differs from another in a few entries, and which they are."""
    names = draw(st.lists(entries, max_size=4, unique=True))
    return replace(made, **{name: draw(choices.get(name, lengths)) for name in names}), frozenset(names)


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    """Jobs of every sort; whether they can be built is not asked here."""
    unit, mark = draw(st.sampled_from(Unit)), draw(st.sampled_from(Mark))
    kinds = draw(st.lists(st.one_of(st.just("h"), keys), min_size=1, max_size=3, unique=True))
    sheets = {key: draw(sheet_goods(key)) for key in kinds}
    made, _ = draw(changed(STOCK.practice[unit].construction))
    marks = iter(
        draw(st.lists(st.from_regex(r"[A-Z][0-9]{1,3}", fullmatch=True), min_size=6, max_size=6, unique=True))
    )
    strips = draw(st.lists(keys.filter(lambda key: key not in (*kinds, "none")), max_size=2, unique=True))
    edges = st.builds(EdgesOf, *(st.sampled_from([None, *strips]) for _ in range(6)))
    runs = []
    for name in draw(st.lists(names, min_size=1, max_size=2, unique=True)):
        cases = tuple(
            draw(case_specs(next(marks), made, unit, kinds, strips)) for _ in range(draw(st.integers(1, 3)))
        )
        filler = st.builds(Filler, st.none() | lengths, lengths, st.sampled_from(kinds))
        runs.append(
            Run(
                name,
                draw(lengths),
                cases,
                wall=draw(names),
                along=draw(lengths),
                lift=draw(lengths),
                gap=draw(lengths),
                ceiling=draw(st.none() | lengths),
                wall_length=draw(st.none() | lengths),
                left=draw(st.none() | filler),
                right=draw(st.none() | filler),
                left_scribe=draw(st.none() | lengths),
                right_scribe=draw(st.none() | lengths),
                worktop=draw(
                    st.none()
                    | st.builds(Worktop, lengths, lengths, st.none() | st.sampled_from([F(4), F(19, 2)]))
                ),
            )
        )
    rounding = draw(st.sampled_from([mark, Mark.SIXTEENTH]))
    return Job(
        draw(names),
        unit,
        mark,
        rounding,
        draw(st.sampled_from(["", "$", "kr"])),
        sheets,
        draw(shops(unit, kinds)),
        made,
        tuple(runs),
        draw(names),
        frozenset(draw(st.lists(names, max_size=3))),
        either_way=frozenset(draw(st.lists(names, max_size=3))),
        as_cut=draw(st.dictionaries(st.sampled_from(["B1-K.length", "B1-K.width", "B2-A1.width"]), lengths)),
        edging={key: draw(edgings(key)) for key in strips},
        edging_of=draw(st.dictionaries(names, edges, max_size=2)),
        hinges={key: draw(own_hinges(key)) for key in draw(st.lists(keys, max_size=2, unique=True))},
        slides={key: draw(own_slides(key)) for key in draw(st.lists(keys, max_size=2, unique=True))},
        climate=draw(climates),
        loads_of=draw(st.dictionaries(names, uses, max_size=2)),
    )


uses = st.builds(
    OwnUse,
    st.none() | st.sampled_from(Holds),
    st.none() | st.integers(1, 400).map(F),
    st.none() | st.sampled_from(SagFigure),
)


def edgings(key: str) -> st.SearchStrategy[Edging]:
    return st.builds(
        Edging,
        st.just(key),
        st.just(f"edging {key}"),
        lengths,
        lengths,
        st.none() | lengths,
        amounts,
        st.booleans(),
        st.sampled_from(PutOn),
    )


@st.composite
def sheet_goods(draw: st.DrawFn, key: str) -> SheetGood:
    start = replace(draw(st.sampled_from(list(STOCK.sheets.values()))), key=key)
    if draw(st.booleans()):
        count = draw(st.one_of(st.none(), st.integers(1, 9)))
        price = draw(amounts)
        other = OtherSize("half of it", draw(lengths), draw(lengths), price, count)
        readings = tuple(draw(st.lists(lengths, max_size=3)))
        return replace(start, name=key, price=price, readings=readings, others=(other,) if key == "h" else ())
    wood = draw(st.none() | st.sampled_from(list(known_woods().values())))
    plain = SheetGood(
        key, draw(names), draw(lengths), draw(lengths), draw(lengths), Spread(draw(lengths), draw(spreads)),
        (), wood is not None or draw(st.booleans()), draw(lengths), draw(amounts),
        F(draw(st.integers(1, 9999)), 1000),
    )  # fmt: skip
    return replace(plain, wood=wood, sawn=draw(st.sampled_from(Sawn))) if wood else plain


moistures = st.none() | st.integers(30, 250).map(lambda tenths: F(tenths, 10))
airs = st.integers(10, 90).map(lambda percent: Air(F(20), F(percent), f"20 C, {percent} %"))
climates = st.builds(Climate, st.sampled_from(Region), moistures | airs, moistures, moistures).filter(
    lambda climate: climate.at_driest <= climate.at_dampest
)
pairs = st.tuples(lengths, lengths).map(lambda two: (min(two), max(two)))
steps = st.builds(HingeRow, st.integers(2, 20), amounts, st.none() | lengths)


@st.composite
def own_hinges(draw: st.DrawFn, key: str) -> Hinge:
    """A hinge of the list with other figures, its own chart or the published ones."""
    start = draw(st.sampled_from(list(STOCK.hinges.values())))
    chart = draw(st.lists(steps, max_size=3))
    charts = (HingeChart(OWN_CHART, tuple(chart)),) if chart else start.charts
    return replace(
        start,
        key=key,
        name=draw(names),
        charts=charts,
        cup_edge=draw(pairs),
        plate=draw(lengths),
        inset=draw(st.booleans()),
    )


def own_slides(key: str) -> st.SearchStrategy[Slide]:
    sold = st.lists(lengths, min_size=1, max_size=4).map(lambda some: tuple(sorted(some)))
    rest = (lengths, lengths, st.booleans(), lengths, lengths, lengths, *[st.none() | lengths] * 2)
    return st.builds(Slide, st.just(key), names, st.sampled_from(SlideKind), sold, *rest)


front_kinds = st.sampled_from(FrontKind)
fronts = st.builds(Front, front_kinds, lengths) | st.builds(
    Front, front_kinds, st.none(), st.sampled_from([F(1), F(3)]), st.sampled_from(Hung)
)
fronts |= st.builds(
    Front, st.just(FrontKind.DRAWER), st.none(), st.just(F(1)), st.just(Hung.LEFT), st.none() | lengths
)


@st.composite
def case_specs(
    draw: st.DrawFn, mark: str, made: Construction, unit: Unit, kinds: list[str], strips: list[str]
) -> CaseSpec:
    kind = draw(st.sampled_from(CaseKind))
    usual = replace(made, **STOCK.practice[unit].kinds[kind].construction)
    own, chosen = draw(changed(usual))
    share = draw(st.sampled_from([F(1), F(2), F(5, 2)]))
    width = draw(st.one_of(st.none(), lengths))
    bays = st.builds(
        Bay,
        st.none(),
        st.sampled_from([F(1), F(3)]),
        st.lists(lengths, max_size=2).map(tuple),
        st.integers(0, 5),
        st.lists(fronts, max_size=3).map(tuple),
    )
    given_bays = st.builds(Bay, lengths, st.just(F(1)))
    return CaseSpec(
        mark, kind, width, draw(lengths), draw(lengths), own,
        Materials(*(draw(st.sampled_from(kinds)) for _ in range(10))),
        tuple(draw(st.lists(st.one_of(bays, given_bays), min_size=1, max_size=3))),
        share if width is None else F(1), chosen,
        Edged(*(draw(st.sampled_from([None, *strips])) for _ in range(3))), FittedWith(),
        draw(st.booleans()),
    )  # fmt: skip


@st.composite
def shops(draw: st.DrawFn, unit: Unit, kinds: list[str]) -> Shop:
    usual = STOCK.practice[unit]
    # Nothing else is called so: a piece may not share its name with a sheet good.
    piece_names = names.map(lambda name: f"rack piece {name}")
    pieces = st.builds(
        Offcut, piece_names, st.sampled_from(kinds), lengths, lengths, st.integers(1, 9), amounts
    )
    stack = draw(st.sampled_from(list(STOCK.dado_stacks.values())))
    workmanship = draw(st.sampled_from(Workmanship))
    return Shop(
        replace(draw(st.sampled_from(list(STOCK.hand_saws.values()))), kerf=draw(lengths)),
        replace(usual.table_saw, name=draw(names)),
        replace(stack, shims=tuple(draw(st.lists(lengths, max_size=3)))),
        draw(st.sampled_from([usual.carry, Carry(F(45), F(60))])),
        workmanship,
        replace(STOCK.deviations[workmanship], fence=draw(spreads)),
        draw(st.one_of(st.none(), st.sampled_from(list(STOCK.pin_jigs.values())))),
        tuple(draw(st.lists(pieces, max_size=2, unique_by=lambda piece: piece.name))),
        draw(amounts),
    )


@settings(deadline=None, max_examples=80)
@given(jobs())
def test_any_job_written_out_reads_back_the_same(job: Job) -> None:
    assert read_job(write_job(job)) == job


def test_a_length_no_text_says_is_refused_not_rounded() -> None:
    job = read_job(EXAMPLES[0].read_text(encoding="utf-8"))
    odd = replace(job, runs=(replace(job.runs[0], opening=F(10**60 + 1, 10**59)),))
    with pytest.raises(LengthError, match="exactly"):
        write_job(odd)


def test_a_figure_that_has_no_short_decimal_is_told_in_its_own_unit() -> None:
    """Regression: a seventh of a square inch was said to be a seventh of a square foot, and a weight."""
    with pytest.raises(
        LengthError, match=r"^0\.00099\d* ft2 has no short exact decimal; choose a figure that has\.$"
    ):
        area_literal(F(1, 7))
    with pytest.raises(LengthError, match=r"^0\.333\d* psi has no short exact decimal"):
        modulus_literal(F(1, 3))
