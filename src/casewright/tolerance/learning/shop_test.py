"""The shop's test: what to cut and what to read in a quarter of an hour, to find the shop's own deviations.

The cuts are common practice: strips from one setting and from several, five cuts on the sled turned each time
(what one cut is out of square, the fifth is out four times), dadoes packed again and again. How many of each
is our judgement, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...casework.job import Job
from ...lengths.length import Unit, show
from ...lengths.quantities import caliper
from ...shop.machines import DadoStack
from ...shop.measuring_tools import MeasuringTool
from .own_deviations import CutReading, SetBy


@dataclass(frozen=True, slots=True)
class TrialBlank:
    """One line to write a reading on: its name, what to read, and the number it was cut to (inches).

    `set_by` and `setting` say what the reading teaches; None for what teaches no deviation.
    """

    name: str
    words: str
    number: Fraction
    set_by: SetBy | None = None
    setting: str = ""
    again: str = ""


@dataclass(frozen=True)
class TrialCut:
    """One part of the test: what to do, what to mind, and the blanks it fills."""

    title: str
    minutes: int
    steps: tuple[str, ...]
    blanks: tuple[TrialBlank, ...]
    caution: str = ""

    def as_json(self) -> dict[str, object]:
        """The same as plain values, without the numbers it was worked out from."""
        blanks = [{"name": blank.name, "words": blank.words} for blank in self.blanks]
        return {
            "title": self.title,
            "minutes": self.minutes,
            "steps": self.steps,
            "blanks": blanks,
            "caution": self.caution,
        }


@dataclass(frozen=True)
class ShopTest:
    """The whole test for one job's shop; `material` is the sheet good whose thickness is read."""

    cuts: tuple[TrialCut, ...]
    material: str

    @property
    def blanks(self) -> dict[str, TrialBlank]:
        """Every blank by its name, in the order of the sheet."""
        return {blank.name: blank for cut in self.cuts for blank in cut.blanks}

    @property
    def minutes(self) -> int:
        return sum(cut.minutes for cut in self.cuts)


STRIPS = 5
DADOES = 3
PLACES = 3
NEAR_END, FAR_END, ALONG = "five-cut near end", "five-cut far end", "five-cut length"
THICKNESS = "thickness"


@dataclass(frozen=True)
class _Numbers:
    """What the pieces are cut to, in the shop's unit: all within a small caliper's reach but the panel.

    `across` is the width of a board that the sled's angle is told for.
    """

    strip: Fraction
    others: tuple[Fraction, ...]
    panel: Fraction
    fifth: Fraction
    across: Fraction


_NUMBERS = {
    Unit.INCH: _Numbers(
        Fraction(3),
        (Fraction(4), Fraction(5, 2), Fraction(5), Fraction(7, 2)),
        Fraction(15),
        Fraction(2),
        Fraction(24),
    ),
    Unit.MM: _Numbers(
        Fraction(75),
        (Fraction(100), Fraction(60), Fraction(125), Fraction(90)),
        Fraction(380),
        Fraction(50),
        Fraction(600),
    ),
}


def shop_test(job: Job) -> ShopTest:
    """The test for the shop of a job, in its unit and for the sheet that its cases are made of."""
    material = job.runs[0].cases[0].materials.case
    return ShopTest(
        (
            _one_setting(job),
            _several_settings(job),
            _five_cut(job),
            _dadoes(job, material),
            _depth(job, material),
            _thickness(job, material),
        ),
        material,
    )


def readings_of_test(
    test: ShopTest, values: Mapping[str, Fraction], numbers: Mapping[str, Fraction], name: str
) -> tuple[CutReading, ...]:
    """What the readings of a test, by blank, say of the machines.

    `numbers` is what each was cut to at the time; settings are those of the test `name`.
    """
    return tuple(
        CutReading(
            f"{name}: {blank.name}",
            blank.set_by,
            f"{name}: {blank.setting}",
            float(numbers[blank.name]),
            float(values[blank.name]),
            MeasuringTool.CALIPER,
            f"{name}: {blank.again}" if blank.again else "",
        )
        for blank in test.blanks.values()
        if blank.set_by is not None and blank.name in values
    )


@dataclass(frozen=True, slots=True)
class SledSquare:
    """How square the crosscut sled cuts: out by `over` (inches) across `span`, about a carcase's depth; above
    zero where the fifth strip is wider at its near end."""

    over: float
    span: Fraction

    @property
    def square(self) -> bool:
        """Whether it is out by less than a caliper shows."""
        return abs(self.over) < 0.001


def sled_square(values: Mapping[str, Fraction], unit: Unit) -> SledSquare | None:
    """What the five cuts say of the sled; None until all three readings are there.

    Four turns carry the error of four cuts into the fifth strip, so its ends differ by four times as much.
    """
    if not {NEAR_END, FAR_END, ALONG} <= set(values):
        return None
    span = _NUMBERS[unit].across * unit.length
    out = (values[NEAR_END] - values[FAR_END]) / (4 * values[ALONG])
    return SledSquare(float(out * span), span)


def thickness_readings(test: ShopTest, values: Mapping[str, Fraction]) -> tuple[Fraction, ...]:
    """The thicknesses read, in the order of the sheet."""
    return tuple(values[name] for name in test.blanks if name.startswith(THICKNESS) and name in values)


