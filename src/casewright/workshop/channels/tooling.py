"""Which of the shop's cutters cuts which channel, and in how many passes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from ...casework.parts.features.channel import Channel, ChannelKind
from ...casework.parts.part import Part
from ...casework.project import Project
from ...casework.size_names import thickness_of
from ...findings import Finding, Weight
from ...lengths.length import Unit
from ...lengths.quantities import caliper
from ...shop.machines import Shop
from ...sizes.ledger import Combination
from ..operations import Cutter
from ..sheets.sheet_cuts import blade
from .passes import LEAST_BURIED, LEAST_OVERLAP, blade_passes
from .stack_packing import Packing, pack

FELT = Fraction(2, 1000)
"""A packing that is nearer than this to the width asked for is that width: sheets differ by more. Common
practice, no source."""

LOOSEST = Fraction(1, 128)
"""A stack that leaves a joint this much looser than wanted is not used; the blade's passes are."""


@dataclass(frozen=True, slots=True)
class Tooling:
    """How channels of one width are cut: the cutter, and where each of its passes begins from the
    near wall. `packing` is the stack's, None for the saw's blade."""

    cutter: Cutter
    passes: tuple[Fraction, ...]
    packing: Packing | None = None

    @property
    def cuts(self) -> Fraction:
        """How wide the channel comes out, in inches."""
        return self.passes[-1] + self.cutter.width


@dataclass(frozen=True)
class Tools:
    """The tooling of every channel by its width, dados and grooves apart from rabbets."""

    housed: Mapping[Fraction, Tooling]
    rabbets: Mapping[Fraction, Tooling]
    findings: tuple[Finding, ...]

    def of(self, project: Project, channel: Channel) -> Tooling | None:
        """How this channel is cut; None where no cutter is thin enough."""
        wanted = project.sizes.of(channel.width)
        kind = self.rabbets if channel.kind is ChannelKind.RABBET else self.housed
        return kind.get(wanted)


def choose_tools(project: Project, parts: Iterable[Part]) -> Tools:
    """A tooling for every width of channel in `parts`.

    Dados and grooves take the stack where it can be packed close enough, so that one pass cuts
    them; else the saw's blade in two passes, a narrower stack in two or more, the blade in more. Rabbets
    take a stack that a dado needs anyway, if one is wide enough to be buried, or one of their own.
    """
    housed: dict[Fraction, Tooling] = {}
    findings: list[Finding] = []
    wanted: dict[Fraction, tuple[Part, Channel]] = {}
    rabbets: dict[Fraction, tuple[Part, Channel]] = {}
    for part in parts:
        for channel in part.channels:
            group = rabbets if channel.kind is ChannelKind.RABBET else wanted
            group.setdefault(project.sizes.of(channel.width), (part, channel))
    for width, (part, channel) in wanted.items():
        tooling, found = _house(project, part, channel, width)
        findings.extend(found)
        if tooling is not None:
            housed[width] = tooling
    stacks = sorted((t for t in housed.values() if t.packing is not None), key=lambda t: t.cutter.width)
    buried = {width: _bury(project, width, stacks) for width in rabbets}
    for width, (part, channel) in rabbets.items():
        if buried[width] is None:
            findings.append(_too_thin(project, part, channel, width))
    return Tools(housed, {width: tool for width, tool in buried.items() if tool}, tuple(findings))


def stack_cutter(project: Project, packing: Packing) -> Cutter:
    """A packed stack as a cutter; its name tells what lies between the outside cutters."""
    unit = project.job.unit
    between = [f"{times} × {_chipper(value, unit)}" for value, times in _counted(packing.chippers)]
    shims = [f"{times} × {caliper(value, unit)}" for value, times in _counted(packing.shims)]
    inside = f"chippers {', '.join(between)}" if between else "no chipper"
    if shims:
        inside += f", shims {', '.join(shims)}"
    return Cutter(f"{project.job.shop.dado_stack.name}: {inside}", packing.width)


