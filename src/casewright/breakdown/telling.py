"""A plan in words, for a terminal or a slip of paper."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from .plan import Cut, Plan, Purpose, SheetPlan
from .wording import by, written


def told(plan: Plan) -> str:
    """The whole plan: what is proved, what it comes to, and every cut of every sheet in order."""
    return "\n".join(_lines(plan))


def _lines(plan: Plan) -> Iterator[str]:
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
        yield from _sheet(sheet)


def _sheet(sheet: SheetPlan) -> Iterator[str]:
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
            yield f"  {cut.order:3}. {_cut(cut)}"


def _cut(cut: Cut) -> str:
    verb = cut.direction.value
    if cut.purpose is Purpose.TRIM:
        return f"{verb} to trim {written(cut.setting)} off the {cut.reference.value} edge ({cut.tool})"
    return f"{verb} at {written(cut.setting)} from the {cut.reference.value} edge ({cut.tool})"
