"""What to do otherwise and what to measure, as a way in prints them."""

from __future__ import annotations

from dataclasses import dataclass

from ...tolerance.advice.advice_wording import advice_sentence, assumed_text, gain_text, whole_text
from ...tolerance.advice.measuring_plan import plan_measurements
from ...tolerance.advice.rank_advice import advise
from ...tolerance.as_built.sheets_in_doubt import sheet_doubts
from ...tolerance.outcomes.gap_spread import Fit


@dataclass(frozen=True)
class AdviceLine:
    """One change. `takes` and `saves` are minutes; the shares are by how many joints fewer are expected.

    `gap` is the joint it helps most.
    """

    text: str
    gain: str
    gap: str
    takes: float
    saves: float
    clamp: float
    shown: float
    ease: float
    recut: float


@dataclass(frozen=True)
class AdvicePage:
    """The advice, the best first, and what it comes to. `minutes` are expected at the dry fits of the job,
    now and with it; `others` counts what pays and is not listed."""

    doubt: str
    advice: tuple[AdviceLine, ...]
    whole: str
    assumed: str
    others: int
    minutes_now: float
    minutes_then: float


@dataclass(frozen=True)
class MeasureLine:
    """One reading to take: what, with which tool, when, and where to write it down."""

    what: str
    tool: str
    when: str
    write_on: str
    gain: str
    takes: float
    saves: float


@dataclass(frozen=True)
class MeasurePage:
    """The readings worth taking, in the order of the work, and what they come to. `doubt` is said before."""

    doubt: str
    measure: tuple[MeasureLine, ...]
    whole: str
    assumed: str


def advice_page(fit: Fit) -> AdvicePage:
    """What saves more minutes than it takes."""
    found = advise(fit)
    lines = tuple(
        AdviceLine(
            advice_sentence(one),
            gain_text(one),
            one.best.before.gap.name,
            one.spends,
            one.saves,
            *(one.fewer(share) for share in ("clamp", "shown", "ease", "recut")),
        )
        for one in found.listed
    )
    return AdvicePage(
        _doubt(fit),
        lines,
        whole_text(found, "change"),
        assumed_text(fit),
        found.others,
        found.before,
        found.left,
    )


def measure_page(fit: Fit) -> MeasurePage:
    """The readings that save more minutes than they take."""
    plan = plan_measurements(fit)
    lines = tuple(
        MeasureLine(
            one.what, one.tool.value, one.when, one.write_on, one.gain, one.advice.spends, one.advice.saves
        )
        for one in plan.measurements
    )
    return MeasurePage(_doubt(fit), lines, plan.whole, assumed_text(fit))


def _doubt(fit: Fit) -> str:
    """The readings of sheets that stand apart, before anything that rests on them."""
    doubts = sheet_doubts(fit)
    return f"{doubts} What follows counts it as it is." if doubts else ""
