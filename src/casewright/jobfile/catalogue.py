"""The catalogue: sheet goods, machines and usual practice from the data files in `shop`, read once."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from importlib.resources import files
from math import ceil
from typing import Any

from pydantic import Field

from ..casework.job import CaseKind, Construction
from ..lengths.length import Mark, Unit
from ..shop.deviations import Deviations, Workmanship
from ..shop.hinges import Hinge, HingeChart, HingeRow
from ..shop.machines import Carry, DadoStack, HandSaw, PinJig, TableSaw
from ..shop.materials import SheetGood
from ..shop.slides import Slide
from .construction_table import ConstructionTable
from .hardware_tables import HingeRowTable, HingeTable, SlideTable
from .read.entries import NotNegative, Positive
from .read.hardware_entries import hinge_of, slide_of
from .read.overlay import (
    carry_of,
    construction_of,
    dado_stack_of,
    given_entries,
    hand_saw_of,
    pin_jig_of,
    sheet_of,
    table_saw_of,
)
from .sheet_tables import SheetTable
from .shop_tables import CarryTable, DadoStackTable, HandSawTable, PinJigTable, TableSawTable
from .table import Table
from .tables import KindTable


@dataclass(frozen=True)
class KindPractice:
    """The usual sizes of one kind of case; `construction` holds what differs from other kinds. Inches."""

    height: Fraction
    depth: Fraction
    lift: Fraction
    construction: Mapping[str, Any]


@dataclass(frozen=True)
class FirstCases:
    """How a new job fills its opening before the maker decides more. Inches.

    Cases are no wider than `widest`, and usual ones no narrower than `narrowest`. An opening wider
    than `filler_from` gets a filler at its left, `filler` wide in sight plus `scribe` to plane away.
    """

    widest: Fraction
    narrowest: Fraction
    filler: Fraction
    scribe: Fraction
    filler_from: Fraction

    def fewest(self, opening: Fraction) -> int:
        """How many cases an opening takes when none is wider than usual."""
        return max(1, ceil(opening / self.widest))

    def most(self, opening: Fraction) -> int:
        """How many cases of usual width an opening has room for; one where it is narrower than that."""
        return max(1, int(opening / self.narrowest))


@dataclass(frozen=True)
class Practice:
    """The defaults for whatever a job leaves out."""

    mark: Mark
    construction: Construction
    kinds: Mapping[CaseKind, KindPractice]
    hand_saw: HandSaw
    table_saw: TableSaw
    dado_stack: DadoStack
    carry: Carry
    first_cases: FirstCases


@dataclass(frozen=True)
class Catalogue:
    """Everything a job file can start from by name, with the source of every entry."""

    sheets: Mapping[str, SheetGood]
    hand_saws: Mapping[str, HandSaw]
    table_saws: Mapping[str, TableSaw]
    dado_stacks: Mapping[str, DadoStack]
    pin_jigs: Mapping[str, PinJig]
    practice: Mapping[Unit, Practice]
    deviations: Mapping[Workmanship, Deviations]
    hinges: Mapping[str, Hinge]
    hinge_charts: Mapping[str, HingeChart]
    slides: Mapping[str, Slide]
    sources: Mapping[str, str] = field(default_factory=dict)


class _Sourced(Table):
    source: str = Field(min_length=10)


class _SourcedSheet(SheetTable, _Sourced): ...


class _SourcedHandSaw(HandSawTable, _Sourced): ...


class _SourcedTableSaw(TableSawTable, _Sourced): ...


class _SourcedDadoStack(DadoStackTable, _Sourced): ...


class _SourcedPinJig(PinJigTable, _Sourced): ...


class _SourcedHinge(HingeTable, _Sourced): ...


class _SourcedSlide(SlideTable, _Sourced): ...


class _HingeChart(_Sourced):
    rows: list[HingeRowTable]
    widest: Positive | None = None


class _Hinges(Table):
    charts: dict[str, _HingeChart]
    hinges: dict[str, _SourcedHinge]


class _Machines(Table):
    hand_saws: dict[str, _SourcedHandSaw]
    table_saws: dict[str, _SourcedTableSaw]
    dado_stacks: dict[str, _SourcedDadoStack]
    pin_jigs: dict[str, _SourcedPinJig]


class _Kind(KindTable, _Sourced):
    lift: NotNegative = Fraction(0)


class _FirstCases(_Sourced):
    widest: Positive
    narrowest: Positive
    filler: Positive
    scribe: NotNegative
    filler_from: Positive


class _Practice(_Sourced):
    mark: Mark
    hand_saw: str
    table_saw: str
    dado_stack: str
    carry: CarryTable
    construction: ConstructionTable
    base: _Kind
    wall: _Kind
    tall: _Kind
    open: _Kind
    first_cases: _FirstCases


DATA = ("sheets", "machines", "practice", "deviations", "hinges", "slides")
"""The data files of `shop` that make up the catalogue."""


@cache
def packaged_catalogue() -> Catalogue:
    """The catalogue that comes with the program."""
    return catalogue_of({name: _data(name) for name in DATA})


def _data(name: str) -> str:
    return files("casewright.shop").joinpath("data", f"{name}.toml").read_text(encoding="utf-8")


def catalogue_of(texts: Mapping[str, str]) -> Catalogue:
    """The catalogue read from its texts by name; a fault in them is a fault of the program, and raises."""
    values = {name: tomllib.loads(text) for name, text in texts.items()}
    sheets = {key: _SourcedSheet.model_validate(value) for key, value in values["sheets"].items()}
    machines = _Machines.model_validate(values["machines"])
    hand_saws = {key: hand_saw_of(table, None) for key, table in machines.hand_saws.items()}
    table_saws = {key: table_saw_of(table, None) for key, table in machines.table_saws.items()}
    dado_stacks = {key: dado_stack_of(table, None) for key, table in machines.dado_stacks.items()}
    practice = {
        Unit(unit): _practice(_Practice.model_validate(value), hand_saws, table_saws, dado_stacks)
        for unit, value in values["practice"].items()
    }
    hardware = _Hinges.model_validate(values["hinges"])
    charts = {key: _chart(key, table) for key, table in hardware.charts.items()}
    slides = {key: _SourcedSlide.model_validate(value) for key, value in values["slides"].items()}
    sourced: dict[str, _Sourced] = {**sheets, **machines.hand_saws, **machines.table_saws}
    sourced |= {**machines.dado_stacks, **machines.pin_jigs, **hardware.charts, **hardware.hinges, **slides}
    return Catalogue(
        {key: sheet_of(key, table, None) for key, table in sheets.items()},
        hand_saws,
        table_saws,
        dado_stacks,
        {key: pin_jig_of(table, None) for key, table in machines.pin_jigs.items()},
        practice,
        {shop: Deviations(**values["deviations"][shop.value]) for shop in Workmanship},
        {key: hinge_of(key, table, None, tuple(charts.values())) for key, table in hardware.hinges.items()},
        charts,
        {key: slide_of(key, table, None) for key, table in slides.items()},
        {key: entry.source for key, entry in sourced.items()},
    )


def _chart(name: str, table: _HingeChart) -> HingeChart:
    rows = tuple(HingeRow(row.hinges, row.weight, row.height) for row in table.rows)
    return HingeChart(name, rows, table.widest)


def _practice(
    said: _Practice,
    hand_saws: Mapping[str, HandSaw],
    table_saws: Mapping[str, TableSaw],
    dado_stacks: Mapping[str, DadoStack],
) -> Practice:
    kinds = {}
    for kind in CaseKind:
        table: _Kind = getattr(said, kind.value)
        assert table.height is not None and table.depth is not None
        kinds[kind] = KindPractice(table.height, table.depth, table.lift, given_entries(table.construction))
    return Practice(
        said.mark,
        construction_of(Construction(), given_entries(said.construction)),
        kinds,
        hand_saws[said.hand_saw],
        table_saws[said.table_saw],
        dado_stacks[said.dado_stack],
        carry_of(said.carry, None),
        FirstCases(**given_entries(said.first_cases)),
    )
