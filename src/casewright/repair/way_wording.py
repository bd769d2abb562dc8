"""A way out in two sentences: what is done, and what it costs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from ..casework.parts.part import Part
from ..casework.project import Project
from ..casework.size_names import read_name
from ..lengths.length import show
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
    """Two sentences for one option."""
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
            yield f"make {one.mark} of {project.job.sheets[one.material].name}"
        elif isinstance(one, GlueOn):
            yield f"glue a strip {_length(project, one.width)} wide along {one.mark} and rip it to width"
        elif isinstance(one, NewPlaces):
            count = len(one.marks)
            name = project.job.sheets[one.material].name
            yield f"give {count} uncut {'part' if count == 1 else 'parts'} of {name} new places"
        elif isinstance(one, Buy):
            yield f"buy {_sheets(project, one)}"
    sources: dict[str, list[str]] = {}
    for one in actions:
        if isinstance(one, CutAgain):
            sources.setdefault(one.blank, []).append(one.mark)
    for blank, marks in sources.items():
        yield _list("cut", marks, f"from {blank}")


def group_alike_inputs(actions: Iterable[Action]) -> list[tuple[str, list[SetInput]]]:
    """Inputs that take the same new value in place of the same old one, under one set of words."""
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
    """Every single thing to do, in the order in which it is done, with its sizes."""
    return tuple(words for one in sorted(actions, key=_turn) for words in _step(project, after, one))


_TURNS: tuple[type[Action], ...] = (
    SetInput, Forgo, MakeOf, KeepAsCut, TrimTo, Buy, NewPlaces, CutAgain, GlueOn
)  # fmt: skip


def _turn(action: Action) -> int:
    return _TURNS.index(type(action))


def _step(project: Project, after: Project, one: Action) -> Iterable[str]:
    if isinstance(one, SetInput):
        yield f"{one.words}: {_length(project, one.old)} becomes {_length(project, one.new)}."
    elif isinstance(one, Forgo):
        yield f"{one.mark} is left out."
    elif isinstance(one, MakeOf):
        yield f"{one.mark} is made of {project.job.sheets[one.material].name}."
    elif isinstance(one, KeepAsCut):
        yield f"{one.mark} is kept as it is."
    elif isinstance(one, TrimTo):
        yield f"Trim {one.mark} to {_length(project, one.length)} × {_length(project, one.width)}."
    elif isinstance(one, Buy):
        yield f"Buy {_sheets(project, one)}."
    elif isinstance(one, NewPlaces):
        yield f"Cut the rest of {_name(project, one.material)} by the new plan: {_and(one.marks)}."
    elif isinstance(one, GlueOn):
        yield f"Rip {one.mark} to {_length(project, one.rip_to)} wide."
        yield f"Glue the strip along that edge of {one.mark}, grain along it; rip to width when it is dry."
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
    money = f"{project.job.money}{float(cost.money):.2f}" if cost.money else "no money"
    again = {0: "nothing is made twice", 1: "one part is made again"}.get(
        cost.remade, f"{cost.remade} parts are made again"
    )
    return f"It takes {money} and about {round(float(cost.minutes))} minutes; {again}."


def _length(project: Project, length: Fraction) -> str:
    return show(length, project.job.mark, unit=True).marked


def proof_of(project: Project, facts: Facts, least: Finish | None, proved: bool) -> str:
    """Whether cutting alone can finish the job as it stands, and why not."""
    if least is None:
        return "No sheet that can be bought is large enough for what is to be made."
    if not least.bought:
        return "What is in reach is enough to finish the job as it stands."
    sheets = ", ".join(f"{one.count} of {one.name}" for one in sorted(least.bought, key=lambda one: one.name))
    if proved:
        return (
            f"As the job stands nothing works without buying {sheets}: it is proved that the parts "
            f"still to be made do not come out of the {len(facts.blanks)} pieces in reach, "
            "however they are cut."
        )
    return f"No cutting was found that does without buying {sheets}; it is not proved that there is none."
