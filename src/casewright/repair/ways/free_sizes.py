"""Move a free dimension: which inputs, changed by how much, make a part right as it was cut.

A part's size is affine in the job's inputs. One input with a coefficient k closes a size that is
off by d when it moves by d / k. Where the input is a case's width, a neighbour or a filler of
the same run must take the opposite, or the opening would no longer be filled.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from ...casework.input_changes import CONSTRUCTION, with_input
from ...casework.job import Job
from ...casework.project import DrawnRun, Project, draw_up
from ...errors import JobError
from ...sizes.ledger import Given, Share
from ..facts import AsCut
from .way import SetInput

FREE_IN_CASE = frozenset({"width", "height", "depth"})
FREE_CONSTRUCTION = frozenset(
    {"toe_height", "toe_depth", "stretcher_width", "strip_width", "shelf_setback", "back_inset"}
)
"""Inputs a maker may move. Depths of joints and fits are not among them: the cutter is set."""

IN_SIGHT = {
    "width": 2,
    "height": 3,
    "depth": 2,
    "toe_height": 1,
    "toe_depth": 1,
    "filler": 1,
    "bay": 1,
    "below": 1,
}
"""How much an inch of each shows (our judgement, no source); what is not named is out of sight."""


@dataclass(frozen=True)
class Move:
    """Inputs to set, and how much of that is in sight (inches, weighted)."""

    inputs: tuple[SetInput, ...]
    seen: Fraction

    def made(self, job: Job) -> Job:
        """The job after the move."""
        for one in self.inputs:
            job = with_input(job, one.name, one.new)
        return job


def settle(project: Project) -> Job:
    """The job with every shared width written out, so that moving one moves no other."""
    job = project.job
    for name, entry in project.sizes.ledger.items():
        if isinstance(entry.definition, Share):
            job = with_input(job, name, project.sizes.of(name))
    return job


def moves(project: Project, mark: str, cut: AsCut) -> Iterator[Move]:
    """The single moves, each with what it needs to keep its run filled, that make `mark` right.

    `project` must be settled. Lengths and widths that are both off are not mended this way.
    """
    part = project.parts[mark]
    length, width, _ = project.dimensions(part)
    off = [(part.length, cut.length - length), (part.width, cut.width - width)]
    off = [(form, by) for form, by in off if by]
    if len(off) != 1:
        return
    form, by = off[0]
    expanded = project.sizes.ledger.expand(form)
    for name, coefficient in expanded.terms:
        for target in _names(project, part.case, name):
            yield from _with_neighbours(project, part.case, target, by / coefficient)


def _names(project: Project, case: str, name: str) -> Iterator[str]:
    """The inputs to try for a root of the form: itself, and a case's own in place of the job's."""
    stem, _, last = name.rpartition(".")
    if not isinstance(project.sizes.ledger[name].definition, Given):
        return
    if last in FREE_IN_CASE or last.startswith(("bay", "below")) or last.endswith("_filler"):
        yield name
    elif last in CONSTRUCTION and last in FREE_CONSTRUCTION:
        yield f"{case}.{last}"
        if stem == "job":
            yield name


def _with_neighbours(project: Project, case: str, name: str, by: Fraction) -> Iterator[Move]:
    stem, _, last = name.rpartition(".")
    if stem in project.cases and last in ("height", "depth"):
        # Fronts and tops of a run stand in one line: cases that were level stay level.
        level = project.sizes.of(name)
        fellows = [f"{one.mark}.{last}" for one in project.run_of(stem).cases]
        together = [_set(project, one, by) for one in fellows if project.sizes.of(one) == level]
        if level + by > 0:
            yield Move(tuple(together), _all_seen(together))
        return
    first = _set(project, name, by)
    if first.new <= 0:
        return
    if (last == "width" and stem in project.cases) or last.endswith("_filler"):
        run = project.run_of(case)
        if project.sizes.of(run.spare) >= by > 0:
            yield Move((first,), _seen(first))
        for taker in _takers(run, name):
            other = _set(project, taker, -by)
            if other.new > 0:
                yield Move((first, other), _all_seen([first, other]))
        return
    yield Move((first,), _seen(first))


def _all_seen(inputs: list[SetInput]) -> Fraction:
    return sum((_seen(one) for one in inputs), Fraction(0))


def _takers(run: DrawnRun, name: str) -> Iterator[str]:
    """What may take up a change of width along a run: any other case of it, or a filler."""
    number = next(iter(run.spare.names)).partition(".")[0]
    widths = [f"{other.mark}.width" for other in run.cases]
    if run.run.left:
        widths.append(f"{number}.left_filler")
    if run.run.right:
        widths.append(f"{number}.right_filler")
    yield from (other for other in widths if other != name)


def _set(project: Project, name: str, by: Fraction) -> SetInput:
    ledger = project.sizes.ledger
    known = name if name in ledger else f"job.{name.rpartition('.')[2]}"
    old = project.sizes.of(known)
    words = ledger[known].words if known == name else f"{ledger[known].words} of {name.partition('.')[0]}"
    return SetInput(name, words, old, old + by)


def _seen(one: SetInput) -> Fraction:
    last = one.name.rpartition(".")[2]
    weight = next((weight for start, weight in IN_SIGHT.items() if last.startswith(start)), 0)
    if last.endswith("_filler"):
        weight = IN_SIGHT["filler"]
    return abs(one.new - one.old) * weight


def drawn(job: Job) -> Project | None:
    """The job drawn up from nothing, or None when it cannot be built."""
    try:
        return draw_up(job)
    except JobError:
        return None
