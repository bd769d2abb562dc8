"""The planner in words: lengths, a plan for a terminal or a slip of paper, and what a plan warns of.

Every sentence about a plan is written here but `Plan.statement`, which is the plan's own.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator, Sequence
from fractions import Fraction

from ..findings import Finding, Weight
from ..lengths.fractions_text import mixed
from .plan import Cut, Plan, Purpose, SheetPlan

Write = Callable[[Fraction], str]

FINEST_MARK = 64
"""The finest division of an inch on a shop's rule; other fractions are written as decimals."""


def length_text(length: Fraction) -> str:
    """`27 3/8` where the length is on a shop's rule, else a decimal of six figures."""
    return mixed(length) if FINEST_MARK % length.denominator == 0 else f"{float(length):.6g}"


def size_text(length: Fraction, width: Fraction, write: Write = length_text) -> str:
    return f"{write(length)} by {write(width)}"


def plan_text(plan: Plan, write: Write = length_text, sign: str = "") -> str:
    """The whole plan: what is proved, what it comes to, and every cut of every sheet in order.

    `write` puts a length of the problem into words; `sign` is the sign of the money.
    """
    return "\n".join(_lines(plan, write, sign))


def _lines(plan: Plan, write: Write, sign: str) -> Iterator[str]:
    figures = plan.figures
    yield plan.statement(sign)
    yield (
        f"{float(figures.used):.1%} of the sheets used, {figures.settings} settings, {figures.cuts} cuts, "
        f"{figures.turns} turns."
    )
    for finding in plan.findings:
        yield f"Note: {finding}"
    for sheet in plan.sheets:
        yield ""
        yield from _sheet(sheet, write)


def _sheet(sheet: SheetPlan, write: Write) -> Iterator[str]:
    root = sheet.root
    yield f"Sheet {sheet.number}: {sheet.bin}, {size_text(root.length, root.width, write)}"
    counts = Counter((part.item, part.length, part.width) for part in sheet.parts)
    for (item, length, width), count in counts.items():
        yield f"  {count} x {item}, {size_text(length, width, write)} as it lies"
    for piece in sheet.offcuts:
        yield f"  left over: {size_text(piece.length, piece.width, write)}"
    series = sorted((piece for piece in root.walk() if piece.cuts), key=lambda piece: piece.cuts[0].order)
    for piece in series:
        yield f"  from the {piece.role.value} {size_text(piece.length, piece.width, write)}:"
        for cut in piece.cuts:
            yield f"  {cut.order:3}. {_cut(cut, write)}"


def _cut(cut: Cut, write: Write) -> str:
    verb = cut.direction.value
    if cut.purpose is Purpose.TRIM:
        return f"{verb} to trim {write(cut.setting)} off the {cut.reference.value} edge ({cut.tool})"
    return f"{verb} at {write(cut.setting)} from the {cut.reference.value} edge ({cut.tool})"


LIMIT_BENT = "limit-bent"
MATCH_SPLIT = "match-split"
FENCE_REACH = "fence-reach"
GRAIN_BROKEN = "grain-broken"
STOPPED_EARLY = "stopped-early"
ENDED_EARLY = {STOPPED_EARLY, "time-ceiling", "search-stopped"}
"""Findings of a search that did not come to its own end."""


def over_limit(place: str, parts: Collection[str]) -> Finding:
    """A sheet with a piece over the limits for carrying; `parts` are those over them by themselves."""
    if parts:
        names = ", ".join(parts)
        text = f"One person cannot carry the piece for {names}: the part alone is over the limit for one."
    else:
        text = "No way was found to cut this sheet into pieces that one person can carry."
    return Finding(LIMIT_BENT, place, text, "Two lift it, or a cart carries it.", Weight.WARN)


def split_group(group: str, sides: Collection[str]) -> Finding:
    """A match group whose equal sides come from more than one setting."""
    return Finding(
        MATCH_SPLIT,
        group,
        f"The {' and '.join(sorted(sides))} of these parts cannot all be cut on one setting.",
        "Cut the odd ones slightly oversize, then bring all of them to size together.",
        Weight.WARN,
    )


def grain_broken(place: str, between: Sequence[str], fits: bool) -> Finding:
    """Neighbours that should come of one piece and do not; `fits` says that there is a sheet for it."""
    why = "they are not cut from one piece" if fits else "one piece for all its neighbours fits no sheet"
    fix = "Choose faces that go well together." if fits else "Let it break there, or use a larger sheet."
    text = f"The grain does not run on between {' and '.join(between)}: {why}."
    return Finding(GRAIN_BROKEN, place, text, fix, Weight.NOTE)


def fence_too_short(
    place: str, cut: Cut, reach: Fraction, other_side: Fraction, by_hand: bool, write: Write = length_text
) -> Finding:
    """A cut wider than the fence reaches; `other_side` is the width on the far side of the blade, `by_hand`
    whether there is a hand-held saw, for which there is no room between the parts."""
    kind = cut.direction.value
    fix = f"{kind.capitalize()} it by hand along a straightedge."
    if 0 < other_side <= reach:
        fix = (
            f"Turn the piece around and set the fence to {write(other_side)} from its far edge, "
            f"or {kind} it by hand."
        )
    text = f"A {kind} at {write(cut.setting)} is beyond the fence, which reaches {write(reach)}."
    if by_hand:
        text += " Between the parts there is no room for the kerf and clean-up of a cut by hand."
        fix += " Measure the part beside it before you cut on."
    return Finding(FENCE_REACH, place, text, fix, Weight.WARN)


def time_ceiling() -> Finding:
    """The search took several times as long as asked and was ended before its work was done."""
    return Finding(
        "time-ceiling",
        "plan",
        "the machine was too busy to finish the search in the time it may take at most.",
        "The plan can be cut as it is; planning again may give another one.",
        Weight.NOTE,
    )


def stopped_early() -> Finding:
    """The search was ended on request; the plan is the best until then."""
    return Finding(
        STOPPED_EARLY,
        "plan",
        "the search was stopped before it was done; this is the best plan it had found.",
        "The plan can be cut as it is; plan again for one that may be better.",
        Weight.NOTE,
    )


def search_stopped(fault: Exception) -> Finding:
    """The search ended early because a library failed; the plan is the best until then."""
    return Finding(
        "search-stopped",
        "plan",
        f"the search for a better plan stopped early: {fault}",
        "The plan can be cut as it is; plan again, with another seed, for a better one.",
        Weight.WARN,
    )
