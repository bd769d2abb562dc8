"""Wall cases that nothing would hold, and joints that leave too little of a panel."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from ...findings import Finding, Weight
from ...lengths.in_a_sentence import listed
from ...lengths.told_lengths import told_at_most
from ...sizes.ledger import Sizes
from ..build.case import Case
from ..hung import hangs_on_wall
from ..job import BackKind, CaseSpec, Job, Run, ToeKind
from ..parts.features.channel import Channel, ChannelKind
from ..parts.part import DRAWER_BOX
from .pin_checks import printed_length

NARROWEST_STRIP = Fraction(2)
"""Inches. A mounting strip takes a screw into every stud with an inch of wood above and below it; makers use
3 to 4 in. Common practice, no source."""

THINNEST_HOLD = Fraction(7, 16)
"""Inches: the thinnest strip or back that a case is hung by, 1/2 in plywood as it measures. A thin back
tears out. Common practice, no source."""

HAIR = Fraction(1, 32)
"""Inches by which a joint may pass the middle of its panel unsaid: a 3/8 in rabbet in a 3/4 in sheet that
measures 23/32 in is usual."""


def check_hanging(job: Job) -> Iterator[Finding]:
    """A finding for each run with hung cases that have nothing sound to be screwed to the wall by, or that
    would hang with a toe kick."""
    for run in job.runs:
        cases = [spec for spec in run.cases if hangs_on_wall(run, spec)]
        yield from _bare(
            run, [spec for spec in cases if _thin_back(job, spec) and not spec.construction.strips]
        )
        yield from _narrow(job, run, [spec for spec in cases if _weak_strips(job, spec)])
        kicks = [spec for spec in cases if run.lift > 0 and spec.construction.toe is not ToeKind.NONE]
        if kicks:
            hangs = "hangs" if len(kicks) == 1 else "hang"
            text = f"{listed(spec.mark for spec in kicks)} {hangs} above the floor with a toe kick below."
            fix = 'Set toe = "none", or set lift to 0.'
            yield Finding("toe-kick-hung", f"cases.{kicks[0].mark}.toe", text, fix, Weight.WARN)


def _thin_back(job: Job, spec: CaseSpec) -> bool:
    none = spec.construction.back is BackKind.NONE
    return none or job.sheets[spec.materials.back].thickness < THINNEST_HOLD


def _weak_strips(job: Job, spec: CaseSpec) -> bool:
    made = spec.construction
    thin = job.sheets[spec.materials.strip].thickness < THINNEST_HOLD
    return bool(made.strips) and _thin_back(job, spec) and (made.strip_width < NARROWEST_STRIP or thin)


def _bare(run: Run, cases: Sequence[CaseSpec]) -> Iterator[Finding]:
    if cases:
        back = all(spec.construction.back is BackKind.NONE for spec in cases)
        lack = "no back and no mounting strip" if back else "no mounting strip, and a back too thin to hold"
        text = f"{listed(spec.mark for spec in cases)} {_have(cases)} {lack}: nothing to hang by."
        fix = "Give it strips = 2, or a back of 1/2 in (12 mm) or more."
        yield Finding("nothing-to-hang-by", f"cases.{cases[0].mark}.strips", text, fix, Weight.WARN)


def _narrow(job: Job, run: Run, cases: Sequence[CaseSpec]) -> Iterator[Finding]:
    if not cases:
        return
    narrow = min(spec.construction.strip_width for spec in cases)
    thin = min(job.sheets[spec.materials.strip].thickness for spec in cases)
    hung = f"{listed(spec.mark for spec in cases)} would hang by strips only"
    if narrow < NARROWEST_STRIP:
        text = f"{hung} {printed_length(job, narrow)} wide: too narrow for a screw with wood around it."
        fix = "Make strip_width 3 to 4 in (75 to 100 mm)."
        yield Finding("weak-strips", f"cases.{cases[0].mark}.strip_width", text, fix, Weight.WARN)
    else:
        text = f"{hung} {printed_length(job, thin)} thick: a screw tears out of them."
        fix = "Make the strips of a sheet 1/2 in (12 mm) thick or more."
        yield Finding("weak-strips", f"cases.{cases[0].mark}.made_of.strip", text, fix, Weight.WARN)


def _have(cases: Sequence[CaseSpec]) -> str:
    return "has" if len(cases) == 1 else "have"


def check_strips(job: Job, case: Case, sizes: Sizes) -> Iterator[Finding]:
    """A finding where the mounting strips of a case are wider together than it is high inside."""
    made = case.spec.construction
    room = sizes.of(case.clear)
    if made.strips > 1 and made.strips * made.strip_width > room:
        text = (
            f"{made.strips} mounting strips {printed_length(job, made.strip_width)} wide do not fit in "
            f"{printed_length(job, room)} of clear height."
        )
        fix = "Make strip_width smaller, or ask for fewer strips."
        yield Finding("strips-too-wide", f"cases.{case.mark}.strip_width", text, fix)


def check_joint_depths(job: Job, cases: Iterable[Case], sizes: Sizes) -> Iterator[Finding]:
    """A finding for each depth of a joint that takes more than half of the panel it is cut into."""
    seen: dict[tuple[str, str, Fraction], list[CaseSpec]] = {}
    for case in cases:
        for part in case.parts:
            sheet, thick = job.sheets[part.material], sizes.of(part.thickness)
            # The tongues of drawer boxes are cut as deep as they are: a check of their own sees to that.
            for channel in () if part.role in DRAWER_BOX else part.channels:
                depth = sizes.of(channel.depth)
                # What is as deep as the panel is thick is refused, and said of the part.
                if not channel.kind.on_sled and max(sheet.nominal, thick) / 2 + HAIR < depth < thick:
                    found = seen.setdefault((_depth_of(channel), sheet.key, depth), [])
                    found += [] if case.spec in found else [case.spec]
    for (name, key, depth), specs in seen.items():
        sheet = job.sheets[key]
        text = (
            f"{name.removesuffix('_depth')}s {printed_length(job, depth)} deep take more than half of the "
            f"{sheet.name}, {printed_length(job, sheet.thickness)} thick, "
            f"in {listed(spec.mark for spec in specs)}."
        )
        fix = f"Make {name} {told_at_most(sheet.nominal / 2, job.mark)} or less; a third is usual."
        place = f"cases.{specs[0].mark}.{name}" if name in specs[0].chosen else name
        yield Finding("deep-joint", place, text, fix, Weight.WARN)


def _depth_of(channel: Channel) -> str:
    """The entry of the construction that a channel's depth comes from."""
    if channel.kind is ChannelKind.RABBET:
        return "rabbet_depth"
    return "groove_depth" if channel.takes_back else "dado_depth"
