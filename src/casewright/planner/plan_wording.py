"""A plan in words, for a terminal or a slip of paper."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from fractions import Fraction

from .length_wording import length_text
from .plan import Cut, Plan, Purpose, SheetPlan

Write = Callable[[Fraction], str]


def plan_text(plan: Plan, write: Write = length_text) -> str:
    """The whole plan: what is proved, what it comes to, and every cut of every sheet in order.

    `write` puts a length of the problem into words.
    """
    return "\n".join(_lines(plan, write))


def _lines(plan: Plan, write: Write) -> Iterator[str]:
    figures = plan.figures
    yield plan.statement()
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
    def by(length: Fraction, width: Fraction) -> str:
        return f"{write(length)} by {write(width)}"

    root = sheet.root
    yield f"Sheet {sheet.number}: {sheet.bin}, {by(root.length, root.width)}"
    counts = Counter((part.item, part.length, part.width) for part in sheet.parts)
    for (item, length, width), count in counts.items():
        yield f"  {count} x {item}, {by(length, width)} as it lies"
    for piece in sheet.offcuts:
        yield f"  left over: {by(piece.length, piece.width)}"
    series = sorted((piece for piece in root.walk() if piece.cuts), key=lambda piece: piece.cuts[0].order)
    for piece in series:
        yield f"  from the {piece.role.value} {by(piece.length, piece.width)}:"
        for cut in piece.cuts:
            yield f"  {cut.order:3}. {_cut(cut, write)}"


def _cut(cut: Cut, write: Write) -> str:
    verb = cut.direction.value
    if cut.purpose is Purpose.TRIM:
        return f"{verb} to trim {write(cut.setting)} off the {cut.reference.value} edge ({cut.tool})"
    return f"{verb} at {write(cut.setting)} from the {cut.reference.value} edge ({cut.tool})"
