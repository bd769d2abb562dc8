"""What holds cases on the floor that tip with everything open: said once for each run."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import groupby

from ..casework.project import Project
from ..findings import Finding, Weight
from ..lengths.in_a_sentence import few, listed
from ..lengths.quantities import weighed
from ..lengths.told_lengths import PENCIL_MARKS, told
from ..strength.tipping import CLOTHING_UNITS
from .standing import OpenedCase
from .standing_wording import as_tested, into_words


def standing_findings(project: Project, standing: Iterable[OpenedCase]) -> tuple[Finding, ...]:
    """A note for each run with cases that do not stay on their feet by themselves: they are fixed to the wall
    as a matter of course, and this says where."""
    tipping = (one for one in standing if not one.check.meets)
    by_run = groupby(tipping, key=lambda one: project.run_of(one.mark).run.name)
    return tuple(_tips(project, name, list(those)) for name, those in by_run)


def _tips(project: Project, run: str, those: list[OpenedCase]) -> Finding:
    marks = [one.mark for one in those]
    meets = "does not meet" if len(marks) == 1 else "do not meet"
    text = (
        f"with every door and drawer open, {few(marks)} {meets} {CLOTHING_UNITS} before being fixed: "
        f"{as_tested(those[0], project.job.unit)}."
    )
    return Finding("tips-when-open", f"runs.{run}", text, fastening(project, those), Weight.NOTE)


def fastening(project: Project, those: list[OpenedCase]) -> str:
    """Where cases are fixed to the wall, and the greatest pull of one of them there."""
    job = project.job
    finest = PENCIL_MARKS[job.unit]
    at = listed(dict.fromkeys(told(up, finest) for up in sorted(one.fastening.up for one in those)))
    pull = weighed(max(one.pull for one in those), job.unit)
    studs = {stud for one in those for stud in one.fastening.studs}
    into = into_words(project, project.run_of(those[0].mark).run.wall, studs)
    who = "it" if len(those) == 1 else "each"
    of_each = f"a pull of {pull}" if len(those) == 1 else f"a pull of {pull} at most on each"
    return f"Fix {who} to the wall {at} above the floor, {into}, before anything is opened: {of_each}."
