"""Cabinet jobs drawn at random: what a maker of base, wall and tall cases cuts from three materials.

All sizes and proportions are our own choice. A job of one size and seed is always the same.
"""

from __future__ import annotations

import random
from dataclasses import dataclass
from fractions import Fraction as F

from casewright.planner.problem import Bin, Item, Problem, Saw, SawKind, Trim

KERF = F(1, 8)
TRIM = Trim.all_round(F(1, 4))


@dataclass(frozen=True)
class Material:
    """A sheet good: `density` in pounds per square foot."""

    name: str
    price: F
    density: F

    @property
    def sheet(self) -> Bin:
        weight = self.density / 144
        return Bin(self.name, F(96), F(48), None, self.price, TRIM, weight_per_area=weight)


CASE = Material("3/4 case ply", F(85), F("2.2"))
DRAWER = Material("1/2 drawer ply", F(60), F("1.5"))
BACK = Material("1/4 back ply", F(35), F("0.75"))


def job(cases: int, seed: int) -> dict[Material, tuple[Item, ...]]:
    """The parts of so many cases, by material."""
    draw = random.Random(f"{cases} cases, seed {seed}")
    parts: dict[Material, list[Item]] = {CASE: [], DRAWER: [], BACK: []}
    base_depth = F(draw.choice([22, 23, 24])) + F(draw.randrange(0, 16), 16)
    wall_depth = F(draw.choice([11, 12, 13])) + F(draw.randrange(0, 16), 16)
    tall_height = F(draw.choice([80, 84, 90]))
    wall_height = F(draw.choice([30, 36, 42]))
    for number in range(1, cases + 1):
        kind = draw.choices(["base", "wall", "tall"], [5, 4, 1])[0]
        width = F(draw.choice([12, 15, 18, 21, 24, 27, 30, 33, 36])) + F(draw.choice([0, 0, 0, 3, 7]), 16)
        depth = wall_depth if kind == "wall" else base_depth
        height = {"base": F("34.5"), "wall": wall_height, "tall": tall_height}[kind]
        inside = width - F(3, 4)

        def add(
            material: Material,
            what: str,
            length: F,
            across: F,
            count: int,
            turn: bool = False,
            at: int = number,
        ) -> None:
            parts[material].append(
                Item(f"{what} {at}", length, across, count, turn, f"{what} {length} {across}")
            )

        add(CASE, "side", height, depth, 2)
        add(CASE, "bottom", inside, depth, 1)
        if kind == "base":
            add(CASE, "stretcher", inside, F(4), 2, True)
        else:
            add(CASE, "top", inside, depth, 1)
        add(
            CASE,
            "shelf",
            inside - F(1, 16),
            depth - F(3, 2),
            draw.choice({"base": [0, 1], "wall": [2, 3], "tall": [3, 4]}[kind]) or 1,
        )
        add(CASE, "nailer", inside, F("3.5"), 1, True)
        add(BACK, "back", height - F(4), inside, 1)
        if kind == "base" and draw.random() < 0.45:
            drawers = draw.choice([1, 3, 4])
            deep = F(4) if drawers > 1 else F("5.5")
            add(DRAWER, "drawer side", F(21), deep, 2 * drawers, True)
            add(DRAWER, "drawer end", inside - F(2), deep, 2 * drawers, True)
            add(BACK, "drawer bottom", F("20.5"), inside - F("1.5"), drawers, True)
    return {material: tuple(items) for material, items in parts.items() if items}


def problem(material: Material, items: tuple[Item, ...]) -> Problem:
    return Problem(items, (material.sheet,), Saw("table saw", SawKind.TABLE_SAW, KERF))
