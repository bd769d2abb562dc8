"""What can happen in the shop. An event is never changed or taken away; an `Undo` sets one aside.

Every bench numbers its own events and gives each an id before it knows whether anyone hears it,
so a bench without network loses nothing and nothing is counted twice. `seq` is one more than
the greatest `seq` the bench has seen from anyone (Lamport, "Time, clocks, and the ordering of
events in a distributed system", 1978): whatever a bench knew of comes before what it then did.

The types of the fields say how an event is read from JSON (see `event_json`): what each may hold, and
in its description what to send instead of anything else.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field, PlainSerializer, PlainValidator

from ..lengths.length import LONGEST

LONGEST_TEXT = 2_000
GREATEST_COUNT = 2**53  # beyond it a tablet's numbers are no longer exact
MOST_HARMS = 100
MOST_MINUTES = 10_000_000  # a slip of the hand; more would spoil every sum


def _exact(value: object) -> Fraction:
    """A length written as a fraction or a decimal, at most 1000 ft.

    A bare number may have been rounded on the way, so it is refused; so is a power of ten, a few
    letters of which can stand for more digits than could ever be read back.
    """
    if not isinstance(value, str) or len(value) > LONGEST_TEXT or "e" in value.lower():
        raise ValueError
    try:
        length = Fraction(value)
    except ZeroDivisionError:
        raise ValueError from None
    if abs(length) > LONGEST or len(str(length)) > LONGEST_TEXT:
        raise ValueError
    return length


Text = Annotated[
    str, Field(max_length=LONGEST_TEXT, description=f"text of at most {LONGEST_TEXT:,} characters")
]
Name = Annotated[
    str,
    Field(
        max_length=LONGEST_TEXT,
        pattern=r"\S",
        description=f"a name that is not empty, of at most {LONGEST_TEXT:,} characters",
    ),
]
Count = Annotated[
    int,
    Field(strict=True, ge=0, le=GREATEST_COUNT, description=f"a whole number from 0 to {GREATEST_COUNT:,}"),
]
Minutes = Annotated[
    float,
    Field(strict=True, ge=0, le=MOST_MINUTES, description=f"a number of minutes from 0 to {MOST_MINUTES:,}"),
]
Exact = Annotated[
    Fraction,
    PlainValidator(_exact),
    PlainSerializer(str),
    Field(description='a length of at most 1000 ft as an exact fraction of an inch, such as "187/8"'),
]
Names = Annotated[tuple[Name, ...], Field(description="a list of names")]
Inputs = Annotated[
    tuple[tuple[Name, Exact], ...],
    Field(description='pairs of a name and a length of at most 1000 ft, such as ["B1.width", "24"]'),
]
Changes = Annotated[
    tuple[tuple[Name, Name, Text], ...],
    Field(description="threes of a part's mark, a feature of it and a sentence"),
]

HarmName = Literal[
    "mirrored",
    "face",
    "end",
    "edge",
    "place",
    "large",
    "deep",
    "small",
    "shallow",
    "damage",
    "material",
    "left_out",
    "made_as",
]
Side = Literal["", "left", "right", "front", "back", "down", "up"]


@dataclass(frozen=True, slots=True)
class RecordedHarm:
    """One thing that is wrong with a part beside its size: a `feature` made otherwise than it should be, or
    damage of one `side` of the part, so `long` along that side and so `deep` in from it, in inches; zero
    where nobody said. A feature may be out `by` so much. `mirrored` is the whole part made as the other of
    its pair, `material` the key of the sheet good it was cut from instead of its own, thicker `by`
    so much; `made_as` is cut or worked as the `other` part."""

    fault: HarmName
    feature: Text = ""
    side: Side = ""
    long: Exact = Fraction(0)
    deep: Exact = Fraction(0)
    by: Exact = Fraction(0)
    material: Text = ""
    other: Text = ""


Harms = Annotated[
    tuple[RecordedHarm, ...],
    Field(
        max_length=MOST_HARMS,
        description=f'a list of at most {MOST_HARMS} objects such as {{"fault": "end", "feature": '
        '"dado-bottom"} or {"fault": "damage", "side": "front", "long": "2", "deep": "1/4"}',
    ),
]

HowJoined = Annotated[
    Literal["by hand", "clamp", "eased", "remade"],
    Field(description='one of "by hand", "clamp", "eased" and "remade"'),
]


@dataclass(frozen=True, slots=True)
class Claimed:
    """A bench takes parts in hand, so that no other bench cuts them too."""

    parts: Names


@dataclass(frozen=True, slots=True)
class Released:
    """A bench gives up parts that it had claimed."""

    parts: Names


@dataclass(frozen=True, slots=True)
class SettingMade:
    """A machine was set: `setting` names the batch, `distance` is the reading on the fence's scale."""

    setting: Text
    distance: Exact


