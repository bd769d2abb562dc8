"""The shape of a job file, table by table. `read.builder` turns these tables into a job.

An entry that the maker leaves out is None. The descriptions appear in the published schema and in the
manual's tables.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated

from pydantic import ConfigDict, Field, StringConstraints

from ..casework.front_choices import DoorKind, DrawerBottom, DrawerJoint, FrontLie
from ..casework.job import BackKind, BottomJoint, CaseKind, FaceFrame, Grade, ShelfJoint, ToeKind, TopKind
from ..lengths.length import Mark, Unit
from .climate_table import ClimateTable
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


class AsCutTable(Table):
    """The size that a part came out with; what is left out is as drawn."""

    length: Positive | None = Field(default=None, description="Its length, along the grain.")
    width: Positive | None = Field(default=None, description="Its width, across the grain.")


class ConstructionTable(Table):
    """How cases are put together."""

    bottom: BottomJoint | None = Field(default=None, description="How the bottom meets the sides.")
    top: TopKind | None = Field(default=None, description="What closes the top of the case, and how.")
    back: BackKind | None = Field(default=None, description="How the back is held.")
    shelf: ShelfJoint | None = Field(default=None, description="How fixed shelves meet the uprights.")
    toe: ToeKind | None = Field(default=None, description="How the toe kick is made.")
    dado_depth: NotNegative | None = Field(default=None, description="Depth of dados.")
    rabbet_depth: NotNegative | None = Field(default=None, description="Depth of rabbets.")
    groove_depth: NotNegative | None = Field(default=None, description="Depth of the back's grooves.")
    dado_play: NotNegative | None = Field(
        default=None, description="How much wider a dado is than the panel in it."
    )
    groove_play: NotNegative | None = Field(
        default=None, description="How much wider the groove is than the back is thick."
    )
    back_play: NotNegative | None = Field(
        default=None,
        description="How much smaller the back is than its space, both edges together.",
    )
    back_inset: NotNegative | None = Field(
        default=None,
        description="Distance from the rear edge to a grooved back, if there are no mounting strips.",
    )
    shelf_play: NotNegative | None = Field(
        default=None, description="How much shorter an adjustable shelf is than its bay."
    )
    shelf_setback: NotNegative | None = Field(
        default=None, description="How far an adjustable shelf is set back from the front."
    )
    toe_height: NotNegative | None = Field(default=None, description="Height of the toe kick.")
    toe_depth: NotNegative | None = Field(default=None, description="How far the toe kick is set back.")
    bottom_up: NotNegative | None = Field(
        default=None,
        description="How far the bottom sits above the lower ends of the sides, without a toe notch.",
    )
    top_down: NotNegative | None = Field(
        default=None, description="How far a dadoed top sits below the upper ends of the sides."
    )
    stretcher_width: Positive | None = Field(default=None, description="Width of stretchers.")
    strip_width: Positive | None = Field(default=None, description="Width of mounting strips.")
    strips: int | None = Field(
        default=None, description="How many mounting strips a case has.", ge=0, le=6, strict=True
    )
    pin_first: NotNegative | None = Field(
        default=None, description="Distance from the end of a clear height to the first pin hole."
    )
    pin_pitch: Positive | None = Field(default=None, description="Distance from one pin hole to the next.")
    pin_setback: Positive | None = Field(
        default=None, description="Distance from the edge to a row of pin holes."
    )
    pin_diameter: Positive | None = Field(default=None, description="Diameter of pin holes.")
    pin_depth: Positive | None = Field(default=None, description="Depth of pin holes.")
    frame: FaceFrame | None = Field(
        default=None, description="The face frame over the front of a case, by its joints."
    )
    frame_stile: Positive | None = Field(default=None, description="Width of a face frame's stiles.")
    frame_rail: Positive | None = Field(default=None, description="Width of a face frame's rails.")
    frame_mullion: Positive | None = Field(
        default=None, description="Width of its mullions, one over each divider."
    )
    frame_past: NotNegative | None = Field(
        default=None, description="How far its stiles stand past the outside of the case, at each side."
    )
    frame_dowel: Positive | None = Field(
        default=None, description="Diameter of the dowels in a face frame's joints, two in each."
    )
    frame_dowel_depth: Positive | None = Field(
        default=None, description="How deep each piece is bored for them, with room for glue."
    )
    frame_tenon: Positive | None = Field(
        default=None, description="Length of a face frame's tenons; mortises are 1/16 in deeper."
    )
    frame_mortise: Positive | None = Field(
        default=None, description="Width of the mortises, and thickness of the tenons."
    )
    fronts: FrontLie | None = Field(
        default=None,
        description="How doors and drawer fronts lie: over the edges of the case or between them.",
    )
    front_gap: Positive | None = Field(
        default=None, description="Gap between neighbouring fronts, and all round an inset one."
    )
    front_lap: Positive | None = Field(
        default=None, description="How far fronts with partial overlay lap over each edge of their opening."
    )
    front_top: NotNegative | None = Field(
        default=None, description="How far below the top of the case fronts with full overlay end."
    )
    front_off: NotNegative | None = Field(
        default=None, description="How far before the case the backs of fronts that lie over it stand."
    )
    door: DoorKind | None = Field(default=None, description="What doors are made of.")
    door_stile: Positive | None = Field(default=None, description="Width of the stiles of framed doors.")
    door_rail: Positive | None = Field(default=None, description="Width of the rails of framed doors.")
    door_tongue: Positive | None = Field(
        default=None, description="How far the rails and the panel of a framed door go into its grooves."
    )
    panel_play: NotNegative | None = Field(
        default=None,
        description="How much smaller the panel of a door is than its space, both edges together.",
    )
    drawer_joint: DrawerJoint | None = Field(
        default=None, description="How the front and back of drawer boxes meet the sides."
    )
    drawer_bottom: DrawerBottom | None = Field(
        default=None, description="How the bottom of drawer boxes is held."
    )
    drawer_cut: Positive | None = Field(
        default=None, description="Depth of the dados, rabbets and grooves in the parts of drawer boxes."
    )
    drawer_tongue: Positive | None = Field(
        default=None, description="Width of the dados for the tongues of locked rabbets."
    )
    drawer_up: NotNegative | None = Field(
        default=None,
        description="How far above the lower edges the groove of a drawer's bottom begins, unless the slides "
        "need it higher.",
    )
    drawer_play: NotNegative | None = Field(
        default=None,
        description="How much smaller a drawer's bottom is than its space, both edges together.",
    )


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
        "cases to the upper.",
        min_length=2,
        max_length=100,
    )
    right_gaps: list[NotNegative] | None = Field(
        default=None, description="The same at the right end.", min_length=2, max_length=100
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
        description="Mark to which shared widths are rounded; the finest on the rule if left out.",
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
