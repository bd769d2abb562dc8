"""The break-down problems of a job, one for each material. Items are named by the parts' marks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from ...casework.fronts_in_one_piece import FrontsInOnePiece, fronts_in_one_piece
from ...casework.parts.part import Part
from ...casework.project import Project
from ...planner.problem import Bin, Direction, Item, Limits, OnePiece, Problem, Saw, SawKind, Trim
from ...shop.machines import Shop
from ...shop.materials import Offcut, SheetGood, per_square_inch
from ..who_lifts import piece_rule


def cut_problems(project: Project) -> Mapping[str, Problem]:
    """A problem for every material that is bought in sheets and has parts, by the material's key, in order of
    first use."""
    by_material: dict[str, list[Part]] = {}
    for part in project:
        if project.job.sheets[part.material].boards is not None:
            continue
        by_material.setdefault(part.material, []).append(part)
    return {material: cut_problem(project, material, parts) for material, parts in by_material.items()}


def cut_problem(
    project: Project, material: str, parts: Iterable[Part], bins: tuple[Bin, ...] | None = None
) -> Problem:
    """How to get `parts` out of sheets of `material` and the rack (or out of `bins` alone).

    Parts come out at their exact sizes; a part of a face with grain is turned only where the job allows it.
    """
    sheet = project.job.sheets[material]
    shop = project.job.shop
    items = tuple(_item(project, part) for part in parts)
    marks = {item.name for item in items}
    hand = shop.hand_saw
    return Problem(
        items,
        bins if bins is not None else bins_of(sheet, shop),
        Saw(shop.table_saw.name, SawKind.TABLE_SAW, shop.table_saw.kerf, reach=shop.table_saw.rip_capacity),
        Saw(hand.name, SawKind.HAND_SAW, hand.kerf, clean_up=hand.clean_up),
        Limits(piece_rule(shop.carry).limit.one, shop.carry.length),
        one_piece=tuple(
            one for bank in fronts_in_one_piece(project) for one in _one_piece(bank).among(marks)
        ),
    )


def _one_piece(bank: FrontsInOnePiece) -> OnePiece:
    return OnePiece(bank.marks, Direction.CROSSCUT if bank.lengthwise else Direction.RIP)


def bins_of(sheet: SheetGood, shop: Shop) -> tuple[Bin, ...]:
    """The offcuts of a material that stand on the rack, then sheets of every size that can be bought."""
    rack = tuple(_offcut(offcut, sheet) for offcut in shop.rack if offcut.material == sheet.key)
    whole = Bin(
        sheet.name,
        sheet.sheet_length,
        sheet.sheet_width,
        price=sheet.price if sheet.price else None,
        trim=Trim.all_round(sheet.trim),
        weight_per_area=per_square_inch(sheet.weight) if sheet.weight else None,
    )
    others = (
        replace(
            whole,
            name=other.name,
            length=other.length,
            width=other.width,
            price=other.price if other.price else None,
            count=other.count,
        )
        for other in sheet.others
    )
    return (*rack, whole, *others)


def _item(project: Project, part: Part) -> Item:
    length, width = project.planned_size(part)
    return Item(part.mark, length, width, may_turn=project.may_turn(part), match=part.match)


def _offcut(offcut: Offcut, sheet: SheetGood) -> Bin:
    return Bin(
        offcut.name,
        offcut.length,
        offcut.width,
        count=offcut.count,
        price=offcut.worth,
        offcut=True,
        weight_per_area=per_square_inch(sheet.weight) if sheet.weight else None,
    )
