"""What a job file's runs say of the walls that they stand against."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from ...lengths.fractions_text import quoted
from ...shop.walls import USUAL_STUD, Framing, KnownWall
from ..tables import RunTable
from ..wall_table import FramingTable
from .fault import Fault
from .key_places import Path
from .overlay import given_entries


def walls_of(runs: Sequence[RunTable]) -> dict[str, KnownWall]:
    """The walls by their names, as far as a run says something of them."""
    return {run.wall: KnownWall(**given) for run in runs if (given := given_entries(run.framing))}


def wall_faults(runs: Sequence[RunTable]) -> Iterator[Fault]:
    """Faults for studs told twice, for studs of a wall that has none, and for runs that disagree."""
    first: dict[str, tuple[str, FramingTable]] = {}
    for index, run in enumerate(runs):
        given, path = given_entries(run.framing), ("runs", index, "framing")
        yield from _studs(path, run.framing)
        if not given:
            continue
        name, other = first.setdefault(run.wall, (run.name, run.framing))
        if given_entries(other) != given:
            text = f"{quoted(run.name)} and {quoted(name)} say different things of {quoted(run.wall)}."
            yield Fault("walls-differ", path, text, "Leave framing out of one of them, or name another wall.")


def _studs(path: Path, table: FramingTable) -> Iterator[Fault]:
    if table.studs and table.every is not None:
        text = "the studs are told one by one, and as standing evenly."
        yield Fault("studs-twice", (*path, "studs"), text, "Leave studs out, or first and every.")
    elif (table.first is None) is not (table.every is None):
        lacks, has = ("first", "every") if table.first is None else ("every", "first")
        text = f"“{lacks}” is missing, and {has} alone does not say where the studs are."
        yield Fault("missing", (*path, lacks), text, f"Add {lacks}, or leave {has} out.")
    yield from _overlapping(path, table)
    if table.kind is Framing.MASONRY:
        told = [key for key in ("first", "every", "studs") if getattr(table, key)]
        if told:
            text = "a wall of masonry has no studs."
            yield Fault("studs-in-masonry", (*path, told[0]), text, f"Leave {told[0]} out, or correct kind.")


def _overlapping(path: Path, table: FramingTable) -> Iterator[Fault]:
    """A fault for studs that stand nearer to each other than they are wide, or twice in one place."""
    wide, fix = table.stud_width or USUAL_STUD, "Measure to the middle of each stud."
    if table.every is not None and table.every < wide:
        text = "the studs would stand nearer to each other than they are wide."
        yield Fault("studs-overlap", (*path, "every"), text, fix)
    if any(right - left < wide for left, right in pairwise(sorted(table.studs or ()))):
        text = "two of the studs stand nearer to each other than they are wide, or are told twice."
        yield Fault("studs-overlap", (*path, "studs"), text, fix)
