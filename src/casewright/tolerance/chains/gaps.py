"""Every gap of a job as a form over the sizes made in the shop, with the range it may lie in.

Where a joint has nothing to stop against (a shelf butted at a line), the line is laid out by
the rule. Such a line is a made size of its own, zero when it is laid out exactly.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...casework.build.case import Case
from ...casework.build.meetings import Chain, Link, Mate, Meeting, Surface
from ...casework.project import DrawnRun, Project
from ...sizes.affine import NOTHING, Affine, size, total
from ...sizes.ledger import Sizes
from .limits import GapLimits, gap_limits, spare_limits
from .made_sizes import MadeSize, line_of, made_sizes


@dataclass(frozen=True, slots=True)
class Gap:
    """What is left where a chain closes; negative where the parts overlap.

    `place` is the case's mark or the run's name, `parts` the two parts that meet there. `form`
    is over made sizes and bare inputs, `aim` over the ledger; `links` are the steps of the
    chain in order.
    """

    name: str
    place: str
    parts: tuple[str, ...]
    meeting: Meeting
    form: Affine
    aim: Affine
    limits: GapLimits
    links: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class ChainStep:
    """A step of a chain across a part or an opening: its length, and whether it is added or taken away."""

    link: Link
    length: Fraction
    added: bool


def steps_of(project: Project, links: Iterable[Link]) -> tuple[ChainStep, ...]:
    """The steps of a chain that have a length, in its order; meetings are not among them."""
    steps = ((link, project.sizes.of(link.step)) for link in links if link.mate is None)
    return tuple(ChainStep(link, abs(step), step > 0) for link, step in steps if step)


def gaps_of(project: Project, made: Mapping[str, MadeSize] | None = None) -> tuple[Gap, ...]:
    """The gaps of every case in order, then those of the runs against their openings."""
    made = made_sizes(project) if made is None else made
    ledger = project.sizes.ledger
    gaps = [
        Gap(
            chain.name,
            case.mark,
            (chain.mate.first.part, chain.mate.second.part),
            chain.mate.meeting,
            ledger.over(chain.gap, made) + _lines(case, chain, made),
            chain.mate.gap,
            gap_limits(chain.mate, project.sizes.of(chain.mate.gap)),
            chain.links,
        )
        for case in project.cases.values()
        for chain in case.chains
    ]
    gaps.extend(_spare(run, project.sizes, made) for run in project.runs)
    return tuple(gaps)


def _lines(case: Case, chain: Chain, made: Mapping[str, MadeSize]) -> Affine:
    """How far the laid-out lines along a chain are off, each with its sign in the gap."""
    mates = {mate.name: mate for mate in case.mates}
    off = [_line(chain.mate.second, made), -_line(chain.mate.first, made)]
    here = chain.mate.first.part
    for link in chain.links:
        if link.mate is None:
            continue
        crossed: Mate = mates[link.mate]
        onward = crossed.first.part == here
        across = _line(crossed.first, made) - _line(crossed.second, made)
        off.append(across if onward else -across)
        here = (crossed.second if onward else crossed.first).part
    return total(off)


def _line(surface: Surface, made: Mapping[str, MadeSize]) -> Affine:
    name = line_of(surface)
    return size(name) if name in made else NOTHING


def _spare(run: DrawnRun, sizes: Sizes, made: Mapping[str, MadeSize]) -> Gap:
    """The run in its opening: what it leaves over beside its cases and fillers."""
    links = [Link(f"opening of {run.run.name}", None, None, run.opening)]
    for end in (run.left, run.right):
        links.append(Link(sizes.ledger[end.name].words, None, None, -end))
    for place, case in enumerate(run.cases, 1):
        links.insert(place + 1, Link(f"outside width of {case.mark}", case.mark, None, -case.outside))
    return Gap(
        run.spare.name,
        run.run.name,
        (),
        Meeting.PLAY,
        sizes.ledger.over(run.spare, made),
        NOTHING,
        spare_limits(run, sizes),
        tuple(links),
    )
