"""Which settings must be made twice whatever the order: a covering problem, solved by HiGHS.

No operation waits for itself, but settings may wait for each other: something cut
at s waits for something cut at t, and something else at t for something at s. If both were made
only once, all of s would come before all of t or after it, and it can be neither. So of every
such cycle one setting is made again, and the fewest settings that meet every cycle (a least
feedback vertex set) are a bound on every order.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from ...solver import Solver

MOST_ROUNDS = 60


def extra_entries(
    reaches: Sequence[frozenset[int]], least: Sequence[int], rounds: int = MOST_ROUNDS
) -> tuple[int, ...]:
    """How often each label is entered again, so that every cycle is broken, in the least total.

    `reaches[s]` are the labels with something waiting for something of s, `least[s]` the fewest
    times s is entered again for reasons of its own. The total is a lower bound even if `rounds`
    end before every cycle is found; then the choice of labels may break only some of them.
    """
    count = len(reaches)
    model = Solver()
    for lower in least:
        model.add_column(1.0, float(lower), inf)
    model.make_integral(range(count))
    cycles: list[tuple[int, ...]] = [
        (s, t) for s in range(count) for t in reaches[s] if s < t and s in reaches[t]
    ]
    chosen = tuple(least)
    for _ in range(rounds):
        for cycle in cycles:
            model.add_row(1.0, inf, cycle, [1.0] * len(cycle))
        answer = model.answer("finding the settings that must be made twice")
        chosen = tuple(round(value) for value in answer.values)
        unbroken = _cycle(reaches, [s for s in range(count) if chosen[s] == 0])
        if unbroken is None:
            break
        cycles = [unbroken]
    return chosen


def _cycle(reaches: Sequence[frozenset[int]], among: Sequence[int]) -> tuple[int, ...] | None:
    """A cycle of labels all in `among`; None where there is none. Depth first."""
    allowed = set(among)
    finished: set[int] = set()
    for start in among:
        path: list[int] = []
        stack = [(start, iter(sorted(reaches[start] & allowed)))]
        on_path = {start: 0}
        path.append(start)
        while stack:
            here, later = stack[-1]
            if here in finished:
                stack.pop()
                continue
            for label in later:
                if label in on_path:
                    return tuple(path[on_path[label] :])
                if label not in finished:
                    on_path[label] = len(path)
                    path.append(label)
                    stack.append((label, iter(sorted(reaches[label] & allowed))))
                    break
            else:
                finished.add(here)
                del on_path[here]
                path.pop()
                stack.pop()
    return None
