"""The state of a job when something has gone wrong: parts cut, parts spoiled, and wood on hand."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from enum import Enum
from fractions import Fraction

from ..boards.cut_once_more import BoardsInHand
from ..casework.parts.features.feature import Feature
from ..casework.parts.part import MADE_TO_THE_BOX, Part
from ..casework.project import Project
from ..planner.problem import Trim
from .flaws import Flaw
from .harm import Harm, HarmKind, lost_along

SPOILED = "spoiled "
"""How the name of a blank begins when the blank is a spoiled part."""


CLEAR = ", "
"""What stands between the name of a piece and which sound piece of it is meant."""


class Origin(Enum):
    """Where a piece of wood on hand comes from."""

    OFFCUT = "offcut"
    PIECE = "piece not yet cut"
    SHEET = "whole sheet"
    SPOILED = "spoiled part"


@dataclass(frozen=True)
class AsCut:
    """A part as it came off the saw, and its `harms`. `worked` is True once any of its features is cut.

    `begun` names the features cut so far (`features_begun`); None where nobody was asked: then all of a
    worked part, and of another those that are said to be wrong.
    """

    length: Fraction
    width: Fraction
    worked: bool = False
    harms: tuple[Harm, ...] = ()
    begun: frozenset[str] | None = None

    @property
    def cut_so_far(self) -> frozenset[str] | None:
        """The names of the features cut so far; None for all of them."""
        if self.begun is not None:
            return self.begun
        return None if self.worked else frozenset(one.feature for one in self.harms if one.feature)

    def made_of_it(self, part: Part) -> tuple[Feature, ...]:
        """The features of the part that are cut so far."""
        so_far = self.cut_so_far
        return tuple(one for one in part.features if so_far is None or one.name in so_far)


def features_begun(part: Part, harms: Iterable[Harm], named: Collection[str]) -> frozenset[str]:
    """The features of a part that count as cut: those `named` or ticked off, and those that are wrong.

    No other is taken as cut: a way that would fail if it were says so. Of a part made as the other of its
    pair all are, where none is named.
    """
    every = frozenset(feature.name for feature in part.features)
    begun = every & {*named, *(harm.feature for harm in harms)}
    return every if not begun and any(harm.fault is HarmKind.MIRRORED for harm in harms) else begun


def from_sheet(project: Project, part: Part, material: str, thick: Fraction | None) -> Harm | None:
    """That a part was cut from a sheet of this material, which measures `thick` (inches; None: what the job
    says of it). None where that is farther off than any sheet of its kind is."""
    planned = project.dimensions(part)[2]
    by = Fraction(0) if thick is None else thick - planned
    return None if abs(by) > planned / 2 else Harm(HarmKind.MATERIAL, material=material, by=by)


def thickness_from(project: Project, part: Part, harm: Harm) -> Fraction:
    """How thick a part is that came of another sheet: as measured, else as the job says of that sheet."""
    if harm.by:
        return project.dimensions(part)[2] + harm.by
    return project.job.sheets[harm.material or part.material].thickness


def made_as(project: Project, harms: Iterable[Harm]) -> Part | None:
    """The other part that a piece was made as; None where it was made as what it is marked."""
    return next((project.parts[harm.other] for harm in harms if harm.fault is HarmKind.MADE_AS), None)


def begun_of_piece(
    project: Project, part: Part, harms: Collection[Harm], named: Collection[str]
) -> frozenset[str]:
    """The features that are cut in a piece marked as this part: `features_begun`, or those of the other part
    that it was made as. Where all features of its own are named, all of that one's are meant."""
    other = made_as(project, harms)
    if other is None:
        return features_begun(part, harms, named)
    own, every = ({feature.name for feature in one.features} for one in (part, other))
    return frozenset(every if own and own <= {*named} else every & {*named})


def with_harms(project: Project, cut: AsCut, harms: tuple[Harm, ...], begun: frozenset[str]) -> AsCut:
    """The piece with what is wrong with it and what is cut into it. One that was made as another part, and
    has nothing cut into it, has another size (and material) than it should, and no more."""
    if made_as(project, harms) and not begun:
        harms = tuple(
            replace(harm, fault=HarmKind.MATERIAL, other="")
            for harm in harms
            if harm.fault is not HarmKind.MADE_AS or harm.material
        )
    return replace(cut, worked=bool(begun), harms=harms, begun=begun)


@dataclass(frozen=True)
class Blank:
    """A piece of wood on hand. `planned` lists the parts that the sheet plan cuts from it.

    `corner` is its left and near corner on its sheet, and `flaws` are the faults of that sheet: a part whose
    place one of them reaches is not `planned`.
    """

    name: str
    material: str
    length: Fraction
    width: Fraction
    origin: Origin
    trim: Trim = field(default_factory=Trim)
    planned: tuple[str, ...] = ()
    corner: tuple[Fraction, Fraction] = (Fraction(0), Fraction(0))
    flaws: tuple[Flaw, ...] = ()


@dataclass(frozen=True)
class LeftOver:
    """What the plan leaves of a piece of wood that is still to be cut up: the `blank` that it will be, the
    name of the piece that it lies `within`, and the number of its sheet."""

    blank: Blank
    within: str
    sheet: int


