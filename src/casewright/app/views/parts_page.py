"""A job's parts and sizes as a way in prints them: lengths on the shop's own rule."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

from ...casework.printed_sums import explained_sum
from ...casework.project import Project
from ...casework.size_names import owners
from ...errors import JobError
from ...findings import Finding
from ...lengths.did_you_mean import did_you_mean
from ...sizes.ledger import explain
from ...workshop.edging_wording import edged_in_short
from ...workshop.movement_wording import MovementTold, movement_told, moves_in_short
from ..jobs.worked_job import WorkedJob

DEEPEST = 30


@dataclass(frozen=True)
class PartLine:
    """One line of the parts list, printed. The sizes in inches are exact fractions as text.

    `moves` says what a part of solid wood does in the house; empty for panels.
    """

    words: str
    count: int
    length: str
    width: str
    thickness: str
    material: str
    name: str
    marks: tuple[str, ...]
    exact: tuple[str, str, str]
    moves: str = ""

    def plain(self) -> dict[str, Any]:
        """The line as JSON."""
        return asdict(self)


def lines(worked: WorkedJob) -> tuple[PartLine, ...]:
    """The parts list, printed."""
    project = worked.needed()
    sheets = project.job.sheets
    return tuple(
        PartLine(
            ", ".join(one for one in (line.words, edged_in_short(project, line.first)) if one),
            line.count,
            project.printed(line.length),
            project.printed(line.width),
            project.printed(line.thickness),
            line.material,
            sheets[line.material].name,
            line.marks,
            (str(line.length), str(line.width), str(line.thickness)),
            moves_in_short(project, line.first),
        )
        for line in worked.parts_list
    )


def movement(worked: WorkedJob) -> MovementTold | None:
    """How the parts of solid wood move; None in a job of panels only."""
    return movement_told(worked.needed())


@dataclass(frozen=True)
class Reason:
    """Why a size is what it is, and the sizes it comes from. `exact` is a fraction of inches."""

    name: str
    text: str
    exact: str
    sentence: str
    because: tuple[Reason, ...] = ()

    def plain(self) -> dict[str, Any]:
        """The reason as JSON."""
        return asdict(self)


def reasons(project: Project, name: str, steps: int) -> tuple[Reason, ...]:
    """Where the size called `name` comes from, or every size of the part or case of that mark.

    `steps` is how far back to go, at most `DEEPEST`. Raises JobError when nothing has that name.
    """
    ledger = project.sizes.ledger
    named = [name] if name in ledger else [one for one in ledger if name in owners(one)]
    if not named:
        stems = {owner for one in ledger for owner in owners(one)}
        fix = did_you_mean(name, [*sorted(stems), *ledger])
        raise JobError(
            (Finding("no-such-size", name, "the job has no size, part or case with this name.", fix),)
        )
    return tuple(_reason(project, one, min(steps, DEEPEST)) for one in named)


def _reason(project: Project, name: str, steps: int) -> Reason:
    why = explain(project.sizes, name)
    text = project.printed(why.value)
    sentence = explained_sum(project, why, project.printed)
    if why.how == "count":
        text = str(why.value)
        known = ", ".join(f"{words} {project.printed(value)}" for _, _, words, value in why.terms)
        sentence = f"{why.words} {text} = as many as fit, from {known}"
    because = (_reason(project, inner, steps - 1) for _, inner, _, _ in why.terms) if steps > 1 else ()
    return Reason(name, text, str(why.value), sentence, tuple(because))
