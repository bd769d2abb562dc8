"""Board plans as JSON can hold them, lengths as exact fractions of an inch, in rows without names."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, TypeGuard

from ..boards.board_plan import BoardLength, BoardPlan, BoardStrip, CutBoard, RoughPart
from ..shop.rough_boards import BoardDefect, RoughBoard

LONGEST_NUMBER = 2_000
"""Characters of a number; one that a plan holds has far fewer."""


def boards_to_plain(plans: Mapping[str, BoardPlan]) -> dict[str, Any]:
    """Board plans by material."""
    return {
        material: {
            "bound": str(plan.bound),
            "bound_boards": plan.bound_boards,
            "unplaced": list(plan.unplaced),
            "boards": [_board_out(one) for one in plan.boards],
        }
        for material, plan in plans.items()
    }


def boards_from_plain(plain: Any) -> dict[str, BoardPlan]:
    """What `boards_to_plain` wrote. Raises ValueError for anything else."""
    try:
        return {
            _text(material): BoardPlan(
                tuple(map(_board_in, plan["boards"])),
                _exact(plan["bound"]),
                _whole(plan["bound_boards"]),
                tuple(map(_text, plan["unplaced"])),
            )
            for material, plan in plain.items()
        }
    except (KeyError, TypeError, AttributeError, ZeroDivisionError, RecursionError) as fault:
        raise ValueError(f"no board plan: {fault}") from fault


def _board_out(one: CutBoard) -> list[Any]:
    board = one.board
    return [
        one.number,
        one.to_buy,
        [
            board.name,
            str(board.length),
            [str(width) for width in board.widths],
            str(board.thickness),
            [[str(d.start), str(d.end), str(d.low), str(d.high)] for d in board.defects],
        ],
        [
            [
                str(length.x),
                str(length.length),
                [
                    [
                        str(strip.y),
                        str(strip.width),
                        [_part_out(part) for part in strip.parts],
                        *([strip.later] if strip.later else []),
                    ]
                    for strip in length.strips
                ],
            ]
            for length in one.lengths
        ],
    ]


def _part_out(part: RoughPart) -> list[Any]:
    row = [part.name, str(part.x), str(part.length)]
    return [*row, part.panel, True] if part.spent else [*row, *([part.panel] if part.panel else [])]


def _board_in(row: Any) -> CutBoard:
    number, to_buy, (name, long, widths, thickness, defects), lengths = row
    if not isinstance(to_buy, bool):
        raise TypeError("whether a board is to be bought")
    found = tuple(BoardDefect(*map(_exact, defect)) for defect in defects)
    size = (_exact(long), tuple(map(_exact, widths)), _exact(thickness))
    return CutBoard(
        _whole(number), RoughBoard(_text(name), *size, found), to_buy, tuple(map(_length_in, lengths))
    )


def _length_in(row: Any) -> BoardLength:
    x, length, strips = row
    return BoardLength(_exact(x), _exact(length), tuple(map(_strip_in, strips)))


def _strip_in(row: Any) -> BoardStrip:
    y, width, parts, *later = row
    return BoardStrip(_exact(y), _exact(width), tuple(map(_part_in, parts)), *map(_whole, later))


def _part_in(row: Any) -> RoughPart:
    name, x, length, *more = row
    panel, spent = more[0] if more else "", len(more) > 1 and more[1]
    if not isinstance(spent, bool):
        raise TypeError("whether a part is spent")
    return RoughPart(_text(name), _exact(x), _exact(length), _text(panel), spent)


def _exact(value: Any) -> Fraction:
    if not is_exact(value):
        raise TypeError("a length")
    return Fraction(value)


def is_exact(value: Any) -> TypeGuard[str]:
    """Whether it is a length or sum as it is written here, a fraction. A power of ten may stand for more
    digits than could ever be worked out."""
    return isinstance(value, str) and len(value) <= LONGEST_NUMBER and "e" not in value.lower()


def _whole(value: Any) -> int:
    if not isinstance(value, int) or isinstance(value, bool):
        raise TypeError("a number")
    return value


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError("a name")
    return value
