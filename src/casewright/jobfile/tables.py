"""The shape of a job file, table by table. Values here are as read; `build` makes the job of them.

Every entry a maker may leave out is None when it is not there. The descriptions are what the
published schema and the manual's tables say.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, Strict, StringConstraints

from ..casework.job import BackKind, BottomJoint, CaseKind, ShelfJoint, ToeKind, TopKind
from ..lengths.length import Mark, Unit
from .read.entries import (
    Amount,
    Length,
    NotNegative,
    Positive,
    Share,
    SheetSize,
    Weight,
    WeightPerArea,
    Width,
)

Text = Annotated[str, StringConstraints(max_length=2000)]
# One character at least that is no blank, and no control character: names are printed on every page.
NAME = r"^[^\x00-\x1f\x7f-\x9f]*[^\s\x00-\x1f\x7f-\x9f][^\x00-\x1f\x7f-\x9f]*$"
Name = Annotated[str, StringConstraints(pattern=NAME, max_length=80)]
YesNo = Annotated[bool, Strict()]
Key = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_-]{0,30}$")]
CaseMark = Annotated[str, StringConstraints(pattern=r"^[A-Za-z][A-Za-z0-9]{0,5}$")]


class Table(BaseModel):
    """A table that refuses keys it does not know."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class OtherSizeTable(Table):
    """Another size in which the same sheet good is to be had."""

    name: Name = Field(description="What it is called on the lists.")
    size: SheetSize = Field(description="Its size, length along the grain first.")
    price: Amount = Field(default=Fraction(0), description="Price of one, in the job's money.")
    count: int | None = Field(
        default=None,
        description="How many there are; as many as wanted when left out.",
        ge=1,
        le=1000,
        strict=True,
    )


class Sheet(Table):
    """A sheet good: one from the shop's own list by its name, what differs laid over it."""

    sheet: Name | None = Field(
        default=None, description="Name of a sheet good in the shop's list to start from."
    )
    name: Name | None = Field(default=None, description="What it is called on the lists.")
    nominal: Positive | None = Field(default=None, description="The thickness it is sold as.")
    usual: Positive | None = Field(default=None, description="The thickness it usually has.")
    deviation: NotNegative | None = Field(default=None, description="Standard deviation of that thickness.")
    readings: list[Positive] | None = Field(
        default=None,
        description="Caliper readings of your own sheets; they take the place of the usual thickness.",
        max_length=200,
    )
    size: SheetSize | None = Field(default=None, description="Sheet size, length along the grain first.")
    trim: NotNegative | None = Field(
        default=None, description="What is cut off each edge before it counts as good."
    )
    price: Amount | None = Field(default=None, description="Price of one sheet, in the job's money.")
    weight: WeightPerArea | None = Field(default=None, description="Weight per area.")
    others: list[OtherSizeTable] | None = Field(
        default=None, description="Other sizes it can be had in.", max_length=20
    )
    grain: YesNo | None = Field(
        default=None, description="Whether the face has a direction that parts must follow."
    )


class Piece(Table):
    """An offcut on the rack."""

    name: Name = Field(description="Where it stands or what is written on it.")
    material: Key = Field(description="Which of the job's materials it is.")
    length: Positive = Field(description="Length along the grain.")
    width: Positive = Field(description="Width across the grain.")
    count: int = Field(default=1, description="How many there are.", ge=1, le=1000, strict=True)
    worth: Amount = Field(
        default=Fraction(0), description="What it is worth to you whole, in the job's money."
    )


class HandSawTable(Table):
    """The hand-held saw that breaks sheets down along a straightedge."""

    use: Name | None = Field(default=None, description="Name of a saw in the shop's list to start from.")
    name: Name | None = Field(default=None, description="What it is called in the steps.")
    kerf: Positive | None = Field(default=None, description="Width of its cut.")
    clean_up: NotNegative | None = Field(
        default=None, description="How much oversize its cuts are left where cut again."
    )
    cut_length: Positive | None = Field(default=None, description="The longest cut the straightedge allows.")
    repeatability: NotNegative | None = Field(
        default=None, description="Standard deviation of where its cut lands."
    )
    base_offset: NotNegative | None = Field(
        default=None, description="From its cut to the straightedge its base runs along."
    )
    blade_diameter: Positive | None = Field(default=None, description="Size of its blade.")


class TableSawTable(Table):
    """The table saw with its fence."""

    use: Name | None = Field(default=None, description="Name of a saw in the shop's list to start from.")
    name: Name | None = Field(default=None, description="What it is called in the steps.")
    kerf: Positive | None = Field(default=None, description="Width of its cut.")
    rip_capacity: Positive | None = Field(default=None, description="Greatest distance from fence to blade.")
    blade_height: Positive | None = Field(
        default=None, description="Greatest height of the blade above the table."
    )
    setting: NotNegative | None = Field(
        default=None, description="Standard deviation of a fence distance set by the rule."
    )
    cut: NotNegative | None = Field(
        default=None, description="Standard deviation of one cut among those on one setting."
    )
    table_left: NotNegative | None = Field(
        default=None, description="How far the table reaches beyond the blade, away from the fence."
    )
    table_deep: Positive | None = Field(
        default=None, description="From the table's edge before you to the far one."
    )


