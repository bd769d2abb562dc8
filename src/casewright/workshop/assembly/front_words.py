"""How the doors and fronts of a case are put together and hung, in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ...casework.build.fronts.placed_fronts import PlacedFront
from ...casework.front_choices import FrontKind, FrontLie
from ...casework.parts.part import FRAMED_DOOR, Hand, Part
from ...casework.project import Project
from ...lengths.in_a_sentence import listed
from .drawer_words import drawer_front_words
from .gaps_by_season import season_words

DOOR_GLUE_UP = (
    "Each door flat on the bench: one stile, the rails, the panel without glue, then the other stile. Clamp "
    "along both rails, both diagonals equal, and see from the end that it is not in wind."
)


def is_hung(part: Part) -> bool:
    """Whether a front is named where fronts are hung: a framed door by the stile that its hinges are on."""
    return part.role not in FRAMED_DOOR or part.hand is not Hand.NONE


def hanging_words(project: Project, case: str) -> str:
    """How the fronts of a case are hung: its doors, its fixed fronts, and to what gap."""
    drawn = project.cases[case]
    fronts = [front for bay in drawn.fronts for front in bay.fronts]
    made = drawn.spec.construction
    gap = project.printed(made.front_gap)
    said = []
    if any(front.kind.is_door for front in fronts):
        bored = all(hung.number for front in fronts for hung in front.hinges)
        how = (
            "Screw the hinges into their cups and the plates to the sides, hang the doors"
            if bored
            else "Hang the doors on your hinges"
        )
        said.append(f"{how} and set the gaps even by the hinges' screws.")
        said += _packing(project, fronts)
    if fixed := [mark for front in fronts if front.kind is FrontKind.FIXED for mark in front.leaves]:
        said.append(
            f"For {listed(fixed)} glue a block behind each end, flush with the front edges, and screw "
            "through it from inside, shimmed to the gap."
        )
    said += drawer_front_words(project, drawn)
    around = " and all round" if made.fronts is FrontLie.INSET else ""
    said.append(f"{gap} between neighbouring fronts{around}.")
    said += season_words(project, drawn)
    return f"When the finish is dry: {' '.join(said)}"


def _packing(project: Project, fronts: Iterable[PlacedFront]) -> Iterator[str]:
    """What the plates are packed out by behind a face frame, as it stands into the bay."""
    by: dict[str, list[str]] = {}
    for hung in (one for front in fronts for one in front.hinges if one.number):
        out = project.sizes.of(hung.packing)
        if out > 0:
            by.setdefault(project.printed(out), []).append(hung.leaf)
    for thick, leaves in by.items():
        yield f"Pack the plates of {listed(leaves)} out by {thick}, to come level with the edge of the frame."
