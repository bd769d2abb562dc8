"""From board plans to operations: crosscut to rough length, joint, rip, plane, joint an edge again or glue
up, then cut each part to size.

A board is crosscut before it is jointed: a short length has less bow to take out. All strips of a material go
through the planer together, so that its parts are of one thickness. What is cut to size once planed is a
rip or a crosscut at the table saw like that of any sheet, on the same settings.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from fractions import Fraction
from types import MappingProxyType

from ...boards.board_plan import BoardLength, BoardPlan, BoardStrip, CutBoard, RoughPart
from ...casework.project import Project
from ...casework.size_names import thickness_of
from ...planner.problem import Edge
from ...shop.rough_boards import BoughtAsBoards
from ..freed_pieces import Freed, FreedPiece
from ..operations import Cutter, Guide, Hold, Machine, Operation, OperationKind, Setting
from ..sheets.sheet_cuts import blade
from .board_problems import strips_planed_to
from .glue_up_work import glue_up_steps, glued_panels, panel_of_step

NO_BOARDS: Mapping[str, BoardPlan] = MappingProxyType({})

_JOINTED = Hold(f"{Edge.NEAR.value} edge", "jointed face", "", True)
_NEAR = Hold(f"{Edge.NEAR.value} edge", "other face", "", True)
_END = Hold(f"{Edge.LEFT.value} edge", "other face", "", False)
_NO_HOLD = Hold("", "", "", False)

_Strips = Sequence[tuple[BoardLength, BoardStrip]]

_STEP = re.compile(r"(.+) board (\d{1,9}) .+", re.ASCII)
_ROUND = re.compile(r" again (\d{1,9}) (?:crosscut|jointing|planing|planing to glue up|edges)$", re.ASCII)


def board_name(material: str, number: int) -> str:
    """What steps and labels call a board of a plan."""
    return f"{material} board {number}"


def boards_by_name(plans: Mapping[str, BoardPlan]) -> dict[str, tuple[str, int]]:
    """Every board of these plans by its name, with its material's key and its number."""
    return {
        board_name(key, one.number): (key, one.number) for key, plan in plans.items() for one in plan.boards
    }


def _in_round(name: str, later: int) -> str:
    """How the steps of a round begin: those of a later one say which."""
    return f"{name} again {later}" if later else name


def round_of_step(key: str) -> int:
    """The round that a step is of; 0 for one that is done in one go with the rest."""
    named = _ROUND.search(key)
    return int(named[1]) if named else 0


def board_of_step(key: str) -> tuple[str, int] | None:
    """The material and number of the board that a step's key names; None for any other key."""
    named = _STEP.fullmatch(key)
    return None if named is None else (named[1], int(named[2]))


def wood_of_step(operation: Operation) -> str | None:
    """The material whose boards a step mills or cuts; None for any other step."""
    if operation.kind in (OperationKind.PLANE, OperationKind.EDGE_AGAIN):
        return operation.piece
    named = board_of_step(operation.key) or panel_of_step(operation.key)
    return None if named is None else named[0]


def board_crosscut_key(material: str, number: int, later: int = 0) -> str:
    """The key of the step that crosscuts a board to lengths, or in a later round what is left of it."""
    return f"{_in_round(board_name(material, number), later)} crosscut"


def part_crosscut_key(material: str, number: int, mark: str) -> str:
    """The key of the step that cuts a part of a board to its length."""
    return f"{board_name(material, number)} {mark} crosscut"


def planing_key(material: str, later: int = 0) -> str:
    """The key of the step that planes all strips of a material, or those of a later round."""
    return f"{_in_round(material, later)} planing"


def glued_planing_key(material: str, later: int = 0) -> str:
    """The key of the step that planes the strips that are glued up."""
    return f"{_in_round(material, later)} planing to glue up"


def planes_strips_to_glue(key: str) -> bool:
    """Whether a key is that of a step that planes strips to be glued up."""
    return key.endswith(" planing to glue up")


def _edge_key(material: str, later: int) -> str:
    """The key of the step that joints an edge of all its planed strips again."""
    return f"{_in_round(material, later)} edges"


