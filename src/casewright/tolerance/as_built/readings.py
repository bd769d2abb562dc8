"""The job as built: every reading ever taken, which of them count, and what has been cut.

Readings are only ever added. A size read twice counts as the mean while its readings agree;
when they disagree by more than their tools explain, both are shown, and the first goes on
counting until the maker says which is right.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import hypot

from ...casework.project import Project
from ...findings import Finding, Weight
from ...lengths.length import show
from ...lengths.quantities import caliper
from ...shop.measuring_tools import MeasuringTool
from ...shop.thickness_levels import thickness_levels
from ..chains.made_sizes import MadeSize, SizeKind
from ..outcomes.gap_spread import Fit
from .square import square_report

EXPLAINED = 4.0  # deviations: beyond these no error of cutting or reading explains a size


@dataclass(frozen=True, slots=True)
class Reading:
    """One measurement of the size `name` of the ledger, or of a case's diagonal (`B1.rising`)."""

    number: int
    name: str
    value: Fraction
    tool: MeasuringTool
    bench: str = ""


@dataclass(frozen=True)
class AsBuilt:
    """What is known of the finished parts. `chosen` names the reading that counts where they
    disagree; `cut` keeps the number each finished size was cut to, by the plan of that moment."""

    readings: tuple[Reading, ...] = ()
    chosen: Mapping[str, int] = field(default_factory=dict)
    cut: Mapping[str, Fraction] = field(default_factory=dict)

    def read(
        self, name: str, value: Fraction, tool: MeasuringTool = MeasuringTool.RULE, bench: str = ""
    ) -> AsBuilt:
        """One more reading; none is overwritten."""
        reading = Reading(len(self.readings) + 1, name, value, tool, bench)
        return replace(self, readings=(*self.readings, reading))

    def choose(self, number: int) -> AsBuilt:
        """Let the reading of this number count for its size. KeyError when there is none."""
        for reading in self.readings:
            if reading.number == number:
                return replace(self, chosen={**self.chosen, reading.name: number})
        raise KeyError(number)

    def cut_now(self, fit: Fit, parts: Iterable[str]) -> AsBuilt:
        """These parts have been cut: their sizes stay what the plan now says, whatever changes later."""
        marks = set(parts)
        cut = dict(self.cut)
        for made in fit.made.values():
            if made.part in marks and is_cut(made) and made.name not in cut:
                cut[made.name] = saw_number(fit.project, made)
        return replace(self, cut=cut)

    def without(self, names: Collection[str]) -> AsBuilt:
        """The same as if these sizes had never been read."""
        kept = tuple(reading for reading in self.readings if reading.name not in names)
        chosen = {name: number for name, number in self.chosen.items() if name not in names}
        return replace(self, readings=kept, chosen=chosen)

    def of(self, name: str) -> tuple[Reading, ...]:
        """Every reading of one size, in the order taken."""
        return tuple(reading for reading in self.readings if reading.name == name)

    def names(self) -> tuple[str, ...]:
        """Every size that has been read."""
        return tuple(dict.fromkeys(reading.name for reading in self.readings))

    def counted(
        self, name: str, deviation_of: Mapping[MeasuringTool, float]
    ) -> tuple[Fraction, float] | None:
        """The value that counts for a size and its deviation; None where it was not read."""
        readings = self.of(name)
        if not readings:
            return None
        if name in self.chosen:
            chosen = next(reading for reading in readings if reading.number == self.chosen[name])
            return chosen.value, deviation_of[chosen.tool]
        if disagreeing(readings, deviation_of):
            return readings[0].value, deviation_of[readings[0].tool]
        mean = sum((reading.value for reading in readings), Fraction(0)) / len(readings)
        each = hypot(*(deviation_of[reading.tool] for reading in readings)) / len(readings)
        return mean, each


def is_cut(made: MadeSize) -> bool:
    """Whether a saw gives a size; thicknesses, openings and laid-out lines are not cut."""
    return made.kind not in (SizeKind.THICKNESS, SizeKind.OPENING, SizeKind.LINE)


def saw_number(project: Project, made: MadeSize) -> Fraction:
    """The number a saw is set to for a size, on the rule's mark where a rule sets it."""
    return project.set_to(made.name)


def disagreeing(readings: tuple[Reading, ...], deviation_of: Mapping[MeasuringTool, float]) -> bool:
    """Whether two readings of a size differ by more than their tools explain."""
    return any(
        abs(float(a.value - b.value)) > EXPLAINED * hypot(deviation_of[a.tool], deviation_of[b.tool])
        for index, a in enumerate(readings)
        for b in readings[index + 1 :]
    )


def reading_deviations(project: Project, name: str) -> dict[MeasuringTool, float]:
    """The deviation of one reading of a size by each tool; a sheet also varies from place to place."""
    sheet = project.sheet_called(name)
    deviations = project.job.shop.deviations
    levels = thickness_levels(sheet, deviations) if sheet else None
    place = hypot(levels.sheets, levels.places) if levels else 0.0
    return {tool: hypot(deviations.reading(tool), place) for tool in MeasuringTool}


@dataclass(frozen=True)
class AsBuiltFit:
    """The fit with every size known from the shop, and findings about the readings. `doubted` are the sizes
    whose readings disagree or are further off than any error explains."""

    as_built: AsBuilt
    fit: Fit
    findings: tuple[Finding, ...]
    doubted: tuple[str, ...]


