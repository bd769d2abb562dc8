"""The shape of a job file, table by table. `read.builder` turns these tables into a job.

An entry that the maker leaves out is None. The descriptions appear in the published schema and in the
manual's tables.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated

from pydantic import ConfigDict, Field, StringConstraints

from ..casework.job import CaseKind, Grade
from ..lengths.length import Mark, Unit
from .climate_table import ClimateTable
from .construction_table import ConstructionTable
from .costs_table import CostsTable
from .edging_tables import EdgedTable, EdgesTable, EdgingTable
from .front_tables import FittedTable, FrontTable
from .hardware_tables import HingeTable, SlideTable
from .loads_table import LoadsTable
from .made_of_table import MadeOf
from .read.entries import (
    FillerWidth,
    Length,
    NotNegative,
    Positive,
    Width,
    WidthShare,
)
from .sheet_tables import SheetTable
from .shop_tables import ShopTable
from .table import SEEN, CaseMark, Key, Name, Table, Text
from .wall_table import FramingTable
from .worktop_table import WorktopTable


class AsCutTable(Table):
    """The size that a part came out with; what is left out is as drawn."""

    length: Positive | None = Field(default=None, description="Its length, along the grain.")
    width: Positive | None = Field(default=None, description="Its width, across the grain.")


class KindTable(Table):
    """Defaults for every case of one kind; a case may set its own."""

    height: Positive | None = Field(default=None, description="Height, including the toe kick.")
    depth: Positive | None = Field(default=None, description="Depth, front to back.")
    construction: ConstructionTable = Field(
        default=ConstructionTable(), description="What this kind does differently from the job."
    )
    made_of: MadeOf = Field(default=MadeOf(), description="What this kind is made of.")
    edged: EdgedTable = Field(default=EdgedTable(), description="The edging of this kind of case.")
    fitted_with: FittedTable = Field(
        default=FittedTable(), description="The hinges and slides of this kind of case."
    )
    loads: LoadsTable = Field(
        default=LoadsTable(), description="What the shelves of this kind of case are to bear."
    )


class BayTable(Table):
    """The room between two uprights; a divider stands between one bay and the next."""

    width: Width | None = Field(
        default=None, description="Clear width; if left out, an equal share of the width that is left."
    )
    fixed: list[Positive] = Field(
        default=[], description="Clear height below each fixed shelf, from the bottom up.", max_length=20
    )
    adjustable: int = Field(
        default=0, description="How many adjustable shelves, on pins.", ge=0, le=40, strict=True
    )
    fronts: list[FrontTable] = Field(
        default=[], description="The doors and drawers before it, from the bottom up.", max_length=12
    )


class CaseTable(Table):
    """One case."""

    mark: CaseMark = Field(description="Short mark to pencil on its parts, such as B1.")
    kind: CaseKind = Field(description="The kind of case.")
    width: Width = Field(
        default=WidthShare(Fraction(1)),
        description="Outside width; if left out, an equal share of the width that is left.",
    )
    height: Positive | None = Field(default=None, description="Height, including the toe kick.")
    depth: Positive | None = Field(default=None, description="Depth, front to back.")
    bays: list[BayTable] = Field(
        default=[BayTable()], description="Its bays from left to right.", min_length=1, max_length=20
    )
    construction: ConstructionTable = Field(
        default=ConstructionTable(), description="What this case does differently."
    )
    made_of: MadeOf = Field(default=MadeOf(), description="What this case is made of.")
    edged: EdgedTable = Field(default=EdgedTable(), description="The edging of this case.")
    fitted_with: FittedTable = Field(default=FittedTable(), description="The hinges and slides of this case.")
    loads: LoadsTable = Field(default=LoadsTable(), description="What its shelves are to bear.")
    frame_with_left: bool = Field(
        default=False,
        description="Whether one face frame covers this case and the one at its left.",
        strict=True,
    )


class FillerTable(Table):
    """A strip that closes the run against a wall."""

    width: FillerWidth = Field(
        description="Its width in sight; rest for what the cases leave, each with a width of its own."
    )
    scribe: NotNegative = Field(default=Fraction(0), description="Extra width, to be planed to fit the wall.")
    material: Key | None = Field(
        default=None, description="Its material; that of the first case if left out."
    )


class RunTable(Table):
    """Cases side by side along one wall."""

    name: Name = Field(description="Where the run stands; each run has its own name.")
    opening: Positive = Field(description="Measured width that the cases fill.")
    wall: Name = Field(default="wall", description="Which wall it stands against.")
    wall_length: Positive | None = Field(
        default=None, description="Measured length of that wall; one run of several along it may say it."
    )
    framing: FramingTable = Field(default=FramingTable(), description="What carries that wall.")
    along: Length = Field(
        default=Fraction(0), description="Distance from the left end of the wall to the opening."
    )
    lift: NotNegative | None = Field(
        default=None, description="Height of the bottoms of the cases above the floor."
    )
    ceiling: Positive | None = Field(default=None, description="Measured height of the room.")
    left_filler: FillerTable | None = Field(default=None, description="The filler at the left end.")
    right_filler: FillerTable | None = Field(default=None, description="The filler at the right end.")
    gap: NotNegative = Field(default=Fraction(0), description="Gap to leave at each end that has no filler.")
    left_scribe: NotNegative | None = Field(
        default=None,
        description="Extra width of the face frame's stile at the left end, to be planed to fit the wall.",
    )
    right_scribe: NotNegative | None = Field(
        default=None, description="The same at the right end; without it the stile does not reach the wall."
    )
    wall_gaps: list[NotNegative] | None = Field(
        default=None,
        description="From a line stretched level along the wall to the wall, at equal steps from the left "
        "end of the opening to the right.",
        min_length=2,
        max_length=100,
    )
    left_gaps: list[NotNegative] | None = Field(
        default=None,
        description="From a plumb line to the wall at the left end, at equal steps from the lower end of the "
        "run's cases to the upper end of the highest.",
        min_length=2,
        max_length=100,
    )
    right_gaps: list[NotNegative] | None = Field(
        default=None, description="The same at the right end.", min_length=2, max_length=100
    )
    worktop: WorktopTable | None = Field(
        default=None, description="The top that lies on the base cases of the run."
    )
    cases: list[CaseTable] = Field(description="The cases from left to right.", min_length=1, max_length=200)


class JobTable(Table):
    """A whole job file."""

    model_config = ConfigDict(title="casewright job file")

    job: Name = Field(description="What the job is called.")
    unit: Unit = Field(description="Unit of a number written without one.")
    mark: Mark | None = Field(default=None, description="Finest mark on your rule.")
    grade: Grade = Field(default=Grade.CUSTOM, description="How good a joint in sight must be.")
    rounding: Mark | None = Field(
        default=None,
        description="Mark to which shared widths of cases are rounded; the finest on the rule if left out.",
    )
    money: Annotated[str, StringConstraints(max_length=8, pattern=SEEN)] = Field(
        default="", description="Currency sign for prices."
    )
    notes: Text = Field(default="", description="Anything to keep with the job.")
    optional: list[Name] = Field(
        default=[], description="Marks of parts that can be given up if material runs short.", max_length=2000
    )
    left_out: list[Name] = Field(
        default=[], description="Marks of optional parts that will not be made.", max_length=2000
    )
    sheet_of: dict[Name, Key] = Field(
        default={},
        description="Materials of single parts, by mark, that differ from the rest of their kind.",
        max_length=2000,
    )
    either_way: list[Name] = Field(
        default=[],
        description="Marks of single parts whose grain may run along or across.",
        max_length=2000,
    )
    as_cut: dict[Name, AsCutTable] = Field(
        default={},
        description="Single parts, by mark, that came out smaller than drawn and are used so.",
        max_length=2000,
    )
    materials: dict[Key, SheetTable] = Field(
        description="The sheet goods of the job, each under a short key.", min_length=1, max_length=100
    )
    made_of: MadeOf = Field(default=MadeOf(), description="What cases are made of.")
    edging: dict[Key, EdgingTable] = Field(
        default={}, description="The kinds of edging, each under a short key.", max_length=50
    )
    edged: EdgedTable = Field(default=EdgedTable(), description="What is edged with which of them.")
    fitted_with: FittedTable = Field(default=FittedTable(), description="The hinges and slides of the cases.")
    loads: LoadsTable = Field(default=LoadsTable(), description="What shelves are to bear.")
    loads_of: dict[Name, LoadsTable] = Field(
        default={},
        description="What single shelves are to bear, by mark, where it differs from the rest of their case.",
        max_length=2000,
    )
    edging_of: dict[Name, EdgesTable] = Field(
        default={},
        description="The edging of single parts, by mark, where it differs from the rest of their kind.",
        max_length=2000,
    )
    construction: ConstructionTable = Field(
        default=ConstructionTable(), description="How cases are put together."
    )
    base: KindTable = Field(default=KindTable(), description="Defaults for base cases.")
    wall: KindTable = Field(default=KindTable(), description="Defaults for wall cases.")
    tall: KindTable = Field(default=KindTable(), description="Defaults for tall cases.")
    open: KindTable = Field(default=KindTable(), description="Defaults for open cases.")
    shop: ShopTable = Field(
        default=ShopTable(), description="Machines, rack of offcuts, and what one person carries."
    )
    climate: ClimateTable = Field(
        default=ClimateTable(), description="How moist solid wood is in the shop and in the house."
    )
    costs: CostsTable = Field(
        default=CostsTable(), description="What hardware, glue, finish and sharpening cost, for a quote."
    )
    hinges: dict[Key, HingeTable] = Field(
        default={}, description="Hinges of your own, each under a short key.", max_length=50
    )
    slides: dict[Key, SlideTable] = Field(
        default={}, description="Drawer slides of your own, each under a short key.", max_length=50
    )
    runs: list[RunTable] = Field(description="Runs of cases.", min_length=1, max_length=100)
