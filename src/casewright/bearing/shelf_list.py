"""Puts all shelves of a job into one list, those alike together: the same for paper, page and command."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from ..casework.parts.part import Role
from ..casework.project import Project
from ..findings import Finding
from ..lengths.in_a_sentence import with_capital
from ..lengths.quantities import caliper
from ..lengths.told_lengths import PENCIL_MARKS, told
from ..strength.loaded_shelf import LoadedShelf, ShelfMaterial, ShelfStrip
from ..strength.shelf_answer import ShelfVerdict
from .hanging_sheet import Doubt
from .job_shelves import BearingShelf
from .shelf_cures import shelf_fix
from .shelf_sheet import ShelfSheet, ShelfTold
from .shelf_words import figure_words, load_words, sags_told, shelf_assumptions, when_words

UNKNOWN = "stiffness-not-known"

WHAT = {
    Role.FIXED_SHELF: "fixed shelf",
    Role.ADJUSTABLE_SHELF: "adjustable shelf",
    Role.BOTTOM: "bottom of a hung case",
}


def shelf_sheet(
    project: Project,
    shelves: Iterable[BearingShelf],
    materials: Mapping[str, ShelfMaterial | None],
    found: Iterable[Finding],
) -> ShelfSheet:
    """The list of these shelves; `found` is what was found about them, of which the questions stand in it."""
    shelves = tuple(shelves)
    alike: dict[ShelfTold, list[BearingShelf]] = {}
    for one in shelves:
        if one.verdict is not None:
            alike.setdefault(_told(project, one, one.verdict), []).append(one)
    listed = [
        replace(
            words,
            marks=tuple(one.part.mark for one in those),
            fix="" if words.meets else shelf_fix(project, those[0], materials),
        )
        for words, those in alike.items()
    ]
    unit = project.job.unit
    assumed = dict.fromkeys(
        line for one in shelves if one.shelf for line in shelf_assumptions(one.shelf, unit)
    )
    return ShelfSheet(
        tuple(sorted(listed, key=lambda one: (one.meets, not one.later))),
        tuple(Doubt(with_capital(one.text), one.fix) for one in found if one.code == UNKNOWN),
        tuple(assumed),
    )


def _told(project: Project, one: BearingShelf, verdict: ShelfVerdict) -> ShelfTold:
    """A shelf in words, without its mark and what would mend it."""
    unit, shelf, limit = project.job.unit, verdict.shelf, verdict.limit
    once, years, allowed = sags_told(verdict, unit)
    return ShelfTold(
        (),
        WHAT[one.part.role],
        told(shelf.clear_span, PENCIL_MARKS[unit]),
        _section(project, one, shelf),
        load_words(shelf.load, unit),
        once,
        years,
        f"{allowed} {when_words(limit)}",
        figure_words(limit, shelf.load, unit),
        verdict.meets,
        f"goes beyond {allowed} after years" if verdict.meets_only_at_once else "",
        "",
    )


def _section(project: Project, one: BearingShelf, shelf: LoadedShelf) -> str:
    """What a shelf is made of: depth, sheet, thickness as it measures, and strips of solid wood."""
    sheet, deep = project.job.sheets[one.part.material], project.printed(shelf.depth)
    lies = "" if shelf.grain_along or not sheet.grain else ", grain across"
    strips = {"front": shelf.front, "rear edge": shelf.back}
    edged = [f"{where} edged with {_strip(project, strip)}" for where, strip in strips.items() if strip]
    held = ["screwed to the back"] if shelf.back_held else []
    thick = caliper(shelf.thickness, project.job.unit)
    return "; ".join((f"{deep} deep, {sheet.name}, {thick} thick{lies}", *edged, *held))


def _strip(project: Project, strip: ShelfStrip) -> str:
    sizes = (told(size, PENCIL_MARKS[project.job.unit]) for size in (strip.width, strip.height))
    return f"{' × '.join(sizes)} of {strip.material.stiffness.kind}"
