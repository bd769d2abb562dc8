"""Every gap of a job as a form over the sizes made in the shop, with the range it may lie in.

Where a joint has nothing to stop against (a shelf butted at a line), the line is laid out by
the rule. Such a line is a made size of its own, zero when it is laid out exactly.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ...casework.build.case import Case
from ...casework.build.meetings import Chain, Link, Mate, Meeting, Surface
from ...casework.directions import Axis
from ...casework.project import DrawnRun, Project
from ...casework.size_names import read_name
from ...sizes.affine import NOTHING, Affine, size, total
from ...sizes.ledger import Sizes
from .bending import Frame
from .limits import GapLimits, gap_limits, rock_limits, spare_limits
from .made_sizes import MadeSize, SizeKind, line_of, made_sizes
from .roles import GapRole, Sight, role_of, sight_of


@dataclass(frozen=True, slots=True)
class Gap:
    """What is left where a chain closes; negative where the parts overlap.

    `key` tells a gap from all others of the job and hangs on no words; `name` is what a maker reads.
    `place` is the case's mark or the run's name, `parts` the two parts that meet there. `form` is over made
    sizes and bare inputs, `aim` over the ledger; `links` are the steps of the chain in order. `role` and
    `sight` are what the gap does at the dry fit and who sees it, `stiffness` what an end meets with that is
    too long, in pounds an inch.

    `stacked` is the chain's own sum. The form is that of the case put together, which is not always that of
    the chain: a part lies between the walls of its own dado wherever those are, and a panel that leans
    until its outer joints are home takes the gaps between them along.
    """

    key: str
    name: str
    place: str
    parts: tuple[str, ...]
    meeting: Meeting
    form: Affine
    aim: Affine
    limits: GapLimits
    links: tuple[Link, ...]
    stacked: Affine
    role: GapRole
    sight: Sight
    stiffness: float = 0.0


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
    found = [gap for case in project.cases.values() for gap in _CaseGaps(project, case, made).gaps()]
    found.extend(_spare(run, project.sizes, made) for run in project.runs)
    return tuple(found)


class _CaseGaps:
    """The gaps of one case as it goes together."""

    def __init__(self, project: Project, case: Case, made: Mapping[str, MadeSize]) -> None:
        self._project = project
        self._case = case
        self._made = made
        ledger = project.sizes.ledger
        self._stacked = {
            chain.name: ledger.over(chain.gap, made) + _lines(case, chain, made) for chain in case.chains
        }
        self._seats: dict[tuple[str, str, Axis], Chain] = {}
        for chain in case.chains:
            if chain.mate.meeting is Meeting.SEATED:
                self._seats.setdefault(_meeting_of(chain.mate), chain)
        self._frame = Frame(project, case)

    def gaps(self) -> Iterator[Gap]:
        for chain in self._case.chains:
            mate = chain.mate
            role = role_of(self._project, mate)
            sight = sight_of(self._project, mate, role)
            if role is GapRole.PINS:
                yield self._rock(chain)
            form, stiffness = self._assembled(chain, role)
            yield Gap(
                mate.key,
                chain.name,
                self._case.mark,
                (mate.first.part, mate.second.part),
                mate.meeting,
                form,
                mate.gap,
                gap_limits(self._project, mate, role, sight, stiffness),
                chain.links,
                self._stacked[chain.name],
                role,
                sight,
                stiffness,
            )

    def _rock(self, chain: Chain) -> Gap:
        """How far a shelf's four pins are out of one plane: the slope at the front less that at the back."""
        form, mate = NOTHING, chain.mate
        for name, k in self._stacked[chain.name].terms:
            back = self._row_behind(name)
            if back is not None:
                form = form + k * (size(name) - size(back))
        return Gap(
            f"{mate.key} rock",
            chain.name.replace(" on its pins ", " rocks on its pins "),
            self._case.mark,
            (mate.first.part, mate.second.part),
            mate.meeting,
            form,
            NOTHING,
            rock_limits(),
            chain.links,
            form,
            GapRole.PINS,
            Sight.SEMI_EXPOSED,
        )

    def _row_behind(self, first: str) -> str | None:
        """The size of the row of pins that carries the same shelves at the other edge."""
        made = self._made.get(first)
        if made is None or made.kind is not SizeKind.PIN:
            return None
        part = self._project.parts[made.part]
        own = part.feature(made.feature)
        kind = read_name(first).what
        for row in part.features:
            if row.serves == own.serves and row.face is own.face and row is not own:
                return next(one.form.name for one in row.sizes if read_name(one.form.name).what == kind)
        return None

    def _assembled(self, chain: Chain, role: GapRole) -> tuple[Affine, float]:
        """The gap's form in the case put together, and the stiffness an end meets with."""
        form, mate = self._stacked[chain.name], chain.mate
        if role is GapRole.OWN_DADO:
            # Where the part lies along the case is the seat's gap; the dado is wide or narrow by itself.
            seat = self._seats.get(_meeting_of(mate))
            return (form + self._stacked[seat.name] if seat else form), 0.0
        if role is not GapRole.END:
            return form, 0.0
        push = self._frame.push(mate)
        for panel, between in push.panels.items():
            for support, share in ((between.low, 1 - between.share), (between.high, between.share)):
                held = self._seats.get(_meeting_of(support.mate))
                if held is not None and held.name != chain.name:
                    # Closing the support's gap moves the panel towards this end, or away from it.
                    nearer = _side(mate, panel) == _side(held.mate, panel)
                    form = form + (-share if nearer else share) * self._stacked[held.name]
        return form, push.stiffness


def _meeting_of(mate: Mate) -> tuple[str, str, Axis]:
    first, second = sorted((mate.first.part, mate.second.part))
    return first, second, mate.axis


def _side(mate: Mate, part: str) -> bool:
    """Whether a part is the lower one at a meeting."""
    return mate.first.part == part


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
    spare = sizes.ledger.over(run.spare, made)
    return Gap(
        f"{run.run.name} opening",
        run.gap_name,
        run.run.name,
        (),
        Meeting.PLAY,
        spare,
        NOTHING,
        spare_limits(run, sizes),
        tuple(links),
        spare,
        GapRole.OPENING,
        Sight.EXPOSED,
    )
