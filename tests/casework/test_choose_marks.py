"""Marks chosen for chains together: against every other choice there is, on small systems of chains."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction as F
from itertools import product
from math import floor

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from casewright.casework.numbers.chain_sums import ChainSum
from casewright.casework.numbers.choose_marks import choose_marks
from casewright.errors import SolverError
from casewright.lengths.rounding import nearest
from casewright.solver import Solver

STEP = F(1, 32)
FACTORS = st.sampled_from([F(1), F(-1), F(2), F(-1, 2)])
lengths_off_marks = st.fractions(F(1, 10), 60, max_denominator=4000).filter(
    lambda exact: (exact / STEP).denominator != 1
)


@st.composite
def systems(draw: st.DrawFn) -> list[ChainSum]:
    """Chains that all hang together: the first holds every length. Some are of runs."""
    lengths = draw(st.lists(lengths_off_marks, min_size=1, max_size=6, unique=True))
    some = st.lists(st.sampled_from(lengths), min_size=1, unique=True)
    rooms = st.one_of(st.none(), st.fractions(0, F(1, 16), max_denominator=128))
    found = []
    for chosen in (lengths, *draw(st.lists(some, max_size=5))):
        terms = tuple(sorted((exact, draw(FACTORS)) for exact in chosen))
        found.append(ChainSum(terms, draw(rooms)))
    return found


def worth(chains: Sequence[ChainSum], numbers: Mapping[F, F]) -> tuple[F, F, F, F]:
    """How bad a choice is, first things first: how far a run passes its opening, the worst bias in a case,
    that of a run, and all biases together."""
    biases = [(one, one.bias(numbers)) for one in dict.fromkeys(chains)]
    nothing = [F(0)]
    return (
        max(nothing + [-bias - one.room for one, bias in biases if one.room is not None]),
        max(nothing + [abs(bias) for one, bias in biases if one.room is None]),
        max(nothing + [abs(bias) for one, bias in biases if one.room is not None]),
        sum((abs(bias) for _, bias in biases), F(0)),
    )


def around(exact: F) -> tuple[F, F]:
    """The marks below and above; there is no setting to nothing."""
    below = floor(exact / STEP) * STEP
    return (max(below, STEP), below + STEP)


@settings(max_examples=60, deadline=None)
@given(systems())
def test_no_other_choice_is_better(chains: list[ChainSum]) -> None:
    numbers = choose_marks(chains, STEP)
    lengths = sorted({exact for one in chains for exact, _ in one.terms})
    every = (
        worth(chains, dict(zip(lengths, marks, strict=True))) for marks in product(*map(around, lengths))
    )
    # To HiGHS two answers closer than this are one, and the next aim decides between them.
    for chosen, best in zip(worth(chains, numbers), min(every), strict=True):
        assert chosen <= best + F(1, 10**6)


@settings(max_examples=50, deadline=None)
@given(systems(), st.data())
def test_each_number_is_one_of_the_two_marks_around_it(chains: list[ChainSum], data: st.DataObject) -> None:
    lengths = sorted({exact for one in chains for exact, _ in one.terms})
    down = frozenset(data.draw(st.sets(st.sampled_from(lengths))))
    kept = {exact: data.draw(st.sampled_from(around(exact))) for exact in lengths if data.draw(st.booleans())}
    numbers = choose_marks(chains, STEP, down, kept)
    assert numbers.keys() >= set(lengths)
    for exact in lengths:
        assert numbers[exact] in around(exact)
        assert numbers[exact] == kept.get(exact, numbers[exact])
        if exact in down and exact not in kept and exact > STEP:
            assert numbers[exact] < exact


@settings(max_examples=40, deadline=None)
@given(systems(), systems())
def test_chains_that_share_no_length_do_not_sway_each_other(
    here: list[ChainSum], there: list[ChainSum]
) -> None:
    lengths = {exact for one in here for exact, _ in one.terms}
    if lengths.isdisjoint(exact for one in there for exact, _ in one.terms):
        alone, beside = choose_marks(here, STEP), choose_marks([*there, *here], STEP)
        assert alone == {exact: beside[exact] for exact in lengths}


def test_a_length_alone_goes_to_its_nearest_mark() -> None:
    for sixty_fourths in range(1, 640):
        exact = F(sixty_fourths, 320)
        if (exact / STEP).denominator != 1 and exact > STEP:
            numbers = choose_marks([ChainSum(((exact, F(1)),))], STEP)
            assert numbers[exact] == nearest(exact, STEP)


def test_two_sizes_in_one_chain_round_against_each_other() -> None:
    """Both are 3/5 of a mark past one: to their nearest marks they come out 4/5 of a mark long together."""
    both = F(30) + F(3, 5) * STEP, F(20) + F(3, 5) * STEP
    numbers = choose_marks([ChainSum(tuple((exact, F(1)) for exact in sorted(both)))], STEP)
    assert {number - exact for exact, number in numbers.items()} == {F(-3, 5) * STEP, F(2, 5) * STEP}


def test_a_run_takes_the_room_at_its_ends_and_no_more() -> None:
    wide = F(30) + F(3, 5) * STEP
    for room, number in ((F(0), F(30)), (F(2, 5) * STEP, F(30) + STEP)):
        assert choose_marks([ChainSum(((wide, F(-1)),), room)], STEP)[wide] == number


def test_where_the_solver_gives_no_answer_each_goes_to_its_nearest_mark(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Numbers a little less well chosen are better than a job that cannot be opened."""

    def fails(*_: object) -> None:
        raise SolverError("HiGHS", "a test", "it reported an optimum without an answer")

    monkeypatch.setattr(Solver, "answer", fails)
    one, other = F(1237, 1000), F(2345, 1000)
    chain = ChainSum(((one, F(1)), (other, F(-1))), None)
    assert choose_marks([chain], F(1, 16)) == {one: nearest(one, F(1, 16)), other: nearest(other, F(1, 16))}
