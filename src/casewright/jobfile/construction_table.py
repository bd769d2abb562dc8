"""The shape of the construction in a job file: how cases, their doors and their drawers are put together."""

from __future__ import annotations

from pydantic import Field

from ..casework.front_choices import DoorKind, DrawerBottom, DrawerGrain, DrawerJoint, FrontGrain, FrontLie
from ..casework.job import BackKind, BottomJoint, FaceFrame, ShelfJoint, ToeKind, TopKind
from .read.entries import NotNegative, Positive
from .table import Table


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
        default=None, description="Width of a face frame's mullions, one over each divider."
    )
    frame_past: NotNegative | None = Field(
        default=None,
        description="How far a face frame's stiles stand past the outside of the case, at each side.",
    )
    frame_dowel: Positive | None = Field(
        default=None, description="Diameter of the dowels in a face frame's joints, two in each."
    )
    frame_dowel_depth: Positive | None = Field(
        default=None, description="How deep each piece is bored for the dowels, with room for glue."
    )
    frame_tenon: Positive | None = Field(
        default=None, description="Length of a face frame's tenons; mortises are 1/16 in deeper."
    )
    frame_mortise: Positive | None = Field(
        default=None, description="Width of a face frame's mortises, and thickness of its tenons."
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
    front_grain: FrontGrain | None = Field(
        default=None,
        description="Whether the grain runs on over the fronts of a bay: they are cut from one piece then.",
    )
    drawer_grain: DrawerGrain | None = Field(
        default=None, description="Which way the grain of drawer fronts and fixed fronts runs."
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
    drawer_tail: Positive | None = Field(
        default=None, description="How far half-blind tails go into the front and back of a drawer box."
    )
    drawer_proud: NotNegative | None = Field(
        default=None,
        description="How far end grain stands out of a dovetailed corner until it is planed off.",
    )
    drawer_pitch: NotNegative | None = Field(
        default=None,
        description="Distance from one dovetail to the next of your jig; 0 where you lay them out freely.",
    )
