"""How each size of a part is set at the machine: to a number of the rule, or by the stock itself."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass

from ...sizes.affine import Affine
from ...sizes.ledger import Combination, Sizes
from ..build.case import Case
from ..build.meetings import Mate
from ..directions import Axis, Way
from ..parts.features.channel import ChannelKind
from ..parts.features.feature import FeatureSize
from ..parts.part import Part


@dataclass(frozen=True, slots=True)
class SetSizes:
    """Sizes of parts by their names in the ledger.

    `numbered` are set to a number of the rule: at a fence, by a cutter's height, along a line. `gauged` are
    set by a piece of the sheet itself and have no number. `housed` are the numbered sizes that reach from
    the floor of one channel to that of another, with the names of those two meetings.
    """

    numbered: frozenset[str]
    gauged: frozenset[str]
    housed: Mapping[str, tuple[str, str]]

    def without(self, names: Collection[str]) -> SetSizes:
        """The same but for sizes that are facts by now: they are set no more."""
        housed = {name: mates for name, mates in self.housed.items() if name not in names}
        return SetSizes(self.numbered.difference(names), self.gauged.difference(names), housed)


def set_sizes(cases: Iterable[Case], sizes: Sizes, thicknesses: frozenset[str]) -> SetSizes:
    """How the sizes of all parts are set; `thicknesses` are the names of those of the sheet goods.

    A size that was measured is a fact: it is neither set nor gauged any more.
    """
    numbered: set[str] = set()
    gauged: set[str] = set()
    housed: dict[str, tuple[str, str]] = {}
    for case in cases:
        for form in (form for part in case.parts for form in _set_at_a_machine(part)):
            definition = sizes.ledger[form.name].definition
            if isinstance(definition, Combination):
                # A rabbet is set by the sheet that lies in it, a groove's inset by the strip behind it.
                by_stock = definition.form.is_size and definition.form.name in thicknesses
                (gauged if by_stock else numbered).add(form.name)
        gauged.update(one.form.name for part in case.parts for one in _by_stock(part))
        housed.update((name, mates) for name, mates in _housed(case, sizes) if name in numbered)
    return SetSizes(frozenset(numbered), frozenset(gauged), housed)


def _set_at_a_machine(part: Part) -> Iterator[Affine]:
    """Every size but thicknesses, and but the widths of dados and grooves, which the cutters give."""
    yield part.length
    yield part.width
    for feature in part.features:
        if channel := feature.channel:
            yield channel.depth
            yield channel.width if channel.kind is ChannelKind.RABBET else channel.at
        else:
            yield from (one.form for one in feature.sizes if one.edge is not None and not one.by_stock)


def _by_stock(part: Part) -> Iterator[FeatureSize]:
    """The lines on a part that are struck with a gauge set to what is joined there."""
    return (one for feature in part.features for one in feature.sizes if one.by_stock)


def _housed(case: Case, sizes: Sizes) -> Iterator[tuple[str, tuple[str, str]]]:
    parts = {part.mark: part for part in case.parts}
    floors: dict[tuple[str, Way], list[Affine]] = {}
    for part in case.parts:
        for channel in part.channels:
            floors.setdefault((part.mark, channel.face), []).append(channel.floor(part))
    ends: dict[tuple[str, Axis], list[Mate]] = {}
    for mate in case.mates:
        for one, other in ((mate.first, mate.second), (mate.second, mate.first)):
            on_floor = one.at in floors.get((one.part, one.looks), ()) and not sizes.of(mate.gap)
            if on_floor and other.at == parts[other.part].end(mate.axis, other.looks):
                ends.setdefault((other.part, mate.axis), []).append(mate)
    for (mark, axis), mates in ends.items():
        if len(mates) == 2:
            yield parts[mark].size(axis).name, (mates[0].name, mates[1].name)
