"""The parts of forms about doors and drawers: the fronts of a case, and the hinges and slides of a job."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from ...casework.front_choices import FrontKind
from ...jobfile.catalogue import packaged_catalogue
from ..jobs.worked_job import WorkedJob
from .form_fields import FITTING_TABLES, FITTINGS, keys_at
from .form_groups import Group, group_at
from .text_edits import Path, look_up

FRONT = ("kind", "height", "hung")
BOX = "box_height"
FIRST = ("like", "name")
ONLY_IN_THE_TEXT = ("chart",)


def fittings_on_the_list() -> Mapping[str, tuple[str, ...]]:
    """The names of the hinges and of the slides in the shop's list."""
    stock = packaged_catalogue()
    return {"hinges": tuple(stock.hinges), "slides": tuple(stock.slides)}


def hardware_form(worked: WorkedJob) -> tuple[Group, ...]:
    """Every hinge and slide of the job, and which of them its cases are fitted with."""
    groups: list[Group] = []
    for table in FITTING_TABLES:
        for key in worked.values.get(table, ()):
            path: Path = (table, key)
            title = f"{_name(worked, path)} ({key})"
            first = group_at(worked, title, path, FIRST)
            # What they are like can be changed, not left open: without it nearly every figure is missing.
            fields = tuple(
                replace(one, required=one.path[-1] == "like" and bool(one.typed)) for one in first.fields
            )
            groups.append(replace(first, fields=fields, key=f"{table}/{key}"))
            rest = [entry for entry in keys_at(path) if entry not in (*FIRST, *ONLY_IN_THE_TEXT)]
            groups.append(group_at(worked, f"Figures of {key}", path, rest, folded=True))
    return (*groups, *fitted_groups(worked, ("fitted_with",), "Every case, unless it says otherwise"))


def fitted_groups(
    worked: WorkedJob, path: Path, title: str = "Hinges and slides", *, folded: bool = False
) -> tuple[Group, ...]:
    """What the job, a kind of case or a case is fitted with; no fields for what the job has none of."""
    keys = [
        entry
        for entry in keys_at(path)
        if worked.values.get(FITTINGS[entry]) or look_up(worked.values, (*path, entry)) is not None
    ]
    return (group_at(worked, title, path, keys, folded=folded),) if keys else ()


def front_groups(worked: WorkedJob, bay: Path, called: str) -> tuple[Group, ...]:
    """The doors and drawers before the bay at that path, from below; `called` names the bay where its case
    has several."""
    fronts = look_up(worked.values, (*bay, "fronts")) or ()
    words = f"{called}, front" if called else "Front"
    return tuple(
        group_at(worked, f"{words} {place + 1}, from below", (*bay, "fronts", place), _entries_of(front))
        for place, front in enumerate(fronts)
    )


def _entries_of(front: Mapping[str, Any]) -> tuple[str, ...]:
    """What a form asks of a front: of a drawer, how high its box is too."""
    drawer = front.get("kind") == FrontKind.DRAWER.value
    return (*FRONT, BOX) if drawer or BOX in front else FRONT


def of_doors_and_drawers(keys: Iterable[str]) -> tuple[str, ...]:
    """Those of the keys of the construction that are about doors and drawers."""
    return tuple(key for key in keys if key == "panel_play" or key.startswith(("front", "door", "drawer")))


def _name(worked: WorkedJob, path: Path) -> str:
    """What a hinge or slides are called: by the job, or by the shop's list they come from."""
    table, key = path
    if worked.job:
        known = worked.job.hinges if table == "hinges" else worked.job.slides
        return known[str(key)].name
    return str(look_up(worked.values, (*path, "name")) or look_up(worked.values, (*path, "like")) or table)
