"""The sizes made in the shop, with the saw and the setting each comes from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ...casework.build.meetings import Surface
from ...casework.parts.features.channel import Channel, ChannelKind
from ...casework.parts.features.feature import Feature
from ...casework.parts.part import Part
from ...casework.project import Project
from ...lengths.length import Unit
from ...shop.machines import Shop
from ...sizes.affine import size


class SizeKind(Enum):
    """Which size of a part it is."""

    LENGTH = "length"
    WIDTH = "width"
    THICKNESS = "thickness"
    PLACE = "place"  # from the reference edge to a channel
    CHANNEL = "channel width"
    DEPTH = "depth"
    NOTCH = "notch"
    PIN = "pin row"
    LINE = "line"  # where a part is put that nothing stops
    OPENING = "opening"


class HowMade(Enum):
    """What a size comes from, and so what errors it has."""

    SHEET = "sheet"  # as the mill made it
    FENCE = "fence"  # table saw, distance from the fence by its scale
    GAUGED = "gauged"  # table saw, the fence set with the stock itself
    HAND_SAW = "hand-held saw"
    STACK = "dado stack"  # width of the cutters
    TWO_PASSES = "two passes"  # one blade, the fence moved once
    HEIGHT = "cutter height"
    RULE = "rule"  # laid out by the rule
    TAPE = "tape"


BY_RULE = frozenset({HowMade.FENCE, HowMade.HAND_SAW, HowMade.HEIGHT, HowMade.RULE})


@dataclass(frozen=True, slots=True)
class MadeSize:
    """One made size: its `name` in the ledger, whose it is, and how it is made.

    `setting` names what is set once for every size that shares it; two sizes with the same
    `setting` carry the same setting error. `gauge` is the material whose stock sets it, if one does.
    """

    name: str
    kind: SizeKind
    how: HowMade
    part: str
    material: str
    feature: str
    setting: str
    gauge: str = ""


def made_sizes(project: Project) -> Mapping[str, MadeSize]:
    """Every made size of the job by its name in the ledger.

    Until a plan of work says which parts share a setting, these do: parts that must match (and
    the features of the same name on them), every channel cut by one packing of the stack, and
    every channel cut at one height of it.
    """
    made = {made.name: made for part in project for made in _of_part(project, part)}
    for run in project.runs:
        name = run.opening.name
        made[name] = MadeSize(name, SizeKind.OPENING, HowMade.TAPE, run.run.name, "", "", name)
    for case in project.cases.values():
        for surface in (surface for mate in case.mates for surface in (mate.first, mate.second)):
            if _is_laid_out(surface, made):
                name = line_of(surface)
                part = project.parts[surface.part]
                made[name] = MadeSize(name, SizeKind.LINE, HowMade.RULE, part.mark, part.material, "", name)
    return made


def line_of(surface: Surface) -> str:
    """The name of the line a surface is, if it is one; lines are not in the ledger."""
    return f"{surface.part}: {surface.words}"


def far_edge_name(place: str) -> str:
    """The name of a channel's place when it is laid off from the other edge."""
    return f"{place} (far)"


def _is_laid_out(surface: Surface, made: Mapping[str, MadeSize]) -> bool:
    """True for a place given by bare numbers: no edge, channel or hole is there to stop a part."""
    names = surface.at.names
    return any(name not in made for name in names) and all(
        name not in made or made[name].kind is SizeKind.THICKNESS for name in names
    )


def _of_part(project: Project, part: Part) -> Iterator[MadeSize]:
    shop = project.job.shop
    group = part.match or part.mark
    for kind, form in ((SizeKind.LENGTH, part.length), (SizeKind.WIDTH, part.width)):
        name = form.name
        far = project.sizes.of(name) > shop.table_saw.rip_capacity
        how = HowMade.HAND_SAW if far else HowMade.FENCE
        # Pieces that must match are clamped and cut by hand in one pass, or marked from the first.
        yield MadeSize(name, kind, how, part.mark, part.material, "", f"{group} {kind.value}")
    name = part.thickness.name
    yield MadeSize(name, SizeKind.THICKNESS, HowMade.SHEET, part.mark, part.material, "", part.material)
    for feature in part.features:
        yield from _of_feature(project, part, feature, group)


def _of_feature(project: Project, part: Part, feature: Feature, group: str) -> Iterator[MadeSize]:
    """The made sizes of a feature: sawn, or its places laid out by the rule."""
    if channel := feature.channel:
        yield from _channel(project, part, channel, group)
        return
    kind, laid_out = SizeKind.PIN, HowMade.RULE
    if feature.corner:
        kind, laid_out = SizeKind.NOTCH, HowMade.HAND_SAW
    elif feature.bench_joint:
        kind = SizeKind.PLACE
    for sized in (one for one in feature.sizes if one.edge is not None):
        name, strip = sized.form.name, ""
        how, setting = laid_out, name
        if sized.by_stock:
            strip = _gauge(project, name)
            how, setting = HowMade.GAUGED, f"gauge set by {strip}"
        elif kind is SizeKind.PIN:
            setting = f"holes at {_figure(project, project.sizes.of(name))}"
        yield MadeSize(name, kind, how, part.mark, part.material, feature.name, setting, strip)


def _channel(project: Project, part: Part, channel: Channel, group: str) -> Iterator[MadeSize]:
    at, width, depth = (form.name for form in (channel.at, channel.width, channel.depth))
    rabbet = channel.kind is ChannelKind.RABBET
    gauged = project.numbers.set_sizes.gauged
    if not rabbet:
        how, strip = (HowMade.GAUGED, _gauge(project, at)) if at in gauged else (HowMade.FENCE, "")
        setting = f"{group} {channel.name} place"
        yield MadeSize(at, SizeKind.PLACE, how, part.mark, part.material, channel.name, setting, strip)
    wide = project.sizes.of(width)
    how = _cutter(project.job.shop, wide)
    if rabbet:
        how = HowMade.GAUGED if width in gauged else HowMade.FENCE
    packing = f"{how.value} for {_figure(project, wide)}"
    # A rabbet's width is what stands out of the sacrificial fence.
    setting = f"{group} {channel.name} width" if rabbet else packing
    gauge = _gauge(project, width)
    yield MadeSize(width, SizeKind.CHANNEL, how, part.mark, part.material, channel.name, setting, gauge)
    height = f"{_figure(project, project.sizes.of(depth))} height of the {packing}"
    yield MadeSize(depth, SizeKind.DEPTH, HowMade.HEIGHT, part.mark, part.material, channel.name, height)


def _gauge(project: Project, width: str) -> str:
    """The material a channel's width is set to: the one thickness in its form."""
    ledger = project.sizes.ledger
    found = [sheet.key for name in ledger.expand(size(width)).names if (sheet := project.sheet_called(name))]
    return found[0] if len(found) == 1 else ""


def _figure(project: Project, length: Fraction) -> str:
    """A length as a caliper shows it, in the shop's unit."""
    unit = project.job.unit
    return f"{float(length / unit.length):.{3 if unit is Unit.INCH else 2}f} {unit.value}"


def _cutter(shop: Shop, width: Fraction) -> HowMade:
    """Channels narrower than the stack's two outside cutters take two passes of one blade."""
    return HowMade.TWO_PASSES if width < 2 * shop.dado_stack.outside else HowMade.STACK