@dataclass(frozen=True)
class Facts:
    """The state of a job in the shop.

    `finished` parts are right as cut, `spoiled` ones are not; every other part is still to be cut,
    except those `given_up`. `blanks` is all wood on hand other than spoiled parts; `assembled` cases
    are glued up. `boards` are the boards of solid wood by its material's key, as far as they are cut, and
    `left_over` is what the plan leaves of blanks that are not cut up yet.
    """

    finished: Mapping[str, AsCut] = field(default_factory=dict)
    spoiled: Mapping[str, AsCut] = field(default_factory=dict)
    blanks: tuple[Blank, ...] = ()
    assembled: frozenset[str] = frozenset()
    given_up: frozenset[str] = frozenset()
    boards: Mapping[str, BoardsInHand] = field(default_factory=dict)
    left_over: tuple[LeftOver, ...] = ()

    @property
    def planned(self) -> frozenset[str]:
        """The parts that have a place on wood on hand."""
        on_boards = frozenset(mark for hand in self.boards.values() for mark in hand.placed)
        return on_boards.union(*(blank.planned for blank in self.blanks))

    def is_built_in(self, part: Part) -> bool:
        """Whether a part is glued up in its case. A face frame or a door is made by itself, to go on the
        finished case."""
        return part.case in self.assembled and part.role not in MADE_TO_THE_BOX

    def to_make(self, project: Project) -> tuple[Part, ...]:
        """The parts that are neither finished nor given up, in the order of the job."""
        return tuple(
            part for part in project if part.mark not in self.finished and part.mark not in self.given_up
        )

    def without(self, names: Iterable[str]) -> Facts:
        """The facts without the blanks of these names."""
        gone = frozenset(names)
        return replace(
            self,
            blanks=tuple(blank for blank in self.blanks if blank.name not in gone),
            left_over=tuple(one for one in self.left_over if one.within not in gone),
        )

    def spoil(self, parts: Mapping[str, AsCut]) -> Facts:
        """The facts once these parts have come out wrong; they no longer count as finished."""
        finished = {mark: cut for mark, cut in self.finished.items() if mark not in parts}
        return replace(self, finished=finished, spoiled={**self.spoiled, **parts})

    def give_up(self, marks: Iterable[str]) -> Facts:
        """The facts once these parts are no longer needed; their places on blanks are free."""
        gone = frozenset(marks)
        blanks = tuple(
            replace(blank, planned=tuple(mark for mark in blank.planned if mark not in gone))
            for blank in self.blanks
        )
        return replace(self, blanks=blanks, given_up=self.given_up | gone)

    def remnants(self, project: Project) -> Iterator[Blank]:
        """Spoiled parts that have no features cut yet, as blanks for smaller parts."""
        for mark, cut in self.spoiled.items():
            part = project.parts[mark]
            sound = sound_size(part, cut)
            of_boards = project.job.sheets[made_of(part, cut)].boards is not None
            if sound and not cut.worked and min(sound) > 0 and not of_boards:
                yield Blank(f"{SPOILED}{mark}", made_of(part, cut), *sound, Origin.SPOILED)


def is_of_boards(project: Project, part: Part) -> bool:
    """Whether it comes from rough boards, and not from a sheet."""
    return project.job.sheets[part.material].boards is not None


def made_of(part: Part, cut: AsCut) -> str:
    """The material that a spoiled part was cut from, by its key."""
    return next((harm.material for harm in cut.harms if harm.material), part.material)


def sound_size(part: Part, cut: AsCut) -> tuple[Fraction, Fraction] | None:
    """The length and width of what is sound of a piece; None where that is not known, or where its sheet is
    of another thickness than all wood of its material."""
    if any(harm.fault is HarmKind.MATERIAL and harm.by for harm in cut.harms):
        return None
    along, across = lost_along(cut.harms, part.lie.length), lost_along(cut.harms, part.lie.width)
    if (
        along is None
        or across is None
        or any(one.side and one.side.axis not in (part.lie.length, part.lie.width) for one in cut.harms)
    ):
        return None
    return cut.length - along, cut.width - across


def is_as_planned(project: Project, mark: str, cut: AsCut) -> bool:
    """Whether a part has its planned size, to half a mark of the rule."""
    length, width, _ = project.dimensions(project.parts[mark])
    half = project.job.mark.step / 2
    return abs(cut.length - length) <= half and abs(cut.width - width) <= half


def larger_by(project: Project, mark: str, cut: AsCut) -> dict[str, Fraction]:
    """What is to be trimmed off the length and width of a part that is otherwise its planned size, each to
    half a mark of the rule (inches); empty where it is too small, or no larger."""
    length, width, _ = project.dimensions(project.parts[mark])
    half = project.job.mark.step / 2
    over = {"length": cut.length - length, "width": cut.width - width}
    return {side: by for side, by in over.items() if by > half} if min(over.values()) >= -half else {}


def read_to_the_mark(project: Project, facts: Facts) -> Facts:
    """The facts with every size that is the planned one, to half a mark of the rule, taken as planned.

    A good part that was cut with its length along its planned width is right too where it may lie either way.
    """

    def read(mark: str, cut: AsCut, across: bool) -> AsCut:
        part = project.parts[mark]
        length, width, _ = project.dimensions(part)
        half = project.job.mark.step / 2

        def near(one: Fraction, other: Fraction) -> bool:
            return abs(one - other) <= half

        if across and near(cut.length, width) and near(cut.width, length):
            return replace(cut, length=length, width=width)
        return replace(
            cut,
            length=length if near(cut.length, length) else cut.length,
            width=width if near(cut.width, width) else cut.width,
        )

    return replace(
        facts,
        finished={mark: read(mark, cut, across=True) for mark, cut in facts.finished.items()},
        spoiled={mark: read(mark, cut, across=False) for mark, cut in facts.spoiled.items()},
    )
