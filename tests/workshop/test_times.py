"""Minutes a step, and a shop's own figures learnt from its real times."""

from __future__ import annotations

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from casewright.casework.project import draw_up
from casewright.workshop.order.batches import order
from casewright.workshop.order.step_times import (
    FLOOR,
    START,
    Effort,
    Pace,
    TimedWork,
    effort_of,
    effort_of_batch,
    learn_pace,
    timed_work,
    total_effort,
)
from casewright.workshop.work import work
from samples import job

toils = st.dictionaries(st.sampled_from(Effort), st.floats(0.1, 40), min_size=1)


def test_a_batch_takes_its_setting_and_every_piece() -> None:
    """By hand: 2 min for the setting, 8 for the cutter, 2 pieces of 24 in: 2 x (0.5 + 2 x 0.1)."""
    ordered = order(work(draw_up(job()), {}).operations)
    (batch,) = [b for b in ordered.batches if b.operations[0].key.endswith("dado-bottom pass 1")]
    assert batch.new_setting and {op.piece for op in batch.operations} == {"B1-L", "B1-R"}
    cutter = 8 if batch.new_cutter else 0
    assert Pace().minutes(effort_of_batch(batch)) == pytest.approx(2 + cutter + 2 * (0.5 + 2 * 0.1))


def test_no_times_leave_everything_as_it_was() -> None:
    assert (
        learn_pace(()) == Pace()
        and learn_pace((TimedWork({}, 5.0), TimedWork({Effort.HOLE: 3}, 0.0))) == Pace()
    )


@given(st.lists(toils, max_size=12))
def test_times_as_expected_change_nothing(done: list[dict[Effort, float]]) -> None:
    pace = learn_pace([TimedWork(toil, Pace().minutes(toil)) for toil in done])
    assert all(factor == pytest.approx(1, abs=1e-6) for factor in pace.factors.values())


@given(st.lists(st.tuples(toils, st.floats(0, 500)), max_size=12))
def test_no_times_however_odd_give_a_figure_of_nothing(done: list[tuple[dict[Effort, float], float]]) -> None:
    pace = learn_pace([TimedWork(toil, minutes) for toil, minutes in done])
    assert all(factor >= FLOOR for factor in pace.factors.values())


def test_the_shop_s_own_figures_come_out_of_many_mixed_times() -> None:
    """A shop that sets fences in half the time and glues half as slow again, timed with 10 % scatter."""
    true = Pace({Effort.SETTING: 0.5, Effort.GLUE_UP: 1.5})
    chance = random.Random(4)
    times = []
    for _ in range(120):
        toil: dict[Effort, float] = {
            Effort.SETTING: chance.randint(1, 3),
            Effort.PIECE: chance.randint(1, 12),
        }
        toil[Effort.FOOT] = chance.uniform(2, 40)
        if chance.random() < 0.3:
            toil = {Effort.GLUE_UP: 1, Effort.PIECE: chance.randint(1, 4)}
        times.append(TimedWork(toil, true.minutes(toil) * chance.gauss(1, 0.1)))
    learnt = learn_pace(times)
    assert learnt.factors[Effort.SETTING] == pytest.approx(0.5, abs=0.1)
    assert learnt.factors[Effort.GLUE_UP] == pytest.approx(1.5, abs=0.1)
    assert learnt.factors[Effort.PIECE] == pytest.approx(1.0, abs=0.15)
    off = [abs(p.minutes(t.effort) - true.minutes(t.effort)) for p in (Pace(), learnt) for t in times]
    assert sum(off[120:]) < sum(off[:120]) / 5


def test_few_times_move_a_figure_less_than_many() -> None:
    twice = TimedWork({Effort.GLUE_UP: 1}, 2 * START[Effort.GLUE_UP])
    one, many = (learn_pace([twice] * count).factors[Effort.GLUE_UP] for count in (1, 40))
    assert 1 < one < 1.5 < many < 2


def test_times_of_the_record_become_toil() -> None:
    ordered = order(work(draw_up(job()), {}).operations)
    batch = next(b for b in ordered.batches if b.new_setting)
    keys = tuple(op.key for op in batch.operations)
    whole, part = timed_work([(keys, 9.0), (keys[:1], 2.0), (("gone",), 1.0)], ordered.batches)
    assert whole.effort == effort_of_batch(batch) and Effort.SETTING in whole.effort
    assert len(keys) > 1 and part.effort == total_effort([effort_of(batch.operations[0])])
