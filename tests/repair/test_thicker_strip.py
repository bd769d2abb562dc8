"""A panel too narrow under an edge still to be covered: one thicker strip. Common practice, no source."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from casewright.casework.job import Edged
from casewright.casework.project import Project, draw_up
from casewright.repair.facts import AsCut, Facts
from casewright.repair.find_ways import ways
from casewright.repair.price import Seen
from casewright.repair.ways.way import Mend, WayKind
from casewright.shop.edging import Edging, PutOn
from samples import job, spec

STRIP = Edging("maple", "maple strip", F(1, 4), F(96))
HAIR = F(1, 1000)


def drawn(strip: Edging = STRIP) -> Project:
    one = replace(spec(), edged=Edged("maple", "maple"))
    return draw_up(replace(job(one), edging={"maple": strip}))


def narrow(project: Project, mark: str, by: F, *, worked: bool = False) -> Facts:
    """Everything is cut, one panel too narrow by `by`."""
    sizes = {part.mark: project.dimensions(part) for part in project}
    finished = {one: AsCut(length, width) for one, (length, width, _) in sizes.items() if one != mark}
    length, width, _ = sizes[mark]
    return Facts(finished=finished, spoiled={mark: AsCut(length, width - by, worked)})


def test_the_strip_makes_up_for_what_the_panel_lacks() -> None:
    project = drawn()
    found = ways(project, narrow(project, "B1-L", F(1, 16)))
    option = found.options[0]
    assert (option.kind, option.cost.seen, option.buys) == (WayKind.THICKER_STRIP, Seen.NOTHING, False)
    (mend,) = [one for one in option.actions if isinstance(one, Mend)]
    # What is glued on and what was cut come to the finished depth of the side: 24 in.
    assert '5/16" thick instead of 1/4"' in mend.steps[0].replace("\u2009", " ").replace("\u00a0", " ")
    assert '24"' in mend.steps[1] and project.worked(project.parts["B1-L"])[1] == 24


@pytest.mark.parametrize(
    ("by", "seen"), [(F(1, 16), Seen.NOTHING), (F(1, 16) + HAIR, Seen.IN_SIGHT), (F(3, 8), Seen.IN_SIGHT)]
)
def test_a_strip_much_thicker_than_its_neighbours_is_seen(by: F, seen: Seen) -> None:
    project = drawn()
    way = ways(project, narrow(project, "B1-L", by)).best_of(WayKind.THICKER_STRIP)
    assert way is not None and way.cost.seen is seen


@pytest.mark.parametrize(
    ("strip", "by", "worked"),
    [
        (STRIP, F(3, 8) + HAIR, False),
        (STRIP, F(1, 16), True),  # its strip is on already
        (replace(STRIP, put_on=PutOn.AFTER_GLUE_UP), F(1, 16), False),
        (replace(STRIP, taken_off=False), F(1, 16), False),
        (replace(STRIP, thickness=F(1, 8) - HAIR), F(1, 16), False),
    ],
)
def test_no_strip_makes_up_for_what_it_cannot(strip: Edging, by: F, worked: bool) -> None:
    project = drawn(strip)
    found = ways(project, narrow(project, "B1-L", by, worked=worked))
    assert found.best_of(WayKind.THICKER_STRIP) is None