class DadoStackTable(Table):
    """The dado stack, with the chippers and shims on the shelf."""

    use: Name | None = Field(default=None, description="Name of a stack in the shop's list to start from.")
    name: Name | None = Field(default=None, description="What it is called in the steps.")
    outside: Positive | None = Field(default=None, description="Width of each outside cutter.")
    chippers: list[Positive] | None = Field(
        default=None, description="Every chipper there is.", max_length=30
    )
    shims: list[Positive] | None = Field(default=None, description="Every shim there is.", max_length=60)
    greatest: Positive | None = Field(default=None, description="The widest stack the arbor takes.")
    depth_setting: NotNegative | None = Field(
        default=None, description="Standard deviation of a depth as set."
    )


class PinJigTable(Table):
    """The jig that guides the drill for shelf pins."""

    use: Name | None = Field(default=None, description="Name of a jig in the shop's list to start from.")
    name: Name | None = Field(default=None, description="What it is called in the steps.")
    setback: Positive | None = Field(
        default=None, description="From the jig's own fence to the middle of its holes."
    )
    pitch: Positive | None = Field(default=None, description="From one hole to the next.")
    holes: int | None = Field(default=None, description="How many holes it has.", ge=1, le=500, strict=True)
    diameter: Positive | None = Field(default=None, description="Size of its holes.")


class CarryTable(Table):
    """What you carry alone; heavier and longer pieces are cut down first."""

    weight: Weight | None = Field(default=None, description="The heaviest piece.")
    length: Positive | None = Field(default=None, description="The longest piece.")


class ShopTable(Table):
    """The shop's machines and rack."""

    hand_saw: HandSawTable = Field(default=HandSawTable(), description="The saw that breaks sheets down.")
    table_saw: TableSawTable = Field(default=TableSawTable(), description="The table saw.")
    dado_stack: DadoStackTable = Field(default=DadoStackTable(), description="The dado stack.")
    pin_jig: PinJigTable | None = Field(default=None, description="The pin jig, if there is one.")
    carry: CarryTable = Field(default=CarryTable(), description="What you carry alone.")
    rule: NotNegative | None = Field(default=None, description="Standard deviation of a reading by the rule.")
    rack: list[Piece] = Field(default=[], description="Offcuts at hand.", max_length=1000)


class Making(Table):
    """How cases are put together."""

    bottom: BottomJoint | None = Field(default=None, description="How the bottom meets the sides.")
    top: TopKind | None = Field(default=None, description="What closes the case above, and how.")
    back: BackKind | None = Field(default=None, description="How the back is held.")
    shelf: ShelfJoint | None = Field(default=None, description="How fixed shelves meet the uprights.")
    toe: ToeKind | None = Field(default=None, description="How the toe kick is made.")
    dado_depth: NotNegative | None = Field(default=None, description="Depth of dados.")
    rabbet_depth: NotNegative | None = Field(default=None, description="Depth of rabbets.")
    groove_depth: NotNegative | None = Field(default=None, description="Depth of the back's grooves.")
    dado_play: NotNegative | None = Field(
        default=None, description="How much wider a dado is than what it takes."
    )
    groove_play: NotNegative | None = Field(
        default=None, description="How much wider a groove is than the back."
    )
    back_play: NotNegative | None = Field(
        default=None, description="How much smaller the back is than its room, over both edges."
    )
    back_inset: NotNegative | None = Field(
        default=None, description="What lies behind a grooved back without mounting strips."
    )
    shelf_play: NotNegative | None = Field(
        default=None, description="How much shorter an adjustable shelf is than its bay."
    )
    shelf_setback: NotNegative | None = Field(
        default=None, description="How far an adjustable shelf stands back in front."
    )
    toe_height: NotNegative | None = Field(default=None, description="Height of the toe kick.")
    toe_depth: NotNegative | None = Field(default=None, description="How far the toe kick is set back.")
    bottom_up: NotNegative | None = Field(
        default=None, description="How far the bottom is lifted in a case without toe notch."
    )
    top_down: NotNegative | None = Field(
        default=None, description="How far a dadoed top lies below the sides' upper ends."
    )
    stretcher_width: Positive | None = Field(default=None, description="Width of stretchers.")
    strip_width: Positive | None = Field(default=None, description="Width of mounting strips.")
    strips: int | None = Field(
        default=None, description="How many mounting strips a case has.", ge=0, le=6, strict=True
    )
    pin_first: NotNegative | None = Field(
        default=None, description="From the end of a clear height to the first pin hole."
    )
    pin_pitch: Positive | None = Field(default=None, description="From one pin hole to the next.")
    pin_setback: Positive | None = Field(default=None, description="From the edge to a row of pin holes.")
    pin_diameter: Positive | None = Field(default=None, description="Size of pin holes.")
    pin_depth: Positive | None = Field(default=None, description="Depth of pin holes.")


