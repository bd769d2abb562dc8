"""Turn a changed job and its facts into a complete way to finish it, if there is one."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ...boards.board_plan import BoardPlan
from ...boards.cut_once_more import WoodSource
from ...casework.parts.part import Part
from ...casework.project import Project
from ..facts import AsCut, Blank, Facts, is_of_boards
from ..price import Cost, Seen
from ..repair_times import RepairPace
from .from_boards import mill_again
from .from_wood import Finish, finish, wood_on_hand
from .still_right import Verdict, judge, sides_to_trim
from .way import Action, Buy, BuyBoard, CutAgain, KeepAsCut, NewPlaces, TrimTo


@dataclass(frozen=True)
class Remaining:
    """What a job still needs: parts to `keep` as cut, to `trim` and to `make`.

    `make` lists the parts that have no place in the current sheet plan; `resized` names the materials
    in which an uncut part no longer has the size it was planned at. `remade` counts parts cut twice.
    """

    keep: tuple[str, ...]
    trim: tuple[TrimTo, ...]
    make: tuple[Part, ...]
    resized: frozenset[str]
    remade: int

    @property
    def materials(self) -> frozenset[str]:
        """The materials affected; the plans of all others stand."""
        return self.resized | {part.material for part in self.make}


def remaining(before: Project, after: Project, facts: Facts, accept: bool) -> Remaining | None:
    """What the job `after` still needs; with `accept`, spoiled parts are used at the size they have.

    None when a part of a case that is already glued up would have to change.
    """
    kept: list[str] = []
    trimmed: list[TrimTo] = []
    remade: set[str] = set()
    cut = {**facts.finished, **(facts.spoiled if accept else {})}
    for mark, piece in cut.items():
        glued_up = facts.is_built_in(before.parts[mark])
        if glued_up and mark not in facts.spoiled:
            # It serves as it is, whatever it was measured to be, while no other size of it is asked for.
            length, width, _ = before.dimensions(before.parts[mark])
            piece = AsCut(length, width, piece.worked, begun=piece.begun)
        verdict = judge(before, after, mark, piece)
        if mark in facts.spoiled and not piece.harms and piece.worked and _as_planned(before, mark, piece):
            verdict = Verdict.REMAKE  # what is wrong with it is not its size
        if verdict is not Verdict.RIGHT and glued_up:
            return None
        if verdict is Verdict.REMAKE:
            remade.add(mark)
            continue
        if verdict is Verdict.TRIM:
            length, width, _ = after.dimensions(after.parts[mark])
            trimmed.append(TrimTo(mark, length, width, sides_to_trim(after, mark, piece)))
        if mark in facts.spoiled:
            kept.append(mark)
    have = cut.keys() - remade
    planned = facts.planned
    needed = [part for part in after if part.mark not in have and part.mark not in facts.given_up]
    made = tuple(
        part for part in needed if part.mark not in planned and not _is_not_asked_for(after, facts, part)
    )
    moved = frozenset(
        part.material
        for part in after
        if part.mark in planned and after.dimensions(part) != before.dimensions(before.parts[part.mark])
    )
    again = len(remade) + sum(1 for part in made if part.mark in facts.spoiled and part.mark not in remade)
    return Remaining(tuple(kept), tuple(trimmed), made, moved, again)


def _is_not_asked_for(project: Project, facts: Facts, part: Part) -> bool:
    """Whether it is of boards, and never came off one: where their plan has no place for it, that is no
    mishap."""
    hand = facts.boards.get(part.material)
    return is_of_boards(project, part) and (hand is None or part.mark not in hand.no_good | hand.placed)


def _as_planned(project: Project, mark: str, piece: AsCut) -> bool:
    return project.dimensions(project.parts[mark])[:2] == (piece.length, piece.width)


@dataclass(frozen=True)
class CompleteWay:
    """How the parts are cut, with every action that takes and what it costs; `boards` are the board plans
    that change."""

    finish: Finish
    boards: Mapping[str, BoardPlan]
    actions: tuple[Action, ...]
    cost: Cost

    @property
    def buys(self) -> bool:
        """Whether a sheet or a board is bought for it."""
        return any(isinstance(one, Buy | BuyBoard) for one in self.actions)


def complete(
    after: Project,
    facts: Facts,
    left: Remaining,
    before_hand: Sequence[Action],
    seen: Seen,
    in_sight: Fraction,
    pace: RepairPace,
    *,
    buy: bool = False,
    disturb: Collection[str] = (),
    source: WoodSource | None = None,
) -> CompleteWay | None:
    """Plan the parts still to make; `before_hand` are the actions that come first.

    Parts that are still to be cut keep their places, except on the blanks called `disturb` and in
    materials in which a size has changed: those are laid out again. Parts of boards come from the `source`
    where one is given, else from what lies nearest.
    """
    # A spoiled part that is kept cannot be a blank for another.
    kept = {*left.keep, *(one.mark for one in left.trim)}
    facts = replace(facts, spoiled={mark: cut for mark, cut in facts.spoiled.items() if mark not in kept})
    parts, blanks = _asked(after, facts, left, disturb)
    milled = mill_again(after, facts, left.make, left.resized, buy=buy, source=source)
    found = finish(after, parts, blanks, buy=buy) if milled else None
    if found is None or milled is None:
        return None
    fresh = {part.mark for part in left.make}
    actions: list[Action] = [*before_hand, *(KeepAsCut(mark) for mark in left.keep), *left.trim]
    actions += [CutAgain(mark, found.cuts[mark]) for mark in found.cuts if mark in fresh]
    for material in sorted({part.material for part in parts}):
        marks = tuple(part.mark for part in parts if part.material == material and part.mark not in fresh)
        if marks:
            actions.append(NewPlaces(material, marks, len({found.cuts[mark] for mark in marks})))
    actions += [Buy(one.material, one.name, one.count) for one in found.bought]
    actions += milled.actions
    minutes = sum((pace.minutes(action, _features(after, action)) for action in actions), Fraction(0))
    money, wood = found.money + milled.money, found.wood + milled.wood
    cost = Cost(money, minutes, left.remade, seen, in_sight, wood, pace.hourly)
    return CompleteWay(found, milled.plans, tuple(actions), cost)


def _asked(
    after: Project, facts: Facts, left: Remaining, disturb: Collection[str]
) -> tuple[list[Part], list[Blank]]:
    """The parts to plan and the wood to plan them from."""
    again = {blank.name for blank in facts.blanks if blank.material in left.resized or blank.name in disturb}
    moved = {mark for blank in facts.blanks if blank.name in again for mark in blank.planned}
    made = (part for part in left.make if not is_of_boards(after, part))
    parts = [*made, *(part for part in after if part.mark in moved)]
    whole = [blank for blank in wood_on_hand(after, facts) if not blank.planned or blank.name in again]
    taken = {blank.name for blank in whole}
    # What the plan leaves of a piece lies there as long as the piece is cut up as planned.
    return parts, [*whole, *(one.blank for one in facts.left_over if one.within not in taken)]


def _features(project: Project, action: Action) -> int:
    mark = getattr(action, "mark", None)
    part = project.parts.get(mark) if isinstance(mark, str) else None
    return len(part.features) if part else 0
