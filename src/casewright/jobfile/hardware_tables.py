"""Hardware in a job file, table by table: the maker's own hinges and drawer slides."""

from __future__ import annotations

from pydantic import Field, model_validator

from ..shop.slides import SlideKind
from ..validation import input_error
from .read.entries import Amount, LeastAndMost, Length, NotNegative, Positive, Weight
from .table import Name, Table, YesNo


class HingeRowTable(Table):
    """One step of a hinge maker's chart: how heavy and how high a door that many hinges carry."""

    hinges: int = Field(description="How many hinges.", ge=2, le=20, strict=True)
    weight: Weight | None = Field(default=None, description="They carry a door lighter than this.")
    height: Positive | None = Field(default=None, description="They carry a door lower than this.")

    @model_validator(mode="after")
    def _goes_by_something(self) -> HingeRowTable:
        if self.weight is None and self.height is None:
            text = f"a step of {self.hinges} hinges says neither weight nor height."
            raise input_error("empty-step", text, "Add the weight or the height of door they carry.")
        return self


class HingeTable(Table):
    """A cup hinge: one like a hinge of the shop's list, with the figures that differ, or all of its own."""

    like: Name | None = Field(default=None, description="Name of a hinge in the catalogue to start from.")
    name: Name | None = Field(default=None, description="What it is called on the lists.")
    cup: Positive | None = Field(default=None, description="Diameter of the cup's hole in the door.")
    cup_depth: Positive | None = Field(default=None, description="Depth of the cup's hole.")
    cup_edge: LeastAndMost | None = Field(
        default=None,
        description="Least and greatest distance from the door's edge to the edge of the cup's hole.",
    )
    reach: Length | None = Field(
        default=None,
        description="Overlay it would give on a plate of no thickness with a straight arm, if the cup's "
        "hole began at the door's edge.",
    )
    crank: NotNegative | None = Field(
        default=None, description="How much overlay the bend of its arm takes off."
    )
    plate: NotNegative | None = Field(
        default=None, description="Thickness of its plate, taken off the overlay too."
    )
    plate_setback: Positive | None = Field(
        default=None, description="Distance from the case's front edge to the holes of its plate."
    )
    plate_holes: Positive | None = Field(
        default=None, description="Distance between the two holes of the plate."
    )
    plate_pilot: Positive | None = Field(default=None, description="Diameter of the plate's pilot holes.")
    plate_pilot_depth: Positive | None = Field(default=None, description="Depth of the plate's pilot holes.")
    screws: Positive | None = Field(
        default=None, description="Distance between the two screws beside the cup."
    )
    screws_back: NotNegative | None = Field(
        default=None,
        description="How much further from the door's edge the cup's screws are than its center.",
    )
    cup_pilot: Positive | None = Field(default=None, description="Diameter of the cup screws' pilot holes.")
    inset: YesNo | None = Field(
        default=None, description="Whether it is for inset doors, so that the door sets its plate back."
    )
    from_end: Positive | None = Field(
        default=None, description="Distance from a door's end to the center of the nearest cup."
    )
    price: Amount | None = Field(default=None, description="Price of one with its plate, in the job's money.")
    chart: list[HingeRowTable] | None = Field(
        default=None,
        description="How many hinges a door needs, by its sheet; by two published charts if left out.",
        min_length=1,
        max_length=20,
    )


class SlideTable(Table):
    """Drawer slides: like slides of the shop's list, with the figures that differ, or all of their own."""

    like: Name | None = Field(default=None, description="Name of slides in the catalogue to start from.")
    name: Name | None = Field(default=None, description="What they are called on the lists.")
    kind: SlideKind | None = Field(default=None, description="Where they are screwed to the drawer box.")
    lengths: list[Positive] | None = Field(
        default=None, description="Lengths in which they are sold.", min_length=1, max_length=60
    )
    narrower: NotNegative | None = Field(
        default=None, description="How much narrower the drawer box is than the opening, both sides together."
    )
    from_inside: YesNo | None = Field(
        default=None,
        description="Whether `narrower` is said of the inside of the drawer box, not of its outside.",
    )
    lower: NotNegative | None = Field(
        default=None, description="How much lower than the opening the drawer box must be."
    )
    below: NotNegative | None = Field(default=None, description="How much of `lower` is free under the box.")
    behind: NotNegative | None = Field(
        default=None, description="How much deeper than a slide is long the case must be."
    )
    recess: NotNegative | None = Field(
        default=None, description="How far the drawer's bottom is above the lower edges of its sides."
    )
    thickest: Positive | None = Field(default=None, description="The thickest drawer side they take.")
    least_side: Positive | None = Field(
        default=None, description="The lowest drawer side they can be screwed to."
    )
    screw_height: Positive | None = Field(
        default=None,
        description="How far the line of their screws in the case is above the lower edge of the drawer box.",
    )
    screw_setback: Positive | None = Field(
        default=None, description="Distance from the case's front edge to the first screw of a slide."
    )
    screw_step: Positive | None = Field(
        default=None, description="Distance between the holes of the slide, from the first one."
    )
    screw_pilot: Positive | None = Field(default=None, description="Diameter of the screws' pilot holes.")
    screw_depth: Positive | None = Field(default=None, description="Depth of the screws' pilot holes.")
    price: Amount | None = Field(
        default=None, description="Price of what one drawer takes, in the job's money."
    )
    bored: YesNo | None = Field(
        default=None,
        description="`false` leaves the screws' holes out, where the slide itself is the template.",
    )
