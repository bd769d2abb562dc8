"""Find every way to finish a job after a mishap, best first."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cached_property
from itertools import combinations, islice

from ..boards.cut_once_more import WoodSource
from ..casework.directions import Way
from ..casework.hidden_sides import is_hidden
from ..casework.parts.part import Part
from ..casework.project import Project
from .board_way_wording import only_buying_found
from .facts import Blank, Facts, is_of_boards, read_to_the_mark
from .find_cures import cures_of, pieces_given, together
from .must_buy import proves_shortage
from .price import Seen, most_seen
from .repair_times import RepairPace
from .sizes_taken import as_drawn_where_gone, with_sizes_taken
from .way_wording import describe_way, glued_in_case, proof_of, why_none_is_bought
from .ways.bays_swapped import bays_swapped
from .ways.build_out import build_outs
from .ways.complete_way import CompleteWay, Remaining, complete, remaining
from .ways.cut_to_match import mates_to_cut
from .ways.from_wood import Finish, finish, wood_on_hand
from .ways.mends import hidden_edge
from .ways.other_material import material_swaps
from .ways.way import KINDS_THAT_BUY, Action, Forgo, MakeOf, Option, WayKind, Ways
from .ways.weighed_sizes import weighed_changes

MOST_PLANNED = 10
"""How many changed sizes get a full sheet plan: first those with fewest parts to make again, then those with
fewest to trim."""

MOST_LAID_OUT = 120
"""Parts laid out for changed sizes, over all of them; no more is begun after that. In a job of 50 uncut
parts that is the first two or three changes, in one of 20 the first six. They come last in rank and took
most of the time."""

MOST_DISTURBED = 6
"""How many pieces of wood are laid out again one by one, before all of them together."""

MOST_FORGONE = 12
"""How many optional parts are considered for leaving out, singly and in pairs."""

SEARCHED = tuple(kind for kind in WayKind if kind not in KINDS_THAT_BUY)
"""The ways without buying that every search looks for."""

NONE = Fraction(0)

Report = Callable[[Option], None]


def ways(
    project: Project, facts: Facts, pace: RepairPace | None = None, report: Report | None = None
) -> Ways:
    """Every way found to finish the job, best first; the best of each kind is among them.

    An hour counts as what the job's shop says, unless `pace` says otherwise. `report` is called with each way
    as it is found, the kinds that are quickest to work out first.
    A job that needs no repair has no ways.
    """
    project = as_drawn_where_gone(project, facts)
    facts = read_to_the_mark(project, facts)
    search = _Search(project, facts, pace or RepairPace(hourly=project.job.shop.hourly))
    if not search.left.make:
        return Ways((), False, "Nothing needs repair: every part is either cut or has a place on a sheet.")
    found: list[Option] = []
    for option in search.all():
        found.append(option)
        if report:
            report(option)
    ordered = tuple(sorted(_distinct(found), key=_rank))
    if search.glued_in:
        return Ways(ordered, False, glued_in_case(search.glued_in, ordered), SEARCHED)
    if (said := why_none_is_bought(ordered)) is not None:
        return Ways(ordered, False, said, SEARCHED)
    if not search.sheet_parts:
        return Ways(ordered, False, only_buying_found(ordered), SEARCHED)
    least = search.least()
    proved = search.must_buy(least)
    must_buy = proved and all(option.buys for option in ordered)
    return Ways(ordered, must_buy, proof_of(project, facts, least, proved, ordered), SEARCHED)


def _rank(option: Option) -> tuple[object, ...]:
    """Compares ways: the least is the best. Of two that cost the same, wood on hand comes before a sheet."""
    return (option.cost.key(), option.kind in KINDS_THAT_BUY)


def _distinct(options: Sequence[Option]) -> list[Option]:
    """The options without repeats: of two that do the same, the cheaper."""
    best: dict[object, Option] = {}
    for option in sorted(options, key=_rank):
        best.setdefault(frozenset(option.actions), option)
    return list(best.values())


class _Search:
    """One search: the job, its facts, and the parts it still needs, worked out once."""

    def __init__(self, project: Project, facts: Facts, pace: RepairPace) -> None:
        self.project = project
        self.facts = facts
        self.pace = pace
        left = remaining(project, project, facts, accept=False)
        assert left is not None, "an unchanged job changes no assembled case"
        self.left = left
        self.glued_in = tuple(
            part.mark for part in left.make if part.mark in facts.spoiled and facts.is_built_in(part)
        )

    def all(self) -> Iterator[Option]:
        """Each kind in turn, those that touch least first."""
        yield from self.cured()
        if self.glued_in:
            return  # nothing can be cut for a case that is glued up around it
        recut = list(self.recut(self.gently()))
        yield from recut
        yield from self.bought()
        if not recut:
            recut = list(self.recut(filter(None, [self.every_blank()])))
            yield from recut
        yield from self.milled()
        # If every missing part can be cut again, no other part need be left out to free wood.
        yield from self.forgo(only_missing=bool(recut))
        yield from self.built_out()
        yield from self.swapped()
        yield from self.bays_changed_over()
        yield from self.changed_sizes()  # the slowest

    def cured(self) -> Iterator[Option]:
        """By cures of the spoiled parts; what no cure saves is cut again, from a new sheet if it must be."""
        cures = cures_of(self.project, self.facts, self.left.make, self.pace)
        for kind, chosen in together(cures):
            saved = frozenset(mark for cure in chosen for mark in cure.saves)
            given = pieces_given(chosen)
            spoiled = {mark: cut for mark, cut in self.facts.spoiled.items() if mark not in given}
            facts = replace(self.facts, spoiled=spoiled)
            made = tuple(part for part in self.left.make if part.mark not in saved)
            left = replace(self.left, make=made, remade=sum(part.mark in self.facts.spoiled for part in made))
            actions = tuple(one for cure in chosen for one in cure.actions)
            seen = most_seen(cure.seen for cure in chosen)
            for buy in (False, True):
                done = complete(self.project, facts, left, actions, seen, NONE, self.pace, buy=buy)
                if done:
                    yield self.option(kind, self.project, done)
                    break

    def recut(self, disturbing: Iterable[frozenset[str]]) -> Iterator[Option]:
        """From wood on hand, the parts on some blanks laid out again: the first of these sets that does."""
        for disturb in disturbing:
            done = self.completed(disturb)
            if done:
                yield self.option(WayKind.RECUT, self.project, done)
                return

    def gently(self) -> Iterator[frozenset[str]]:
        """The blanks whose parts may get new places: none, then one, those with the fewest parts first;
        then one with a fault and one other, so that the rest stays where it is."""
        yield frozenset()
        materials = self.left.materials
        held = [blank for blank in self.facts.blanks if blank.planned and blank.material in materials]
        held.sort(key=lambda blank: (len(blank.planned), blank.name))
        if len(held) > 1:
            for blank in islice(filter(self.has_room, held), MOST_DISTURBED):
                yield frozenset({blank.name})
            for flawed in (blank for blank in held if blank.flaws):
                for blank in islice(filter(self.has_room, held), MOST_DISTURBED):
                    if blank is not flawed:
                        yield frozenset({flawed.name, blank.name})

    def has_room(self, blank: Blank) -> bool:
        """Whether the area that is left of a blank would hold the smallest part to make."""
        spare = blank.length * blank.width
        spare -= sum(self.area(self.project.parts[mark]) for mark in blank.planned)
        return spare >= self.smallest

    @cached_property
    def smallest(self) -> Fraction:
        """The area of the smallest part to make of a sheet."""
        return min(map(self.area, self.sheet_parts), default=NONE)

    @cached_property
    def sheet_parts(self) -> tuple[Part, ...]:
        """The parts to make that are of sheets."""
        return tuple(part for part in self.left.make if not is_of_boards(self.project, part))

    def area(self, part: Part) -> Fraction:
        length, width, _ = self.project.dimensions(part)
        return length * width

    def completed(
        self, disturb: frozenset[str], buy: bool = False, source: WoodSource | None = None
    ) -> CompleteWay | None:
        """The missing parts cut again, nothing else changed."""
        return complete(
            self.project,
            self.facts,
            self.left,
            (),
            Seen.NOTHING,
            NONE,
            self.pace,
            buy=buy,
            disturb=disturb,
            source=source,
        )

    def every_blank(self) -> frozenset[str]:
        """The blanks of the affected materials that hold planned parts."""
        return frozenset(
            one.name for one in self.facts.blanks if one.planned and one.material in self.left.materials
        )

    def bought(self) -> Iterator[Option]:
        """With as few new sheets as possible."""
        for disturb in dict.fromkeys((frozenset[str](), self.every_blank())):
            done = self.completed(disturb, buy=True)
            if done and done.buys:
                yield self.option(self.buying(done), self.project, done)
                # One sheet is the fewest: laying other parts out again saves none.
                if sum(one.count for one in done.finish.bought) <= 1:
                    return

    def milled(self) -> Iterator[Option]:
        """The parts of boards from a board at hand, or one to buy, where what the others leave does too."""
        for source in (WoodSource.AT_HAND, WoodSource.BOUGHT):
            buy = source is WoodSource.BOUGHT
            done = self.completed(frozenset(), buy=buy, source=source)
            if done:
                yield self.option(self.buying(done) if buy else WayKind.RECUT, self.project, done)

    def buying(self, done: CompleteWay) -> WayKind:
        """The kind of a way that buys something and cuts again."""
        return WayKind.BUY if done.finish.bought else WayKind.BUY_BOARD

    def forgo(self, only_missing: bool) -> Iterator[Option]:
        """By leaving out one or two parts that the maker marked optional; their wood serves for others."""
        materials = {part.material for part in self.left.make}
        optional = [
            part
            for part in self.project
            if part.mark in self.project.job.optional
            and part.mark not in self.facts.finished
            and part.mark not in self.facts.given_up
            and part.material in materials
        ]
        missing = {part.mark for part in self.left.make}
        # One of boards frees no wood of a sheet: its strip has its place among others.
        optional = [one for one in optional if one.mark in missing or not is_of_boards(self.project, one)]
        if only_missing:
            optional = [part for part in optional if part.mark in missing]
        # Leave out a missing part before one that still has its place.
        optional.sort(key=lambda part: part.mark not in missing)
        for size in (1, 2):
            found = False
            for group in combinations(optional[:MOST_FORGONE], size):
                for option in self.without(group):
                    found = True
                    yield option
            if found:
                return

    def without(self, group: tuple[Part, ...]) -> Iterator[Option]:
        gone = {part.mark for part in group}
        missing = {part.mark for part in self.left.make}
        made = tuple(part for part in self.left.make if part.mark not in gone)
        again = sum(mark in self.facts.spoiled and mark in missing for mark in gone)
        left = replace(self.left, make=made, remade=self.left.remade - again)
        forgo = tuple(Forgo(mark) for mark in sorted(gone))
        shows = Fraction(6 * len(group))
        freed = self.facts.give_up(gone)
        for disturb in dict.fromkeys((frozenset[str](), self.every_blank())):
            done = complete(
                self.project, freed, left, forgo, Seen.IN_SIGHT, shows, self.pace, disturb=disturb
            )
            if done:
                yield self.option(WayKind.GIVE_UP, self.project, done)
                return

    def built_out(self) -> Iterator[Option]:
        for strips, actions, built in build_outs(self.project, self.facts):
            facts = replace(
                self.facts, spoiled={m: c for m, c in self.facts.spoiled.items() if m not in built}
            )
            made = tuple(part for part in self.left.make if part.mark not in built)
            left = replace(self.left, make=(*made, *strips), remade=0)
            edges = [hidden_edge(self.project, self.project.parts[mark]) for mark in built]
            seen = Seen.HIDDEN_LINE if all(edges) else Seen.IN_SIGHT
            done = complete(self.project, facts, left, actions, seen, Fraction(1), self.pace)
            if done:
                yield self.option(WayKind.BUILD_OUT, self.project, done)

    def swapped(self) -> Iterator[Option]:
        for after, changed in material_swaps(self.project, self.left.make):
            made = tuple(after.parts[part.mark] for part in self.left.make)
            left = replace(self.left, make=made)
            actions: tuple[Action, ...] = tuple(MakeOf(part.mark, part.material) for part in changed)
            hidden = all(is_hidden(self.project, part, Way.FRONT) for part in changed)
            seen = Seen.NOTHING if hidden else Seen.IN_SIGHT
            done = complete(after, self.facts, left, actions, seen, Fraction(len(changed)), self.pace)
            if done:
                yield self.option(WayKind.SWAP, after, done)

    def bays_changed_over(self) -> Iterator[Option]:
        """With the bays of a case the other way about: another design than was agreed on."""
        for after, facts, actions in bays_swapped(self.project, self.facts):
            left = remaining(self.project, after, facts, accept=False)
            done = left and complete(after, facts, left, actions, Seen.DESIGN, NONE, self.pace)
            if done:
                yield self.option(WayKind.BAYS, after, done)

    def changed_sizes(self) -> Iterator[Option]:
        """With a size of the job changed so that a spoiled part, and all else that is cut, is right."""
        laid_out = 0
        missing = frozenset(part.mark for part in self.left.make)
        for one in islice(weighed_changes(self.project, self.facts, missing), MOST_PLANNED):
            change, after, left = one.change, one.after, one.left
            done = None
            matched = any(self.facts.spoiled[mark].harms for mark in left.keep)
            if matched and any(part.mark in self.facts.finished for part in left.make):
                continue  # a mate that is cut already cannot be cut to match
            mates = mates_to_cut(self.project, after, self.facts) if matched else ()
            actions: tuple[Action, ...] = (*change.inputs, *mates)
            for buy in (False, True):
                laid_out += 0 if done else self.to_lay_out(left)
                done = done or complete(
                    after, self.facts, left, actions, change.seen, change.in_sight, self.pace, buy=buy
                )
            if done:
                kind = WayKind.MATCH if mates else WayKind.TRIM if left.trim else WayKind.MOVE
                yield self.option(kind, after, done)
            if laid_out > MOST_LAID_OUT:
                return

    def to_lay_out(self, left: Remaining) -> int:
        """How many parts a changed size asks to lay out."""
        planned = (mark for blank in self.facts.blanks for mark in blank.planned)
        again = sum(self.project.parts[mark].material in left.resized for mark in planned)
        return again + len(left.make)

    def option(self, kind: WayKind, after: Project, done: CompleteWay) -> Option:
        after = with_sizes_taken(after, done.actions)
        why = describe_way(self.project, kind, after, done.actions, done.cost)
        made = done.finish
        return Option(kind, done.actions, after, made.problems, made.plans, done.cost, why, done.boards)

    def least(self) -> Finish | None:
        """How to buy least for all that the affected materials still need, with every layout open."""
        return finish(self.project, self.asked(), wood_on_hand(self.project, self.facts))

    def asked(self) -> list[Part]:
        """Every part still to be cut from the affected materials."""
        materials = {part.material for part in self.sheet_parts}
        return [part for part in self.facts.to_make(self.project) if part.material in materials]

    def must_buy(self, least: Finish | None) -> bool:
        """Whether it is proved that some sheet must be bought if the job is not changed."""
        if least is None or not least.bought:
            return False
        blanks = wood_on_hand(self.project, self.facts)
        return least.proved or any(
            proves_shortage(
                self.project,
                [part for part in self.asked() if part.material == material],
                [blank for blank in blanks if blank.material == material],
            )
            for material in {one.material for one in least.bought}
        )
