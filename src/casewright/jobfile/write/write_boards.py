"""Solid wood bought as boards, as the tables of a job file have it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields
from fractions import Fraction
from typing import Any

from ...shop.lumber import QUARTERS, GradeName
from ...shop.rough_boards import BoardDefect, BoughtAsBoards, Milling, RoughBoard
from ..read.board_entries import usual_size
from .literals import Literal, inline_table, number_literal

WriteLength = Callable[[Fraction], Literal]


def boards_entries(boards: BoughtAsBoards, write: WriteLength) -> dict[str, Any]:
    """The entries of a material's boards, usual values left out."""
    quarters = {thickness: name for name, thickness in QUARTERS.items()}
    entries: dict[str, Any] = {"rough": quarters.get(boards.rough) or write(boards.rough)}
    if boards.grade.name is not GradeName.FAS:
        entries["grade"] = boards.grade.name.value
    if boards.foot_price:
        entries["price"] = number_literal(boards.foot_price)
    usual = (boards.usual_length, boards.usual_width)
    if usual != usual_size(boards.grade):
        entries["size"] = [write(size) for size in usual]
    for one in fields(Milling):
        if (value := getattr(boards.milling, one.name)) != one.default:
            entries[one.name] = write(value)
    if boards.at_hand:
        entries["at_hand"] = [_board(board, write) for board in boards.at_hand]
    return entries


def _board(board: RoughBoard, write: WriteLength) -> dict[str, Any]:
    widths = [write(width) for width in board.widths]
    entries: dict[str, Any] = {
        "name": board.name,
        "length": write(board.length),
        "width": widths if len(widths) > 1 else widths[0],
    }
    if board.defects:
        entries["defects"] = [inline_table(_defect(board, one, write)) for one in board.defects]
    return entries


def _defect(board: RoughBoard, defect: BoardDefect, write: WriteLength) -> dict[str, Any]:
    entries: dict[str, Any] = {"along": [write(defect.start), write(defect.end)]}
    if (defect.low, defect.high) != (Fraction(0), board.widest):
        entries["across"] = [write(defect.low), write(defect.high)]
    return entries