class _Writer:
    """Lengths of one job, written on its rule and in its unit."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.numbers = _NUMBERS[job.unit]

    def exact(self, figure: Fraction) -> Fraction:
        """A figure in the shop's unit, in inches."""
        return figure * self.job.unit.length

    def rule(self, length: Fraction) -> str:
        return show(length, self.job.mark, unit=True).plain


def _one_setting(job: Job) -> TrialCut:
    write = _Writer(job)
    number = write.exact(write.numbers.strip)
    blanks = tuple(
        TrialBlank(
            f"strip {index}", f"width of strip {index}, in the middle", number, SetBy.FENCE, "one setting"
        )
        for index in range(1, STRIPS + 1)
    )
    steps = (
        f"Set the fence to {write.rule(number)} by its scale, and lock it.",
        f"Rip {STRIPS} strips about a foot long from an offcut, the fence left as it is. Number them.",
    )
    caution = "Use the riving knife and a push stick; your saw's manual and local rules come first."
    return TrialCut(f"{STRIPS} strips at one setting", 3, steps, blanks, caution)


def _several_settings(job: Job) -> TrialCut:
    write = _Writer(job)
    blanks = [
        TrialBlank(
            f"strip {index}",
            f"width of strip {index}, cut at {write.rule(number)}",
            number,
            SetBy.FENCE,
            f"setting {index}",
        )
        for index, number in enumerate(map(write.exact, write.numbers.others), STRIPS + 1)
    ]
    last, first = f"strip {STRIPS + len(blanks) + 1}", write.exact(write.numbers.strip)
    words = f"width of {last}, cut with the fence set from strip 1"
    blanks.append(TrialBlank(last, words, first, SetBy.FENCE, "set again", "one setting"))
    numbers = ", ".join(write.rule(blank.number) for blank in blanks[:-1])
    steps = (
        f"Set the fence by its scale to {numbers} in turn, and rip one strip at each. Number them on.",
        f"Then set the fence from strip 1, held between fence and blade, and rip {last}.",
    )
    return TrialCut("Strips at several settings", 4, steps, tuple(blanks))


def _five_cut(job: Job) -> TrialCut:
    write = _Writer(job)
    panel, fifth = write.exact(write.numbers.panel), write.exact(write.numbers.fifth)
    steps = (
        f"Take an offcut about {write.rule(panel)} square. On the crosscut sled trim one edge.",
        "Turn the trimmed edge against the sled's fence and trim the next, until all four are cut.",
        f"Turn it once more and cut a strip {write.rule(fifth)} wide off the edge that was cut first.",
        "The near end of the strip is the one that lay at the sled's fence.",
    )
    blanks = (
        TrialBlank(NEAR_END, "width of the fifth strip at its near end", fifth),
        TrialBlank(FAR_END, "width of the fifth strip at its far end", fifth),
        TrialBlank(ALONG, "length of the fifth strip, by the rule", panel),
    )
    caution = "Keep hands out of the blade's path; let the blade stop before you take the strip."
    return TrialCut("Five cuts on the sled", 3, steps, blanks, caution)


def _dadoes(job: Job, material: str) -> TrialCut:
    width, chippers = _packed(job.shop.dado_stack, job.sheets[material].nominal)
    write = _Writer(job)
    packing = "".join(f" + {write.rule(one)}" for one in chippers)
    steps = (
        f"Pack the dado stack by numbers: both outside cutters{packing}, {caliper(width, job.unit)} wide.",
        f"Cut a dado in an offcut. Take the stack apart, pack it again, cut the next: {DADOES} dadoes.",
    )
    blanks = tuple(
        TrialBlank(f"dado {index}", f"width of dado {index}", width, SetBy.DADO_PACKED, f"dado {index}")
        for index in range(1, DADOES + 1)
    )
    caution = "Unplug the saw before you change the stack, and use a zero-clearance insert made for it."
    return TrialCut(f"{DADOES} test dadoes", 3, steps, blanks, caution)


def _packed(stack: DadoStack, nominal: Fraction) -> tuple[Fraction, tuple[Fraction, ...]]:
    """The width of both outside cutters with as many chippers as stay within a sheet's name."""
    width, used = 2 * stack.outside, []
    for chipper in sorted(stack.chippers, reverse=True):
        if width + chipper <= min(nominal, stack.greatest):
            width += chipper
            used.append(chipper)
    return width, tuple(used)


def _depth(job: Job, material: str) -> TrialCut:
    depth = job.sheets[material].nominal / 2
    write = _Writer(job)
    steps = (
        f"Set the stack's height to {write.rule(depth)} and cut one dado across a wide offcut.",
        "Read its depth with the caliper's rod near both ends and in the middle.",
    )
    where = ("at the near end", "in the middle", "at the far end")
    blanks = tuple(
        TrialBlank(f"depth {index}", f"depth {place}", depth, SetBy.HEIGHT, "height")
        for index, place in enumerate(where, 1)
    )
    return TrialCut("Depth at three places", 1, steps, blanks)


def _thickness(job: Job, material: str) -> TrialCut:
    sheet = job.sheets[material]
    blanks = tuple(
        TrialBlank(
            f"{THICKNESS} {which}-{place}", f"thickness of sheet {which}, place {place}", sheet.nominal
        )
        for which in (1, 2)
        for place in range(1, PLACES + 1)
    )
    steps = (f"Read two sheets of {sheet.name} at {PLACES} places each, an inch or more in from the edges.",)
    return TrialCut("Thickness at six places", 1, steps, blanks)
