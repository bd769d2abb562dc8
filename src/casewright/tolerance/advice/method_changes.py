"""Changes to the way of working that could improve a gap, found from the sizes in that gap.

A change is made in every case that has the same sizes, as a maker would do it.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from enum import Enum
from fractions import Fraction

from ...casework.parts.part import Role
from ...casework.size_names import read_name, thickness_of
from ...shop.measuring_tools import MeasuringTool
from ...sizes.affine import Affine
from ...sizes.ledger import Given
from ..chains.made_sizes import BY_RULE, HowMade, SizeKind, far_edge_name
from ..errors.causes import CauseKind, tool_for
from ..errors.error_model import ErrorModel
from ..errors.way_of_working import FittedSize, Method
from ..outcomes.gap_spread import Fit, GapSpread


class ChangeKind(Enum):
    """What kind of change it is."""

    ONE_SETTING = "cut on one setting"
    MEASURE_SHEET = "measure the sheet"
    FIT = "fit to a direct measurement"
    OTHER_EDGE = "measure from the other edge"
    TEST_PIECE = "prove on a test piece"
    PLAY = "add play"
    OTHER_MARK = "set to the mark on the other side"


@dataclass(frozen=True)
class Change:
    """One change of the way of working, or of an input of the job.

    `sizes` are the sizes it changes, `method` the whole way of working with it, `inputs` the
    job's inputs it alters. `pattern` is the same for the same change in another case.
    """

    kind: ChangeKind
    sizes: tuple[str, ...]
    pattern: str
    method: Method
    inputs: Mapping[str, Fraction] = field(default_factory=dict)
    tool: MeasuringTool | None = None


SIDES = (Role.LEFT_SIDE, Role.RIGHT_SIDE)


def changes_for(fit: Fit, risky: Iterable[GapSpread]) -> tuple[Change, ...]:
    """Every change that touches one of the gaps, the same change in several cases made one."""
    found: dict[tuple[ChangeKind, str], list[Change]] = defaultdict(list)
    model = fit.error_model()
    for spread in risky:
        for change in _for_gap(fit, model, spread):
            among = found[change.kind, change.pattern]
            if change not in among:
                among.append(change)
    return tuple(_together(among) for among in found.values())


def _for_gap(fit: Fit, model: ErrorModel, spread: GapSpread) -> Iterator[Change]:
    names = [name for name in model.form(spread.gap).names if name not in fit.facts]
    yield from _one_setting(fit, model, spread, names)
    yield from _measured_sheets(fit, spread)
    yield from _fitted(fit, spread, names)
    yield from _other_edge(fit, model, names)
    yield from _proved(fit, spread)
    yield from _play(fit, spread)
    yield from _other_mark(fit, model, spread, names)


def _one_setting(fit: Fit, model: ErrorModel, spread: GapSpread, names: list[str]) -> Iterator[Change]:
    """Sizes of one gap that are made alike to one number, but not at one setting."""
    alike: dict[tuple[HowMade, SizeKind, Fraction], list[str]] = defaultdict(list)
    for name in names:
        made = fit.made.get(name)
        if made and made.how in BY_RULE and made.how is not HowMade.HAND_SAW:
            alike[made.how, made.kind, model.mean(name)].append(name)
    form = model.form(spread.gap)
    for (_, _, number), same in alike.items():
        settings = {fit.setting(name) for name in same}
        opposed = len({form.coefficient(name) > 0 for name in same}) == 2
        if len(settings) < 2 or not opposed:
            continue
        # All that was cut on any of those settings moves to the new one with them.
        joined = " and ".join(sorted(settings))
        every = {name: joined for setting in settings for name in fit.settings[setting]}
        yield Change(
            ChangeKind.ONE_SETTING,
            tuple(every),
            f"{number} {_pattern(fit, same)}",
            fit.method.with_settings(every),
        )


def _measured_sheets(fit: Fit, spread: GapSpread) -> Iterator[Change]:
    for cause, _ in spread.shares:
        name = thickness_of(cause.what).name
        if cause.kind is CauseKind.LOT and name not in fit.method.measured:
            method = fit.method.with_measured(name, MeasuringTool.CALIPER)
            yield Change(ChangeKind.MEASURE_SHEET, (name,), name, method, tool=MeasuringTool.CALIPER)


def last_made(fit: Fit, spread: GapSpread, names: Iterable[str]) -> str | None:
    """The size of a gap that can best wait for a direct measurement.

    The length or width of the part that goes in last; where neither is in the gap, the place
    of a channel or of a row of holes, marked on the part that is worked last.
    """
    order = {mark: place for place, mark in enumerate(fit.project.parts)}
    sizes: list[str] = []
    marks: list[str] = []
    for name in names:
        made = fit.made.get(name)
        if made is None or name in fit.method.fitted or name in fit.method.moved:
            continue
        role = fit.project.parts[made.part].role if made.part in order else None
        if made.kind in (SizeKind.LENGTH, SizeKind.WIDTH):
            if made.part in spread.gap.parts and role not in (*SIDES, Role.BOTTOM):
                sizes.append(name)
        elif made.kind in (SizeKind.PLACE, SizeKind.PIN) and role not in SIDES:
            marks.append(name)
    return max(sizes or marks, key=lambda name: order[fit.made[name].part], default=None)


def _fitted(fit: Fit, spread: GapSpread, names: list[str]) -> Iterator[Change]:
    name = last_made(fit, spread, names)
    if name is None:
        return
    made = fit.made[name]
    tool = tool_for(made, float(fit.project.sizes.of(name)))
    method = fit.method.with_fitted(name, FittedSize(spread.gap.name, tool))
    pattern = f"{_pattern(fit, [name])} {spread.gap.name.replace(spread.gap.place, '')}"
    yield Change(ChangeKind.FIT, (name,), pattern, method, tool=tool)


def _other_edge(fit: Fit, model: ErrorModel, names: list[str]) -> Iterator[Change]:
    """Channels of one name, laid off from their other edge; where that is one number, at one setting."""
    channels: dict[str, list[str]] = defaultdict(list)
    for name in names:
        made = fit.made.get(name)
        if made and made.kind is SizeKind.PLACE and name not in fit.method.moved:
            channels[made.feature].append(name)
    for feature, places in channels.items():
        settings = {fit.setting(name) for name in places}
        every = [
            name
            for setting in sorted(settings)
            for name in fit.settings[setting]
            if fit.made[name].feature == feature
        ]
        method = fit.method
        for name in every:
            method = method.with_moved(name)
        moved = fit.error_model(method)
        numbers: dict[Fraction, list[str]] = defaultdict(list)
        for name in every:
            numbers[moved.mean(far_edge_name(name))].append(name)
        for same in numbers.values():
            joined = " and ".join(sorted({fit.setting(name) for name in same})) + " from the far edge"
            method = method.with_settings({far_edge_name(name): joined for name in same})
        yield Change(ChangeKind.OTHER_EDGE, tuple(every), _pattern(fit, places), method)


def _proved(fit: Fit, spread: GapSpread) -> Iterator[Change]:
    """Cutters and heights whose setting a test piece and a caliper would settle."""
    for cause, _ in spread.shares:
        sizes = fit.settings.get(cause.what, ())
        if (
            not sizes
            or cause.what in fit.method.proved
            or cause.deviation <= fit.project.job.shop.deviations.caliper
        ):
            continue
        if fit.made[sizes[0]].kind in (SizeKind.CHANNEL, SizeKind.DEPTH):
            yield Change(
                ChangeKind.TEST_PIECE, sizes, cause.what, fit.method.with_proved(frozenset((cause.what,)))
            )


def _play(fit: Fit, spread: GapSpread) -> Iterator[Change]:
    """Plays the job states that this gap's sizes or its range depend on, by half a mark and more."""
    ledger = fit.project.sizes.ledger
    known = [(name, k) for name, k in spread.gap.form.terms if name in ledger]
    limits = (name for form in spread.gap.limits.forms for name in form.names)
    names = dict.fromkeys((*ledger.expand(Affine(0, known)).names, *limits))
    stated = [name for name in names if isinstance(ledger[name].definition, Given)]
    wider = [name for name in stated if read_name(name).is_play]
    half = fit.project.job.mark.step / 2
    steps = [(name, halves) for name in wider for halves in (1, 2, 4)]
    if not spread.gap.parts:  # a run against its opening: its widest case may give way
        cases = {case.width.name for case in fit.project.cases.values()}
        widths = [name for name in stated if name in cases]
        widest = max(widths, key=fit.project.sizes.of, default=None)
        steps += [(widest, -halves) for halves in (2, 4, 8) if widest]
    for name, halves in steps:
        value = fit.project.sizes.of(name) + halves * half
        yield Change(ChangeKind.PLAY, (name,), f"{name} {halves}", fit.method, {name: value})