def fit_as_built(fit: Fit, as_built: AsBuilt) -> AsBuiltFit:
    """The plan's fit with what is known from the shop put in.

    What is cut keeps the size it was cut to, what is measured the size it has, and everything
    still uncut is derived again. A reading that no error explains still counts, and comes
    with a finding that asks whether it was misread or miscut.
    """
    known = dict(fit.project.sizes.values)
    diagonals = {name for case in fit.project.cases.values() for name, _ in case.diagonals}
    facts: dict[str, tuple[Fraction, float | None]] = {
        name: (value, None) for name, value in as_built.cut.items()
    }
    findings: list[Finding] = []
    for name in as_built.names():
        if name not in known:
            if name not in diagonals:
                findings.append(_unknown(name))
            continue
        deviation_of = reading_deviations(fit.project, name)
        findings.extend(_contradiction(fit.project, as_built, name, deviation_of))
        counted = as_built.counted(name, deviation_of)
        assert counted is not None
        facts[name] = counted
    # Asked against the plan as the cut sizes leave it, before the readings say otherwise.
    frozen = fit.given({name: (value, None) for name, value in as_built.cut.items()})
    for name in as_built.names():
        if name in facts:
            findings.extend(_unexplained(frozen, as_built, name, facts[name]))
    built = fit.given(facts)
    doubted = tuple(dict.fromkeys(found.place for found in findings if found.place in facts))
    return AsBuiltFit(as_built, built, (*findings, *_out_of_square(built, as_built)), doubted)


def _out_of_square(built: Fit, as_built: AsBuilt) -> Iterable[Finding]:
    """Cases whose diagonals, read last, show that they lean."""
    for case, drawn in built.project.cases.items():
        rising, falling = as_built.of(drawn.rising.name), as_built.of(drawn.falling.name)
        if not rising or not falling:
            continue
        try:
            found = square_report(built.project, case, rising[-1].value, falling[-1].value)
        except ValueError as fault:
            fix = "Measure both diagonals again, between the outside corners of the sides."
            yield Finding("diagonals", case, f"{fault}.", fix)
            continue
        if found.out_of_square:
            yield Finding(
                "out-of-square", case, " ".join(found.sentences[:2]), found.sentences[2], Weight.WARN
            )


def _unknown(name: str) -> Finding:
    return Finding(
        "no-such-size",
        name,
        "this is not a size of this job.",
        "Enter the reading for one of its parts, sheets or openings.",
    )


def _length(project: Project, value: Fraction) -> str:
    return show(value, project.rule, unit=True).plain


def _contradiction(
    project: Project, as_built: AsBuilt, name: str, deviation_of: Mapping[MeasuringTool, float]
) -> Iterable[Finding]:
    readings = as_built.of(name)
    if name in as_built.chosen or not disagreeing(readings, deviation_of):
        return
    listed = ", ".join(
        f"{_length(project, reading.value)} by {reading.tool.value} (reading {reading.number})"
        for reading in readings
    )
    yield Finding(
        "readings-disagree",
        name,
        f"{project.sizes.ledger[name].words} has readings that disagree: {listed}.",
        "Measure once more, or undo the wrong reading; until then the first one counts.",
        Weight.WARN,
    )


def _unexplained(
    fit: Fit, as_built: AsBuilt, name: str, fact: tuple[Fraction, float | None]
) -> Iterable[Finding]:
    """A reading further from what was expected than every error together explains."""
    model = fit.error_model()
    value, reading = fact
    expected = model.mean(name)
    own = hypot(*(share * cause.deviation for cause, share in model.error(name).items()))
    explained = EXPLAINED * hypot(own, reading or 0.0)
    off = value - expected
    if name not in fit.made and fit.project.sheet_called(name) is None:
        return
    project = fit.project
    made = fit.made.get(name)
    by_caliper = made is None or made.kind is SizeKind.THICKNESS
    # What is read by a rule is not told nearer than to its mark; a thickness is.
    if abs(float(off)) <= max(explained, 0.0 if by_caliper else float(project.job.mark.step)):
        return
    ways = ("more", "less")
    if by_caliper:
        ways = ("thicker", "thinner")
    elif made is not None and made.kind is SizeKind.LENGTH:
        ways = ("longer", "shorter")
    elif made is not None and made.kind is SizeKind.WIDTH:
        ways = ("wider", "narrower")
    errs = "the sheet" if by_caliper else "the saw"
    measured, more, planned, most = (
        caliper(one, project.job.unit) if by_caliper else _length(project, Fraction(one))
        for one in (value, abs(off), expected, explained)
    )
    right = "mark the part as spoiled and see how to put it right"
    if made is None:
        right = "that sheet wants a material of its own"
    yield Finding(
        "misread-or-miscut",
        name,
        f"{project.sizes.ledger[name].words} measures {measured}, {more} {ways[off < 0]} than the {planned} "
        f"planned; {errs} and the reading together explain {most} at most.{_likely(fit, name, value, off)}",
        f"Measure again. If the reading is right, {right}.",
        Weight.WARN,
    )


def _likely(fit: Fit, name: str, value: Fraction, off: Fraction) -> str:
    """The usual slips that would give just this number."""
    made = fit.made.get(name)
    step = fit.project.job.mark.step
    if abs(abs(off) - 1) <= step:
        return " It is out by just an inch: was the rule held at its 1 in line?"
    if made is None or made.kind not in (SizeKind.LENGTH, SizeKind.WIDTH):
        return ""
    part = fit.project.parts[made.part]
    other = fit.project.sizes.of(part.width if made.kind is SizeKind.LENGTH else part.length)
    if abs(value - other) <= step:
        return " That is its other dimension: were length and width swapped?"
    for twin in fit.made.values():
        same = twin.kind is made.kind and twin.material == made.material and twin.part != made.part
        if same and abs(fit.project.sizes.of(twin.name) - value) <= step:
            return f" That is the {twin.kind.value} of {twin.part}: were the two parts mixed up?"
    return ""
