"""What is wrong with a problem before any planning, all of it in one go.

`FITTING` findings leave the rest of the job plannable: those parts are left out of the plan and
named. Any other refusal makes the problem malformed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from ..findings import Finding, Weight
from .plan_wording import Write, length_text, size_text
from .problem import Bin, Direction, Item, Problem, SawKind, Trim

FITTING = frozenset({"too-large", "grain"})

MOST_COPIES = 100_000
MOST_PARTS = 200_000


def faults(problem: Problem, write: Write = length_text) -> tuple[Finding, ...]:
    """Every fault and doubt of the problem, as findings. `write` puts a length into words."""
    found = [
        *_names("items", [item.name for item in problem.items]),
        *_names("bins", [bin_.name for bin_ in problem.bins]),
        *_quantities(problem),
        *_sizes(problem, write),
        *_saws(problem, write),
        *_goals(problem, write),
        *_one_piece(problem),
    ]
    if not found or all(finding.weight is not Weight.REFUSE for finding in found):
        found += _beside_parts(problem, write)
        found += (_no_sheet(one, write) for one in misfits(problem))
    return tuple(found)


def _names(place: str, names: Iterable[str]) -> Iterator[Finding]:
    for name, count in Counter(names).items():
        if not name.strip():
            yield Finding("no-name", place, "An entry has no name.", "Give each a name of its own.")
        if count > 1:
            text = f"{count} entries are named {name!r}."
            yield Finding("same-name", f"{place}.{name}", text, "Give each a name of its own.")


def _quantities(problem: Problem) -> Iterator[Finding]:
    if not problem.items:
        yield Finding("nothing-wanted", "items", "No parts are asked for.", "Name at least one part.")
    if not problem.bins:
        yield Finding("no-sheets", "bins", "There is no sheet to cut from.", "Name at least one sheet.")
    for item in problem.items:
        place = f"items.{item.name}.count"
        if item.count < 1:
            yield Finding(
                "count", place, f"{item.count} of them are wanted.", "Ask for 1 or more, or leave it out."
            )
        elif item.count > MOST_COPIES:
            text = f"{item.count} of them are wanted, more than the {MOST_COPIES} planned at once."
            yield Finding("count", place, text, "Check the number, or split the job.")
    if problem.parts > MOST_PARTS:
        text = f"{problem.parts} parts are wanted in all, more than the {MOST_PARTS} planned at once."
        yield Finding("count", "items", text, "Check the numbers, or split the job.")
    for bin_ in problem.bins:
        place = f"bins.{bin_.name}.count"
        if bin_.count is not None and bin_.count < 0:
            yield Finding(
                "count", place, f"{bin_.count} of them are at hand.", "Say 0 or more, or leave it out."
            )
        elif bin_.count == 0:
            text = "None of them is at hand, so none is used."
            yield Finding("count", place, text, "Leave the count out if more can be had.", Weight.WARN)


def _sizes(problem: Problem, write: Write) -> Iterator[Finding]:
    for kind, boxes in (("items", problem.items), ("bins", problem.bins)):
        for box in boxes:
            for side in ("length", "width"):
                size = getattr(box, side)
                if size <= 0:
                    place = f"{kind}.{box.name}.{side}"
                    yield Finding("size", place, f"It is {write(size)}.", "Give a size above 0.")
    for bin_ in problem.bins:
        yield from _stock(bin_, write)


def _stock(bin_: Bin, write: Write) -> Iterator[Finding]:
    place = f"bins.{bin_.name}"
    if bin_.price is not None and bin_.price < 0:
        text = f"It is {length_text(bin_.price)}."
        yield Finding("price", f"{place}.price", text, "Give a price of 0 or more.")
    if bin_.weight_per_area is not None and bin_.weight_per_area <= 0:
        yield Finding("weight", f"{place}.weight", "It is not above 0.", "Give a weight, or leave it out.")
    trim = bin_.trim
    for edge in ("left", "right", "near", "far"):
        if getattr(trim, edge) < 0:
            text = f"It is {write(getattr(trim, edge))}."
            yield Finding("trim", f"{place}.trim.{edge}", text, "Give a trim of 0 or more.")
    if bin_.length > 0 and bin_.width > 0 and min(usable(bin_)) <= 0:
        text = f"The trims leave nothing of a sheet of {size_text(bin_.length, bin_.width, write)}."
        yield Finding("trim", f"{place}.trim", text, "Check the trim and its unit.")


def _saws(problem: Problem, write: Write) -> Iterator[Finding]:
    tools = [("kerf", problem.table_saw, SawKind.TABLE_SAW)]
    if problem.hand_saw is not None:
        tools.append(("hand_saw", problem.hand_saw, SawKind.HAND_SAW))
        if problem.hand_saw.name == problem.table_saw.name:
            text = f"Both saws are named {problem.table_saw.name!r}."
            yield Finding("same-name", "hand_saw.name", text, "Give each saw a name of its own.")
    for place, tool, kind in tools:
        if tool.kind is not kind:
            yield Finding("tool", place, f"The {tool.name} is no {kind.value}.", "Name the right saw.")
        if tool.kerf < 0:
            yield Finding("kerf", place, f"It is {write(tool.kerf)}.", "Give a kerf of 0 or more.")
        if tool.clean_up < 0:
            text = f"It is {write(tool.clean_up)}."
            yield Finding("clean-up", f"{place}.clean_up", text, "Give an allowance of 0 or more.")
        elif 0 < tool.clean_up < problem.table_saw.kerf:
            text = f"It is {write(tool.clean_up)}, less than the kerf that takes it off."
            fix = f"Give at least {write(problem.table_saw.kerf)}, or 0 to leave the edge as it is."
            yield Finding("clean-up", f"{place}.clean_up", text, fix)
    for name, limit in (("weight", problem.limits.max_weight), ("length", problem.limits.max_length)):
        if limit is not None and limit <= 0:
            text = f"It is {length_text(limit)}."
            yield Finding("limit", f"limits.{name}", text, "Give a limit above 0, or leave it out.")


def _goals(problem: Problem, write: Write) -> Iterator[Finding]:
    if not problem.goals:
        yield Finding("goals", "goals", "No goal is named.", "Name at least sheet-money.")
    for goal, count in Counter(problem.goals).items():
        if count > 1:
            yield Finding("goals", "goals", f"{goal.value} is named {count} times.", "Name each goal once.")
    stages = problem.pattern.stages
    if stages is not None and stages < 1:
        yield Finding("stages", "stages", f"It is {stages}.", "Give 1 or more, or leave it out.")
    if problem.keep is not None and (problem.keep.short < 0 or problem.keep.long < problem.keep.short):
        text = f"It is {size_text(problem.keep.short, problem.keep.long, write)}."
        yield Finding("keep", "keep", text, "Give the shorter side first, both 0 or more.")


def _one_piece(problem: Problem) -> Iterator[Finding]:
    """Pieces that cannot be meant: of parts that are not there, not single, or not equal across."""
    items = {item.name: item for item in problem.items}
    named = Counter(name for one in problem.one_piece for name in one.items)
    for one in problem.one_piece:
        found = [items[name] for name in one.items if name in items]
        lengthwise = one.parted_by is Direction.CROSSCUT
        text = ""
        if len(found) < max(2, len(one.items)):
            text = "It names fewer than two parts, or one that is not wanted."
        elif any(item.count != 1 for item in found) or any(named[name] > 1 for name in one.items):
            text = "It names a part that is wanted more than once, or that comes of another piece too."
        elif len({item.width if lengthwise else item.length for item in found}) > 1:
            text = f"The {'widths' if lengthwise else 'lengths'} of its parts are not the same."
        elif problem.pattern.stages is not None:
            text = "Its parts need a turn more than is counted where stages are limited."
        if text:
            yield Finding("one-piece", f"one_piece.{one.name}", text, "Name single parts, equal across it.")


def _beside_parts(problem: Problem, write: Write) -> Iterator[Finding]:
    """Kerfs and trims that cannot be meant, seen beside the smallest part."""
    for item in problem.items:
        side = min(item.length, item.width)
        for place, tool in (("kerf", problem.table_saw), ("hand_saw.kerf", problem.hand_saw)):
            if tool is not None and tool.kerf > side:
                size = size_text(item.length, item.width, write)
                text = f"{write(tool.kerf)} is wider than the part {item.name!r}, {size}."
                yield Finding("kerf", place, text, "Check the kerf and its unit.")
    smallest = min(min(item.length, item.width) for item in problem.items)
    for bin_ in problem.bins:
        widest = max(getattr(bin_.trim, edge) for edge in ("left", "right", "near", "far"))
        if widest > smallest:
            text = f"{write(widest)} is wider than the smallest part, {write(smallest)}."
            place = f"bins.{bin_.name}.trim"
            yield Finding("trim", place, text, "Check the trim and its unit.", Weight.WARN)


def usable(bin_: Bin) -> tuple[Fraction, Fraction]:
    """The sheet's length and width between its trims."""
    trim: Trim = bin_.trim
    return bin_.length - trim.left - trim.right, bin_.width - trim.near - trim.far