class MadeOf(Table):
    """Which material each kind of part is made of; what is not named follows `case`."""

    case: Key | None = Field(default=None, description="Sides, bottoms, tops, stretchers, dividers.")
    back: Key | None = Field(default=None, description="Backs.")
    shelf: Key | None = Field(default=None, description="Fixed and adjustable shelves.")
    strip: Key | None = Field(default=None, description="Mounting strips.")
    toe: Key | None = Field(default=None, description="Toe kicks and plinths.")


class KindTable(Table):
    """What every case of one kind is, unless the case says otherwise."""

    height: Positive | None = Field(default=None, description="Height, with its toe kick.")
    depth: Positive | None = Field(default=None, description="Depth, front to back.")
    construction: Making = Field(
        default=Making(), description="What this kind does differently from the job."
    )
    made_of: MadeOf = Field(default=MadeOf(), description="What this kind is made of.")


class BayTable(Table):
    """The room between two uprights; a divider stands between one bay and the next."""

    width: Width | None = Field(default=None, description="Clear width; left out, a share of what is left.")
    fixed: list[Positive] = Field(
        default=[], description="Clear heights below each fixed shelf, upwards.", max_length=40
    )
    adjustable: int = Field(default=0, description="How many shelves on pins.", ge=0, le=40, strict=True)


class CaseTable(Table):
    """One case."""

    mark: CaseMark = Field(description="A short mark to pencil on its parts: B1.")
    kind: CaseKind = Field(description="What sort of case it is.")
    width: Width = Field(
        default=Share(Fraction(1)), description="Outside width; left out, a share of what is left."
    )
    height: Positive | None = Field(default=None, description="Height, with its toe kick.")
    depth: Positive | None = Field(default=None, description="Depth, front to back.")
    bays: list[BayTable] = Field(
        default=[BayTable()], description="Its bays from left to right.", min_length=1, max_length=20
    )
    construction: Making = Field(default=Making(), description="What this case does differently.")
    made_of: MadeOf = Field(default=MadeOf(), description="What this case is made of.")


class FillerTable(Table):
    """A strip that closes the run against a wall."""

    width: Positive = Field(description="Its width in sight.")
    scribe: NotNegative = Field(
        default=Fraction(0), description="What it is wider, to be planed to the wall."
    )
    material: Key | None = Field(default=None, description="Which material; the cases' own when left out.")


class RunTable(Table):
    """Cases side by side along one wall."""

    name: Name = Field(description="Where it stands.")
    opening: Positive = Field(description="The measured width the cases fill.")
    wall: Name = Field(default="wall", description="Which wall it stands against.")
    along: Length = Field(default=Fraction(0), description="From the wall's left end to the opening.")
    lift: NotNegative | None = Field(
        default=None, description="Height of the cases' lower ends above the floor."
    )
    ceiling: Positive | None = Field(default=None, description="Measured height of the room.")
    left_filler: FillerTable | None = Field(default=None, description="The filler at the left end.")
    right_filler: FillerTable | None = Field(default=None, description="The filler at the right end.")
    gap: NotNegative = Field(default=Fraction(0), description="Room left over at each end without filler.")
    cases: list[CaseTable] = Field(description="The cases from left to right.", min_length=1, max_length=200)


class JobTable(Table):
    """A whole job file."""

    model_config = ConfigDict(title="casewright job file")

    job: Name = Field(description="What the job is called.")
    unit: Unit = Field(description="What a bare number counts.")
    mark: Mark | None = Field(default=None, description="The finest mark of your rule.")
    rounding: Mark | None = Field(
        default=None, description="The mark shared widths are brought to; the rule's when left out."
    )
    money: Annotated[str, StringConstraints(max_length=8)] = Field(
        default="", description="Sign of the money prices are in."
    )
    notes: Text = Field(default="", description="Anything to keep with the job.")
    optional: list[Name] = Field(
        default=[], description="Marks of parts that may be given up.", max_length=2000
    )
    left_out: list[Name] = Field(
        default=[], description="Marks of optional parts that are not made.", max_length=2000
    )
    sheet_of: dict[Name, Key] = Field(
        default={}, description="Material of single parts, by mark, where it is not that of their kind."
    )
    materials: dict[Key, Sheet] = Field(
        description="The sheet goods of the job, each under a short key.", min_length=1
    )
    made_of: MadeOf = Field(default=MadeOf(), description="What cases are made of.")
    construction: Making = Field(default=Making(), description="How cases are put together.")
    base: KindTable = Field(default=KindTable(), description="What every base case is.")
    wall: KindTable = Field(default=KindTable(), description="What every wall case is.")
    tall: KindTable = Field(default=KindTable(), description="What every tall case is.")
    open: KindTable = Field(default=KindTable(), description="What every open case is.")
    shop: ShopTable = Field(default=ShopTable(), description="Machines, rack, and what you carry.")
    runs: list[RunTable] = Field(description="The runs of cases.", min_length=1, max_length=100)
