"""How far the blades cut, which is what dulls them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from ...shop.machines import Shop
from ..operations import Machine, Operation
from ..sheets.sheet_cuts import blade

_SAWS = (Machine.HAND_SAW, Machine.TABLE_SAW, Machine.CROSSCUT_SAW)


@dataclass(frozen=True, slots=True)
class CutLengths:
    """Inches of cut: of the blades of all saws, and of the dado stack. Every pass counts."""

    blades: Fraction
    dado_stack: Fraction


def cut_lengths(shop: Shop, operations: Iterable[Operation]) -> CutLengths:
    """How far these operations cut."""
    single = blade(shop)
    blades = stack = Fraction(0)
    for operation in operations:
        setting = operation.setting
        if setting.machine is Machine.TABLE_SAW and setting.cutter != single:
            stack += operation.travel
        elif setting.machine in _SAWS:
            blades += operation.travel
    return CutLengths(blades, stack)
