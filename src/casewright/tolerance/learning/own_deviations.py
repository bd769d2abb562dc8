"""The shop's own deviations from readings of what it has cut. Start at `learn_deviations`.

Readings by caliper only: a rule errs by more than a good setting does, so a rule's or a tape's readings show
blunders and teach nothing else. Blunders (a misread mark, the wrong part) are left out and listed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from enum import Enum
from math import hypot, log
from statistics import fmean

from ...shop.deviations import Deviations, Workmanship
from ...shop.measuring_tools import MeasuringTool
from ..as_built.readings import EXPLAINED
from .nested_spread import Belief, Offset, SettingMean, learn_between, learn_within, start_from

BLUNDER = 1 / 16
"""Inches: what is further off was cut or read to another number; no saw strays so far (our judgement, no
source)."""

ENOUGH = 3
"""Fewer readings than these widen a figure more than they teach of it (our judgement, no source)."""


class SetBy(Enum):
    """What a size was set by: which of the shop's deviations its readings teach."""

    FENCE = "the fence's scale"
    STOP = "the scale of the sled's stop"
    HAND_SAW = "the straightedge of the hand-held saw"
    DADO_PACKED = "the dado stack, packed by numbers"
    DADO_TRIED = "the dado stack, tried in the stock"
    GROOVE = "the two passes of a groove"
    HEIGHT = "the cutter's height"


@dataclass(frozen=True, slots=True)
class CutReading:
    """One reading of a size that was cut. Lengths in inches.

    `number` is what the machine was set to, `setting` names what all sizes share that were cut without
    setting it again, `again` the earlier setting that this one was set again to, from a piece of then.
    """

    name: str
    set_by: SetBy
    setting: str
    number: float
    value: float
    tool: MeasuringTool
    again: str = ""

    @property
    def error(self) -> float:
        """How far it came out above its number."""
        return self.value - self.number


@dataclass(frozen=True, slots=True)
class LearnedFigure:
    """One deviation after the readings: `name` is its field of `Deviations`, `start` what it started from.

    `to_use` is the deviation of what is next seen; `degrees` are its degrees of freedom (Student's t), None
    for a normal one. `readings` were taken, on so many `settings`; `counted` of them say something
    of this figure: one a setting, or what is read on a setting after its first.
    """

    name: str
    start: float
    to_use: float
    degrees: float | None
    readings: int
    settings: int
    counted: int

    @property
    def enough(self) -> bool:
        """Whether it rests on enough to take the place of the figure started from."""
        return self.counted >= ENOUGH


@dataclass(frozen=True, slots=True)
class ScaleFigure:
    """The offset of one scale: how far, on average, what it sets comes out above its number."""

    set_by: SetBy
    offset: Offset
    settings: int


@dataclass(frozen=True)
class OwnDeviations:
    """What the readings taught. `blunders` are those that no error of saw and tool explains, by any tool;
    `unused` is the number of all that taught nothing: the blunders, and what was not read by caliper."""

    figures: tuple[LearnedFigure, ...]
    scales: tuple[ScaleFigure, ...]
    blunders: tuple[CutReading, ...]
    unused: int

    def applied(self, deviations: Deviations) -> Deviations:
        """The shop's figures with those that were learned from enough in place of its own."""
        return replace(deviations, **{one.name: one.to_use for one in self.figures if one.enough})


def nearest_start(
    learned: OwnDeviations, own: Workmanship, columns: Mapping[Workmanship, Deviations]
) -> Workmanship:
    """The starting shop whose figures are nearest to those learned, as ratios; `own` until they lie nearer to
    another's.

    What is learned is drawn towards the shop started from, so few readings never point elsewhere. The scale's
    offset has no say: it is one draw, however many settings show it.
    """
    figures = [figure for figure in learned.figures if figure.enough and figure.name != "scale"]

    def away(shop: Workmanship) -> float:
        return sum(log(figure.to_use / getattr(columns[shop], figure.name)) ** 2 for figure in figures)

    return min(columns, key=lambda shop: (away(shop), shop is not own))


@dataclass(frozen=True)
class _Setting:
    """The good readings by caliper of one setting."""

    name: str
    readings: tuple[CutReading, ...]

    @property
    def error(self) -> float:
        return fmean(reading.error for reading in self.readings)

    @property
    def squares(self) -> float:
        return sum((reading.error - self.error) ** 2 for reading in self.readings)


_Settings = Mapping[SetBy, Sequence[_Setting]]


def learn_deviations(start: Deviations, readings: Iterable[CutReading]) -> OwnDeviations:
    """The deviations of the shop that took these readings.

    `start` is the column of its workmanship, not the figures it has learned before: those rest on readings
    that may be among these.
    """
    every = tuple(readings)
    blunders = tuple(reading for reading in every if abs(reading.error) > _most(start, reading))
    good = [one for one in every if one.tool is MeasuringTool.CALIPER and one not in blunders]
    settings: dict[SetBy, list[_Setting]] = {}
    for key in dict.fromkeys((reading.set_by, reading.setting) for reading in good):
        of_it = tuple(reading for reading in good if (reading.set_by, reading.setting) == key)
        settings.setdefault(key[0], []).append(_Setting(key[1], of_it))
    figures, scales = _fence(start, settings)
    figures += _height(start, settings)
    for set_by in (SetBy.HAND_SAW, SetBy.DADO_PACKED, SetBy.DADO_TRIED, SetBy.GROOVE):
        figures += _alone(start, set_by, settings)
    order = [field.name for field in fields(Deviations)]
    figures.sort(key=lambda figure: order.index(figure.name))
    return OwnDeviations(tuple(figures), scales, blunders, len(every) - len(good))


