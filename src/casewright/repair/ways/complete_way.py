"""Turn a changed job and its facts into a complete way to finish it, if there is one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ...casework.parts.part import Part
from ...casework.project import Project
from ..facts import AsCut, Blank, Facts
from ..repair_times import RepairPace
from .from_wood import Finish, finish, spare_wood, wood_on_hand
from .still_right import Verdict, judge
from .way import Action, Buy, Cost, CutAgain, KeepAsCut, NewPlaces, TrimTo


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
        glued_up = before.parts[mark].case in facts.assembled
        if glued_up and mark not in facts.spoiled:
            # It serves as it is, whatever it was measured to be, while no other size of it is asked for.
            length, width, _ = before.dimensions(before.parts[mark])
            piece = AsCut(length, width, piece.worked)
        verdict = judge(before, after, mark, piece)
        if verdict is not Verdict.RIGHT and glued_up:
            return None
        if verdict is Verdict.REMAKE:
            remade.add(mark)
            continue
        if verdict is Verdict.TRIM:
            length, width, _ = after.dimensions(after.parts[mark])
            trimmed.append(TrimTo(mark, length, width))
        if mark in facts.spoiled:
            kept.append(mark)
    have = cut.keys() - remade
    planned = {mark for blank in facts.blanks for mark in blank.planned}
    needed = [part for part in after if part.mark not in have and part.mark not in facts.given_up]
    made = tuple(part for part in needed if part.mark not in planned)
    moved = frozenset(
        part.material
        for part in after
        if part.mark in planned and after.dimensions(part) != before.dimensions(before.parts[part.mark])
    )
    again = len(remade) + sum(1 for part in made if part.mark in facts.spoiled and part.mark not in remade)
    return Remaining(tuple(kept), tuple(trimmed), made, moved, again)


@dataclass(frozen=True)
class CompleteWay:
    """How the parts are cut, with every action that takes and what it costs."""

    finish: Finish
    actions: tuple[Action, ...]
    cost: Cost


def complete(
    after: Project,
    facts: Facts,
    left: Remaining,
    before_hand: Sequence[Action],
    seen: Fraction,
    pace: RepairPace,
    *,
    buy: bool = False,
    replan: bool = False,
) -> CompleteWay | None:
    """Plan the parts still to make; `before_hand` are the actions that come first.

    Materials in which no size has changed keep their current sheet plan, unless `replan` is set: then
    every uncut part of the affected materials is laid out again on all the wood on hand.
    """
    # A spoiled part that is kept cannot be a blank for another.
    kept = {*left.keep, *(one.mark for one in left.trim)}
    facts = replace(facts, spoiled={mark: cut for mark, cut in facts.spoiled.items() if mark not in kept})
    replanned = left.materials if replan else left.resized
    parts, blanks = _asked(after, facts, left, replanned)
    found = finish(after, parts, blanks, buy=buy)
    if found is None:
        return None
    fresh = {part.mark for part in left.make}
    actions: list[Action] = [*before_hand, *(KeepAsCut(mark) for mark in left.keep), *left.trim]
    actions += [CutAgain(mark, found.cuts[mark]) for mark in found.cuts if mark in fresh]
    for material in sorted(replanned):
        marks = tuple(part.mark for part in parts if part.material == material and part.mark not in fresh)
        if marks:
            actions.append(NewPlaces(material, marks))
    actions += [Buy(one.material, one.name, one.count) for one in found.bought]
    minutes = sum((pace.minutes(action, _features(after, action)) for action in actions), Fraction(0))
    cost = Cost(found.money, minutes, left.remade, seen, found.wood)
    return CompleteWay(found, tuple(actions), cost)


def _asked(
    after: Project, facts: Facts, left: Remaining, replanned: frozenset[str]
) -> tuple[list[Part], list[Blank]]:
    """The parts to plan and the wood to plan them from."""
    planned = {mark for blank in facts.blanks for mark in blank.planned}
    parts = [*left.make, *(part for part in after if part.mark in planned and part.material in replanned)]
    loose = list(spare_wood(after, facts))
    blanks = [blank for blank in wood_on_hand(after, facts) if blank.material in replanned]
    return parts, [*blanks, *(blank for blank in loose if blank.material not in replanned)]


def _features(project: Project, action: Action) -> int:
    mark = getattr(action, "mark", None)
    part = project.parts.get(mark) if isinstance(mark, str) else None
    return len(part.features) if part else 0
