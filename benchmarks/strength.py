"""Sag by casewright against a finite-element library, over a seeded sweep of spans, loads and supports."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from time import process_time

from casewright.shop.woods import known_woods
from casewright.strength.beam import simple_uniform, two_spans_uniform
from casewright.strength.creep import creep_of_kind, creep_of_wood
from casewright.strength.loaded_shelf import LoadedShelf, ShelfMaterial, ShelfStrip, sag_of
from casewright.strength.loads import LoadPer, load_given, shelf_uses
from casewright.strength.panel_stiffness import PanelStiffness, board_stiffness, sheet_kinds
from casewright.strength.sag_limits import sag_limits
from casewright.strength.shelf_answer import against_limit
from casewright.strength.shelf_plate import plate_sag, plate_stiffness
from oracles.bending_reference import (
    ReferenceBeam,
    ReferencePlate,
    beam_by_elements,
    plate_by_elements,
)
from oracles.solid_shelf import SolidShelf, SolidWood, sag_of_solid

TITLE = "Strength: sag against a finite-element library"
LIMIT = 0.01
BUDGET_MS = 300.0
SEED = 22


def beam_error(draw: random.Random) -> float:
    """A shelf on its two ends, or on a support at its middle too, under an even load."""
    span, load, stiffness = draw.uniform(12, 96), draw.uniform(0.5, 5), draw.uniform(5e4, 3e6)
    middle = draw.random() < 0.5
    rests = [(0.0, False), (span, False), *([(span / 2, False)] if middle else [])]
    sag, clear = (two_spans_uniform, span / 2) if middle else (simple_uniform, span)
    ours = sag(*(Fraction(one) for one in (load, clear, stiffness)))
    reference = beam_by_elements(ReferenceBeam(span, stiffness, sorted(rests), [(load, 0.0, span)], []))
    return abs(float(ours) / reference - 1)


def plate_error(draw: random.Random) -> float:
    """A shelf as a plate, with and without strips, held by its back or not: front, back and largest sag."""
    stiffness = sheet_kinds()[draw.choice(sorted(sheet_kinds()))]
    thickness = Fraction(draw.choice([15, 23, 24, 32]), 32)
    span, depth, held = draw.uniform(12, 60), draw.uniform(8, 25), draw.random() < 0.5
    plate = plate_stiffness(stiffness, thickness, grain_along=draw.random() < 0.8)
    front, back = (draw.choice([0.0, draw.uniform(1e4, 2e6)]) for _ in range(2))
    back = 0.0 if held else back
    ours = plate_sag(0.3, span, depth, plate, front=front, back=back, back_held=held)
    reference = plate_by_elements(
        ReferencePlate(
            span, depth, 0.3, plate.along, plate.across, plate.both, plate.twist, front, back, held
        )
    )
    pairs = zip((ours.front, ours.back, ours.most), reference, strict=True)
    return max(abs(one - other) for one, other in pairs) / reference[2]


SWEEPS: list[tuple[str, Callable[[random.Random], float], int, int]] = [
    ("shelves as beams on two and three rests, largest sag", beam_error, 200, 20),
    ("shelves as plates, front, back and largest sag", plate_error, 60, 6),
]


def solid_of(stiffness: PanelStiffness, *, rolls: bool = False) -> SolidWood:
    """A material as a solid: through the thickness as across the grain; plywood's veneers roll at half the
    shear."""
    along, across, shear = (float(one.value) for one in (stiffness.along, stiffness.across, stiffness.shear))
    poisson = float(stiffness.poisson.value)
    through = shear / 2 if rolls else shear
    return SolidWood((along, across, across), (poisson,) * 3, (shear, through, through))


SOLIDS = [
    (kind, span, height)
    for kind in ("hardwood plywood", "MDF")
    for span in (24, 36, 48)
    for height in (Fraction(3, 2), Fraction(5, 2))
]


def against_solid(kind: str, span: int, height: Fraction) -> tuple[float, float]:
    """How much the plate's sag differs from a solid body's, at the front and at the back, as shares of the
    most."""
    oak = ShelfMaterial(board_stiffness(known_woods()["red oak"]), creep_of_wood())
    creep = creep_of_kind(kind)
    assert creep is not None
    shelf = LoadedShelf(
        Fraction(span),
        Fraction(11),
        Fraction(23, 32),
        ShelfMaterial(sheet_kinds()[kind], creep),
        load_given(Fraction(40), LoadPer.SQUARE_FOOT),
        front=ShelfStrip(Fraction(3, 4), height, oak),
    )
    ours = sag_of(shelf, years=False)
    solid = SolidShelf(
        float(span),
        11.0,
        23 / 32,
        solid_of(sheet_kinds()[kind], rolls="plywood" in kind),
        0.75,
        float(height),
        replace(solid_of(oak.stiffness), poisson=(0.4, 0.4, 0.3)),
        40 / 144,
    )
    front, back = sag_of_solid(solid)
    return (float(ours.front) - front) / back, (float(ours.back) - back) / back


def sixty_cases() -> list[LoadedShelf]:
    """Four shelves, a top and a bottom in each of sixty cases, no two cases alike: 360 shelves."""
    kinds = [kind for kind in sheet_kinds() if creep_of_kind(kind)]
    shelves = []
    for number in range(60):
        kind = kinds[number % len(kinds)]
        creep = creep_of_kind(kind)
        assert creep is not None
        material = ShelfMaterial(sheet_kinds()[kind], creep)
        one = LoadedShelf(
            Fraction(14 + number % 30) + Fraction(number, 64),
            Fraction(11),
            Fraction(23, 32),
            material,
            shelf_uses()["books"],
            front=ShelfStrip(Fraction(3, 4), Fraction(3, 2), material) if number % 2 else None,
        )
        held = replace(one, back_held=True, load=shelf_uses()["kitchen, as tested"])
        deep = replace(one, depth=Fraction(23))
        shelves += [one, one, one, one, held, replace(held, depth=deep.depth)]
    return shelves


def milliseconds() -> float:
    """Processor time to hold every shelf of the sixty cases against a limit, caches empty."""
    shelves = sixty_cases()
    sag_of.cache_clear()
    against_limit.cache_clear()
    begun = process_time()
    for shelf in shelves:
        against_limit(shelf, sag_limits()["the eye"])
    return (process_time() - begun) * 1000


def run(quick: bool) -> str:
    lines = ["| what | how many | largest error | mean error |", "|---|---|---|---|"]
    for name, error, many, few in SWEEPS:
        draw = random.Random(SEED)
        errors = [error(draw) for _ in range(few if quick else many)]
        lines.append(f"| {name} | {len(errors)} | {max(errors):.4%} | {sum(errors) / len(errors):.4%} |")
    lines += ["", "| shelf 11 in deep, oak in front 3/4 in wide | front | back |", "|---|---|---|"]
    for kind, span, height in SOLIDS[:1] if quick else SOLIDS:
        front, back = against_solid(kind, span, height)
        lines.append(f"| {kind}, {span} in, oak {float(height):g} in high | {front:+.2f} | {back:+.2f} |")
    taken = milliseconds()
    lines += [
        "",
        "The second table holds the plate with its edging against a solid body of hexahedra: our sag less "
        "the body's, as a share of the body's sag at the back, where it is most.",
        "",
        f"Reference: scikit-fem (Hermite beams, Bogner-Fox-Schmit plates), seed {SEED}. The largest error is "
        f"to stay below {LIMIT:.0%}.",
        "",
        f"The shelves, tops and bottoms of 60 cases, no two cases alike: {taken:.0f} ms of processor time "
        f"(to stay below {BUDGET_MS:.0f} ms).",
    ]
    return "\n".join(lines)


def fails(text: str) -> bool:
    """Whether an error or the time is over its limit."""
    errors = [
        float(line.split("|")[3].strip().rstrip("%")) / 100
        for line in text.splitlines()
        if "%" in line and "|" in line
    ]
    taken = float(text.split("no two cases alike: ")[1].split(" ms")[0])
    return max(errors) >= LIMIT or taken >= BUDGET_MS