def _most(start: Deviations, reading: CutReading) -> float:
    """How far a good cut, read well, may be off by this tool."""
    of_setting = {
        SetBy.FENCE: hypot(start.scale, start.fence, start.cut),
        SetBy.STOP: hypot(start.scale, start.fence, start.cut),
        SetBy.HAND_SAW: start.hand_saw,
        SetBy.DADO_PACKED: start.dado_packed,
        SetBy.DADO_TRIED: start.dado_tried,
        SetBy.GROOVE: start.groove,
        SetBy.HEIGHT: hypot(start.height, start.flatness),
    }[reading.set_by]
    return max(BLUNDER, EXPLAINED * hypot(of_setting, start.reading(reading.tool)))


def _fence(start: Deviations, settings: _Settings) -> tuple[list[LearnedFigure], tuple[ScaleFigure, ...]]:
    """Fence, scale, cut, and setting a fence again, from all that was set by a scale."""
    used = [set_by for set_by in (SetBy.FENCE, SetBy.STOP) if set_by in settings]
    every = [one for set_by in used for one in settings[set_by]]
    if not every:
        return [], ()
    figures, each = _within("cut", start.cut, start.caliper, every)
    by_name = {one.name: one for one in every}
    again = [one for one in every if one.readings[0].again]
    fresh = {set_by: [one for one in settings[set_by] if one not in again] for set_by in used}
    used = [set_by for set_by in used if fresh[set_by]]
    if used:
        means = [[_mean(one, each) for one in fresh[set_by]] for set_by in used]
        belief, offsets = learn_between(start_from(start.fence), means, start.scale)
        taken = [one for set_by in used for one in fresh[set_by]]
        figures.append(_figure("fence", start.fence, belief, taken))
        # A scale is used as it stands: its offset and what is not known of it both count.
        stands = hypot(*(hypot(one.mean, one.deviation) for one in offsets)) / len(offsets) ** 0.5
        count = sum(len(one.readings) for one in taken)
        figures.append(LearnedFigure("scale", start.scale, stands, None, count, len(taken), len(taken)))
    else:
        offsets = ()
    pairs = [(one, first) for one in again if (first := by_name.get(one.readings[0].again))]
    if pairs:
        # Two settings set again to one share its cut; that is small beside their own, and left out.
        moved = [
            SettingMean(one.error - first.error, _mean(one, each).variance + _mean(first, each).variance)
            for one, first in pairs
        ]
        belief, _ = learn_between(start_from(start.fence_again), [moved], 0.0)
        figures.append(_figure("fence_again", start.fence_again, belief, [one for one, _ in pairs]))
    scales = (
        ScaleFigure(set_by, offset, len(fresh[set_by])) for set_by, offset in zip(used, offsets, strict=True)
    )
    return figures, tuple(scales)


def _height(start: Deviations, settings: _Settings) -> list[LearnedFigure]:
    """The cutter's height from setting to setting, and how flat the sheet lies from place to place."""
    every = settings.get(SetBy.HEIGHT, ())
    if not every:
        return []
    figures, each = _within("flatness", start.flatness, start.caliper, every)
    belief, _ = learn_between(start_from(start.height), [[_mean(one, each) for one in every]], 0.0)
    return [*figures, _figure("height", start.height, belief, every)]


def _alone(start: Deviations, set_by: SetBy, settings: _Settings) -> list[LearnedFigure]:
    """What has one error a setting and none from cut to cut."""
    every = settings.get(set_by, ())
    if not every:
        return []
    name = set_by.name.lower()
    before = getattr(start, name)
    means = [[_mean(one, start.caliper**2) for one in every]]
    belief, _ = learn_between(start_from(before), means, 0.0)
    return [_figure(name, before, belief, every)]


def _within(
    name: str, before: float, caliper: float, every: Sequence[_Setting]
) -> tuple[list[LearnedFigure], float]:
    """The deviation on one setting, where any has two readings; and the variance of one reading about it."""
    several = [one for one in every if len(one.readings) > 1]
    degrees = sum(len(one.readings) - 1 for one in several)
    squares = sum(one.squares for one in several)
    belief = learn_within(start_from(before), squares, degrees, caliper**2)
    figures = [_figure(name, before, belief, several, degrees)] if several else []
    return figures, belief.middle**2 + caliper**2


def _mean(setting: _Setting, each: float) -> SettingMean:
    return SettingMean(setting.error, each / len(setting.readings))


def _figure(
    name: str, before: float, belief: Belief, settings: Sequence[_Setting], counted: int | None = None
) -> LearnedFigure:
    count = sum(len(one.readings) for one in settings)
    return LearnedFigure(
        name, before, belief.to_use, belief.degrees, count, len(settings), counted or len(settings)
    )
