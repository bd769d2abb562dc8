"""A change tried on the sizes and the same change made in the job give the same parts.

Only given inputs: when a shared width is given instead, its fellows share what is left anew.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.casework.inputs import with_input
from casewright.casework.job import Bay, Filler
from casewright.casework.project import Project, draw_up
from casewright.sizes.ledger import Given
from samples import BASE, job, spec

BAYS = (Bay(width=F(14), fixed=(F(8), F(9))), *BASE)


def sample() -> Project:
    return draw_up(
        job(
            spec("B1", width=F(54), bays=BAYS, chosen=frozenset({"toe_depth"})),
            spec("B2", width=None, bays=BASE),
            opening=F(98),
            left=Filler(F(1), F(1, 2), "ply"),
            right=Filler(F(2), F(1, 2), "ply"),
        )
    )


INPUTS = sorted(
    name
    for name, entry in sample().sizes.ledger.items()
    if isinstance(entry.definition, Given) and name not in ("job.top_down", "job.bottom_up")
)


@pytest.mark.parametrize("name", INPUTS)
def test_trying_and_making_a_change_agree(name: str) -> None:
    project = sample()
    value = project.sizes.of(name) + F(1, 64)
    tried = project.given({name: value})
    made = draw_up(with_input(project.job, name, value))
    assert made.sizes.of(name) == value
    assert list(made.parts) == list(tried.parts)
    for mark, part in made.parts.items():
        assert made.dimensions(part) == tried.dimensions(tried.parts[mark]), mark


def test_a_size_that_follows_from_others_is_no_input() -> None:
    for name in ("B1-L.length", "B1.inside", "run9.opening", "B7.width", "B1.bay7", "B1.below19"):
        with pytest.raises(KeyError):
            with_input(sample().job, name, F(1))


def test_there_is_something_to_change() -> None:
    assert {"B1.width", "run1.left_filler", "B1.below11", "B1.toe_depth", "job.dado_depth"} <= set(INPUTS)
