"""Putting edging on: the operations at the bench, and the sticks to buy for them."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from ..casework.edge_strips import EdgeStrip, edge_strips, part_strips
from ..casework.parts.part import Part, Role
from ..casework.project import Project
from ..lengths.length import MM, Unit
from ..shop.edging import Edging
from .operations import HANDS, Hold, Operation, OperationKind
from .side_names import side_words

OVER = {Unit.INCH: Fraction(1), Unit.MM: 25 * MM}
"""How much longer than its edge a strip is cut, at least: half at each end, trimmed once the glue has set.
Common practice, no source."""

ROUGH = {Unit.INCH: Fraction(1, 2), Unit.MM: 10 * MM}
"""What a strip's rough length is rounded up to: nobody cuts it by a finer mark."""


def edging_key(owner: str) -> str:
    """The key of the step that edges a part, or the front of a case."""
    return f"{owner} edging"


def cut_strip(project: Project, strip: EdgeStrip) -> Fraction:
    """How long a strip is cut, in inches: longer than its edge, to a coarse mark."""
    unit = project.job.unit
    return ceil((strip.length + OVER[unit]) / ROUGH[unit]) * ROUGH[unit]


def strips_first(project: Project, part: Part) -> tuple[EdgeStrip, ...]:
    """The strips that go on a part before anything is cut into it."""
    return tuple(strip for strip in part_strips(project, part) if strip.edge.first)


def strips_last(project: Project, case: str) -> tuple[EdgeStrip, ...]:
    """The strips that go over the front of a case once it is glued up."""
    found = (strip for part in project.cases[case].parts for strip in part_strips(project, part))
    return tuple(strip for strip in found if not strip.edge.first)


def part_edging(project: Project, freed: Mapping[str, str], late: Container[Role]) -> Iterator[Operation]:
    """The edging of single parts in two sessions, each once the last of its parts is cut: parts of the roles
    `late`, which are cut after the dry fit, cannot be waited for with those that the dry fit needs."""
    edged = [part for part in project if any(edge.first for edge in part.edges)]
    yield from _session(project, freed, [part for part in edged if part.role not in late])
    yield from _session(project, freed, [part for part in edged if part.role in late])


def _session(project: Project, freed: Mapping[str, str], parts: Sequence[Part]) -> Iterator[Operation]:
    cut = tuple(dict.fromkeys(freed[part.mark] for part in parts if part.mark in freed))
    for part in parts:
        strips = strips_first(project, part)
        yield Operation(
            edging_key(part.mark),
            OperationKind.EDGE,
            part.mark,
            (part.mark,),
            HANDS,
            Hold(", ".join(side_words(part, strip.edge.way) for strip in strips), "", "", False),
            project.dimensions(part),
            sum((strip.length for strip in strips), Fraction(0)),
            cut,
        )


def case_edging(project: Project, case: str, after: str) -> Iterator[Operation]:
    """The edging over the front of a glued case, if it has any; `after` is its last glue-up."""
    strips = strips_last(project, case)
    if strips:
        drawn = project.cases[case]
        size = (
            project.sizes.of(drawn.height),
            project.sizes.of(drawn.outside),
            project.sizes.of(drawn.depth),
        )
        travel = sum((strip.length for strip in strips), Fraction(0))
        hold = Hold("", "", "", False)
        key, kind = edging_key(case), OperationKind.EDGE_CASE
        yield Operation(key, kind, case, (), HANDS, hold, size, travel, (after,))


@dataclass(frozen=True)
class EdgingBought:
    """One kind of edging to buy: the sticks, and how much of it is needed, offcuts and trimmings not
    counted. `proved` tells whether fewer sticks cannot do."""

    edging: Edging
    sticks: int
    needed: Fraction
    proved: bool

    @property
    def money(self) -> Fraction:
        return self.edging.price * self.sticks


def edging_bought(project: Project) -> tuple[EdgingBought, ...]:
    """What edging to buy. The longest strips are cut first, each from the stick that it leaves shortest."""
    strips = edge_strips(project)
    found = []
    for key, edging in project.job.edging.items():
        lengths = [cut_strip(project, strip) for strip in strips if strip.edge.edging == key]
        if lengths:
            sticks, proved = sticks_for(lengths, edging.stick)
            needed = sum((strip.length for strip in strips if strip.edge.edging == key), Fraction(0))
            found.append(EdgingBought(edging, sticks, needed, proved))
    return tuple(found)


def sticks_for(lengths: Sequence[Fraction], stick: Fraction) -> tuple[int, bool]:
    """How many sticks these strips need, and whether fewer cannot do."""
    sticks = len(_packed(lengths, stick))
    return sticks, sticks == _least(lengths, stick)


def _packed(lengths: Iterable[Fraction], stick: Fraction) -> list[Fraction]:
    """What is left of each stick. A strip longer than a stick is pieced together and takes whole ones."""
    left: list[Fraction] = []
    for length in sorted(lengths, reverse=True):
        while length > stick:
            left.append(Fraction(0))
            length -= stick
        room = [place for place, rest in enumerate(left) if rest >= length]
        if room:
            left[min(room, key=lambda place: left[place])] -= length
        else:
            left.append(stick - length)
    return left


def _least(lengths: Sequence[Fraction], stick: Fraction) -> int:
    """Fewer sticks than this hold less than is needed, or too few of the strips over half of one."""
    halves = sum(length // stick + (2 * (length % stick) > stick) for length in lengths)
    return max(ceil(sum(lengths, Fraction(0)) / stick), halves)
