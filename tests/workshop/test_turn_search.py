"""The problem of the order of settings, at its edges."""

from __future__ import annotations

import pytest

from casewright.workshop.order.turn_search import FREE, Costs, Turns, enter, start

COSTS = Costs(3, 5)


@pytest.mark.parametrize("labels", [[], [FREE], [FREE, FREE]])
def test_work_that_needs_no_setting_costs_nothing(labels: list[int]) -> None:
    turns = Turns(labels, [[] for _ in labels], [], [], COSTS)
    assert turns.least == 0
    assert start(turns).done == 2 ** len(labels) - 1 and start(turns).cost == 0


def test_a_setting_costs_a_change_and_a_new_cutter_its_own() -> None:
    """Two settings of one cutter and one of another, on one machine: 3 changes and 2 cutters."""
    turns = Turns([0, 1, 2], [[], [], []], [0, 0, 0], [0, 0, 1], COSTS)
    assert turns.least == 3 * 3 + 2 * 5
    one = enter(turns, start(turns), 0)
    assert (one.cost, one.done, one.entered) == (3 + 5, 0b001, (0,))
    two = enter(turns, one, 1)
    assert (two.cost, two.done) == (2 * 3 + 5, 0b011)
    assert enter(turns, two, 2).cost == turns.least


def test_a_setting_that_must_be_come_back_to_is_counted_twice() -> None:
    """0 before 1 before 0 again on one machine; on two machines nothing has to be left."""
    waits = [[], [0], [1]]
    assert Turns([0, 1, 0], waits, [0, 0], [0, 0], COSTS).least == 3 * 3 + 5
    assert Turns([0, 1, 0], waits, [0, 1], [0, 1], COSTS).least == 2 * 3 + 2 * 5