@dataclass(frozen=True, slots=True)
class Done:
    """Operations done, by their keys; one tick may cover a whole batch."""

    steps: Names


@dataclass(frozen=True, slots=True)
class Measured:
    """A reading. `name` is a size of the ledger (`B1-L.length`, `ply.thickness`)."""

    name: Text
    value: Exact
    tool: Text = ""


@dataclass(frozen=True, slots=True)
class Spoiled:
    """A part that cannot be used as it is; `how` in the maker's words, `harms` what is wrong with it and
    where, beside its size."""

    part: Text
    how: Text = ""
    harms: Harms = ()


@dataclass(frozen=True, slots=True)
class Assembled:
    """Parts put together for good; `name` is the case or subassembly."""

    name: Text
    parts: Names


@dataclass(frozen=True, slots=True)
class FoundOffcut:
    """An offcut nobody had counted; `length` runs along the grain."""

    name: Text
    material: Text
    length: Exact
    width: Exact


@dataclass(frozen=True, slots=True)
class Flawed:
    """A fault in a sheet of the plan: `x` from its left end and `y` from its near edge begins what is
    `length` long and `width` wide."""

    material: Name
    sheet: Count
    x: Exact
    y: Exact
    length: Exact
    width: Exact


@dataclass(frozen=True, slots=True)
class Lost:
    """A part, by its mark, or an offcut, by its name, that is no longer there."""

    name: Text


@dataclass(frozen=True, slots=True)
class Stocked:
    """The number of sheets of a material in the rack; it replaces any earlier count."""

    material: Text
    sheets: Count


@dataclass(frozen=True, slots=True)
class TimeTaken:
    """How many minutes these operations took, setting up included."""

    steps: Names
    minutes: Minutes


@dataclass(frozen=True, slots=True)
class Decided:
    """The maker chose how to go on. `inputs` are the job's inputs that change, by ledger name,
    `again` the parts to be made again, `given_up` those that will not be made, `not_done` operations that
    are still to do or to do again, although they were ticked: those of a part that another piece serves
    as now, or of a feature that was cut in the wrong place. `turned` are the parts that are turned end for
    end or over for good, `changes` the features that are cut otherwise than drawn, each with how."""

    title: Text
    inputs: Inputs = ()
    again: Names = ()
    given_up: Names = ()
    not_done: Names = ()
    turned: Names = ()
    changes: Changes = ()


@dataclass(frozen=True, slots=True)
class Tested:
    """A reading of the shop's test by caliper. `blank` names a line of its sheet (`strip 1`), `number` is
    what it was cut to."""

    blank: Name
    value: Exact
    number: Exact


@dataclass(frozen=True, slots=True)
class DryFitted:
    """How a joint went together at the dry fit; `joint` is the key of its gap in the fit, or the name that it
    had when older tablets tapped it."""

    joint: Name
    how: HowJoined


@dataclass(frozen=True, slots=True)
class Undo:
    """Sets an event aside as if it had not happened. An undo can itself be undone."""

    event: Text


Happening = (
    Claimed
    | Released
    | SettingMade
    | Done
    | Measured
    | Spoiled
    | Assembled
    | FoundOffcut
    | Flawed
    | Lost
    | Stocked
    | TimeTaken
    | Decided
    | Tested
    | DryFitted
    | Undo
)


@dataclass(frozen=True, slots=True)
class Event:
    """One happening, as its bench wrote it down. `at` is the bench's own clock, for reading only."""

    id: Name
    bench: Name
    seq: Count
    what: Happening
    at: Text = ""

    @property
    def order(self) -> tuple[int, str, str]:
        """Where it stands among all events, the same wherever and whenever it arrives."""
        return (self.seq, self.bench, self.id)
