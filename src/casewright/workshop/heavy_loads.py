"""What is heavy in a job: every sheet, piece and case that weighs more than one person lifts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..casework.project import Project
from ..casework.worktops import laid_worktops
from ..lengths.in_a_sentence import few, listed
from ..lengths.length import Unit
from ..lengths.quantities import weighed
from ..planner.plan import Plan
from .assembly.hanging import placed_cases
from .assembly.worktop_step import worktop_lifters
from .operations import Operation
from .sheets.lifts import lifts, weight_of_piece
from .who_lifts import Lifters, piece_rule, sheet_rule, whose_figures

HEAVY_TITLE = "What is heavy in this job"


@dataclass(frozen=True)
class HeavyLoad:
    """Loads of one kind that take the same people: their names in words, the weight of the heaviest in pounds
    (None where it is not known), whether others weigh less, and who lifts them."""

    what: str
    pounds: Fraction | None
    less: bool
    who: str

    def words(self, unit: Unit) -> str:
        """`97 lb: 2 sheets of MDF, from the rack onto the trestles: two with a cart.`"""
        weight = "weight not known" if self.pounds is None else weighed(self.pounds, unit)
        return f"{'Up to ' if self.less else ''}{weight}: {self.what}: {self.who}."


def heavy_loads(
    project: Project, plans: Mapping[str, Plan], operations: Iterable[Operation]
) -> tuple[HeavyLoad, ...]:
    """All that is over the limit for one, the heaviest first; what nobody knows the weight of before that."""
    found = (
        *_sheets(project, plans),
        *_pieces(project, plans, tuple(operations)),
        *_cases(project),
        *_worktops(project),
    )
    return tuple(sorted(found, key=lambda one: (one.pounds is not None, -(one.pounds or 0))))


def heavy_lines(
    project: Project, plans: Mapping[str, Plan], operations: Iterable[Operation], most: int | None = None
) -> tuple[str, ...]:
    """The same in words, no more than `most`, then by whose figures; nothing where nothing takes two."""
    unit = project.job.unit
    lines = [one.words(unit) for one in heavy_loads(project, plans, operations)]
    if not lines:
        return ()
    shown = (
        lines
        if most is None or len(lines) <= most
        else [*lines[: most - 1], f"and {len(lines) - most + 1} more, lighter."]
    )
    return (*shown, whose_figures(project.job.shop.carry, unit))


_Load = tuple[str, Fraction | None, Lifters]
"""A load's name, its pounds, and who lifts it."""


def _sheets(project: Project, plans: Mapping[str, Plan]) -> Iterator[HeavyLoad]:
    rule = sheet_rule(project.job.shop.carry)
    for material, plan in plans.items():
        found: dict[str, list[_Load]] = {}
        for sheet in plan.sheets:
            length, width = sheet.root.length, sheet.root.width
            pounds = weight_of_piece(project, material, length, width)
            lifters = rule.lifters(pounds, max(length, width))
            found.setdefault(sheet.bin, []).append((str(sheet.number), pounds, lifters))
        for name, loads in found.items():
            for heavy in _alike(loads):
                count = len(heavy)
                sheets = f"{count} sheets of {name}" if count > 1 else f"sheet {heavy[0][0]}, {name}"
                yield _load(f"{sheets}, from the rack onto the trestles", heavy)


def _pieces(
    project: Project, plans: Mapping[str, Plan], operations: tuple[Operation, ...]
) -> Iterator[HeavyLoad]:
    rule = piece_rule(project.job.shop.carry)
    for material in plans:
        loads = [
            (one.name, one.pounds, rule.lifters(one.pounds, one.length))
            for one in lifts(project, material, operations)
        ]
        for heavy in _alike(loads):
            yield _load(f"{few([name for name, _, _ in heavy])}, to the table saw", heavy)


def _cases(project: Project) -> Iterator[HeavyLoad]:
    placed = placed_cases(project)
    for hung in (True, False):
        loads = [(one.mark, one.lift.carried, one.lift.lifters) for one in placed if one.hung is hung]
        for heavy in _alike(loads):
            names = few([name for name, _, _ in heavy])
            cases, to = ("case", "its place") if len(heavy) == 1 else ("cases", "their places")
            yield _load(f"{cases} {names}, to {to} on the {'wall' if hung else 'floor'}", heavy)


def _worktops(project: Project) -> Iterator[HeavyLoad]:
    loads = [
        (listed(one.marks), one.pounds, worktop_lifters(project, one))
        for one in laid_worktops(project)
        if one.pounds is not None
    ]
    for heavy in _alike(loads):
        yield _load(f"worktop on {'; '.join(name for name, _, _ in heavy)}", heavy)


def _alike(loads: Iterable[_Load]) -> Iterator[list[_Load]]:
    """Those that weigh more than one lifts, by who lifts them, each group from the heaviest. What takes two
    for its length alone is not heavy."""
    found: dict[tuple[bool, str], list[_Load]] = {}
    for name, pounds, lifters in loads:
        if not lifters.alone and (pounds is None or pounds > lifters.limit.one):
            found.setdefault((pounds is None, lifters.short), []).append((name, pounds, lifters))
    for group in found.values():
        yield sorted(group, key=lambda load: -(load[1] or 0))


def _load(what: str, heavy: list[_Load]) -> HeavyLoad:
    """The heaviest of a group stands for it."""
    (_, most, lifters), (_, least, _) = heavy[0], heavy[-1]
    return HeavyLoad(what, most, most != least, lifters.short)
