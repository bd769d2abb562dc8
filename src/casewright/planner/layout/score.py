"""What a layout is worth to the later goals, and what changing a few sheets does to the whole job.

Settings are counted over the whole job, so one sheet cannot be judged by itself: taking a sheet out saves a
setting only if no other sheet uses it. Each sheet is scored once and remembered; the totals then change by
the few sheets that change, which makes a trial as cheap as those sheets.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeVar

from ..engine.work_count import Count, uncounted
from ..parameters import WorkKind
from ..plan import PieceRole, Purpose
from ..problem import Direction, Goal, Problem, SawKind
from .cut_draft import Draft, DraftCut, draft_of
from .integer_grid import IntegerGrid
from .layout_tree import SheetLayout
from .leftovers import worth_of_leftover
from .orientation import GridSetting

WORTH_STEPS = 20
"""Leftovers are compared in steps of one part in so many of the dearest sheet: a smaller gain is not worth
moving the fence. Our judgement, not a search parameter: it decides which plan is better."""

MOST_KNOWN = 20_000
"""Scores remembered at a time, so that a long search does not fill the memory."""

Key = TypeVar("Key")

Way = tuple[str, str, int]
"""Match group, side (length or width) and size: all parts of one way should share one setting."""


@dataclass(frozen=True)
class Score:
    """What one sheet adds to the figures of the plan. `ways` pairs the sizes of match groups with the
    settings they come from.

    `over_limit` counts pieces that are too heavy or too long to be carried though none of their parts is.
    On a sheet with a part that is over a limit by itself a helper is needed anyway: there they count as
    `more_for_helper`. `by_hand` counts the cuts of the hand-held saw, `no_room` those beyond the fence that
    it cannot make for want of room between the parts.
    """

    worth: Fraction
    settings: frozenset[GridSetting]
    cuts: int
    turns: int
    ways: frozenset[tuple[Way, GridSetting | None]]
    over_limit: int
    more_for_helper: int
    by_hand: int
    no_room: int


class Scorer:
    """Scores layouts, each only once: the search comes back to the same layouts again and again."""

    def __init__(self, problem: Problem, grid: IntegerGrid, count: Count = uncounted) -> None:
        self.problem = problem
        self._count = count
        self.grid = grid
        self._known: dict[SheetLayout, Score] = {}
        self._matched = any(item.match is not None for item in problem.items)
        self._carries = problem.hand_saw is not None and problem.limits.any
        self._reach = None if problem.hand_saw is None else grid.reach

    def __call__(self, layout: SheetLayout) -> Score:
        known = self._known.get(layout)
        if known is None:
            if len(self._known) >= MOST_KNOWN:
                self._known.clear()
            known = self._known[layout] = self._score(layout, self._count)
        return known

    def uncounted(self, layout: SheetLayout) -> Score:
        """The same for a report on the way, which is no work of the search."""
        return self._known.get(layout) or self._score(layout, uncounted)

    def _score(self, layout: SheetLayout, count: Count) -> Score:
        root = draft_of(self.problem, self.grid, layout)
        bin_ = self.problem.bins[layout.bin]
        square = self.grid.step**2
        worth, settings, cuts, turns, over_limit, by_hand = Fraction(0), set(), 0, 0, 0, 0
        no_room = 0
        drafts = list(root.walk())
        count(WorkKind.DRAFT, len(drafts) + 2)
        for draft in drafts:
            if draft.role is PieceRole.OFFCUT:
                worth += worth_of_leftover(bin_, draft.length * draft.width * square)
            cuts += len(draft.cuts)
            by_hand += sum(cut.tool.kind is SawKind.HAND_SAW for cut in draft.cuts)
            at_fence = [cut for cut in draft.cuts if cut.at_fence]
            settings |= set(map(_setting, at_fence))
            if self._reach is not None:
                no_room += sum(cut.setting > self._reach for cut in at_fence)
            for child in draft.children:
                turns += (
                    bool(draft.cuts and child.cuts) and draft.cuts[0].direction is not child.cuts[0].direction
                )
            over_limit += self._is_over_limit(draft, layout.bin)
        ways: set[tuple[Way, GridSetting | None]] = set()
        if self._matched:
            self._add_ways(root, None, None, ways)
        helped = over_limit and any(
            not self.grid.carriable(self.grid.bins[layout.bin], *size)
            for size in _carried_in_one(self.grid, drafts)
        )
        lifts = (0, over_limit) if helped else (over_limit, 0)
        return Score(worth, frozenset(settings), cuts, turns, frozenset(ways), *lifts, by_hand, no_room)

    def _is_over_limit(self, draft: Draft, bin_: int) -> bool:
        if not self._carries or not draft.cuts or draft.role not in (PieceRole.SHEET, PieceRole.CARRIED):
            return False
        if draft.parted_by_hand:
            return False
        return over_for_nothing(self.grid, bin_, draft)

    def _add_ways(
        self,
        draft: Draft,
        by_x: GridSetting | None,
        by_y: GridSetting | None,
        found: set[tuple[Way, GridSetting | None]],
    ) -> None:
        leaf = draft.leaf
        if leaf is not None:
            item = self.problem.items[leaf.item]
            if item.match is not None:
                size = self.grid.items[leaf.item]
                lengthwise, widthwise = (by_y, by_x) if leaf.turned else (by_x, by_y)
                found.add(((item.match, "length", size.length), lengthwise))
                found.add(((item.match, "width", size.width), widthwise))
        if not draft.cuts:
            return
        sizing = {cut.at: cut for cut in draft.cuts if cut.purpose is not Purpose.TRIM}
        along_x = draft.cuts[0].direction is Direction.CROSSCUT
        for child in draft.children:
            cut = sizing.get(child.x + child.length if along_x else child.y + child.width)
            setting = None if cut is None else _setting(cut)
            self._add_ways(child, *((setting, by_y) if along_x else (by_x, setting)), found)


@dataclass
class JobTotals:
    """The figures of the whole job, kept up to date while single sheets change."""

    goals: tuple[Goal, ...]
    worth_step: Fraction
    money: Fraction = Fraction(0)
    worth: Fraction = Fraction(0)
    cuts: int = 0
    turns: int = 0
    over_limit: int = 0
    more_for_helper: int = 0
    by_hand: int = 0
    no_room: int = 0
    settings: Counter[GridSetting] = field(default_factory=Counter)
    ways: Counter[tuple[Way, GridSetting | None]] = field(default_factory=Counter)

    def change(self, out: Iterable[tuple[Score, Fraction]], come: Iterable[tuple[Score, Fraction]]) -> None:
        """Take sheets out and put others in, each a score with its cost."""
        for sign, scores in ((-1, out), (1, come)):
            for score, cost in scores:
                self.money += sign * cost
                self.worth += sign * score.worth
                self.cuts += sign * score.cuts
                self.turns += sign * score.turns
                self.over_limit += sign * score.over_limit
                self.more_for_helper += sign * score.more_for_helper
                self.by_hand += sign * score.by_hand
                self.no_room += sign * score.no_room
                _count(self.settings, score.settings, sign)
                _count(self.ways, score.ways, sign)

    def rank(self) -> tuple[Fraction | int, ...]:
        """A key by which plans are compared in the order of the goals; smaller is better.

        Some things outrank the maker's goals. A piece that nobody can carry makes a plan useless, so it comes
        first; where a helper is needed anyway, heavier pieces than need be come after the money. A cut that
        neither the fence reaches nor the hand-held saw has room for, and a match group that is not on one
        setting, break a promise rather than a wish, so they come right after that. A cut by hand counts as
        much as one step of leftovers: it is marked out, clamped and kneeled for, some five minutes in all
        (common practice, no source). The exact worth of leftovers breaks ties: it gives the search a slope
        between steps.
        """
        value: dict[Goal, Fraction | int] = {
            Goal.SHEET_MONEY: self.money,
            Goal.LEFTOVER_WORTH: self.by_hand - self.worth // self.worth_step,
            Goal.FENCE_SETTINGS: len(self.settings),
            Goal.CUTS: self.cuts,
            Goal.TURNS: self.turns,
        }
        later = self.goals[1:] if self._money_first else self.goals
        hand = () if Goal.LEFTOVER_WORTH in later else (self.by_hand,)
        return (*self.promises(), *hand, *(value[goal] for goal in later), -self.worth)

    def promises(self) -> tuple[Fraction | int, ...]:
        """The head of that key: what outranks every goal but the money."""
        money = (self.money,) if self._money_first else ()
        return (self.over_limit, *money, self.more_for_helper, self.no_room, self.split)

    @property
    def split(self) -> int:
        """Sides of matched groups that come from one setting too many."""
        return len(self.ways) - len({way for way, _ in self.ways})

    @property
    def _money_first(self) -> bool:
        return self.goals[:1] == (Goal.SHEET_MONEY,)


def over_for_nothing(grid: IntegerGrid, bin_: int, piece: Draft) -> bool:
    """Whether a piece is over a carrying limit while each of its parts alone is under it: it could be cut
    smaller first. Where a part itself is over, the piece cannot be."""
    stock = grid.bins[bin_]
    parts = list(_carried_in_one(grid, piece.walk()))
    heavy = grid.too_heavy(stock, piece.length, piece.width)
    long = grid.too_long(piece.length, piece.width)
    return (heavy and not any(grid.too_heavy(stock, *size) for size in parts)) or (
        long and not any(grid.too_long(*size) for size in parts)
    )


def _carried_in_one(grid: IntegerGrid, drafts: Iterable[Draft]) -> Iterator[tuple[int, int]]:
    """The size of each part of these pieces, or of the blank that it must not be parted from before."""
    for one in drafts:
        if one.leaf is not None:
            yield grid.in_one(one.leaf.item).size(one.leaf.turned)


def _setting(cut: DraftCut) -> GridSetting:
    return cut.direction is Direction.CROSSCUT, cut.setting


def _count(counter: Counter[Key], keys: Iterable[Key], sign: int) -> None:
    """Count keys up or down; those that reach zero are dropped, so that `len` counts what is in use."""
    for key in keys:
        counter[key] += sign
        if not counter[key]:
            del counter[key]


def job_totals(scorer: Scorer, layouts: Sequence[SheetLayout]) -> JobTotals:
    dearest = max(bin_.cost for bin_ in scorer.grid.bins)
    result = JobTotals(scorer.problem.goals, dearest / WORTH_STEPS or Fraction(1))
    result.change((), [(scorer(layout), scorer.grid.bins[layout.bin].cost) for layout in layouts])
    return result