def _other_mark(fit: Fit, model: ErrorModel, spread: GapSpread, names: list[str]) -> Iterator[Change]:
    """Sizes between two marks, set to the other one, where rounding has shifted the gap's mean."""
    step = fit.project.job.mark.step
    form = model.form(spread.gap)
    wrong = spread.mean - fit.project.sizes.of(spread.gap.aim)
    if abs(wrong) < step / 4:
        return
    for name in names:
        made = fit.made.get(name)
        if made is None or made.how not in BY_RULE or made.kind is SizeKind.LINE:
            continue
        past = model.planned(name) - model.mean(name)
        nudge = step if past > 0 else -step
        if not 0 < abs(past) < step or form.coefficient(name) * nudge * wrong >= 0:
            continue
        alike = [
            other
            for other in fit.settings[fit.setting(name)]
            if model.planned(other) == model.planned(name) and model.mean(other) == model.mean(name)
        ]
        nudges = {other: fit.method.nudged.get(other, Fraction(0)) + nudge for other in alike}
        pattern = f"{nudge} {_pattern(fit, alike)}"
        yield Change(ChangeKind.OTHER_MARK, tuple(alike), pattern, fit.method.with_nudged(nudges))


def _pattern(fit: Fit, names: Iterable[str]) -> str:
    """Sizes without the mark of their case, so that the same sizes of every case compare equal."""
    bare = []
    for name in sorted(names):
        made = fit.made[name]
        part = fit.project.parts.get(made.part)
        bare.append(name.removeprefix(part.case) if part else name)
    return " ".join(bare)


def _together(changes: list[Change]) -> Change:
    """The same change in several cases as one."""
    first = changes[0]
    if len(changes) == 1:
        return first
    method = Method(
        settings={k: v for change in changes for k, v in change.method.settings.items()},
        measured={k: v for change in changes for k, v in change.method.measured.items()},
        fitted={k: v for change in changes for k, v in change.method.fitted.items()},
        moved=frozenset().union(*(change.method.moved for change in changes)),
        proved=frozenset().union(*(change.method.proved for change in changes)),
        nudged={k: v for change in changes for k, v in change.method.nudged.items()},
    )
    sizes = tuple(dict.fromkeys(name for change in changes for name in change.sizes))
    inputs = {name: value for change in changes for name, value in change.inputs.items()}
    return Change(first.kind, sizes, first.pattern, method, inputs, first.tool)
