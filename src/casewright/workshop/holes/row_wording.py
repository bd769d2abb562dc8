"""How a row of holes is bored, in words: in full for one step, and in short where rows stand in a list."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ...casework.project import Project
from ...lengths.in_a_sentence import listed
from ..operations import Guide, Operation
from ..part_operations import row_of
from ..side_names import side_words
from .boring import with_jig


@dataclass(frozen=True)
class RowWords:
    """A row of holes: `told` in full. Where rows stand in a list, `figures` are its own; `along` is said once
    for the rows of one edge, and `how` once for all rows that are bored so."""

    told: str
    figures: str
    along: str
    how: str


def row_lies(project: Project, operation: Operation) -> str:
    """How a part lies for a row, and what is laid on it or drawn across it."""
    hold, guide = operation.hold, operation.setting.guide
    if guide is Guide.LINE:
        far = project.printed(operation.setting.distance)
        return f"Square a line across, {far} from the {hold.against}, {hold.down} down"
    if guide is Guide.STORY_STICK:
        return f"Stick along the {hold.against}, {hold.down} down"
    return f"{hold.against.capitalize()} on the {guide.value}, {hold.down} down"


def row_words(project: Project, operation: Operation) -> RowWords:
    """The words of the row that the operation bores, with the job's jig or from a story stick."""
    feature, row = row_of(project, operation)
    end = side_words(project.parts[operation.piece], feature.edges[1])
    jig = project.job.shop.pin_jig

    text = project.printed
    if operation.setting.guide is Guide.PIN_JIG and jig is not None:
        lays = [move.holes for move in with_jig(jig, row).moves]
        return _with_the_jig(text(row.first), f"from the {end}", lays)
    holes = f"{row.number} holes, the first at {text(row.first)}, {text(row.pitch)} apart"
    some = f"one hole at {text(row.first)}" if row.number == 1 else holes
    if operation.setting.guide is Guide.LINE:
        return RowWords(f"From the {end.upper()}: {some}.", some, "", f"Measure from the {end.upper()}.")
    zero = f"Zero of the stick at the {end.upper()}"
    return RowWords(f"{zero}: {some}.", some, "", f"{zero}.")


def _with_the_jig(first: str, end: str, lays: Sequence[tuple[int, ...]]) -> RowWords:
    """A row that begins at `first` from an end and takes these lays of the jig, each with the jig's holes
    bored then."""
    told = f"Jig hole 1 at {first} {end}; bore {jig_holes(lays[0])}."
    if more := lays[1:]:
        counts = listed(str(len(holes)) for holes in more)
        each = "Each time pin" if len(more) > 1 else "Then pin"
        told += f" {each} jig hole 1 to the last hole bored and go on: {counts} more."
    counted = " + ".join(str(len(holes)) for holes in lays)
    which = f", {_every(lays[0])}" if len(lays[0]) > 1 else ""
    how = (
        "Lay jig hole 1 at the first figure and bore the first count of holes; for each further count pin "
        "jig hole 1 to the last hole bored, and bore that many more."
    )
    return RowWords(told, f"{first}: {counted}", f"{end}{which}", how)


def jig_holes(holes: Sequence[int]) -> str:
    """Which holes of the jig are bored, in words: all of a stretch, or every second or third of it."""
    first, last = holes[0], holes[-1]
    if first == last:
        return f"jig hole {first}"
    if holes[1] - first == 1:
        return f"jig holes {first} to {last}"
    return f"{_every(holes)} from {first} to {last}, {len(holes)} in all"


def _every(holes: Sequence[int]) -> str:
    """How far apart the holes are that are bored, in holes of the jig."""
    apart = holes[1] - holes[0]
    every = {1: "", 2: "second ", 3: "third "}.get(apart, f"{apart}th ")
    return f"every {every}jig hole"
