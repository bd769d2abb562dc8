"""Where errors come from: what one setting, one cut, one sheet or one reading puts into a size.

Each cause is independent of every other and normal about zero; sizes made at one setting share that
setting's cause. How much each strays is the shop's own (`shop/deviations.py`), and the sheets'.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from math import sqrt

from ...casework.project import Project
from ...shop.deviations import SLED_SPAN, Deviations
from ...shop.materials import SheetGood
from ...shop.measuring_tools import MeasuringTool
from ...shop.thickness_levels import thickness_levels
from ..chains.made_sizes import HowMade, MadeSize, SizeKind
from .way_of_working import Method


class CauseKind(Enum):
    LOT = "how thick the sheets come"
    SHEET = "sheets that differ"
    WITHIN = "thickness within a sheet"
    FENCE = "setting the fence"
    SCALE = "the fence's scale"
    AGAIN = "setting a fence or jig again"
    CUT = "each cut on one setting"
    SLED = "the crosscut sled's angle"
    HAND_SAW = "the hand-held saw"
    DADO = "packing the dado stack"
    PIECE = "the piece that a channel is tried in"
    GROOVE = "the two passes of a groove"
    HEIGHT = "setting the cutter's height"
    BOW = "sheets that do not lie flat on the saw"
    RULE = "laying out by the rule"
    TAPE = "measuring the opening"
    READING = "measuring"
    FITTED = "cutting to fit"
    ROUNDING = "setting to the nearest mark"


@dataclass(frozen=True, slots=True)
class Cause:
    """One source of error: `what` tells two of a kind apart; `deviation` is in inches."""

    kind: CauseKind
    what: str
    deviation: float


def lot_cause(sheet: SheetGood, deviations: Deviations) -> Cause:
    """What all parts of a sheet good share: how far its mean lies from the thickness planned with."""
    return Cause(CauseKind.LOT, sheet.key, thickness_levels(sheet, deviations).lot)


def causes_of(made: MadeSize, project: Project, method: Method) -> tuple[Cause, ...]:
    """Everything that makes one size come out differently in a way of working, each with its full share."""
    deviations = project.job.shop.deviations
    setting = method.settings.get(made.name, made.setting)
    tried = made.name in method.tried
    stock = _stock(project.job.sheets[made.gauge], setting, deviations) if tried else ()
    if made.how is HowMade.SHEET:
        return _thickness(made, project, method)
    if made.how is HowMade.FENCE:
        return (*_fence(setting, deviations, method), Cause(CauseKind.CUT, made.name, deviations.cut))
    if made.how is HowMade.GAUGED:
        # The fence is set with the stock itself: what the sheet is off, the size is off with it.
        again = Cause(CauseKind.AGAIN, setting, deviations.fence_again)
        lot = lot_cause(project.job.sheets[made.gauge], deviations)
        return (again, Cause(CauseKind.CUT, made.name, deviations.cut), lot)
    if made.how is HowMade.TWO_PASSES:
        return (Cause(CauseKind.GROOVE, setting, deviations.groove), *stock)
    if made.how is HowMade.HAND_SAW:
        return (Cause(CauseKind.HAND_SAW, setting, deviations.hand_saw),)
    if made.how is HowMade.STACK:
        packed = deviations.dado_tried if tried else deviations.dado_packed
        return (Cause(CauseKind.DADO, setting, packed), *stock)
    if made.how is HowMade.HEIGHT:
        height = deviations.depth_gauge if setting in method.proved else deviations.height
        return (
            Cause(CauseKind.HEIGHT, setting, height),
            Cause(CauseKind.BOW, made.name, deviations.flatness),
        )
    if made.how is HowMade.TAPE:
        return (Cause(CauseKind.TAPE, made.name, deviations.tape),)
    laid_out = Cause(CauseKind.RULE, setting, deviations.rule)
    if made.kind is not SizeKind.PIN:
        return (laid_out,)
    # A jig or a story stick carries one distance to every row; setting it to the part's end errs anew.
    return (laid_out, Cause(CauseKind.AGAIN, made.name, deviations.fence_again))


def sled_angle(made: MadeSize, project: Project, method: Method) -> tuple[Cause, float] | None:
    """The sled's angle, one for all that is cut on it, and how much of it is in a size; None for a size that
    is cut without the sled.

    A part is turned end for end with the same edge against the sled, so both ends are out by the angle over
    half the width beside the middle: at the front edge, where it is looked at, it is longer or shorter by the
    angle over its width. Parts of one width err alike, and nothing opens between them.
    """
    if method.settings.get(made.name, made.setting) not in method.stops or made.how is not HowMade.FENCE:
        return None
    part = project.parts[made.part]
    across = part.width if made.kind is SizeKind.LENGTH else part.length
    return (
        Cause(CauseKind.SLED, "sled", project.job.shop.deviations.sled),
        float(project.sizes.of(across)) / SLED_SPAN,
    )


OF_THREE = 0.748
"""The greatest of three places varies by so many deviations of one: the root of 0.5595, the variance of the
greatest of three normal values (order statistics; from memory, and worked out in the tests)."""


def _stock(sheet: SheetGood, setting: str, deviations: Deviations) -> tuple[Cause, ...]:
    """What is tried in the stock is as wide as the piece tried in it is thick, whatever the number says."""
    places = thickness_levels(sheet, deviations).places
    return lot_cause(sheet, deviations), Cause(CauseKind.PIECE, setting, OF_THREE * places)


def _fence(setting: str, deviations: Deviations, method: Method) -> tuple[Cause, ...]:
    """A fence set by its scale; a number that was set before is set again from a piece of then."""
    first = method.again.get(setting, setting)
    causes = (
        Cause(CauseKind.SCALE, "stop" if setting in method.stops else "fence", deviations.scale),
        Cause(CauseKind.FENCE, first, deviations.fence),
    )
    return causes if first == setting else (*causes, Cause(CauseKind.AGAIN, setting, deviations.fence_again))


def _thickness(made: MadeSize, project: Project, method: Method) -> tuple[Cause, ...]:
    sheet = project.job.sheets[made.material]
    levels = thickness_levels(sheet, project.job.shop.deviations)
    return (
        Cause(CauseKind.LOT, sheet.key, levels.lot),
        Cause(CauseKind.SHEET, method.sheets.get(made.part, f"the sheet of {made.part}"), levels.sheets),
        Cause(CauseKind.WITHIN, made.part, levels.places),
    )


def tool_for(made: MadeSize | None, inches: float) -> MeasuringTool:
    """The tool a maker would measure a size with: a caliper for thicknesses, channels and depths."""
    if made is None or made.kind in (SizeKind.THICKNESS, SizeKind.CHANNEL, SizeKind.DEPTH):
        return MeasuringTool.CALIPER if inches < 6 else MeasuringTool.RULE
    return MeasuringTool.TAPE if made.kind is SizeKind.OPENING else MeasuringTool.RULE


Errors = Mapping[Cause, float]  # how much of each cause is in a size: inches per inch


def deviation(errors: Errors) -> float:
    """The standard deviation of a sum of causes."""
    return sqrt(sum((amount * cause.deviation) ** 2 for cause, amount in errors.items()))


def add(found: dict[Cause, float], errors: Errors, times: float) -> None:
    """Add `times` the errors of one size to those found so far."""
    for cause, amount in errors.items():
        found[cause] = found.get(cause, 0.0) + times * amount