def _house(
    project: Project, part: Part, channel: Channel, width: Fraction
) -> tuple[Tooling | None, tuple[Finding, ...]]:
    shop = project.job.shop
    panel = panel_thickness(project, channel)
    packing = pack(shop.dado_stack, width).fit(panel)
    if packing is not None and packing.width - width <= LOOSEST:
        tooling = Tooling(stack_cutter(project, packing), (Fraction(0),), packing)
        off = packing.width - width
        if abs(off) < FELT:
            return tooling, ()
        unit = project.job.unit
        change = f"{caliper(abs(off), unit, finer=True)} {'wider' if off > 0 else 'narrower'}"
        note = Finding(
            "stack-nearest",
            part.place_of(channel),
            f"the dado stack cannot be packed to {project.printed(width)}: the "
            "nearest packing is "
            f"{change}, which leaves {caliper(packing.width - panel, unit, finer=True)} of play instead of "
            f"{caliper(width - panel, unit, finer=True)}.",
            "Cut a test piece first; a shim of tape or paper in the stack loosens a joint that is too tight.",
            Weight.NOTE,
        )
        return tooling, (note,)
    in_passes = _with_blade(shop, width)
    if in_passes is None or len(in_passes.passes) > 2:
        in_passes = _in_stack_passes(project, width) or in_passes
    return in_passes, () if in_passes else (_too_thin(project, part, channel, width),)


def _with_blade(shop: Shop, width: Fraction) -> Tooling | None:
    try:
        return Tooling(blade(shop), blade_passes(width, shop.table_saw.kerf))
    except ValueError:
        return None


def _in_stack_passes(project: Project, width: Fraction) -> Tooling | None:
    """Passes of the widest stack that is narrower: moving the fence makes up the width, so no shims."""
    narrower = pack(replace(project.job.shop.dado_stack, shims=()), width).under
    if narrower is None or narrower.width <= LEAST_OVERLAP:
        return None
    over = width - narrower.width
    steps = ceil(over / (narrower.width - LEAST_OVERLAP)) or 1
    passes = tuple(over * step / steps for step in range(steps + 1))
    return Tooling(stack_cutter(project, narrower), passes, narrower)


def _bury(project: Project, width: Fraction, stacks: list[Tooling]) -> Tooling | None:
    """A stack wide enough to stand in a sacrificial fence, else the blade in passes."""
    for tooling in stacks:
        if tooling.cutter.width >= width + LEAST_BURIED:
            return Tooling(tooling.cutter, (Fraction(0),), tooling.packing)
    own = pack(project.job.shop.dado_stack, width + LEAST_BURIED).over
    if own is not None:
        return Tooling(stack_cutter(project, own), (Fraction(0),), own)
    return _with_blade(project.job.shop, width)


def panel_thickness(project: Project, channel: Channel) -> Fraction:
    """How thick the panel is that a channel takes: the material its width is written over."""
    definition = project.sizes.ledger[channel.width.name].definition
    names = definition.form.names if isinstance(definition, Combination) else ()
    sheets = {thickness_of(material).name for material in project.job.sheets}
    for name in names:
        if name in sheets:
            return project.sizes.of(name)
    return project.sizes.of(channel.width)


def _too_thin(project: Project, part: Part, channel: Channel, width: Fraction) -> Finding:
    kerf, wide = (project.printed(length) for length in (project.job.shop.table_saw.kerf, width))
    return Finding(
        "channel-too-thin",
        part.place_of(channel),
        f"it is {wide} wide, narrower than the {kerf} that the thinnest cutter takes.",
        "Use a thinner blade, or a thicker panel.",
        Weight.WARN,
    )


def _counted(values: tuple[Fraction, ...]) -> list[tuple[Fraction, int]]:
    return [(value, values.count(value)) for value in sorted(set(values), reverse=True)]


def _chipper(value: Fraction, unit: Unit) -> str:
    """A chipper as its makers mark it: a fraction of an inch, or millimetres."""
    if unit is Unit.INCH and value.denominator <= 64:
        return f"{value} in"
    return caliper(value, unit)