def cuts_of_boards(project: Project, plans: Mapping[str, BoardPlan]) -> Iterator[Operation]:
    """Every operation that makes the parts of board plans, material by material; `plans` by its key."""
    for material, plan in plans.items():
        boards = project.job.sheets[material].boards
        if boards is not None and plan.boards:
            yield from _BoardWork(project, material, boards, plan).operations()


class _BoardWork:
    def __init__(self, project: Project, material: str, boards: BoughtAsBoards, plan: BoardPlan) -> None:
        self.project = project
        self.material = material
        self.rough = boards.rough
        self.plan = plan
        self.planed = project.sizes.of(thickness_of(material))
        self.blade = blade(project.job.shop)

    def operations(self) -> Iterator[Operation]:
        for later in sorted({strip.later for _, _, strip in self.plan.strips() if strip.wanted}):
            yield from self._round(later)

    def _round(self, later: int) -> Iterator[Operation]:
        """All that is cut in one go, from rough boards to parts."""
        strips = [
            (board, number, length, strip)
            for board in self.plan.boards
            for number, length, strip in board.strips_in_turn()
            if strip.wanted and strip.later == later
        ]
        ripped: list[str] = []
        for board in dict.fromkeys(board for board, *_ in strips):
            steps = list(self._roughed(board, later))
            yield from steps
            rips = [one.key for one in steps if one.kind is OperationKind.ROUGH_RIP]
            ripped += rips or [one.key for one in steps[-1:]]
        glued = [(length, strip) for _, _, length, strip in strips if strip.is_glued]
        single = [(length, strip) for _, _, length, strip in strips if not strip.is_glued]
        before = tuple(ripped)
        if glued:
            key, thick = (
                glued_planing_key(self.material, later),
                strips_planed_to(self.project, self.material),
            )
            yield self._planing(key, glued, thick, before)
            before = (key,)
        if single:
            yield self._planing(planing_key(self.material, later), single, self.planed, before)
            yield self._edge_again(single, later)
        panels = {part.panel for _, strip in glued for part in strip.wanted}
        for panel in glued_panels(self.project, self.material, self.plan):
            if panel.part.mark in panels:
                yield from glue_up_steps(self.project, self.material, panel, before)
        for board, number, length, strip in strips:
            if not strip.is_glued:
                yield from self._to_size(board, number, length, strip)

    def _roughed(self, board: CutBoard, later: int) -> Iterator[Operation]:
        """A board crosscut into lengths, those jointed, and each ripped into strips; of what was left of one,
        what is cut of it in a later round."""
        name = board_name(self.material, board.number)
        lengths = [length for length in board.lengths if length.later == later]
        strips = [one for one in board.strips_in_turn() if one[2].later == later and one[2].wanted]
        marks = _marks(part for _, _, strip in strips for part in strip.wanted)
        jointing = f"{_in_round(name, later)} jointing"
        if lengths:
            yield from self._to_lengths(board, lengths, later, marks, jointing)
        before: dict[Fraction, str] = {}
        for number, length, strip in strips:
            if _is_wide_as(board, length, strip):
                continue
            key, far = f"{name} strip {number}", board.board.least_width(length.x, length.end)
            earlier = [
                f"{name} strip {at}"
                for at, other, one in board.strips_in_turn()
                if other is length and one.later < later and one.wanted
            ]
            # What is left beside strips is there once the last of those is ripped.
            own = (jointing,) if length.later == later else tuple(earlier[-1:])
            yield Operation(
                key, OperationKind.ROUGH_RIP, name, _marks(strip.wanted),
                Setting(Machine.TABLE_SAW, self.blade, Guide.FENCE, strip.width), _JOINTED,
                (length.length, max(far - strip.y, strip.width), self.rough), length.length,
                (before[length.x],) if length.x in before else own, strip.width,
            )  # fmt: skip
            before[length.x] = key

    def _to_lengths(
        self,
        board: CutBoard,
        lengths: Sequence[BoardLength],
        later: int,
        marks: tuple[str, ...],
        jointing: str,
    ) -> Iterator[Operation]:
        name = board_name(self.material, board.number)
        size = (board.board.length, board.board.widest, board.board.thickness)
        any_saw = Setting(
            Machine.CROSSCUT_SAW, Cutter("any crosscut saw", self.blade.width), Guide.LINE, Fraction(0)
        )
        crosscut = Operation(
            board_crosscut_key(self.material, board.number, later), OperationKind.ROUGH_CROSSCUT, name, marks,
            any_saw, _NO_HOLD, size, board.board.widest * len(lengths),
        )  # fmt: skip
        yield crosscut
        longest = max(lengths, key=lambda length: length.length)
        lying = (longest.length, board.board.widest, board.board.thickness)
        jointer = Setting(Machine.JOINTER, Cutter("jointer knives", Fraction(0)), Guide.FENCE, Fraction(0))
        yield Operation(
            jointing, OperationKind.JOINT, name, marks, jointer, _NO_HOLD, lying,
            2 * sum((length.length for length in lengths), Fraction(0)), (crosscut.key,),
        )  # fmt: skip

    def _planing(self, key: str, strips: _Strips, thickness: Fraction, after: tuple[str, ...]) -> Operation:
        planer = Setting(Machine.PLANER, Cutter("planer knives", Fraction(0)), Guide.BED, thickness)
        longest, widest, travel, marks = _all_of(strips)
        return Operation(
            key, OperationKind.PLANE, self.material, marks, planer, _NO_HOLD, (longest, widest, self.rough),
            travel, after, thickness,
        )  # fmt: skip

    def _edge_again(self, strips: _Strips, later: int) -> Operation:
        """An edge of every planed strip jointed straight again, for the saw's fence."""
        fence = Setting(Machine.JOINTER, Cutter("jointer knives", Fraction(0)), Guide.FENCE, Fraction(0))
        longest, widest, travel, marks = _all_of(strips)
        return Operation(
            _edge_key(self.material, later), OperationKind.EDGE_AGAIN, self.material, marks, fence, _NO_HOLD,
            (longest, widest, self.planed), travel, (planing_key(self.material, later),),
        )  # fmt: skip

    def _to_size(
        self, board: CutBoard, number: int, length: BoardLength, strip: BoardStrip
    ) -> Iterator[Operation]:
        """A planed strip ripped to its width, and each part of it cut to its length."""
        name = board_name(self.material, board.number)
        sizes = {part.name: self.project.planned_size(self.project.parts[part.name]) for part in strip.wanted}
        marks, width = tuple(sizes), next(iter(sizes.values()))[1]
        rip = Operation(
            f"{name} strip {number} rip", OperationKind.RIP, name, marks,
            Setting(Machine.TABLE_SAW, self.blade, Guide.FENCE, width), _NEAR,
            (length.length, strip.width, self.planed), length.length,
            (_edge_key(self.material, strip.later),), width, sizes=marks,
        )  # fmt: skip
        yield rip
        for part in strip.wanted:
            long = sizes[part.name][0]
            leaves = (FreedPiece(Freed.PART, part.name, Edge.LEFT.value, long, width),)
            yield Operation(
                part_crosscut_key(self.material, board.number, part.name), OperationKind.CROSSCUT, name,
                (part.name,), Setting(Machine.TABLE_SAW, self.blade, Guide.STOP, long), _END,
                (part.length, width, self.planed), width, (rip.key,), long,
                sizes=(part.name,), leaves=leaves,
            )  # fmt: skip


def _is_wide_as(board: CutBoard, length: BoardLength, strip: BoardStrip) -> bool:
    """Whether a strip ends at the board's far edge all along: nothing is left to rip off."""
    rough = board.board
    places = [length.x, length.end, *(at for at in rough.stations if length.x < at < length.end)]
    return all(rough.width_at(at) == strip.y + strip.width for at in places)


def _marks(parts: Iterable[RoughPart]) -> tuple[str, ...]:
    """The marks of the parts that come of these; a part that is glued up once."""
    return tuple(dict.fromkeys(part.of_part for part in parts))


def _all_of(strips: _Strips) -> tuple[Fraction, Fraction, Fraction, tuple[str, ...]]:
    """Of strips that go through a machine together: the longest, the widest, how far they run, and the marks
    of their parts."""
    longest = max(length.length for length, _ in strips)
    widest = max(strip.width for _, strip in strips)
    travel = sum((length.length for length, _ in strips), Fraction(0))
    return longest, widest, travel, _marks(part for _, strip in strips for part in strip.wanted)
