"""Shelves for the tests: plywood and MDF, with an oak edging."""

from fractions import Fraction as F
from typing import Any

from casewright.shop.woods import known_woods
from casewright.strength.creep import creep_of_kind, creep_of_wood
from casewright.strength.loaded_shelf import LoadedShelf, ShelfMaterial, ShelfStrip
from casewright.strength.loads import shelf_uses
from casewright.strength.panel_stiffness import board_stiffness, sheet_kinds

OAK = ShelfMaterial(board_stiffness(known_woods()["red oak"]), creep_of_wood())


def panel(kind: str) -> ShelfMaterial:
    creep = creep_of_kind(kind)
    assert creep is not None
    return ShelfMaterial(sheet_kinds()[kind], creep)


def oak_strip(height: F = F(3, 2), width: F = F(3, 4)) -> ShelfStrip:
    return ShelfStrip(width, height, OAK)


def shelf(kind: str = "hardwood plywood", use: str = "kitchen, as tested", **changes: Any) -> LoadedShelf:
    """A shelf 30 in between its supports, 11 in deep, of 23/32 in."""
    sizes = {"span": F(30), "depth": F(11), "thickness": F(23, 32), **changes}
    return LoadedShelf(material=panel(kind), load=shelf_uses()[use], **sizes)
