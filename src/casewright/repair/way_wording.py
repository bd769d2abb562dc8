"""A repair in words: two sentences on what is done and what it costs, and its steps one by one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import pairwise

from ..casework.fronts_in_one_piece import fronts_in_one_piece
from ..casework.parts.part import Part
from ..casework.project import Project
from ..casework.size_names import read_name
from ..lengths.in_a_sentence import few, listed
from ..lengths.quantities import with_cents
from .board_way_wording import buy_board_step, buy_board_words, mill_in_short, mill_steps
from .facts import SPOILED, Facts
from .price import Cost
from .ways.from_wood import Finish
from .ways.mends import side_of_part
from .ways.way import (
    KINDS_THAT_BUY,
    Action,
    Buy,
    BuyBoard,
    CutAgain,
    Forgo,
    GlueOn,
    KeepAsCut,
    MakeOf,
    Mend,
    MillAgain,
    NewPlaces,
    Option,
    ServeAs,
    SetInput,
    SwapBays,
    TakeSize,
    TrimTo,
    WayKind,
    while_only,
)

ENOUGH = "The wood on hand is enough to finish the job without changing it."


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
        yield f"make the {words} {project.printed(sets[0].new)} instead of {project.printed(sets[0].old)}"
    yield from (f"change the bays of {one.case} over" for one in actions if isinstance(one, SwapBays))
    yield _list("keep", [one.mark for one in actions if isinstance(one, KeepAsCut)], "as cut")
    yield _list("trim", [one.mark for one in actions if isinstance(one, TrimTo)], "to match")
    for one in actions:
        if isinstance(one, ServeAs) and one.planned:
            yield f"cut {one.mark} in the place of {one.piece}"
        elif isinstance(one, ServeAs):
            yield f"let {one.piece} serve as {one.mark}"
        elif isinstance(one, Mend):
            yield "; ".join(step.rstrip(".")[:1].lower() + step.rstrip(".")[1:] for step in one.steps)
    for one in actions:
        if isinstance(one, MakeOf):
            yield f"make {one.mark} from {project.job.sheets[one.material].name}"
        elif isinstance(one, GlueOn):
            yield f"glue a strip {project.printed(one.width)} wide along {one.mark} and rip it to width"
        elif isinstance(one, NewPlaces):
            count = len(one.marks)
            name = project.job.sheets[one.material].name
            yield f"lay out {count} uncut {name} {'part' if count == 1 else 'parts'} again"
        elif isinstance(one, Buy):
            yield f"buy {_sheets(project, one)}"
        elif isinstance(one, BuyBoard):
            yield buy_board_words(project, one)
        elif isinstance(one, MillAgain):
            yield mill_in_short(one)
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
    return f"{names[0].words} of {listed([name.owner for name in names])}"


def list_steps(project: Project, after: Project, actions: Iterable[Action]) -> tuple[str, ...]:
    """The steps of a repair in the order of the work, each with its sizes."""
    done = sorted(actions, key=_turn)
    steps = (words for one in done for words in _step(project, after, one))
    return tuple(dict.fromkeys((*steps, *_breaks_of_grain(after, done))))


def _breaks_of_grain(after: Project, actions: Iterable[Action]) -> Iterable[str]:
    """Where the grain of fronts no longer runs on: from one that comes from elsewhere to its neighbours."""
    again = {one.mark for one in actions if isinstance(one, CutAgain | ServeAs | MakeOf)}
    for bank in fronts_in_one_piece(after):
        for pair in pairwise(bank.marks):
            if len(again.intersection(pair)) == 1:
                between = f"{pair[0]} and {pair[1]}"
                yield f"The grain will not run on between {between}: choose a face that goes well there."


_TURNS: tuple[type[Action], ...] = (
    SetInput, SwapBays, Forgo, MakeOf, KeepAsCut, ServeAs, TrimTo, Buy, BuyBoard, NewPlaces, CutAgain,
    MillAgain, GlueOn, Mend, TakeSize,
)  # fmt: skip


def _turn(action: Action) -> int:
    return _TURNS.index(type(action))


def _step(project: Project, after: Project, one: Action) -> Iterable[str]:
    if isinstance(one, SetInput):
        yield f"Change {one.words} from {project.printed(one.old)} to {project.printed(one.new)}."
    elif isinstance(one, SwapBays):
        yield f"Build {one.case} with its bays the other way about; ask the client first."
    elif isinstance(one, Forgo):
        yield f"Leave out {one.mark}."
    elif isinstance(one, MakeOf):
        yield f"Make {one.mark} from {project.job.sheets[one.material].name}."
    elif isinstance(one, KeepAsCut):
        yield f"Keep {one.mark} as cut. {one.why}".rstrip()
    elif isinstance(one, TrimTo):
        where = _and_at(after, one)
        yield f"Trim {one.mark} to {project.printed(one.length)} × {project.printed(one.width)}{where}."
    elif isinstance(one, TakeSize):
        size = _size(after, after.parts[one.mark])
        yield f"From now on {one.mark} is {size} on every list, label and page."
    elif isinstance(one, ServeAs):
        yield _serve(project, after, one)
    elif isinstance(one, Mend):
        yield from one.steps
    elif isinstance(one, Buy):
        yield f"Buy {_sheets(project, one)}."
    elif isinstance(one, NewPlaces):
        plan = "sheet plan" if project.job.sheets[one.material].boards is None else "board plan"
        yield f"Cut these {_name(project, one.material)} parts from the new {plan}: {listed(one.marks)}."
    elif isinstance(one, BuyBoard):
        yield buy_board_step(project, one)
    elif isinstance(one, MillAgain):
        yield from mill_steps(project, one)
    elif isinstance(one, GlueOn):
        yield f"Rip {one.mark} to {project.printed(one.rip_to)} wide."
        yield (
            f"Glue the strip along the ripped edge of {one.mark}, its grain parallel to the edge. "
            "Rip to width when the glue is dry."
        )
    else:
        part = after.parts.get(one.mark)
        size = f", {_size(after, part)}" if part else ""
        if one.blank.startswith(SPOILED):
            yield f"{one.mark}{size}{',' if size else ''} comes out of the {one.blank}: keep it until then."
        else:
            yield f"Cut {one.mark}{size} from {one.blank}."


def _serve(project: Project, after: Project, one: ServeAs) -> str:
    part = after.parts.get(one.mark)
    mark = f"{one.mark} ({_size(after, part)})" if part else one.mark
    turn = f", turned {one.turn}" if one.turn else ""
    trim = ""
    if one.trim:
        trim = f", trimmed to {project.printed(one.trim[0])} × {project.printed(one.trim[1])}"
    if one.planned:
        return f"Cut {mark} where the sheet plan has {one.piece}{turn}{trim}. Mark it {one.mark}."
    if one.only:
        return (
            f"The piece marked {one.piece} can be made {mark}{turn}, {while_only(one.only)}: mark it "
            f"{one.mark}, and cut the rest."
        )
    if one.worked:
        return f"The piece marked {one.piece} is right as {mark}{turn}: mark it {one.mark}."
    return f"Take {one.piece}, with nothing cut into it yet, for {mark}{turn}{trim}, and mark it so."


def _and_at(after: Project, one: TrimTo) -> str:
    part = after.parts[one.mark]
    said = [_and_or([side_of_part(part, way) for way in sides]) for sides in one.sides if sides]
    return f", at the {listed(said)}" if said else ""


def _and_or(words: Sequence[str]) -> str:
    return " or ".join(words)


def _sheets(project: Project, one: Buy) -> str:
    name = _name(project, one.material)
    size = "" if one.name == name else f" ({one.name})"
    return f"{'1 sheet' if one.sheets == 1 else f'{one.sheets} sheets'} of {name}{size}"


def _size(project: Project, part: Part) -> str:
    length, width, _ = project.dimensions(part)
    return f"{project.printed(length)} × {project.printed(width)}"


def _name(project: Project, material: str) -> str:
    return project.job.sheets[material].name


def _list(verb: str, marks: list[str], rest: str = "") -> str:
    if not marks:
        return ""
    return f"{verb} {few(marks)} {rest}".strip()


def _price(project: Project, cost: Cost) -> str:
    money = f"{project.job.money}{with_cents(cost.money)}" if cost.money else "nothing to buy"
    again = {0: "no part is made again", 1: "one part is made again"}.get(
        cost.remade, f"{cost.remade} parts are made again"
    )
    return f"Cost: {money}, about {_minutes(cost)}; {again}."


def _minutes(cost: Cost) -> str:
    return f"{cost.whole_minutes} {'minute' if cost.whole_minutes == 1 else 'minutes'}"


def explain_rank(project: Project, cost: Cost) -> str:
    """Why a way stands where it does: its one price and what that is made up of."""

    def money(amount: Fraction) -> str:
        return f"{project.job.money}{with_cents(Fraction(round(amount)))}"

    made = [f"{money(cost.money)} to spend"] if cost.money else []
    made.append(f"{_minutes(cost)} at {money(cost.hourly)} an hour")
    if cost.shown:
        made.append(f"{money(cost.shown)} for what is seen ({cost.seen.value})")
    ask = " Ask the client first." if cost.ask_client else ""
    return f"Counts as {money(cost.price)}: {', '.join(made)}.{ask}"


def why_none_is_bought(options: Sequence[Option]) -> str | None:
    """That nothing need be bought, where a way shows it that changes nothing the client has agreed to; None
    where none does, so that it is worth looking for a proof."""
    if any(option.kind is WayKind.RECUT for option in options):
        return ENOUGH
    free = next((option for option in options if not option.buys), None)
    return None if free is None or free.cost.ask_client else f"Nothing need be bought: {free.kind.value}."


def proof_of(
    project: Project, facts: Facts, least: Finish | None, proved: bool, options: Sequence[Option] = ()
) -> str:
    """What must be bought by the cheapest layout found, `least`, where `why_none_is_bought` says nothing; of
    the ways searched alone."""
    if least is not None and not least.bought:
        return ENOUGH
    first = _layouts(project, facts, least, proved)
    if any(not option.buys for option in options):
        return f"{first} Only a change of the design avoids it: ask the client."
    if not options:
        return first
    kinds = ", ".join(kind.value for kind in WayKind if kind not in {*KINDS_THAT_BUY, WayKind.MIXED})
    return f"{first} These other ways were searched, and none works without buying: {kinds}."


def glued_in_case(marks: Sequence[str], options: Sequence[Option]) -> str:
    """What is said of spoiled parts in a case that is glued up: they are mended where they are, or not."""
    first = f"{listed(marks)} cannot be cut again: the case is glued up."
    if options:
        return f"{first} These ways mend it in its place."
    return f"{first} No way was found to mend it in its place; that is no proof that there is none."


def _layouts(project: Project, facts: Facts, least: Finish | None, proved: bool) -> str:
    if least is None:
        return "None of the sheets on the job's list is large enough for the parts still to be cut."
    sheets = ", ".join(f"{one.count} of {one.name}" for one in sorted(least.bought, key=lambda one: one.name))
    if proved:
        return (
            f"To cut every part as it is drawn you must buy {sheets}: it is proved that the parts still to "
            f"be cut do not come out of the {len(facts.blanks)} pieces on hand, however they are laid out."
        )
    return f"No layout was found that avoids buying {sheets}, but it is not proved that there is none."
