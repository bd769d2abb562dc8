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
    pieces = tuple(piece for whole in problem.one_piece for piece in _possible(problem, whole))
    if not pieces:
        return replace(problem, one_piece=()) if problem.one_piece else problem
    parted = {name for piece in pieces for name in piece.items}
    singles = tuple(replace(item, count=0) if item.name in parted else item for item in problem.items)
    blanks = tuple(_blank(problem, piece) for piece in pieces)
    return replace(problem, items=(*singles, *blanks), one_piece=pieces)


def _possible(problem: Problem, whole: OnePiece) -> Iterator[OnePiece]:
    """The piece, in the order in which the saws part it; or as few shorter ones as can be where it is too
    large for the stock or cannot be parted in any order."""
    left = whole.items
    while len(left) > 1:
        for count in range(len(left), 1, -1):
            piece = _ordered(problem, OnePiece(left[:count], whole.parted_by))
            if piece is not None and _fits(problem, _blank(problem, piece)):
                yield piece
                break
        else:
            count = 1
        left = left[count:]


def _ordered(problem: Problem, piece: OnePiece) -> OnePiece | None:
    """The piece with what the fence does not reach last, as every row of pieces is cut; None if it has
    such parts elsewhere."""
    reach = problem.table_saw.reach
    if reach is None:
        return piece
    far = [size > reach for size in _sizes(problem, piece)]
    if far == sorted(far):
        return piece
    return replace(piece, items=piece.items[::-1]) if far[::-1] == sorted(far) else None


def _sizes(problem: Problem, piece: OnePiece) -> list[Fraction]:
    """The sizes of its parts, the way they are parted."""
    lengthwise = piece.parted_by is Direction.CROSSCUT
    items = map(problem.item, piece.items)
    return [item.length if lengthwise else item.width for item in items]


def _blank(problem: Problem, piece: OnePiece) -> Item:
    """What the parts are cut out of, with a kerf between each two; more where the hand-held saw parts them
    and leaves an edge to the next one."""
    sizes = _sizes(problem, piece)
    whole = sum(sizes, ZERO) + (len(sizes) - 1) * problem.table_saw.kerf
    saw, hand = problem.table_saw, problem.hand_saw
    if saw.reach is not None and hand is not None:
        far = sum(size > saw.reach for size in sizes)
        whole += max(0, far - 1) * max(ZERO, hand.kerf - saw.kerf + hand.clean_up)
    items = [problem.item(name) for name in piece.items]
    may_turn = all(item.may_turn for item in items)
    if piece.parted_by is Direction.CROSSCUT:
        return Item(piece.name, whole, items[0].width, may_turn=may_turn)
    return Item(piece.name, items[0].length, whole, may_turn=may_turn)


def _fits(problem: Problem, blank: Item) -> bool:
    """Whether there is a sheet for it of which there are as many as it takes, or any where none is such."""
    plenty = [bin_ for bin_ in problem.bins if bin_.count is None] or problem.bins
    ways = [(blank.length, blank.width)] + [(blank.width, blank.length)] * blank.may_turn
    return any(x <= room_x and y <= room_y for x, y in ways for room_x, room_y in map(usable, plenty))


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
    possible = {name: piece for piece in with_blanks(problem).one_piece for name in piece.items}

    def fits(pair: tuple[str, str]) -> bool:
        return pair[0] in possible and pair[1] in possible[pair[0]].items

    return tuple(
        grain_broken(OnePiece(pair, whole.parted_by).name, pair, fits(pair))
        for whole in problem.one_piece
        for pair in pairwise(whole.items)
        if not _runs_on(problem, whole, pair, parents)
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
