"""A repair in words: two sentences on what is done and what it costs, and its steps one by one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from ..casework.parts.part import Part
from ..casework.project import Project
from ..casework.size_names import read_name
from ..lengths.length import show
from ..lengths.quantities import with_cents
from .facts import Facts
from .ways.from_wood import Finish
from .ways.way import (
    Action,
    Buy,
    Cost,
    CutAgain,
    Forgo,
    GlueOn,
    KeepAsCut,
    MakeOf,
    NewPlaces,
    SetInput,
    TrimTo,
    WayKind,
)


def describe_way(
    project: Project, kind: WayKind, after: Project, actions: Iterable[Action], cost: Cost
) -> str:
    """Two sentences on one way to repair: what is done, then what it costs."""
    done = [words for words in _grouped(project, list(actions)) if words]
    first = "; ".join(done) or kind.value
    return f"{first[0].upper()}{first[1:]}. {_price(project, cost)}"


def _grouped(project: Project, actions: list[Action]) -> Iterable[str]:
    yield _list("leave out", [one.mark for one in actions if isinstance(one, Forgo)])
    for words, sets in group_alike_inputs(actions):
        yield f"make the {words} {_length(project, sets[0].new)} instead of {_length(project, sets[0].old)}"
    yield _list("keep", [one.mark for one in actions if isinstance(one, KeepAsCut)], "as cut")
    yield _list("trim", [one.mark for one in actions if isinstance(one, TrimTo)], "to match")
    for one in actions:
        if isinstance(one, MakeOf):
            yield f"make {one.mark} from {project.job.sheets[one.material].name}"
        elif isinstance(one, GlueOn):
            yield f"glue a strip {_length(project, one.width)} wide along {one.mark} and rip it to width"
        elif isinstance(one, NewPlaces):
            count = len(one.marks)
            name = project.job.sheets[one.material].name
            yield f"lay out {count} uncut {name} {'part' if count == 1 else 'parts'} again"
        elif isinstance(one, Buy):
            yield f"buy {_sheets(project, one)}"
    sources: dict[str, list[str]] = {}
    for one in actions:
        if isinstance(one, CutAgain):
            sources.setdefault(one.blank, []).append(one.mark)
    for blank, marks in sources.items():
        yield _list("cut", marks, f"from {blank}")


def group_alike_inputs(actions: Iterable[Action]) -> list[tuple[str, list[SetInput]]]:
    """Changed inputs of one kind with equal old and equal new values, grouped under one name."""
    groups: dict[tuple[str, Fraction, Fraction], list[SetInput]] = {}
    for one in actions:
        if isinstance(one, SetInput):
            groups.setdefault((read_name(one.name).what, one.old, one.new), []).append(one)
    return [(_together(sets), sets) for sets in groups.values()]


def _together(sets: list[SetInput]) -> str:
    if len(sets) == 1:
        return sets[0].words
    names = [read_name(one.name) for one in sets]
    return f"{names[0].words} of {_and([name.owner for name in names])}"


def list_steps(project: Project, after: Project, actions: Iterable[Action]) -> tuple[str, ...]:
    """The steps of a repair in the order of the work, each with its sizes."""
    return tuple(words for one in sorted(actions, key=_turn) for words in _step(project, after, one))


_TURNS: tuple[type[Action], ...] = (
    SetInput, Forgo, MakeOf, KeepAsCut, TrimTo, Buy, NewPlaces, CutAgain, GlueOn
)  # fmt: skip


def _turn(action: Action) -> int:
    return _TURNS.index(type(action))


def _step(project: Project, after: Project, one: Action) -> Iterable[str]:
    if isinstance(one, SetInput):
        yield f"Change {one.words} from {_length(project, one.old)} to {_length(project, one.new)}."
    elif isinstance(one, Forgo):
        yield f"Leave out {one.mark}."
    elif isinstance(one, MakeOf):
        yield f"Make {one.mark} from {project.job.sheets[one.material].name}."
    elif isinstance(one, KeepAsCut):
        yield f"Keep {one.mark} as cut."
    elif isinstance(one, TrimTo):
        yield f"Trim {one.mark} to {_length(project, one.length)} × {_length(project, one.width)}."
    elif isinstance(one, Buy):
        yield f"Buy {_sheets(project, one)}."
    elif isinstance(one, NewPlaces):
        yield f"Cut these {_name(project, one.material)} parts from the new sheet plan: {_and(one.marks)}."
    elif isinstance(one, GlueOn):
        yield f"Rip {one.mark} to {_length(project, one.rip_to)} wide."
        yield (
            f"Glue the strip along the ripped edge of {one.mark}, its grain parallel to the edge. "
            "Rip to width when the glue is dry."
        )
    else:
        part = after.parts.get(one.mark)
        size = f", {_size(after, part)}" if part else ""
        yield f"Cut {one.mark}{size} from {one.blank}."


def _sheets(project: Project, one: Buy) -> str:
    name = _name(project, one.material)
    size = "" if one.name == name else f" ({one.name})"
    return f"{'1 sheet' if one.sheets == 1 else f'{one.sheets} sheets'} of {name}{size}"


def _size(project: Project, part: Part) -> str:
    length, width, _ = project.dimensions(part)
    return f"{_length(project, length)} × {_length(project, width)}"


def _name(project: Project, material: str) -> str:
    return project.job.sheets[material].name


def _and(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _list(verb: str, marks: list[str], rest: str = "") -> str:
    if not marks:
        return ""
    shown = marks if len(marks) <= 4 else [*marks[:3], f"{len(marks) - 3} more"]
    return f"{verb} {_and(shown)} {rest}".strip()


def _price(project: Project, cost: Cost) -> str:
    money = f"{project.job.money}{with_cents(cost.money)}" if cost.money else "nothing to buy"
    again = {0: "no part is made again", 1: "one part is made again"}.get(
        cost.remade, f"{cost.remade} parts are made again"
    )
    return f"Cost: {money}, about {cost.whole_minutes} minutes; {again}."


def _length(project: Project, length: Fraction) -> str:
    return show(length, project.rule, unit=True).marked


def proof_of(project: Project, facts: Facts, least: Finish | None, proved: bool) -> str:
    """Whether the job can be finished without buying a sheet, and if not, why."""
    if least is None:
        return "None of the sheets on the job's list is large enough for the parts still to be cut."
    if not least.bought:
        return "The wood on hand is enough to finish the job without changing it."
    sheets = ", ".join(f"{one.count} of {one.name}" for one in sorted(least.bought, key=lambda one: one.name))
    if proved:
        return (
            f"Without changing the job you must buy {sheets}: it is proved that the parts still to be "
            f"cut do not come out of the {len(facts.blanks)} pieces on hand, however they are laid out."
        )
    return f"No layout was found that avoids buying {sheets}, but it is not proved that there is none."
