"""Shelves that sag more than the figure they are held against, with what would mend each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from operator import itemgetter

from ..casework.job import Job
from ..casework.project import Project
from ..findings import Finding, Weight
from ..lengths.in_a_sentence import few
from ..strength.loaded_shelf import ShelfMaterial
from ..strength.shelf_answer import ShelfVerdict
from .job_shelves import BearingShelf
from .shelf_cures import shelf_fix
from .shelf_words import load_words, sags_told, when_words


def shelf_findings(
    project: Project, shelves: Iterable[BearingShelf], materials: Mapping[str, ShelfMaterial | None]
) -> tuple[Finding, ...]:
    """A finding for each shelf that does not meet its figure, those alike told once; and a question for each
    material of which it is not known how stiff it is.

    Shelves that meet a figure for their sag at once and pass it as they creep are a note, the worst for all:
    no source asks for more, but whoever looks at them in ten years will. Common practice, no source.
    """
    shelves = tuple(shelves)
    return (
        *_no_shelves(project, shelves),
        *_unknown(project, shelves),
        *_sagging(project, shelves, materials),
    )


def _no_shelves(project: Project, shelves: Iterable[BearingShelf]) -> Iterator[Finding]:
    """What is said of the load of parts that nothing is worked out for."""
    bearing = {one.part.mark for one in shelves}
    for mark in project.job.loads_of:
        if mark in project.parts and mark not in bearing:
            text = f"nothing is worked out for {mark}: it is no shelf, and no bottom of a case that hangs."
            fix = "Remove it, or use the mark of a shelf from the parts list."
            yield Finding("bears-nothing", f"loads_of.{mark}", text, fix, Weight.WARN)


def _unknown(project: Project, shelves: Iterable[BearingShelf]) -> Iterator[Finding]:
    unknown: dict[str, list[BearingShelf]] = {}
    for one in shelves:
        if one.shelf is None:
            unknown.setdefault(one.part.material, []).append(one)
    for material, of_it in unknown.items():
        name = project.job.sheets[material].name
        text = f"nothing says how stiff {name} is, so the sag of {_marks(of_it)} is not checked."
        fix = "Enter its kind, or start from a sheet good of the catalogue."
        yield Finding("stiffness-not-known", f"materials.{material}.kind", text, fix, Weight.NOTE)


def _sagging(
    project: Project, shelves: Iterable[BearingShelf], materials: Mapping[str, ShelfMaterial | None]
) -> Iterator[Finding]:
    over: dict[tuple[str, str], list[BearingShelf]] = {}
    in_years: list[tuple[Fraction, BearingShelf]] = []
    for one in shelves:
        verdict = one.verdict
        if verdict is None:
            continue
        if not verdict.meets:
            said = (_sagging_words(project.job, verdict), shelf_fix(project, one, materials))
            over.setdefault(said, []).append(one)
        elif verdict.meets_only_at_once:
            in_years.append((verdict.after_years.most / verdict.allowed, one))
    for (words, fix), those in over.items():
        yield Finding("shelf-sags", those[0].part.mark, f"{_marks(those)}: {words}.", fix, Weight.WARN)
    if in_years:
        _, worst = max(in_years, key=itemgetter(0))
        fix = shelf_fix(project, worst, materials)
        yield _in_years(project, worst, len(in_years) - 1, fix)


def _in_years(project: Project, worst: BearingShelf, others: int, fix: str) -> Finding:
    """The shelf that passes its figure furthest after years, and how many others pass theirs."""
    verdict, job = worst.verdict, project.job
    assert verdict is not None
    limit, load = verdict.limit, load_words(verdict.shelf.load, job.unit)
    new, old, allowed = sags_told(verdict, job.unit)
    text = (
        f"{worst.part.mark} sags {new} under {load} at once, which meets {limit.figure}, {allowed}, of "
        f"{limit.source}; after years it sags {old}."
    )
    if others:
        go = "shelf goes beyond its" if others == 1 else "shelves go beyond theirs"
        text += f" {others} more {go} too."
    return Finding("sags-in-years", worst.part.mark, text, fix, Weight.NOTE)


def _sagging_words(job: Job, verdict: ShelfVerdict) -> str:
    """What a shelf that does not meet its figure does under its load."""
    limit, load = verdict.limit, load_words(verdict.shelf.load, job.unit)
    new, old, allowed = sags_told(verdict, job.unit)
    return (
        f"under {load} a shelf sags {new} at once and {old} after years, and does not meet {limit.figure}, "
        f"{allowed} {when_words(limit)}, of {limit.source}"
    )


def _marks(shelves: list[BearingShelf]) -> str:
    return few([one.part.mark for one in shelves])
