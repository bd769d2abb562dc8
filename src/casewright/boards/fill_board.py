"""One board cut up for the parts that are still wanted: length by length, the fullest next.

Each candidate for the next length is filled as full as it goes: for every width the strips that hold most,
and of those the set that fills the clear stretches best. The length with most wood in parts for the board
it takes is cut first. Which of two like lengths that is, a seeded draw shakes: many different boards are
cut up so, and `choose_boards` picks among them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from .board_problem import BoardPart, BoardProblem
from .board_shape import BoardGrid, GridBoard, Stretch

CANDIDATES = 10
"""Lengths tried at each place, drawn from those that might do."""


ALL_OF_IT = 1_000.0
"""How much more a length is worth to a finishing filler that gives all that is still wanted."""

STRIPS_KEPT = 100_000
"""Strips whose best filling is remembered. Lots of a grade are cut up for the same parts and have the same
grid: of a job of 75 parts, nine strips in ten had been filled before."""


@dataclass(frozen=True)
class PartKind:
    """The parts of one rough size, in grid steps. Strips that are `glued` are a kind of their own: they are
    planed to another thickness, so no other part lies in a strip with them."""

    length: int
    width: int
    parts: tuple[BoardPart, ...]
    glued: bool = False

    @property
    def area(self) -> int:
        return self.length * self.width


@dataclass(frozen=True)
class GridStrip:
    """A strip on the grid with the kinds of its parts, by their numbers, left to right."""

    y: int
    width: int
    kinds: tuple[int, ...]


@dataclass(frozen=True)
class GridLength:
    """A length of board on the grid with its strips."""

    x: int
    length: int
    strips: tuple[GridStrip, ...]


Cutting = tuple[GridLength, ...]

StripSort = tuple[int, bool]
"""The width of a strip, and whether what it gives is glued up: the parts of one sort lie end to end."""


def kinds_of(problem: BoardProblem, grid: BoardGrid) -> tuple[PartKind, ...]:
    """The parts by their rough size, the largest first."""
    found: dict[tuple[int, int, bool], list[BoardPart]] = {}
    for part in problem.parts:
        size = (grid.whole(problem.rough_length(part)), grid.whole(problem.rough_width(part)))
        found.setdefault((*size, bool(part.panel)), []).append(part)
    kinds = (PartKind(length, width, tuple(parts), glued) for (length, width, glued), parts in found.items())
    return tuple(sorted(kinds, key=lambda kind: (-kind.area, -kind.length)))


def counts_of(cutting: Cutting, kinds: int) -> tuple[int, ...]:
    """How many parts of each kind a cut-up board gives."""
    counts = [0] * kinds
    for length in cutting:
        for strip in length.strips:
            for kind in strip.kinds:
                counts[kind] += 1
    return tuple(counts)


@lru_cache(maxsize=STRIPS_KEPT)
def fill_strip(lengths: tuple[int, ...], most: tuple[int, ...], room: int, kerf: int) -> tuple[int, ...]:
    """How many of each length, the longest first, leave least of a strip that holds `room`; of none more than
    `most`."""
    best: tuple[int, tuple[int, ...]] = (0, (0,) * len(lengths))
    # What the lengths from each on could fill at most: where that is no more than was found, no need to look.
    rest = [0] * (len(lengths) + 1)
    for at in range(len(lengths) - 1, -1, -1):
        rest[at] = rest[at + 1] + most[at] * lengths[at]

    def search(at: int, room: int, filled: int, chosen: tuple[int, ...]) -> None:
        nonlocal best
        if filled > best[0]:
            best = (filled, (*chosen, *(0 for _ in lengths[at:])))
        if at == len(lengths) or filled + min(room, rest[at]) <= best[0]:
            return
        each = lengths[at] + kerf
        for count in range(min(most[at], (room + kerf) // each), -1, -1):
            search(at + 1, room - count * each, filled + count * lengths[at], (*chosen, count))

    search(0, room, 0, ())
    return best[1]


@dataclass(eq=False)
class BoardFiller:
    """Cuts up boards for parts of these kinds; in grid steps `kerf`, the `shortest` length that is cut and
    the `longest` in which parts lie end to end. A `finishing` one takes a length that gives all that is still
    wanted before any fuller one: after that what is left may have no room on the board."""

    kinds: tuple[PartKind, ...]
    kerf: int
    shortest: int = 0
    longest: int | None = None
    finishing: bool = False
    by_sort: dict[StripSort, list[int]] = field(default_factory=dict)
    _strips: dict[tuple[StripSort, int, tuple[int, ...]], tuple[int, tuple[int, ...]]] = field(
        default_factory=dict
    )

    def __post_init__(self) -> None:
        for number, kind in enumerate(self.kinds):
            self.by_sort.setdefault((kind.width, kind.glued), []).append(number)
        for numbers in self.by_sort.values():
            numbers.sort(key=lambda number: -self.kinds[number].length)

    def fill(
        self, board: GridBoard, wanted: Sequence[int], draw: np.random.Generator, shake: float
    ) -> Cutting:
        """The board cut up for what is `wanted` of each kind. `shake` is how far the draw moves each
        candidate's worth, as a share."""
        left = list(wanted)
        made: list[GridLength] = []
        x = board.first
        while (found := self._next(board, x, left, draw, shake)) is not None:
            made.append(found)
            for strip in found.strips:
                for kind in strip.kinds:
                    left[kind] -= 1
            x = found.x + found.length + self.kerf
        return tuple(made)

    def _next(
        self, board: GridBoard, x: int, left: list[int], draw: np.random.Generator, shake: float
    ) -> GridLength | None:
        best: tuple[float, GridLength] | None = None
        tried = list(self._candidates(board, x, left))
        if len(tried) > CANDIDATES:
            tried = [tried[at] for at in sorted(draw.permutation(len(tried))[:CANDIDATES])]
        for start, length in tried:
            strips = self._strips_of(board, start, length, left)
            if not strips:
                continue
            area = sum(self.kinds[kind].area for strip in strips for kind in strip.kinds)
            worth = area / (start + length + self.kerf - x) * (1.0 + shake * draw.random())
            if self.finishing and sum(len(strip.kinds) for strip in strips) == sum(left):
                worth *= ALL_OF_IT  # nothing is gained by a fuller length and another after it
            if best is None or worth > best[0]:
                best = (worth, GridLength(start, length, strips))
        return None if best is None else best[1]

    def _candidates(self, board: GridBoard, x: int, left: list[int]) -> Iterator[Stretch]:
        """Where the next length may begin and how long it may be: as long as a part or two parts, up to the
        next defect, or up to the end; from here, or from behind the next defects."""
        starts = [x, *sorted({end for _, end, _, _ in board.defects if x < end < board.last})[:2]]
        lengths = sorted({kind.length for kind, count in zip(self.kinds, left, strict=True) if count})
        if not lengths:
            return
        two = {one + self.kerf + other for one in lengths for other in lengths if one <= other}
        for start in starts:
            room = board.last - start
            upto = {begin - start for begin, _, _, _ in board.defects if start < begin < board.last}
            least = max(lengths[0], self.shortest)
            fitting = {length for length in (*lengths, *two, *upto, least) if least <= length <= room}
            if room >= least:
                fitting.add(room)
            if self.longest is not None:
                fitting = {length for length in fitting if length <= self.longest or length in lengths}
                fitting |= {self.longest} if least <= self.longest <= room else set()
            yield from ((start, length) for length in sorted(fitting))

    def _strips_of(self, board: GridBoard, x: int, length: int, left: list[int]) -> tuple[GridStrip, ...]:
        """The strips to rip from a length, filled with what is left to cut."""
        stretches = board.clear(x, x + length)
        lines = {}
        for sort in sorted(self.by_sort, reverse=True):
            # No more strips than lie side by side: to fill others takes most of the time.
            most = sum((far - near + self.kerf) // (sort[0] + self.kerf) for near, far in stretches)
            lines[sort] = self._line(sort, length, left, most)
        taken = dict.fromkeys(lines, 0)
        strips: list[GridStrip] = []
        for near, far in stretches:
            y = near
            if strips:
                y = max(y, strips[-1].y + strips[-1].width + self.kerf)
            chosen = self._fullest(far - y, [(sort, line[taken[sort] :]) for sort, line in lines.items()])
            for sort, count in chosen:
                for _ in range(count):
                    strips.append(GridStrip(y, sort[0], lines[sort][taken[sort]][1]))
                    taken[sort] += 1
                    y += sort[0] + self.kerf
        return tuple(strips)

    def _line(
        self, sort: StripSort, length: int, left: list[int], most: int
    ) -> list[tuple[int, tuple[int, ...]]]:
        """Up to so many strips of one sort, the fullest first, with the area of their parts."""
        numbers = self.by_sort[sort]
        counts = [left[number] for number in numbers]
        found: list[tuple[int, tuple[int, ...]]] = []
        while any(counts) and len(found) < most:
            area, kinds = self._strip(sort, length, tuple(counts))
            if not kinds:
                break
            found.append((area, kinds))
            for kind in kinds:
                counts[numbers.index(kind)] -= 1
        return found

    def _strip(self, sort: StripSort, length: int, counts: tuple[int, ...]) -> tuple[int, tuple[int, ...]]:
        """The parts that fill a strip best, end to end, with their area; a single part where the length is
        too long for that."""
        numbers = self.by_sort[sort]
        if self.longest is not None and length > self.longest:
            wanted = (number for number, count in zip(numbers, counts, strict=True) if count)
            alone = next((number for number in wanted if self.kinds[number].length <= length), None)
            return (0, ()) if alone is None else (self.kinds[alone].area, (alone,))
        # No more than go into the strip: so that like strips are filled once.
        room = length + self.kerf
        most = tuple(
            min(count, room // (self.kinds[number].length + self.kerf))
            for number, count in zip(numbers, counts, strict=True)
        )
        key = (sort, length, most)
        if key not in self._strips:
            chosen = fill_strip(
                tuple(self.kinds[number].length for number in numbers), most, length, self.kerf
            )
            kinds = tuple(number for number, count in zip(numbers, chosen, strict=True) for _ in range(count))
            self._strips[key] = (sum(self.kinds[kind].area for kind in kinds), kinds)
        return self._strips[key]

    def _fullest(
        self, room: int, lines: list[tuple[StripSort, list[tuple[int, tuple[int, ...]]]]]
    ) -> list[tuple[StripSort, int]]:
        """How many strips of each sort fill a clear stretch best, each with its kerf."""
        best: tuple[int, list[tuple[StripSort, int]]] = (0, [])

        def search(at: int, room: int, area: int, chosen: list[tuple[StripSort, int]]) -> None:
            nonlocal best
            if area > best[0]:
                best = (area, chosen)
            if at == len(lines):
                return
            sort, line = lines[at]
            width = sort[0]
            most = max(0, min(len(line), (room + self.kerf) // (width + self.kerf)))
            for count in range(most, -1, -1):
                gained = sum(one for one, _ in line[:count])
                more = [*chosen, (sort, count)] if count else chosen
                search(at + 1, room - count * (width + self.kerf), area + gained, more)

        search(0, room, 0, [])
        return best[1]
