"""What is worth a line on paper or a screen, and what a job begins with: on both sides of each limit."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from types import SimpleNamespace
from typing import Any

import pytest

from casewright.app.fit import fit_as_built as built
from casewright.app.fit import fit_page
from casewright.app.fit.closing_as_built import ClosingAsBuilt
from casewright.app.new_job.new_job_file import Wish, new_job
from casewright.app.papers import label_files as labels
from casewright.app.papers import notices
from casewright.app.papers.notices import notices as noticed
from casewright.app.repair import repair_page as repair
from casewright.app.views import parts_page as lists
from casewright.casework.project import draw_up
from casewright.jobfile.catalogue import packaged_catalogue
from casewright.jobfile.read.read_job import read_job
from casewright.lengths.length import Unit
from casewright.repair.prevention.saw_check import LookAlike, look_alikes
from casewright.tolerance.outcomes import gap_spread
from casewright.tolerance.outcomes.gap_spread import Fit, fit
from casewright.tolerance.outcomes.outcome import Outcome
from samples import job, spec

FIRST = packaged_catalogue().practice[Unit.INCH].first_cases

FIGURES = [
    (notices.MOST_ALIKE, 5, "our judgement: one page"),
    (notices.MOST_RISKS, 8, "our judgement: one page"),
    (fit_page.SEVERAL, 5, "our judgement"),
    (gap_spread.WORTH_A_WORD, 0.1, "our judgement: one in ten"),
    (built.MOST_CURES, 3, "our judgement"),
    (repair.MOST_OF_A_KIND, 3, "our judgement"),
    (lists.DEEPEST, 30, "a bound on the answer"),
    (
        labels.LONGEST,
        150,
        "ISO/IEC 18004: version 10 at level M holds 213 bytes; less keeps modules readable",
    ),
    (FIRST.widest, 33, "common practice, no source"),
    (FIRST.narrowest, 9, "common practice: 3 in steps from 9"),
    (FIRST.filler_from, 12, "common practice, no source"),
]


@pytest.mark.parametrize(("figure", "value", "source"), FIGURES)
def test_a_figure_is_what_its_source_says(figure: float, value: float, source: str) -> None:
    assert figure == value, source


PROJECT = draw_up(job())
FIT = fit(PROJECT)
RISKS, ALIKE = (
    "Joints to look at when the case is put together dry",
    "What is easily confused, or turned wrong",
)


def lines(title: str, risks: Fit = FIT, alike: tuple[LookAlike, ...] = ()) -> tuple[str, ...]:
    """The lines under a title, of a job with these joints and these pairs of sizes."""
    planned = SimpleNamespace(
        fit=risks,
        worked=SimpleNamespace(look_alikes=alike, easily_turned=(), needed=lambda: PROJECT),
        project=PROJECT,
        made=SimpleNamespace(plans={}),
        work=SimpleNamespace(operations=()),
    )
    said = noticed(planned)  # type: ignore[arg-type]
    return next((notice.lines for notice in said if notice.title == title), ())


def gaps(*chances: float) -> Fit:
    """The job's gaps fail with these chances, each of its own name."""
    first = next(iter(FIT.spreads.values()))
    spreads: dict[str, Any] = {}
    for number, chance in enumerate(chances):
        gap = replace(first.gap, name=f"B1: B1-S{number} against B1-L")
        outcome = Outcome(1 - chance, chance, 0.0, 0.0, 0.0)
        spreads[gap.name] = SimpleNamespace(
            gap=gap,
            chance=chance,
            outcome=outcome,
            share_of_kinds=first.share_of_kinds,
            mean=first.mean,
            nominal=first.mean,
            tally=first.tally,
        )
    return replace(FIT, spreads=spreads)


def test_a_joint_is_worth_a_line_from_one_in_ten() -> None:
    assert len(lines(RISKS, gaps(0.1, 0.1001, 0.0999))) == 1


@pytest.mark.parametrize(("joints", "shown", "more"), [(8, 8, ""), (9, 8, "and 2 more such joints.")])
def test_eight_joints_have_a_line(joints: int, shown: int, more: str) -> None:
    said = lines(RISKS, gaps(*(0.5 + 0.02 * number for number in range(joints))))
    assert len(said) == shown and ("more" in said[-1]) is bool(more) and (not more or said[-1] == more)


@pytest.mark.parametrize(("pairs", "shown", "more"), [(5, 5, ""), (6, 5, "and 2 more such pairs of sizes.")])
def test_five_pairs_have_a_line(pairs: int, shown: int, more: str) -> None:
    one = look_alikes(draw_up(job(spec("B1", width=F(18)), spec("B2", width=F(19)))))[0]
    said = lines(ALIKE, alike=(one,) * pairs)
    assert len(said) == shown and ("more" in said[-1]) is bool(more) and (not more or said[-1] == more)


@pytest.mark.parametrize(("opening", "cases"), [("33", 1), ("33 1/32", 2), ("66", 2), ("66 1/32", 3)])
def test_a_new_job_has_no_case_wider_than_33(opening: str, cases: int) -> None:
    made = read_job(new_job(Wish("Loft", Unit.INCH, opening)).text)
    assert len(made.runs[0].cases) == cases


@pytest.mark.parametrize(
    ("cures", "fix"), [(3, "Cure 0. Or Cure 1. Or Cure 2."), (4, "Cure 0. Or Cure 1. Or Cure 2.")]
)
def test_three_cures_are_told_at_the_saw(monkeypatch: pytest.MonkeyPatch, cures: int, fix: str) -> None:
    stands = built.AsItStands(
        1,
        (),
        ClosingAsBuilt(
            (),
            (),
            ("the back is too open",),
            ("the back is too open",),
            tuple(f"cure {n}" for n in range(cures)),
            (),
            1,
        ),
    )
    monkeypatch.setattr(built, "as_it_stands", lambda heard: stands)
    monkeypatch.setattr(built, "state_json", lambda heard: {"findings": []})
    heard = SimpleNamespace(state=SimpleNamespace(readings={"B1-K.width": ()}))
    (found,) = built.shop_state(heard)["findings"]  # type: ignore[arg-type]
    assert (found["code"], found["fix"]) == ("no-longer-closes", fix)
