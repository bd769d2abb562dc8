"""What can happen in the shop. An event is never changed or taken away; an `Undo` sets one aside.

Every bench numbers its own events and gives each an id before it knows whether anyone hears it,
so a bench without network loses nothing and nothing is counted twice. `seq` is one more than
the greatest `seq` the bench has seen from anyone (Lamport, "Time, clocks, and the ordering of
events in a distributed system", 1978): whatever a bench knew of comes before what it then did.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Claimed:
    """A bench takes parts in hand, so that no other cuts them too."""

    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Released:
    """A bench lets parts go that it had claimed."""

    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SettingMade:
    """A machine stands set: `setting` names the batch, `distance` is what the fence's scale says."""

    setting: str
    distance: Fraction


@dataclass(frozen=True, slots=True)
class Done:
    """Operations done, by their keys; one tick may cover a whole batch."""

    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Measured:
    """A reading. `name` is a size of the ledger (`B1-L.length`, `ply.thickness`)."""

    name: str
    value: Fraction
    tool: str = ""


@dataclass(frozen=True, slots=True)
class Spoiled:
    """A part that cannot be used as it is; `how` in the maker's words."""

    part: str
    how: str = ""


@dataclass(frozen=True, slots=True)
class Assembled:
    """Parts put together for good; `name` is the case or subassembly."""

    name: str
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FoundOffcut:
    """An offcut nobody had counted; `length` runs along the grain."""

    name: str
    material: str
    length: Fraction
    width: Fraction


@dataclass(frozen=True, slots=True)
class Lost:
    """A part, by its mark, or an offcut, by its name, that is no longer there."""

    name: str


@dataclass(frozen=True, slots=True)
class Stocked:
    """Sheets of a material counted in the rack, from now on; what was counted before is past."""

    material: str
    sheets: int


@dataclass(frozen=True, slots=True)
class TimeTaken:
    """How many minutes these operations really took, setting up included."""

    steps: tuple[str, ...]
    minutes: float


@dataclass(frozen=True, slots=True)
class Decided:
    """The maker chose how to go on. `inputs` are the job's inputs that change, by ledger name,
    `again` the parts to be made again, `given_up` those that will not be made."""

    title: str
    inputs: tuple[tuple[str, Fraction], ...] = ()
    again: tuple[str, ...] = ()
    given_up: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Undo:
    """Sets an event aside as if it had not happened. An undo can itself be undone."""

    event: str


Happening = (
    Claimed
    | Released
    | SettingMade
    | Done
    | Measured
    | Spoiled
    | Assembled
    | FoundOffcut
    | Lost
    | Stocked
    | TimeTaken
    | Decided
    | Undo
)


@dataclass(frozen=True, slots=True)
class Event:
    """One happening, as its bench wrote it down. `at` is the bench's own clock, for reading only."""

    id: str
    bench: str
    seq: int
    what: Happening
    at: str = ""

    @property
    def order(self) -> tuple[int, str, str]:
        """Where it stands among all events, the same wherever and whenever it is heard of."""
        return (self.seq, self.bench, self.id)
