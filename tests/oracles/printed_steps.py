"""Whether the steps as printed say what is to be done: read back with a reader of its own.

A length is printed as a mark of the rule, less than one mark away, with `~` where that is not exact.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Any

from casewright.casework.project import Project
from casewright.workshop.operations import Guide, Machine, Operation, OperationKind
from casewright.workshop.order.batches import Batch
from oracles.cut_by_cut import Fault

LENGTH = re.compile(r"(~?)(?:(\d+) )?(\d+)(?:/(\d+)|(?:\.(\d+)))?(?: mm|\")")
MILLIMETRE = Fraction(5, 127)
NARROW = 6
GUIDES = {Guide.FENCE: "Fence", Guide.STOP: "Stop on the sled", Guide.STRAIGHTEDGE: "Straightedge"}


def lengths_in(text: str) -> list[tuple[Fraction, bool]]:
    """Every length of a line in inches, and whether it says that it is rounded."""
    found = []
    for match in LENGTH.finditer(text):
        about, whole, number, below, tenths = match.groups()
        value = Fraction(int(whole or 0)) + Fraction(int(number), int(below or 1))
        if tenths:
            value += Fraction(int(tenths), 10 ** len(tenths))
        found.append((value * MILLIMETRE if match.group().endswith("mm") else value, bool(about)))
    return found


def misprints(
    printed: Sequence[Mapping[str, Any]], batches: Sequence[Batch], project: Project
) -> Iterator[Fault]:
    """What the printed cuts say otherwise than they are."""
    step = project.job.mark.step
    if [text["key"] for text in printed] != [batch.key for batch in batches]:
        yield Fault("words", "batches", "the batches printed are others")
        return
    to_size: dict[tuple[Machine, Fraction], set[str]] = {}
    for text, batch in zip(printed, batches, strict=True):
        operations = [one for one in batch.operations if one.kind.cuts_up_a_sheet]
        if not operations:
            continue
        yield from _of_batch(text, batch, step)
        for said, operation in zip(text["steps"], batch.operations, strict=True):
            if operation.kind.cuts_up_a_sheet:
                yield from _of_cut(said, operation, step)
        setting = operations[0].setting
        known = to_size.setdefault((setting.machine, setting.distance), set())
        if setting.machine is Machine.TABLE_SAW and batch.new_setting:
            stock = {project.parts[mark].material for one in operations for mark in one.parts}
            there = {mark for mark in known if project.parts[mark].material in stock}
            yield from _set_again(text, batch, there)
        known |= {mark for one in operations for mark in one.sizes if _is_of(project, mark, one.makes)}


def _set_again(text: Mapping[str, Any], batch: Batch, known: set[str]) -> Iterator[Fault]:
    """A number set before is set from a part of the same stock that has it, and from no other."""
    named = [line.split()[3].rstrip(",") for line in text["setting"] if line.startswith("Set it from ")]
    if len(named) != bool(known) or not known.issuperset(named):
        yield Fault("again", batch.key, f"set from {named}, where {sorted(known)} have this size")


def _is_of(project: Project, mark: str, size: Fraction | None) -> bool:
    return size in project.dimensions(project.parts[mark])[:2]


def _of_batch(text: Mapping[str, Any], batch: Batch, step: Fraction) -> Iterator[Fault]:
    first = batch.operations[0]
    setting = first.setting
    if text["machine"] != setting.machine.value:
        yield Fault("words", batch.key, f"it says {text['machine']}")
    line = next((one for one in text["setting"] if one.startswith(GUIDES[setting.guide])), "")
    if not _says(line, setting.distance, step):
        yield Fault("words", batch.key, f"{setting.distance} is not in “{line}”")
    if titled := lengths_in(text["title"]):
        for operation in batch.operations:
            if not _is(titled[0], operation.makes or Fraction(0), step):
                yield Fault(
                    "words", operation.key, f"“{text['title']}” is not what it makes, {operation.makes}"
                )
    if setting.machine is not Machine.TABLE_SAW:
        return
    if text["fence"] is None or abs(text["fence"] - setting.distance) > Fraction(1, 10**9):
        yield Fault("words", batch.key, f"fence {text['fence']} is not {setting.distance}")
    cautions = " ".join(text["cautions"])
    if "guard on" not in cautions:
        yield Fault("guard", batch.key, "a through cut keeps its guard on, and nothing says so")
    if setting.guide is Guide.FENCE and setting.distance < NARROW and "push" not in cautions:
        yield Fault("guard", batch.key, f"{setting.distance} at the fence is for a push stick")


def _of_cut(said: Mapping[str, Any], operation: Operation, step: Fraction) -> Iterator[Fault]:
    piece = operation.carried.name if operation.carried else operation.piece
    if (said["key"], said["piece"], tuple(said["parts"])) != (operation.key, piece, operation.parts):
        yield Fault("words", operation.key, f"it names {said['piece']} and {said['parts']}")
    sizes = lengths_in(said["size"])
    if len(sizes) != 2 or not all(map(lambda one, is_: _is(one, is_, step), sizes, operation.size[:2])):
        yield Fault("words", operation.key, f"“{said['size']}” is not its size")
    hold, edge = said["hold"], operation.hold.against
    if operation.kind is OperationKind.TRIM and operation.setting.machine is Machine.HAND_SAW:
        across = operation.size[1] if operation.hold.lengthwise else operation.size[0]
        amount = across - (operation.makes or Fraction(0))
        at = amount + operation.setting.distance
        right = f"off the {edge}" in hold and _says(hold, amount, step)
        right = right and _says(hold.partition("straightedge at")[2], at, step)
    else:
        right = _told(hold, edge, operation, step) and _tells_of_mates(hold, operation)
    if not right:
        yield Fault("words", operation.key, f"“{hold}” is not how it is cut")


def _tells_of_mates(hold: str, operation: Operation) -> bool:
    """Whether the words name the pattern, and say that several are cut in one pass, where that is so."""
    pattern = hold.partition("Strike the line from ")[2].partition(" ")[0]
    return pattern == operation.marked_from and ("one pass" in hold or "Same pass" in hold) == bool(
        operation.together
    )


def _says(text: str, length: Fraction, step: Fraction) -> bool:
    found = lengths_in(text)
    return bool(found) and _is(found[0], length, step)


def _is(printed: tuple[Fraction, bool], length: Fraction, step: Fraction) -> bool:
    value, about = printed
    return abs(value - length) < step and about == (value != length)


def _told(hold: str, edge: str, operation: Operation, step: Fraction) -> bool:
    """Whether the words name this edge, what is kept and, by hand, where the straightedge stands."""
    kept = operation.makes or Fraction(0)
    if operation.setting.guide is Guide.STRAIGHTEDGE:
        line, _, stands = hold.partition("straightedge at")
        named = re.search(rf" in from the {edge}[:.]?$", line.rstrip()) is not None
        right = named and _says(line, kept, step)
        at = kept - operation.setting.distance
        return right and (_says(stands, at, step) if at > 0 else not stands)
    guide = "sled's stop" if operation.setting.guide is Guide.STOP else operation.setting.guide.value
    return hold.startswith(f"{edge.capitalize()} against the {guide}") and _says(
        hold.partition("keep")[2], kept, step
    )
