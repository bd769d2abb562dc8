"""What the map of a sheet shows of the work: the numbers of its cuts by hand, the letters to chalk."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from ...casework.fronts_in_one_piece import FrontsInOnePiece
from ...planner.plan import Plan
from ..freed_pieces import StackedPiece
from ..operations import Machine, Operation, cut_key


@dataclass(frozen=True)
class SheetMarks:
    """The cuts of a sheet at the trestles, in the order in which they are made, and the pieces that go to the
    table saw. `numbers` are what the cuts by hand are called on the map: 1, 2, 3 by the plan's own number of
    the cut. `fronts` are those that come from one piece."""

    by_hand: tuple[Operation, ...]
    numbers: Mapping[int, int]
    carried: tuple[StackedPiece, ...]
    fronts: tuple[FrontsInOnePiece, ...] = ()


def sheet_marks(
    plans: Mapping[str, Plan], operations: Iterable[Operation]
) -> Mapping[tuple[str, int], SheetMarks]:
    """The marks of every sheet by material and number; `operations` stand in the order of the work."""
    on_sheet: dict[str, list[Operation]] = {}
    for one in operations:
        if one.kind.cuts_up_a_sheet:
            on_sheet.setdefault(one.piece, []).append(one)
    marks = {}
    for material, plan in plans.items():
        for sheet in plan.sheets:
            cuts = on_sheet.get(f"{material} {sheet.number}", [])
            by_hand = tuple(one for one in cuts if one.setting.machine is Machine.HAND_SAW)
            order = {cut_key(material, sheet.number, cut.order): cut.order for cut in sheet.cuts}
            numbers = {order[one.key]: number for number, one in enumerate(by_hand, 1)}
            carried = tuple(dict.fromkeys(one.carried for one in cuts if one.carried))
            fronts = tuple(one.fronts for one in cuts if one.fronts)
            marks[material, sheet.number] = SheetMarks(by_hand, numbers, carried, fronts)
    return marks
