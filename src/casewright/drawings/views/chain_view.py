"""A gap explained in one picture: the parts in section, the chain's links in order, the gap marked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...casework.build.case import Case
from ...casework.build.meetings import Chain, Link
from ...casework.directions import Axis
from ...casework.parts.part import Part
from ...casework.project import Project
from ...tolerance.chains.gaps import ChainStep, Gap, steps_of
from ..kit.lettering import dimension_text
from ..kit.pens import ACCENT, FINE, HAIR, HEAVY, Layer, Tint
from ..kit.scene import Anchor, Dimension, DimensionAxis, Item, Point, Scene, Shape, Words

ROW = 15.0  # points from one link's line to the next
FIRST_ROW = 16.0
BESIDE = 6.0  # points from a line that runs up to the words beside it
THINNEST = 0.004  # share of the section that the gap is drawn at least


def chain_scene(project: Project, gap: Gap, loose: str) -> Scene:
    """The chain that leaves `gap`, drawn along its section; `loose` is the label beside the gap.

    The section lies across the axis the chain runs along, so that most of the channels it
    crosses show in section. Links are numbered in the order they are added up, each with its sign; a
    vertical chain is drawn upwards.
    """
    if not gap.parts:
        return _run_scene(project, gap, loose)
    case = project.cases[gap.place]
    chain = next(chain for chain in case.chains if chain.links == gap.links)
    return _Section(project, case, chain).scene(loose)


@dataclass(frozen=True)
class _Section:
    project: Project
    case: Case
    chain: Chain

    @property
    def axis(self) -> Axis:
        return self.chain.mate.axis

    def parts(self) -> tuple[Part, ...]:
        """The parts along the chain, in its order."""
        marks = dict.fromkeys(link.part for link in self.chain.links if link.part)
        marks |= dict.fromkeys((self.chain.mate.first.part, self.chain.mate.second.part))
        return tuple(self.project.parts[mark] for mark in marks)

    def beside(self) -> Axis:
        """The axis drawn across the chain: the one that shows most channels in section."""
        runs = [
            channel.runs
            for part in self.parts()
            for channel in part.channels
            if any(name in self.chain.gap.names for name in (*channel.at.names, *channel.depth.names))
        ]
        others = [axis for axis in (Axis.Z, Axis.Y, Axis.X) if axis is not self.axis]
        return max(others, key=lambda axis: sum(run not in (axis, self.axis) for run in runs))

    def low(self, part: Part, axis: Axis) -> Fraction:
        return self.project.sizes.of(self.case.placement.corners[part.mark, axis])

    def scene(self, loose: str) -> Scene:
        of = self.project.sizes.of
        along, beside = self.axis, self.beside()
        upwards = along is Axis.Z
        items: list[Item] = []
        for part in self.parts():
            items.extend(self._part(part, beside, upwards))
        lows = [float(self.low(part, beside)) for part in self.parts()]
        highs = [low + float(of(part.size(beside))) for low, part in zip(lows, self.parts(), strict=True)]
        first = self.chain.mate.first
        start = float(self.low(self.project.parts[first.part], along)) + float(of(first.at))
        ends = (min(lows), max(highs))
        span = max(float(of(part.size(along))) for part in self.parts())
        items.extend(_loose(start, float(of(self.chain.gap)), ends, span, upwards, loose))
        items.extend(_links(self.project, self.chain.links, start, ends, upwards))
        return Scene(tuple(items), self.chain.name)

    def _part(self, part: Part, beside: Axis, upwards: bool) -> Iterator[Item]:
        """A part in section, with the channels that show in section cut out of it."""
        of, along = self.project.sizes.of, self.axis
        t, s = float(self.low(part, along)), float(self.low(part, beside))
        long, wide = float(of(part.size(along))), float(of(part.size(beside)))
        place = _place(upwards)
        yield Shape(_box(place, t, s, long, wide), Layer.PARTS, FINE, Tint.FACE, name=part.mark)
        for channel in part.channels:
            if channel.runs not in (along, beside):
                cut = channel.cut(part)
                a, b = cut.along(along), cut.along(beside)
                low, side = t + float(of(a.low)), s + float(of(b.low))
                size = (float(of(a.high)) - float(of(a.low)), float(of(b.high)) - float(of(b.low)))
                yield Shape(_box(place, low, side, *size), Layer.DADO, HAIR, Tint.PAPER, name=channel.name)
        tall = wide if not upwards else long
        room = (long, wide) if not upwards else (wide, long)
        turned = room[0] < 2.0 < tall
        yield Words(
            place(t + long / 2, s + wide / 2), part.mark, 8.0, turn=90.0 if turned else 0.0, within=room
        )


Placing = Callable[[float, float], Point]


def _place(upwards: bool) -> Placing:
    """A function from a place along and beside the chain to a point on paper."""
    return (lambda t, s: (s, t)) if upwards else (lambda t, s: (t, s))


def _box(place: Placing, t: float, s: float, long: float, wide: float) -> tuple[Point, ...]:
    return (place(t, s), place(t + long, s), place(t + long, s + wide), place(t, s + wide))


def _loose(
    start: float, gap: float, ends: tuple[float, float], span: float, upwards: bool, text: str
) -> Iterator[Item]:
    """The gap: a heavy line in its place, in an area as wide as the gap where that is visible."""
    place = _place(upwards)
    least = THINNEST * span
    wide = max(abs(gap), least)
    middle = start + gap / 2
    low, high = ends
    yield Shape(
        _box(place, middle - wide / 2, low, wide, high - low),
        Layer.REFERENCE,
        None,
        Tint.CUT,
        hatched=True,
        name="loose link",
    )
    yield Shape((place(middle, low), place(middle, high)), Layer.REFERENCE, HEAVY, closed=False)
    # Beside the line, towards the middle of the picture.
    at, shift, anchor = place(middle, high), (-4.0, 12.0), Anchor.END
    if upwards:
        at, shift, anchor = place(middle, low), (0.0, 12.0), Anchor.START
    yield Words(at, text, 9.0, anchor, bold=True, colour=ACCENT, backing=Tint.PAPER, shift=shift)


def _links(
    project: Project, links: Iterable[Link], start: float, ends: tuple[float, float], upwards: bool
) -> Iterator[Item]:
    """The links in order, each on a line of its own beside the section."""
    here = start
    for number, step in enumerate(steps_of(project, links), 1):
        onward = float(step.length) if step.added else -float(step.length)
        low, high = sorted((here, here + onward))
        yield from _line(project, number, step, low, high, ends, upwards)
        here += onward


def _line(
    project: Project,
    number: int,
    step: ChainStep,
    low: float,
    high: float,
    ends: tuple[float, float],
    upwards: bool,
) -> Iterator[Item]:
    sign = "+" if step.added else "−"
    what = step.link.part or step.link.words
    text = f"{number}  {what}  {sign} {dimension_text(step.length, project.rule)}"
    away = FIRST_ROW + ROW * (number - 1)
    if not upwards:
        yield Dimension(DimensionAxis.ACROSS, low, high, ends[0], ends[0], -away, text, size=8.0)
        return
    yield Dimension(DimensionAxis.UP, low, high, ends[1], ends[1], away, "", size=8.0)
    at = (ends[1], (low + high) / 2)
    yield Words(at, text, 8.0, turn=90.0, shift=(away - BESIDE, 0.0))


def _run_scene(project: Project, gap: Gap, loose: str) -> Scene:
    """A run across its opening: its cases side by side, and the space they leave."""
    opening, *others = steps_of(project, gap.links)
    high = max(float(case.spec.height) for case in project.cases.values())
    whole = float(opening.length)
    ends = (0.0, high)
    place = _place(False)
    items: list[Item] = []
    lines = list(_line(project, 1, opening, 0.0, whole, ends, False))
    here = 0.0
    for number, step in enumerate(others, 2):
        long, part = float(step.length), step.link.part
        tint = Tint.FACE if part else Tint.CALM
        box = _box(place, here, 0.0, long, high)
        items.append(Shape(box, Layer.CASES, FINE, tint, name=part or step.link.words))
        if part:
            middle = place(here + long / 2, high / 2)
            items.append(Words(middle, part, 9.0, bold=True, within=(long, high)))
        lines.extend(_line(project, number, step, here, here + long, ends, False))
        here += long
    items.extend(_loose(here, whole - here, ends, whole, False, loose))
    return Scene((*items, *lines), gap.name)
