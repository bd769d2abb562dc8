"""The names of sizes in the ledger, which are composed and parsed here and nowhere else.

A case, a part, a feature, a run and a sheet good each have a small frozen object whose properties are
their sizes: `CaseSizes("B1").inside` is the form for the size `B1.inside` alone. Its name is `form.name`
and its value `project.sizes.of(form)`. `Case` and `DrawnRun` are such objects themselves, so you can
write `case.inside` and `run.opening`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from ..sizes.affine import Affine, size

JOB = "job"
RUN = "run"


@dataclass(frozen=True, slots=True)
class SizeName:
    """The parts of a size's name: its owner, the feature (or none), and which size it is.

    `B1-L.dado-bottom.at` is the size `at` of the feature `dado-bottom` of `B1-L`.
    """

    owner: str
    feature: str
    what: str

    def __str__(self) -> str:
        return ".".join(piece for piece in (self.owner, self.feature, self.what) if piece)

    @property
    def form(self) -> Affine:
        """The form for this size alone."""
        return size(str(self))

    @property
    def words(self) -> str:
        """Which size it is, in words: `toe height`."""
        return self.what.replace("_", " ")

    @property
    def is_play(self) -> bool:
        """Whether the size is a play in the construction or the gap at an open end of a run."""
        return self.what.endswith("_play") or (self.run is not None and self.what == "gap")

    @property
    def run(self) -> int | None:
        """The number of the run that owns it, or None if the owner is not a run."""
        number = self.owner.removeprefix(RUN)
        return int(number) if number != self.owner and number.isdecimal() else None


def read_name(name: str) -> SizeName:
    """Split a name in the ledger into its parts; a word without a dot is a size without an owner."""
    owner, _, rest = name.partition(".")
    if not rest:
        return SizeName("", "", owner)
    feature, _, what = rest.rpartition(".")
    return SizeName(owner, feature, what)


def owner_of(name: str) -> str:
    """The owner in a size's name: the mark of a case or part, a material key, or a run."""
    return read_name(name).owner


def owners(name: str) -> tuple[str, ...]:
    """The owners in a size's name, from the outside in: the part, then the feature if there is one."""
    read = read_name(name)
    if read.feature:
        return read.owner, FeatureSizes(read.owner, read.feature).owner
    return (read.owner,)


class Named:
    """A property: a size of its holder. `what` is the last word of its name, if not the attribute's own."""

    def __init__(self, what: str = "") -> None:
        self.what = what

    def __set_name__(self, owner: type, name: str) -> None:
        self.what = self.what or name

    def __get__(self, holder: Any, kind: type | None = None) -> Affine:
        return size(f"{holder.owner}.{self.what}")


@dataclass(frozen=True)
class MaterialSizes:
    """The sizes of a sheet good, by its key in the job."""

    key: str

    thickness = Named()

    @property
    def owner(self) -> str:
        return self.key


@dataclass(frozen=True)
class EdgingSizes:
    """The sizes of an edging, by its key in the job; no sheet good has the same key."""

    key: str

    thickness = Named()

    @property
    def owner(self) -> str:
        return self.key


@dataclass(frozen=True)
class RunSizes:
    """The sizes of a run, by its number in the job, from 1."""

    number: int

    opening = Named()
    gap = Named()
    left_filler = Named()
    right_filler = Named()
    remainder = Named()
    left_end = Named()
    right_end = Named()
    lift = Named()
    start = Named()
    spare = Named()

    @property
    def owner(self) -> str:
        return f"{RUN}{self.number}"


@dataclass(frozen=True)
class CaseSizes:
    """The sizes of a case, by its mark. `rising` and `falling` are its diagonals, which are
    measured on the case and are not in the ledger."""

    mark: str

    width = Named()
    height = Named()
    depth = Named()
    inside = Named()
    inside_depth = Named()
    clear = Named()
    outside = Named()
    x = Named()
    rising = Named()
    falling = Named()

    @property
    def owner(self) -> str:
        return self.mark

    def construction(self, field: str) -> Affine:
        """A size of the construction that the case sets for itself."""
        return size(f"{self.mark}.{field}")

    def bay(self, bay: int) -> Affine:
        """The clear width of a bay, counted from the left."""
        return size(f"{self.mark}.bay{bay}")

    def below(self, bay: int, shelf: int) -> Affine:
        """The clear height below a fixed shelf, counted from the bottom."""
        return size(f"{self.mark}.below{tag(bay, shelf)}")

    def front(self, bay: int, place: int) -> Affine:
        """The height of a door or drawer front, counted from the bottom."""
        return size(f"{self.mark}.front{tag(bay, place)}")

    def drawer_box(self, bay: int, place: int) -> Affine:
        """The height of the drawer box behind a front, which is counted from the bottom."""
        return size(f"{self.mark}.box{tag(bay, place)}")

    def above(self, bay: int) -> Affine:
        """The clear height above the fixed shelves of a bay."""
        return size(f"{self.mark}.above{bay}")

    def clear_height(self, bay: int, level: int) -> Affine:
        """A clear height with shelves on pins; `level` counts a bay's clear heights from the bottom."""
        return size(f"{self.mark}.height{tag(bay, level)}")

    def pin_steps(self, bay: int, level: int) -> Affine:
        """How many steps the pin rows of a clear height have: a count, not a length."""
        return size(f"{self.mark}.pins{tag(bay, level)}")

    @property
    def diagonals(self) -> tuple[tuple[str, str], ...]:
        """The names of both diagonals, each with its description."""
        return (
            (self.rising.name, "diagonal, lower left to upper right"),
            (self.falling.name, "the other diagonal"),
        )


@dataclass(frozen=True)
class PartSizes:
    """The sizes of a part, by its mark. Only fillers and stiles have a `scribe`, and
    only shelves on pins a `hole`."""

    mark: str

    length = Named()
    width = Named()
    thickness = Named()
    scribe = Named()
    hole = Named()

    @property
    def owner(self) -> str:
        return self.mark


@dataclass(frozen=True)
class FeatureSizes:
    """The sizes of a feature cut into a part, by the part's mark and the feature's name. Only joints of
    frames have a `second`, a `long` and a `cheek`, only dovetailed ends a `line`."""

    part: str
    name: str

    at = Named()
    width = Named()
    depth = Named()
    setback = Named()
    first = Named()
    second = Named()
    inward = Named("in")
    up = Named()
    long = Named()
    cheek = Named()
    line = Named()

    @property
    def owner(self) -> str:
        """The owner in the ledger, and the place in findings about the feature."""
        return f"{self.part}.{self.name}"


def construction_size(field: str) -> Affine:
    """A size of the construction for the whole job."""
    return size(f"{JOB}.{field}")


def thickness_of(material: str) -> Affine:
    """The measured thickness of a sheet good."""
    return MaterialSizes(material).thickness


def part_mark(case: str, short: str) -> str:
    """The mark pencilled on a part: the mark of its case and its own short name."""
    return f"{case}-{short}"


def tag(bay: int, level: int) -> str:
    """A level in a bay, short enough to pencil: `23`, or `2-13` if the digits would run together."""
    return f"{bay}{level}" if max(bay, level) <= 9 else f"{bay}-{level}"
