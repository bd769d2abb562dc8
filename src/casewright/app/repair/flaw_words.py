"""Faults in the sheets, as a maker tells them: from words to their places."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from fractions import Fraction

from ...casework.project import Project
from ...errors import LengthError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...lengths.length import parse_length
from ...planner.plan import Plan
from ...repair.facts import Facts
from ...repair.flaws import Flaw, flaw_on


def read_flaws(
    project: Project, plans: Mapping[str, Plan], told: Sequence[str], faults: list[Finding]
) -> tuple[Flaw, ...]:
    """Each fault that is told as `maple 2:30 x 12:4 x 3`; what cannot be read is added to `faults`."""
    sheets = {f"{key} {sheet.number}": sheet for key, plan in plans.items() for sheet in plan.sheets}
    found: list[Flaw] = []
    for said in told:
        name, place, size = (*(piece.strip() for piece in said.split(":")), "", "", "")[:3]
        sheet = sheets.get(name)
        if sheet is None:
            text = f"there is no sheet “{name}”."
            faults.append(Finding("no-such-sheet", "flaw", text, did_you_mean(name, sheets)))
            continue
        try:
            at, large = _pair(project, place), _pair(project, size)
        except LengthError as fault:
            fix = f"Write how far it is from the left end and near edge, then its size: {name}:30 x 12:4 x 3."
            faults.append(Finding("flaw-place", name, f"{str(fault).rstrip('.')}.", fix))
            continue
        flaw = flaw_on(name.rpartition(" ")[0], sheet, at, large)
        if flaw is None:
            text = f"a fault {place} in and {size} large does not lie within the sheet."
            fix = "Measure it from the sheet’s left end and its near edge, as the map of the sheet lies."
            faults.append(Finding("flaw-off-the-sheet", name, text, fix))
        else:
            found.append(flaw)
    return tuple(found)


def worked_at_a_flaw(
    facts: Facts, worked: Mapping[str, Collection[str]], told: Collection[str]
) -> Iterator[Finding]:
    """Parts that were cut where a fault lies and are worked already: which way they lie nobody can tell."""
    for mark in facts.spoiled:
        if worked.get(mark) and mark not in told:
            text = "it was cut where the sheet has a fault, and it is worked already."
            fix = f"Say where on it the fault is, as a damage: {mark}:front edge:2 x 1/4."
            yield Finding("worked-at-a-flaw", mark, text, fix)


def _pair(project: Project, said: str) -> tuple[Fraction, Fraction]:
    pair = re.split(r"\s*[x×]\s*", said)
    if len(pair) != 2:
        raise LengthError(f"“{said}” is not two lengths")
    first, second = (parse_length(one, project.job.unit) for one in pair)
    return first, second
