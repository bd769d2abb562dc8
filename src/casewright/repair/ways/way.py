"""A way to repair, as data: what to do, what the job becomes, and what it costs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from ...casework.project import Project
from ...planner.plan import Plan
from ...planner.problem import Problem


class WayKind(Enum):
    """The kinds of repair; the best of each kind is always shown."""

    RECUT = "cut it again from wood on hand"
    GIVE_UP = "leave a part out"
    SWAP = "make it from another material"
    BUILD_OUT = "glue a strip to its edge"
    MOVE = "change a size so that it fits"
    TRIM = "trim the other parts to match"
    BUY = "buy a sheet and cut it again"


@dataclass(frozen=True)
class CutAgain:
    """Cut `mark` from `blank`."""

    mark: str
    blank: str


@dataclass(frozen=True)
class NewPlaces:
    """Lay out the uncut parts of a material again on the wood on hand."""

    material: str
    marks: tuple[str, ...]


@dataclass(frozen=True)
class Forgo:
    """Leave the part out."""

    mark: str


@dataclass(frozen=True)
class MakeOf:
    """Make the part from another material, given by its key."""

    mark: str
    material: str


@dataclass(frozen=True)
class GlueOn:
    """Rip the part back to `rip_to`, glue a strip `width` wide, sawn from `blank`, along that edge."""

    mark: str
    rip_to: Fraction
    width: Fraction
    blank: str


@dataclass(frozen=True)
class SetInput:
    """Change an input of the job, given by its name in the ledger, from `old` to `new`."""

    name: str
    words: str
    old: Fraction
    new: Fraction

    @property
    def moved(self) -> Fraction:
        """By how much it changes, whichever way."""
        return abs(self.new - self.old)


@dataclass(frozen=True)
class TrimTo:
    """Trim a finished part to `length` x `width`."""

    mark: str
    length: Fraction
    width: Fraction


@dataclass(frozen=True)
class KeepAsCut:
    """Use the part as it was cut."""

    mark: str


@dataclass(frozen=True)
class Buy:
    """Buy `sheets` of a material, in the size called `name`."""

    material: str
    name: str
    sheets: int


Action = CutAgain | NewPlaces | Forgo | MakeOf | GlueOn | SetInput | TrimTo | KeepAsCut | Buy


@dataclass(frozen=True)
class Cost:
    """What a way costs. Compared in this order: money to spend, minutes, parts made again, parts
    and sizes that change in sight, and the worth of the wood it uses up."""

    money: Fraction
    minutes: Fraction
    remade: int
    in_sight: Fraction
    wood: Fraction

    @property
    def whole_minutes(self) -> int:
        return round(float(self.minutes))

    def key(self) -> tuple[Fraction, Fraction, int, Fraction, Fraction]:
        return (self.money, self.minutes, self.remade, self.in_sight, self.wood)


@dataclass(frozen=True)
class Option:
    """One complete way to finish the job.

    `project` is the job after the repair. `problems` and `plans`, by material, cover the parts that the
    current sheet plan no longer does; everything else stays as planned. `why` says in two sentences
    what is done and what it costs.
    """

    kind: WayKind
    actions: tuple[Action, ...]
    project: Project
    problems: Mapping[str, Problem]
    plans: Mapping[str, Plan]
    cost: Cost
    why: str


@dataclass(frozen=True)
class Ways:
    """Every way found, best first.

    `must_buy` is True when it is proved that no layout avoids buying a sheet; `proof` says why.
    """

    options: tuple[Option, ...]
    must_buy: bool
    proof: str

    def best_of(self, kind: WayKind) -> Option | None:
        """The best way of one kind, if there is one."""
        return next((option for option in self.options if option.kind is kind), None)
