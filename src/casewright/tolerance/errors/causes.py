"""Where errors come from: what one setting, one cut, one sheet or one reading puts into a size.

Each cause is independent of every other and normal about zero; sizes made at one setting
share that setting's cause. Deviations come from the shop and its sheets. The few that a shop's
description does not hold are in `Habits`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from math import sqrt

from ...casework.project import Project
from ...shop.machines import DadoStack, Shop
from ...shop.materials import SheetGood
from ...shop.measuring_tools import MeasuringTool
from ..chains.made_sizes import HowMade, MadeSize, SizeKind


class CauseKind(Enum):
    SHEET = "thickness of the sheets"
    WITHIN = "thickness within a sheet"
    FENCE = "setting the fence"
    CUT = "each cut on one setting"
    HAND_SAW = "the hand-held saw"
    STACK = "packing the dado stack"
    HEIGHT = "setting the cutter's height"
    BOW = "sheets that do not lie flat on the saw"
    RULE = "laying out by the rule"
    TAPE = "measuring the opening"
    READING = "measuring"
    ROUNDING = "setting to the nearest mark"


@dataclass(frozen=True, slots=True)
class Cause:
    """One source of error: `what` tells two of a kind apart; `deviation` is in inches."""

    kind: CauseKind
    what: str
    deviation: float


@dataclass(frozen=True, slots=True)
class Habits:
    """Standard deviations (inches) of what the shop's description leaves out.

    All are common practice without a source; a maker who knows better can set other values. `bow` is
    how much a channel's depth varies where a sheet does not lie flat, `caliper`, `depth_gauge` and
    `tape` are readings by those tools.
    """

    bow: float = 0.004
    caliper: float = 0.001
    depth_gauge: float = 0.002
    tape: float = 1 / 32

    def reading(self, tool: MeasuringTool, shop: Shop) -> float:
        """The deviation of one reading by `tool`."""
        return {
            MeasuringTool.RULE: shop.rule,
            MeasuringTool.TAPE: self.tape,
            MeasuringTool.CALIPER: self.caliper,
            MeasuringTool.DEPTH_GAUGE: self.depth_gauge,
        }[tool]


def sheet_causes(sheet: SheetGood, part: str, habits: Habits) -> tuple[Cause, Cause]:
    """What all parts of a sheet good share, and what one part adds.

    With readings, the shared error is that of their mean and the part's is their spread.
    Without, the usual spread is shared out evenly between sheet and place in the sheet, as
    ANSI A208.2 allows the same for the average of a panel as for the variation within it.
    """
    if sheet.readings:
        number = len(sheet.readings)
        shared = sqrt(sheet.deviation**2 / number + habits.caliper**2 / number)
        within = sheet.deviation if number > 1 else sheet.deviation / sqrt(2)
    else:
        shared = within = sheet.deviation / sqrt(2)
    return (
        Cause(CauseKind.SHEET, sheet.key, shared),
        Cause(CauseKind.WITHIN, part, within),
    )


def packing_deviation(stack: DadoStack) -> float:
    """How far a packed width lies from the intended one, at random within the finest shim's step."""
    step = min((*stack.shims, *stack.chippers), default=stack.outside)
    return float(step) / sqrt(12)


def causes_of(made: MadeSize, project: Project, habits: Habits, setting: str) -> tuple[Cause, ...]:
    """Everything that makes one size come out differently, when it is made at `setting`."""
    shop = project.job.shop
    saw = shop.table_saw
    each = Cause(CauseKind.CUT, made.name, saw.cut)
    if made.how is HowMade.SHEET:
        return sheet_causes(project.job.sheets[made.material], made.part, habits)
    if made.how is HowMade.FENCE:
        return (Cause(CauseKind.FENCE, setting, saw.setting), each)
    if made.how is HowMade.TWO_PASSES:
        return (Cause(CauseKind.FENCE, setting, saw.setting), each)
    if made.how is HowMade.HAND_SAW:
        return (Cause(CauseKind.HAND_SAW, setting, shop.hand_saw.repeatability),)
    if made.how is HowMade.STACK:
        return (Cause(CauseKind.STACK, setting, packing_deviation(shop.dado_stack)),)
    if made.how is HowMade.HEIGHT:
        return (
            Cause(CauseKind.HEIGHT, setting, shop.dado_stack.depth_setting),
            Cause(CauseKind.BOW, made.name, habits.bow),
        )
    if made.how is HowMade.TAPE:
        return (Cause(CauseKind.TAPE, made.name, habits.tape),)
    return (Cause(CauseKind.RULE, setting, shop.rule),)


def tool_for(made: MadeSize | None, inches: float) -> MeasuringTool:
    """The tool a maker would measure a size with: a caliper for thicknesses, channels and depths."""
    if made is None or made.kind in (SizeKind.THICKNESS, SizeKind.CHANNEL, SizeKind.DEPTH):
        return MeasuringTool.CALIPER if inches < 6 else MeasuringTool.RULE
    return MeasuringTool.TAPE if made.kind is SizeKind.OPENING else MeasuringTool.RULE


Errors = Mapping[Cause, float]  # how much of each cause is in a size: inches per inch
