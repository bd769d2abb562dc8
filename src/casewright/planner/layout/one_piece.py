"""Parts of one piece: the search places their blank, and the plan parts it.

To the search such parts are one item, a blank that holds them and the kerfs between. `with_blanks` puts the
blanks into a problem, `cut_draft` parts them again, and `folded` finds them in a plan made before.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from ...findings import Finding
from ..plan import Piece, SheetPlan
from ..plan_wording import grain_broken
from ..problem import ZERO, Direction, Item, OnePiece, Problem
from ..problem_faults import usable


def with_blanks(problem: Problem) -> Problem:
    """The problem as the search sees it: blanks in place of the parts that come of one piece. The parts are
    still among its items, but none of them is asked for by itself."""
    if not problem.one_piece:
        return problem
    made = _Blanks(problem)
    pieces = tuple(piece for whole in problem.one_piece for piece in made.possible(whole))
    parted = {name for piece in pieces for name in piece.items}
    singles = tuple(replace(item, count=0) if item.name in parted else item for item in problem.items)
    return replace(problem, items=(*singles, *map(made.blank, pieces)), one_piece=pieces)


class _Blanks:
    """Makes the blanks of a problem."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.items = {item.name: item for item in problem.items}
        # What is at hand only once or twice may be gone when the piece's turn comes.
        self.sheets = [bin_ for bin_ in problem.bins if bin_.count is None] or problem.bins

    def possible(self, whole: OnePiece) -> Iterator[OnePiece]:
        """The piece, in the order in which the saws part it; or as few shorter ones as can be where it is too
        large for the sheets or cannot be parted in any order."""
        left = whole.items
        while len(left) > 1:
            for count in range(len(left), 1, -1):
                piece = self._ordered(OnePiece(left[:count], whole.parted_by))
                if piece is not None and self._fits(self.blank(piece)):
                    yield piece
                    break
            else:
                count = 1
            left = left[count:]

    def _ordered(self, piece: OnePiece) -> OnePiece | None:
        """The piece with what the fence does not reach last, as every row of pieces is cut; None if it has
        such parts elsewhere."""
        reach = self.problem.table_saw.reach
        if reach is None:
            return piece
        far = [size > reach for size in self._sizes(piece)]
        if far == sorted(far):
            return piece
        return replace(piece, items=piece.items[::-1]) if far[::-1] == sorted(far) else None

    def _sizes(self, piece: OnePiece) -> list[Fraction]:
        """The sizes of its parts, the way they are parted."""
        items = [self.items[name] for name in piece.items]
        return [item.length if piece.parted_by is Direction.CROSSCUT else item.width for item in items]

    def blank(self, piece: OnePiece) -> Item:
        """What the parts are cut out of, with a kerf between each two; more where the hand-held saw parts
        them and leaves an edge to the next one."""
        sizes = self._sizes(piece)
        saw, hand = self.problem.table_saw, self.problem.hand_saw
        whole = sum(sizes, ZERO) + (len(sizes) - 1) * saw.kerf
        if saw.reach is not None and hand is not None:
            far = sum(size > saw.reach for size in sizes)
            whole += max(0, far - 1) * max(ZERO, hand.kerf - saw.kerf + hand.clean_up)
        first = self.items[piece.items[0]]
        may_turn = all(self.items[name].may_turn for name in piece.items)
        if piece.parted_by is Direction.CROSSCUT:
            return Item(piece.name, whole, first.width, may_turn=may_turn)
        return Item(piece.name, first.length, whole, may_turn=may_turn)

    def _fits(self, blank: Item) -> bool:
        ways = [(blank.length, blank.width)] + [(blank.width, blank.length)] * blank.may_turn
        return any(x <= long and y <= wide for x, y in ways for long, wide in map(usable, self.sheets))


def folded(problem: Problem, root: Piece) -> Piece:
    """A sheet's tree with the blanks of `problem` as parts, wherever their parts lie beside each other."""
    pieces = {name: piece for piece in problem.one_piece for name in piece.items}
    return _folded(problem, root, pieces) if pieces else root


def _folded(problem: Problem, piece: Piece, pieces: Mapping[str, OnePiece]) -> Piece:
    children, cuts = list(piece.children), list(piece.cuts)
    folds: list[Piece] = []
    while children:
        blank = pieces.get(children[0].item or "")
        count = _parts_ahead(problem, piece, children, blank) if blank else 0
        if blank is None or not count:
            folds.append(_folded(problem, children.pop(0), pieces))
            continue
        first, last = children[0], children[count - 1]
        length, width = last.x + last.length - first.x, last.y + last.width - first.y
        folds.append(replace(first, length=length, width=width, item=blank.name))
        low, high = (first.x + first.length, last.x) if _along_x(piece) else (first.y + first.width, last.y)
        cuts = [cut for cut in cuts if not low <= cut.at <= cut.at + cut.kerf <= high]
        children = children[count:]
    if len(folds) == 1 and not cuts:
        return folds[0]
    return replace(piece, cuts=tuple(cuts), children=tuple(folds))


def _parts_ahead(problem: Problem, piece: Piece, children: Sequence[Piece], blank: OnePiece) -> int:
    """How many of these children, from the first, are what the blank is parted into; 0 if they are not."""
    names: list[str] = []
    last: Piece | None = None
    for count, child in enumerate(children, 1):
        if child.item is not None:
            if last is not None and not _is_joined(problem, piece, last, child, blank):
                return 0
            names.append(child.item)
            last = child
        if len(names) == len(blank.items):
            return count if tuple(names) in (blank.items, blank.items[::-1]) else 0
    return 0


def _is_joined(problem: Problem, piece: Piece, first: Piece, second: Piece, blank: OnePiece) -> bool:
    """Whether two parts of a piece lie side by side as they would in the blank, nothing between them but what
    saws take."""
    along_x = (blank.parted_by is Direction.CROSSCUT) is not first.turned
    if _along_x(piece) is not along_x or first.turned is not second.turned:
        return False
    low, high = (first.x + first.length, second.x) if along_x else (first.y + first.width, second.y)
    hand = problem.hand_saw
    return high - low <= max(problem.table_saw.kerf, hand.kerf + hand.clean_up if hand else ZERO)


def _along_x(piece: Piece) -> bool:
    return piece.cuts[0].direction is Direction.CROSSCUT


def breaks_of_grain(problem: Problem, sheets: Iterable[SheetPlan]) -> tuple[Finding, ...]:
    """A finding for each two neighbours of a piece asked for that do not come of one."""
    if not problem.one_piece:
        return ()
    parents = {part.item: piece for sheet in sheets for piece in sheet.root.walk() for part in piece.children}
    broken = [
        OnePiece(pair, whole.parted_by)
        for whole in problem.one_piece
        for pair in pairwise(whole.items)
        if not _runs_on(problem, whole, pair, parents)
    ]
    possible = [set(piece.items) for piece in with_blanks(problem).one_piece] if broken else []
    return tuple(
        grain_broken(one.name, one.items, any(piece.issuperset(one.items) for piece in possible))
        for one in broken
    )


def _runs_on(
    problem: Problem, whole: OnePiece, pair: tuple[str, str], parents: Mapping[str | None, Piece]
) -> bool:
    """Whether two parts lie side by side in one piece, or one of them is missing from the plan."""
    if not all(name in parents for name in pair):
        return True
    piece = parents[pair[0]]
    if parents[pair[1]] is not piece:
        return False
    first, second = (child for child in piece.children if child.item in pair)
    return _is_joined(problem, piece, first, second, whole)
