"""The shop's own figures in words: each before and after its readings, and the edits that write them down."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from ...casework.job import Job
from ...findings import Finding, Weight
from ...jobfile.catalogue import packaged_catalogue
from ...jobfile.write.literals import deviation_literal
from ...lengths.length import Unit
from ...lengths.quantities import caliper
from ...shop.deviations import Workmanship
from ...tolerance.learning.own_deviations import (
    CutReading,
    LearnedFigure,
    OwnDeviations,
    ScaleFigure,
    SetBy,
    learn_deviations,
    nearest_start,
)
from ...tolerance.learning.shop_test import SledSquare
from ..editing.text_edits import SetEntry

FIGURES = {
    "fence": "a fence set by its scale",
    "scale": "the scale's own offset",
    "fence_again": "a fence set again from a piece",
    "cut": "from cut to cut on one setting",
    "dado_packed": "a dado packed by numbers",
    "dado_tried": "a dado tried in the stock",
    "groove": "a groove cut in two passes",
    "height": "the cutter's height",
    "flatness": "depth from place to place",
    "hand_saw": "a cut along the straightedge",
}
CLEAR = 2.0  # deviations: an offset nearer to zero than these may be none

NOTE = "the shop's own figures from its readings"


@dataclass(frozen=True)
class FigureLine:
    """One figure: what it is of, what the job works with now, what the readings say, and on how many.

    `use` is empty, or says why it is not to be used yet.
    """

    name: str
    words: str
    before: str
    after: str
    on: str
    use: str


@dataclass(frozen=True)
class ShopFigures:
    """What the readings say of the shop. `edits` write each figure that rests on enough into the job file, by
    the figure's name; `start` says which starting shop they are nearer to than to the job's, if any."""

    lines: tuple[FigureLine, ...]
    scales: tuple[str, ...]
    findings: tuple[Finding, ...]
    edits: Mapping[str, SetEntry]
    readings: int
    unused: int
    start: str

    def as_json(self) -> dict[str, Any]:
        """The same as plain values."""
        return {
            "figures": [asdict(line) for line in self.lines],
            "scales": self.scales,
            "start": self.start,
            "left_out": [str(finding) for finding in self.findings],
            "readings": self.readings,
            "unused": self.unused,
        }


def shop_figures(job: Job, readings: Iterable[CutReading]) -> ShopFigures:
    """The figures that these readings give the shop of a job.

    They start from the column of its workmanship, so the same readings give the same figures however often
    they were written down.
    """
    every = tuple(readings)
    columns, own = packaged_catalogue().deviations, job.shop.workmanship
    learned = learn_deviations(columns[own], every)
    nearest = nearest_start(learned, own, columns)
    return ShopFigures(
        tuple(_line(job, figure) for figure in learned.figures),
        tuple(_scale_text(job.unit, scale) for scale in learned.scales if _is_off(scale)),
        tuple(_left_out(job.unit, reading) for reading in learned.blunders),
        _edits(job, learned),
        len(every),
        learned.unused,
        "" if nearest is own else _start_text(nearest, own),
    )


def _start_text(nearest: Workmanship, own: Workmanship) -> str:
    return (
        f"Your readings are nearer to the starting shop “{nearest.value}” than to “{own.value}”. "
        "Choose it as workmanship (Machines, on the Drawing page); the figures then start from there."
    )


def _edits(job: Job, learned: OwnDeviations) -> dict[str, SetEntry]:
    """What writes the figures: four digits of an inch, three of a millimetre."""
    return {
        figure.name: SetEntry(
            ("shop", "deviations", figure.name),
            deviation_literal(_short(figure.to_use, job.unit), job.unit),
        )
        for figure in learned.figures
        if figure.enough
    }


def _short(deviation: float, unit: Unit) -> float:
    return round(deviation * 25.4, 3) / 25.4 if unit is Unit.MM else round(deviation, 4)


def _line(job: Job, figure: LearnedFigure) -> FigureLine:
    now = getattr(job.shop.deviations, figure.name)
    few = "" if figure.enough else "too few readings to use yet"
    return FigureLine(
        figure.name,
        FIGURES[figure.name],
        caliper(now, job.unit, finer=True),
        caliper(figure.to_use, job.unit, finer=True),
        f"{count_text(figure.readings, 'reading')} on {count_text(figure.settings, 'setting')}",
        few,
    )


def count_text(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


def _is_off(scale: ScaleFigure) -> bool:
    return abs(scale.offset.mean) > CLEAR * scale.offset.deviation


def _scale_text(unit: Unit, scale: ScaleFigure) -> str:
    off = caliper(abs(scale.offset.mean), unit)
    wide, way = ("wide", "back") if scale.offset.mean > 0 else ("narrow", "out")
    what = "stop" if scale.set_by is SetBy.STOP else "fence"
    return (
        f"By its scale the {what} cuts {off} too {wide} ({count_text(scale.settings, 'setting')}). Move the "
        f"pointer, or set {off} {way} from the number; then take the shop's test again."
    )


def _left_out(unit: Unit, reading: CutReading) -> Finding:
    read, cut = caliper(reading.value, unit), caliper(reading.number, unit)
    return Finding(
        "reading-left-out",
        reading.name,
        f"{read} by {reading.tool.value} was read where {cut} was set on {reading.set_by.value}; "
        "that is a slip, and nothing is learned from it.",
        "Measure again, and undo the reading if it was wrong.",
        Weight.WARN,
    )


def sled_text(unit: Unit, sled: SledSquare) -> str:
    """What the five cuts say of the crosscut sled."""
    if sled.square:
        return "The crosscut sled is square, as near as the caliper shows."
    end = "near" if sled.over > 0 else "far"
    over, span = caliper(abs(sled.over), unit), caliper(sled.span, unit)
    return (
        f"The crosscut sled is {over} out of square over {span}: the fifth strip is wider at its {end} end."
    )
