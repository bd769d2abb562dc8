"""The work handed out for a job, one handing out after another, as the shop's file keeps it."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from ...boards.board_plan import BoardPlan
from ...errors import RecordError
from ...planner.plan import Plan
from ...record.events import Done
from ...record.handed_out import Issued, issued_from_plain, renumber_boards_handed_out, renumber_sheets
from ...store.event_rows import KeptEvent, events_after, events_of_kind
from ...store.shop_file import StoreFile
from ...workshop.boards.board_work import board_of_step
from ...workshop.operations import sheet_of_cut
from .kept_events import SetAside, event_set_aside, read_events

ISSUE = "issue"
"""The kind of record entry that hands work out; every other kind is an event of a bench."""


@dataclass(frozen=True, eq=False)
class HandedOut:
    """Work handed out once: the id and place of its entry, and the plans."""

    id: str
    place: int
    issued: Issued


@dataclass(frozen=True)
class HandingsOut:
    """Every handing out that can be read, the newest last, and those that cannot."""

    entries: tuple[HandedOut, ...]
    set_aside: tuple[SetAside, ...]


def handings_out(file: StoreFile, job: str) -> HandingsOut:
    """All work handed out for a job so far."""
    return read_handings_out(events_of_kind(file, job, ISSUE))


def read_handings_out(rows: Iterable[KeptEvent]) -> HandingsOut:
    """The work in these entries, all of the kind that hands work out."""
    entries: list[HandedOut] = []
    aside: list[SetAside] = []
    for row in rows:
        try:
            entries.append(_handed_out(row))
        except RecordError as fault:
            aside.append(event_set_aside(row, fault.findings[0], "Hand the work out again"))
    return HandingsOut(tuple(entries), tuple(aside))


@lru_cache(maxsize=32)
def _handed_out(row: KeptEvent) -> HandedOut:
    try:
        plain = json.loads(row.payload)
    except (ValueError, RecursionError):
        plain = None
    return HandedOut(row.id, row.place, issued_from_plain(plain))


def numbered_for_shop(
    file: StoreFile, job: str, plans: Mapping[str, Plan], boards: Mapping[str, BoardPlan]
) -> tuple[dict[str, Plan], dict[str, BoardPlan]]:
    """The plans with numbers for their sheets and boards under which the shop has cut no others."""
    earlier = handings_out(file, job)
    # What an unreadable entry handed out is known only by its ticks.
    used = _numbers_ticked(file, job) if earlier.set_aside else {}
    issued = [one.issued for one in earlier.entries]
    return renumber_sheets(plans, issued, used), renumber_boards_handed_out(boards, issued, used)


def _numbers_ticked(file: StoreFile, job: str) -> dict[str, int]:
    """The greatest number of a sheet or board that was ticked, by material."""
    read = read_events(row for row in events_after(file, job) if row.kind != ISSUE)
    found: dict[str, int] = {}
    for event in read.events:
        for step in event.what.steps if isinstance(event.what, Done) else ():
            if cut := sheet_of_cut(step) or board_of_step(step):
                found[cut[0]] = max(cut[1], found.get(cut[0], 0))
    return found
