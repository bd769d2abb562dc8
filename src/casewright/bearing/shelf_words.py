"""How a loaded shelf is told: its load, its section, its sag, and what the answer takes for granted."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from ..lengths.in_a_sentence import with_capital
from ..lengths.length import Mark, Unit
from ..lengths.quantities import (
    AREA_UNITS,
    KILOGRAMS_IN_A_POUND,
    LONG_UNITS,
    NEWTON_PER_SQUARE_MM,
    caliper,
)
from ..lengths.told_lengths import FINE_MARKS, told
from ..strength.beam import EndSupport
from ..strength.creep import Creep
from ..strength.loaded_shelf import LoadedShelf, ShelfMaterial
from ..strength.loads import LoadPer, ShelfLoad, shelf_uses
from ..strength.published import PublishedFigure
from ..strength.sag_limits import SagLimit
from ..strength.shelf_answer import ShelfVerdict

METRIC = {
    LoadPer.FOOT: LONG_UNITS["ft"] / LONG_UNITS["m"],
    LoadPer.SQUARE_FOOT: AREA_UNITS["ft2"] / AREA_UNITS["m2"],
}
METRIC_NAMES = {LoadPer.FOOT: "m", LoadPer.SQUARE_FOOT: "m2"}
"""Metres in a foot and square metres in a square foot, exactly."""


def load_words(load: ShelfLoad, unit: Unit) -> str:
    """A load with what it is for: `40 lb/ft2 (anything)`, in kilograms for a job in millimetres."""
    return f"{_pounds(load, load.pounds, unit)} ({load.use})"


def _pounds(load: ShelfLoad, pounds: PublishedFigure, unit: Unit) -> str:
    if unit is Unit.MM:
        kilograms = round(pounds.value * KILOGRAMS_IN_A_POUND / METRIC[load.per])
        return f"{kilograms} kg/{METRIC_NAMES[load.per]}"
    return f"{float(pounds.value):g} lb/{load.per.value}"


def sags_told(verdict: ShelfVerdict, unit: Unit) -> tuple[str, str, str]:
    """The sag at once and after years, and what is allowed: as finely as anybody knows them, and finer where
    that would make a sag beyond what is allowed look the same."""
    sags = (verdict.at_once.most, verdict.after_years.most, verdict.allowed)
    once, years, allowed = (_sag(sag, FINE_MARKS[unit]) for sag in sags)
    beyond = zip((once, years), sags, strict=False)
    if any(sag > verdict.allowed and words == allowed for words, sag in beyond):
        once, years, allowed = (caliper(sag, unit) for sag in sags)
    return once, years, allowed


def _sag(sag: Fraction, mark: Mark) -> str:
    """A sag at the nearest mark; none is nothing."""
    return told(sag, mark) if mark.number(sag) else f"under {told(mark.step, mark)}"


def when_words(limit: SagLimit) -> str:
    """Which sag a limit is for."""
    return "after years" if limit.after_years else "at once"


def figure_words(limit: SagLimit, load: ShelfLoad, unit: Unit) -> str:
    """A limit in the words of its source, with the load it is a figure for where the shelf has another."""
    own = shelf_uses()[limit.load] if limit.load else None
    under = f" (a figure for {load_words(own, unit)})" if own and own != load else ""
    return f"{limit.figure}{under} of {limit.source}"


def shelf_assumptions(shelf: LoadedShelf, unit: Unit) -> Iterator[str]:
    """What the answer for a shelf takes for granted, a sentence each."""
    yield "Loads lie evenly over the whole shelf; its own weight is left out, and so is sag from shear."
    yield _load_assumed(shelf.load, unit)
    yield _stiffness_assumed(shelf, unit)
    for material in dict.fromkeys(_materials(shelf)):
        yield _creep_assumed(material.stiffness.kind, material.creep)
    if shelf.support is EndSupport.PINS:
        yield "The ends of adjustable shelves lie loose on pins."
    else:
        yield (
            "The ends of fixed shelves rest at the inner faces of the sides and are free to turn; a glued "
            "dado holds more."
        )
    if shelf.front or shelf.back:
        yield "Strips are glued along their whole length."
    if shelf.back_held:
        yield "A back that a shelf is screwed to holds its rear edge all along, and does not give."


def _materials(shelf: LoadedShelf) -> Iterator[ShelfMaterial]:
    yield shelf.material
    yield from (strip.material for strip in (shelf.front, shelf.back) if strip)


def _load_assumed(load: ShelfLoad, unit: Unit) -> str:
    ends = [figure for figure in (load.low, load.high) if figure]
    others = " to ".join(_pounds(load, figure, unit) for figure in ends)
    also = f"; others weighed {others}" if others else ""
    return f"{load_words(load, unit)}: {_known(load.pounds)}{also}."


def _stiffness_assumed(shelf: LoadedShelf, unit: Unit) -> str:
    modulus = shelf.material.stiffness.lengthwise(grain_along=shelf.grain_along)
    stiffness, lies = shelf.material.stiffness, "along" if shelf.grain_along else "across"
    grain = "" if stiffness.along.value == stiffness.across.value else f", its grain {lies} the shelf"
    figure = (
        f"{round(modulus.value / NEWTON_PER_SQUARE_MM):,} N/mm2"
        if unit is Unit.MM
        else f"{round(modulus.value):,} psi"
    )
    return f"{with_capital(stiffness.kind)}{grain}: modulus of elasticity {figure}: {_known(modulus)}."


def _creep_assumed(kind: str, creep: Creep) -> str:
    low, high = (float(figure.value) for figure in creep.spread)
    others = f"; other figures are {low:g} to {high:g}" if low < high else ""
    return (
        f"After years {kind} sags {float(creep.after_years.value):g} times as far as at once: "
        f"{_known(creep.after_years)}{others}."
    )


def _known(figure: PublishedFigure) -> str:
    return figure.source if figure.read else f"{figure.source}; not read there"
