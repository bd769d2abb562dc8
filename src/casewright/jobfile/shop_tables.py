"""The shop in a job file, table by table: its machines, how exactly it works, and its rack of offcuts."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated

from pydantic import Field

from ..shop.deviations import Workmanship
from .read.entries import Amount, NotNegative, Positive, Weight
from .table import Key, Name, Table


class PieceTable(Table):
    """An offcut on the rack."""

    name: Name = Field(description="Where it is kept, or what is written on it.")
    material: Key = Field(description="Key of its material in this job.")
    length: Positive = Field(description="Length along the grain.")
    width: Positive = Field(description="Width across the grain.")
    count: int = Field(default=1, description="How many such pieces there are.", ge=1, le=1000, strict=True)
    worth: Amount = Field(
        default=Fraction(0), description="What the whole piece is worth to you, in the job's money."
    )


class HandSawTable(Table):
    """The hand-held saw that breaks sheets down along a straightedge."""

    use: Name | None = Field(default=None, description="Name of a saw in the catalogue to start from.")
    name: Name | None = Field(default=None, description="What it is called in the work steps.")
    kerf: Positive | None = Field(default=None, description="Width of its cut.")
    clean_up: NotNegative | None = Field(
        default=None, description="How much oversize to leave a cut that will be made again on the table saw."
    )
    cut_length: Positive | None = Field(default=None, description="Longest cut along the straightedge.")
    base_offset: NotNegative | None = Field(
        default=None, description="Distance from the cut to the straightedge that guides the base."
    )
    blade_diameter: Positive | None = Field(default=None, description="Diameter of its blade.")


class TableSawTable(Table):
    """The table saw with its fence."""

    use: Name | None = Field(default=None, description="Name of a saw in the catalogue to start from.")
    name: Name | None = Field(default=None, description="What it is called in the work steps.")
    kerf: Positive | None = Field(default=None, description="Width of its cut.")
    rip_capacity: Positive | None = Field(
        default=None, description="Greatest distance between fence and blade."
    )
    blade_height: Positive | None = Field(
        default=None, description="Greatest height of the blade above the table."
    )
    table_left: NotNegative | None = Field(
        default=None, description="How far the table extends past the blade, on the side away from the fence."
    )
    table_deep: Positive | None = Field(
        default=None, description="Depth of the table, from the edge nearest you to the far edge."
    )


class DadoStackTable(Table):
    """The dado stack, with its chippers and shims."""

    use: Name | None = Field(default=None, description="Name of a dado stack in the catalogue to start from.")
    name: Name | None = Field(default=None, description="What it is called in the work steps.")
    outside: Positive | None = Field(default=None, description="Width of each outside cutter.")
    chippers: list[Positive] | None = Field(
        default=None, description="Thickness of each chipper you have.", max_length=30
    )
    shims: list[Positive] | None = Field(
        default=None, description="Thickness of each shim you have.", max_length=60
    )
    greatest: Positive | None = Field(default=None, description="Widest stack that fits the arbor.")


class PinJigTable(Table):
    """The jig that guides the drill for shelf pins."""

    use: Name | None = Field(default=None, description="Name of a pin jig in the catalogue to start from.")
    name: Name | None = Field(default=None, description="What it is called in the work steps.")
    setback: Positive | None = Field(
        default=None, description="Distance from the jig's fence to the centers of its holes."
    )
    pitch: Positive | None = Field(default=None, description="Distance from one hole to the next.")
    holes: int | None = Field(default=None, description="How many holes it has.", ge=1, le=500, strict=True)
    diameter: Positive | None = Field(default=None, description="Diameter of its holes.")


class CarryTable(Table):
    """What one person carries; heavier or longer pieces are cut down first."""

    weight: Weight | None = Field(default=None, description="Heaviest piece one person carries.")
    length: Positive | None = Field(default=None, description="Longest piece one person carries.")


class DeviationsTable(Table):
    """Standard deviations the shop has found for itself: two settings in three come out nearer than that."""

    fence: NotNegative | None = Field(
        default=None, description="Of a fence set by its scale to a new number."
    )
    scale: NotNegative | None = Field(default=None, description="Of the scale's own offset, the same in all.")
    fence_again: NotNegative | None = Field(
        default=None, description="Of a fence set a second time, from a finished piece."
    )
    cut: NotNegative | None = Field(default=None, description="From cut to cut on one setting.")
    sled: NotNegative | None = Field(
        default=None, description="Of how far out of square the crosscut sled cuts over 24 in."
    )
    dado_packed: NotNegative | None = Field(
        default=None, description="Of a dado's width when the stack is packed by numbers."
    )
    dado_tried: NotNegative | None = Field(
        default=None, description="Of a dado's width when the stack is tried in the stock."
    )
    groove: NotNegative | None = Field(
        default=None, description="Of a groove cut in two passes, proved on a test piece."
    )
    height: NotNegative | None = Field(default=None, description="Of a cutter's height.")
    flatness: NotNegative | None = Field(
        default=None, description="Of a channel's depth, where the sheet does not lie flat."
    )
    hand_saw: NotNegative | None = Field(default=None, description="Of a cut along a straightedge.")
    fitted: NotNegative | None = Field(
        default=None, description="Of a part cut to fit the case put together dry."
    )
    rule: NotNegative | None = Field(default=None, description="Of laying out or reading by the rule.")
    tape: NotNegative | None = Field(default=None, description="Of reading a tape.")
    caliper: NotNegative | None = Field(default=None, description="Of reading a caliper.")
    depth_gauge: NotNegative | None = Field(default=None, description="Of reading a depth gauge.")


JointCount = Annotated[int, Field(ge=0, le=10**6, strict=True)]
Four = Field(min_length=4, max_length=4)
"""By hand, with a clamp, eased, a part remade."""


class DryFitTallyTable(Table):
    """Joints of one kind that were tried dry: by hand, with a clamp, eased, with a part made again."""

    predicted: Annotated[list[Amount], Four] = Field(description="How many of each were predicted.")
    happened: Annotated[list[JointCount], Four] = Field(description="How many of each happened.")
    worth: Amount = Field(
        description="How many joints, each cut on settings of its own, would tell as much as these."
    )


class DryFitsTable(Table):
    """How the shop's dry fits went beside what was predicted of them."""

    dado: DryFitTallyTable | None = Field(default=None, description="Panels in their own dado.")
    end: DryFitTallyTable | None = Field(default=None, description="Ends against what they stop at.")
    second_joint: DryFitTallyTable | None = Field(
        default=None, description="Parts that a second joint holds."
    )
    back: DryFitTallyTable | None = Field(default=None, description="Backs in their channels.")


class ShopTable(Table):
    """The shop's machines, and its rack of offcuts."""

    hand_saw: HandSawTable = Field(
        default=HandSawTable(), description="The hand-held saw that breaks down sheets."
    )
    table_saw: TableSawTable = Field(default=TableSawTable(), description="The table saw.")
    dado_stack: DadoStackTable = Field(default=DadoStackTable(), description="The dado stack.")
    pin_jig: PinJigTable | None = Field(default=None, description="The pin jig, if there is one.")
    carry: CarryTable = Field(default=CarryTable(), description="What one person carries.")
    workmanship: Workmanship = Field(
        default=Workmanship.CAREFUL,
        description="How exactly the shop works, until its own figures say better.",
    )
    hourly: Amount | None = Field(
        default=None,
        description="What an hour at the bench counts as, in the job's money, in its costs and where ways to "
        "put right are ranked (60 if you do not say).",
    )
    deviations: DeviationsTable = Field(
        default=DeviationsTable(), description="The shop's own figures of how far its sizes stray."
    )
    dry_fits: DryFitsTable = Field(
        default=DryFitsTable(), description="How the shop's dry fits went, as shop-figures writes them."
    )
    rack: list[PieceTable] = Field(default=[], description="Offcuts on the rack.", max_length=1000)
