"""What the packet says beside its cautions: look-alike sizes, and joints to look at at the dry fit."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from ...packet.shop_packet import Matter, Notice
from ...repair.prevention.easily_turned import WrongTurn
from ...repair.prevention.saw_check import LookAlike
from ...workshop.heavy_loads import HEAVY_TITLE, heavy_lines
from ...workshop.movement_wording import MOVEMENT_TITLE, movement_lines, movement_told
from ...workshop.operations import cut_key
from ..fit.fit_page import worth_a_look
from ..jobs.worked_job import PlannedJob, WorkedJob
from ..sheets.made_already import MadeAlready

MOST_ALIKE, MOST_RISKS, MOST_MOVING, MOST_HEAVY = 5, 8, 8, 8
MOST_NAMED = 3
"""Entries of a notice; a page that says everything is read by nobody, and with these it is one page."""


def notices(planned: PlannedJob) -> tuple[Notice, ...]:
    """Every notice there is reason for."""
    found = (
        (
            "What is easily confused, or turned wrong",
            [*_easily_turned(planned.worked), *_look_alikes(planned.worked.look_alikes)],
            MOST_ALIKE,
            "more such pairs of sizes",
        ),
        (
            "Joints to look at when the case is put together dry",
            [look.text for look in worth_a_look(planned.fit)],
            MOST_RISKS,
            "more such joints",
        ),
        (MOVEMENT_TITLE, _moving(planned.worked), MOST_MOVING, "more sizes of part"),
    )
    told = tuple(Notice(title, _short(lines, most, more)) for title, lines, most, more in found if lines)
    heavy = heavy_lines(planned.project, planned.made.plans, planned.work.operations, MOST_HEAVY)
    return (*told, Notice(HEAVY_TITLE, heavy)) if heavy else told


def matters(planned: PlannedJob) -> tuple[Matter, ...]:
    """What matters most besides the findings: the joint likeliest to want work at the dry fit (the others
    stand among the notices), then sizes that are easily confused, the nearest first."""
    risks = (
        Matter("At the dry fit", look.text, "Try this joint first, before any glue.")
        for look in worth_a_look(planned.fit)[:1]
    )
    alike = (
        Matter(f"{one.likeness.value.capitalize()}:", one.advice, "") for one in planned.worked.look_alikes
    )
    return (*risks, *alike)


def made_notice(planned: PlannedJob, made: MadeAlready) -> tuple[Notice, ...]:
    """What the chosen way asks for; then what is cut already, by sheet and part, and not to be cut again."""
    lines: list[str] = []
    for material, plan in planned.made.plans.items():
        name = planned.project.job.sheets[material].name
        for sheet in plan.sheets:
            keys = {cut.order: cut_key(material, sheet.number, cut.order) in made.steps for cut in sheet.cuts}
            if any(keys.values()):
                cuts = "all cuts" if all(keys.values()) else f"cuts {_runs(keys)}"
                lines.append(f"Sheet {sheet.number} of {name}: {cuts}.")
    whole: list[str] = []
    begun: list[str] = []
    for part in planned.project:
        own = [step.key for step in planned.work.by_part.get(part.mark, ()) if step.feature]
        if any(key in made.steps for key in own):
            (whole if all(key in made.steps for key in own) else begun).append(part.mark)
    if whole:
        lines.append(f"All that is cut into {', '.join(whole)}.")
    if begun:
        lines.append(f"Some of what is cut into {', '.join(begun)}: look at the part first.")
    if lines:
        lines.append("Cuts that are made have a filled box; their sheets are not on the buying list.")
    found = (
        ("To put right, by the way that was chosen", made.mends),
        ("Cut already: leave these out", lines),
    )
    return tuple(Notice(title, tuple(said)) for title, said in found if said)


def _runs(made: Mapping[int, bool]) -> str:
    """The numbers of the cuts made: `1 to 4, 7`."""
    numbers = [number for number, is_made in sorted(made.items()) if is_made]
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs)


def _moving(worked: WorkedJob) -> tuple[str, ...]:
    told = movement_told(worked.needed())
    return movement_lines(told) if told else ()


def _look_alikes(pairs: Iterable[LookAlike]) -> list[str]:
    return [f"{alike.likeness.value.capitalize()}: {alike.advice}" for alike in pairs]


def _easily_turned(worked: WorkedJob) -> list[str]:
    """Nearly square parts with the size along their grain, and lefts with their rights, a line each."""
    project = worked.needed()
    square, pairs = [], []
    for one in worked.easily_turned:
        if one.how is WrongTurn.GRAIN:
            along = project.printed(one.sizes[0])
            square.append(f"{', '.join(one.first)} ({along} that way)")
        else:
            pairs += [f"{left} and {right}" for left, right in zip(one.first, one.second, strict=True)]
    lines = []
    if square:
        lines.append(f"Nearly square: draw an arrow along the grain first: {_named(square)}.")
    if pairs:
        lines.append(f"Mirror images: open each pair like a book, mark both front edges: {_named(pairs)}.")
    return lines


def _named(names: Sequence[str]) -> str:
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return f"{', '.join(names[:MOST_NAMED])}{more}"


def _short(lines: Sequence[str], most: int, more: str) -> tuple[str, ...]:
    if len(lines) > most:
        lines = [*lines[: most - 1], f"and {len(lines) - most + 1} {more}."]
    return tuple(lines)
