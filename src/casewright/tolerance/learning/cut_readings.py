"""The readings of a job's cut parts, each with the number and the setting that its size was cut at."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from statistics import fmean

from ..as_built.readings import Reading, disagreeing, reading_deviations, saw_number
from ..chains.made_sizes import HowMade, MadeSize
from ..outcomes.gap_spread import Fit
from .own_deviations import CutReading, SetBy

TEACHES = {
    HowMade.FENCE: SetBy.FENCE,
    HowMade.HAND_SAW: SetBy.HAND_SAW,
    HowMade.STACK: SetBy.DADO_PACKED,
    HowMade.TWO_PASSES: SetBy.GROOVE,
    HowMade.HEIGHT: SetBy.HEIGHT,
}
"""What a size is set by. Sizes gauged from the stock or laid out by a rule teach nothing of a machine."""


def cut_readings(fit: Fit, readings: Mapping[str, tuple[Reading, ...]]) -> Iterator[CutReading]:
    """The `readings` of parts cut by the plan of `fit`, by ledger name, that say something of a machine.

    A size read more than once counts once for each tool, as the mean; not at all where its readings
    disagree, since nobody knows which is right.
    """
    for name, several in readings.items():
        made = fit.made.get(name)
        set_by = _set_by(fit, made) if made else None
        if made is None or set_by is None:
            continue
        if disagreeing(several, reading_deviations(fit.project, name)):
            continue
        setting = fit.setting(name)
        number = float(saw_number(fit.project, made))
        for tool in dict.fromkeys(reading.tool for reading in several):
            value = fmean(float(reading.value) for reading in several if reading.tool is tool)
            again = fit.method.again.get(setting, "")
            yield CutReading(name, set_by, setting, number, value, tool, again if again != setting else "")


def _set_by(fit: Fit, made: MadeSize) -> SetBy | None:
    setting = fit.setting(made.name)
    if made.how is HowMade.FENCE and setting in fit.method.stops:
        return SetBy.STOP
    if made.how is HowMade.STACK and setting in fit.method.proved:
        return SetBy.DADO_TRIED
    return TEACHES.get(made.how)
