"""Solid wood bought as boards: from its tables to the values, and what in them cannot be."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, replace
from fractions import Fraction
from typing import Any

from ...lengths.fractions_text import quoted
from ...lengths.length import Mark, show
from ...shop.lumber import GRADES, LumberGrade, planed_thickness
from ...shop.rough_boards import NARROWEST_STRIP, BoardDefect, BoughtAsBoards, Milling, RoughBoard
from ..board_tables import BoardsTable, BoardTable
from .fault import Fault
from .key_places import Path

DEVIATION = Fraction(5, 1000)
"""Standard deviation of what a planer leaves, in inches: common practice, no source."""

MILLING = tuple(one.name for one in fields(Milling))
"""The entries of a boards table that say how boards are milled, each called as what it sets."""

SHEETS_ONLY = ("sheet", "nominal", "size", "trim", "price", "others")
"""Entries of a material that speak of sheets: the boards table says in their place how it is bought."""

WIDER, LONGER = Fraction(1), Fraction(24)
"""How much larger a usual board is than the least of its grade: FAS, 6 in by 8 ft at least, is sold 7 in by
10 ft on the average. Common practice, no source; a yard's own figures are better."""


def boards_from(table: BoardsTable) -> BoughtAsBoards:
    """The boards as the tables have them."""
    grade = GRADES[table.grade]
    length, width = table.size or usual_size(grade)
    said = {name: value for name in MILLING if (value := getattr(table, name)) is not None}
    return BoughtAsBoards(
        table.rough,
        grade,
        table.price,
        length,
        width,
        tuple(_board(one, table.rough) for one in table.at_hand),
        replace(Milling(), **said),
    )


def usual_size(grade: LumberGrade) -> tuple[Fraction, Fraction]:
    """Length and width of a usual board of a grade."""
    return grade.least_length + LONGER, grade.least_width + WIDER


def milled_stock(boards: BoughtAsBoards) -> dict[str, Any]:
    """What a material of boards is without another word: planed on both faces, a usual board for its
    sheet."""
    usual = boards.usual_board
    return {
        "nominal": boards.rough,
        "usual": planed_thickness(boards.rough),
        "deviation": DEVIATION,
        "size": (boards.usual_length, boards.usual_width),
        "trim": boards.milling.first_edge,
        "price": boards.price_of(usual.feet),
    }


def board_faults(boards: BoughtAsBoards, planed: Fraction, mark: Mark, path: Path) -> Iterator[Fault]:
    """What cannot be in the material at that path: boards planed thicker than they come out, boards of one
    name, defects beside the board."""
    thickest = planed_thickness(boards.rough)

    def write(length: Fraction) -> str:
        return show(length, mark, unit=True).marked

    if planed > thickest:
        text = f"boards {write(boards.rough)} thick come out {write(thickest)} thick at most once planed, "
        text += f"not {write(planed)}."
        yield Fault(
            "board-too-thin", (*path, "usual"), text, "Enter less, or thicker boards under boards.rough."
        )
    if boards.milling.widest_strip < NARROWEST_STRIP:
        text = f"strips {write(boards.milling.widest_strip)} wide are too narrow to joint and glue."
        fix = f"Enter {write(NARROWEST_STRIP)} or more; 3 to 5 in (75 to 125 mm) is usual."
        yield Fault("strip-too-narrow", (*path, "boards", "widest_strip"), text, fix)
    names: set[str] = set()
    for at, board in enumerate(boards.at_hand):
        listed: Path = (*path, "boards", "at_hand", at)
        if board.name in names:
            text = f"{quoted(board.name)} is already the name of another board."
            yield Fault("name-twice", (*listed, "name"), text, "Chalk another name on it.")
        names.add(board.name)
        for number, defect in enumerate(board.defects):
            yield from _defect_faults(board, defect, (*listed, "defects", number), write)


def _defect_faults(board: RoughBoard, defect: BoardDefect, path: Path, write: Any) -> Iterator[Fault]:
    for key, begin, end, most, word in (
        ("along", defect.start, defect.end, board.length, "long"),
        ("across", defect.low, defect.high, board.widest, "wide"),
    ):
        if begin >= end:
            text = f"a defect cannot begin at {write(begin)} and end at {write(end)}."
            yield Fault("defect-outside", (*path, key), text, "Write where it begins first: [30, 33].")
        elif end > most:
            text = f"a defect ends at {write(end)}, but the board is {write(most)} {word}."
            fix = f"Measure it again; it ends at {write(most)} at most."
            yield Fault("defect-outside", (*path, key), text, fix)


def _board(table: BoardTable, rough: Fraction) -> RoughBoard:
    widest = max(table.width)
    return RoughBoard(
        table.name,
        table.length,
        table.width,
        rough,
        tuple(BoardDefect(*one.along, *(one.across or (Fraction(0), widest))) for one in table.defects),
    )
