"""Faults of a whole job file: more than can be worked out, and marks or names that stand twice."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ...lengths.fractions_text import quoted
from ...shop.materials import SheetGood
from ..tables import JobTable
from .fault import Fault
from .key_places import Path

MOST_CASES, MOST_SHELVES = 200, 2000
"""In one job. A shop of one builds a dozen cases at a time; two hundred take half a second to draw up, two
thousand took minutes."""


def amount_faults(tables: JobTable) -> Iterator[Fault]:
    """A fault for a job of more cases or shelves than can be worked out while somebody waits."""
    cases = [case for run in tables.runs for case in run.cases]
    shelves = sum(1 + len(bay.fixed) + bay.adjustable for case in cases for bay in case.bays)
    for number, most, words in (
        (len(cases), MOST_CASES, "cases"),
        (shelves, MOST_SHELVES, "bays and shelves"),
    ):
        if number > most:
            text = f"the job has {number} {words}; at most {most} are worked out in one job."
            yield Fault("too-much", ("runs",), text, "Split the job into two files.")


def mark_faults(tables: JobTable) -> Iterator[Fault]:
    """Faults for cases that share a mark and runs that share a name."""
    marks: dict[str, str] = {}
    names: set[str] = set()
    for index, run in enumerate(tables.runs):
        if run.name in names:
            text = f"{quoted(run.name)} is already the name of another run."
            yield Fault("name-twice", ("runs", index, "name"), text, "Give each run its own name.")
        names.add(run.name)
        for number, case in enumerate(run.cases):
            # In pencil, b2-L and B2-L are one mark.
            mark = case.mark.casefold()
            if mark in marks:
                text = f"{quoted(case.mark)} is already the mark of another case, in {marks[mark]}."
                path = ("runs", index, "cases", number, "mark")
                fix = "Give each case its own mark; small and capital letters are not told apart."
                yield Fault("mark-twice", path, text, fix)
            marks.setdefault(mark, run.name)


def name_faults(tables: JobTable, sheets: Mapping[str, SheetGood]) -> Iterator[Fault]:
    """Faults for sizes and offcuts that share a name, and for sheets with only one size priced."""
    seen = {sheet.name for sheet in sheets.values()}
    named: list[tuple[Path, str]] = []
    for key, sheet in sheets.items():
        for index, other in enumerate(sheet.others):
            path: Path = ("materials", key, "others", index)
            named.append(((*path, "name"), other.name))
            if (other.price == 0) is not (sheet.price == 0):
                text = f"only one of {quoted(other.name)} and the whole sheet has a price."
                yield Fault("no-price", path, text, "Enter a price for both, or for neither.")
    named += [(("edging", key, "name"), table.name) for key, table in tables.edging.items()]
    named += [(("shop", "rack", at, "name"), piece.name) for at, piece in enumerate(tables.shop.rack)]
    for path, name in named:
        if name in seen:
            text = f"{quoted(name)} is already the name of another offcut, size, edging or sheet good."
            yield Fault("name-twice", path, text, "Give each its own name.")
        seen.add(name)