@dataclass(frozen=True)
class Misfit:
    """A part that fits no sheet: the sheet it comes nearest to, the `room` of that between its trims, and by
    how much the part is too long and too wide for it. `fits_turned` says that only its grain keeps it out.
    """

    item: Item
    bin: Bin
    room: tuple[Fraction, Fraction]
    too_long: Fraction
    too_wide: Fraction
    fits_turned: bool


def misfits(problem: Problem) -> Iterator[Misfit]:
    """Every part that fits no sheet of a problem that is sound otherwise."""
    sheets = [(bin_, usable(bin_)) for bin_ in problem.bins]
    for item in problem.items:
        if any(item.length <= x and item.width <= y for _, (x, y) in sheets):
            continue
        turned = any(item.width <= x and item.length <= y for _, (x, y) in sheets)
        if turned and item.may_turn:
            continue
        bin_, room = min(sheets, key=lambda entry: _excess(item, *entry[1]))
        over = [
            max(side - most, Fraction(0)) for side, most in zip((item.length, item.width), room, strict=True)
        ]
        yield Misfit(item, bin_, room, over[0], over[1], turned)


def _no_sheet(one: Misfit, write: Write) -> Finding:
    place = f"items.{one.item.name}"
    size = size_text(one.item.length, one.item.width, write)
    if one.fits_turned:
        text = f"{size} fits no sheet with its grain along the sheet; turned across the grain it would fit."
        return Finding("grain", place, text, "Let it turn, or make it shorter.")
    over = [
        f"{write(amount)} too {word}"
        for amount, word in ((one.too_long, "long"), (one.too_wide, "wide"))
        if amount > 0
    ]
    text = (
        f"{size} is larger than any sheet: {' and '.join(over)} for {one.bin.name!r}, of which "
        f"{size_text(*one.room, write)} is left after trimming; turning it would not help."
    )
    return Finding("too-large", place, text, "Make it smaller, or cut it from a larger sheet.")


def _excess(item: Item, x: Fraction, y: Fraction) -> Fraction:
    return max(item.length - x, Fraction(0)) + max(item.width - y, Fraction(0))
