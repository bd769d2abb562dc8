"""What shelves are to bear, and how stiff their panels are, in a job file."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from casewright.jobfile.read.read_job import read_job
from casewright.jobfile.write.other_unit import in_other_unit
from casewright.jobfile.write.write_job import write_job
from casewright.lengths.length import Unit
from casewright.lengths.quantities import NEWTON_PER_SQUARE_MM
from casewright.shop.materials import PanelKind
from casewright.shop.shelf_use import USUAL_USE, Holds, SagFigure, ShelfUse
from jobfile.changed_jobs import PLAIN


def uses(*tables: str, case: str = "") -> list[ShelfUse]:
    text = PLAIN.replace('mark = "N2"', f'mark = "N2"\n{case}')
    text = "\n".join([text.replace("[[runs]]", "\n".join([*tables, "[[runs]]"]), 1)])
    job = read_job(text)
    assert read_job(write_job(job)) == job
    return [case.shelves for run in job.runs for case in run.cases]


def test_nothing_said_is_the_woodwork_standard() -> None:
    assert uses() == [USUAL_USE, USUAL_USE]


def test_a_case_goes_before_its_kind_and_that_before_the_job() -> None:
    job, base = '[loads]\nholds = "books"\nsag = "the eye"', '[base.loads]\nholds = "linen"'
    one, other = uses(job, base, case='loads = { holds = "tinned food" }')
    assert one == ShelfUse(Holds.LINEN, sag=SagFigure.EYE)
    assert other == ShelfUse(Holds.TINNED_FOOD, sag=SagFigure.EYE)


def test_what_a_case_holds_goes_before_a_load_of_the_job() -> None:
    one, other = uses("[loads]\nload = 30", case='loads = { holds = "linen" }')
    assert (one.load, other.load, other.holds) == (F(30), None, Holds.LINEN)


def test_one_shelf_alone_goes_before_its_case() -> None:
    table = (
        '[loads_of]\n"N1-A1" = { holds = "crockery" }\n"N1-A2" = { load = 60 }\n"N1-A3" = { sag = "the eye" }'
    )
    job = read_job(PLAIN.replace("[[runs]]", f"[loads]\nload = 30\n{table}\n[[runs]]", 1))
    spec = job.runs[0].cases[0]
    assert [job.use_of(f"N1-A{number}", spec) for number in range(1, 5)] == [
        ShelfUse(Holds.CROCKERY),
        ShelfUse(load=F(60)),
        ShelfUse(load=F(30), sag=SagFigure.EYE),
        ShelfUse(load=F(30)),
    ]
    assert read_job(write_job(job)) == job


def test_the_stiffness_of_a_panel() -> None:
    text = PLAIN.replace("price = 70", 'price = 70\nkind = "birch plywood"\nstiffness = "8 300 N/mm2"')
    job = read_job(text)
    birch = job.sheets["birch"]
    assert birch.kind is PanelKind.BIRCH_PLYWOOD and birch.stiffness == 8300 * NEWTON_PER_SQUARE_MM
    assert read_job(write_job(job)) == job
    assert read_job(PLAIN).sheets["birch"].kind is None, "a sheet of no list says nothing of itself"
    listed = read_job(PLAIN.replace('name = "birch ply"', 'sheet = "birch ply 3/4"'))
    assert listed.sheets["birch"].kind is PanelKind.HARDWOOD_PLYWOOD


@pytest.mark.parametrize("said", ["950000 psi", "950,000 PSI", "950000 Psi"])
def test_the_unit_of_a_modulus_is_read_in_capitals_or_not(said: str) -> None:
    job = read_job(PLAIN.replace("price = 70", f'price = 70\nstiffness = "{said}"'))
    assert job.sheets["birch"].stiffness == 950_000
    metric = read_job(PLAIN.replace("price = 70", 'price = 70\nstiffness = "8300 n/mm2"'))
    assert metric.sheets["birch"].stiffness == 8300 * NEWTON_PER_SQUARE_MM


def test_the_other_unit_keeps_a_bare_load() -> None:
    text = f"{PLAIN}\n[loads]\nload = 30\n"
    there = read_job(
        in_other_unit(f"{text}[loads_of]\nN1-A1 = {{ load = 60 }}\n", Unit.MM, exactly=True).text
    )
    assert there.loads_of["N1-A1"].load == 60
    assert {case.shelves.load for case in there.runs[0].cases} == {F(30)}
