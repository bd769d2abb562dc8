"""What would mend a gap that is out of its range, found by solving for the sizes that can still change.

An uncut size can be cut otherwise; a cut edge can only lose wood; a channel can only be made
deeper or wider; and any part can be made again. Each group of sizes that must stay equal moves
together, by whole marks of the rule, and what is still derived from it follows. A small
integer programme (HiGHS) finds the cheapest groups to move; forbidding each answer gives the
next. Every cure is put into the exact ledger and kept only if all its gaps then close.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ...solver import Ending, Solver
from ..chains.made_sizes import SizeKind
from ..errors.followed_size import slopes
from ..outcomes.gap_spread import Fit, GapSpread
from .cure_steps import Act, Cure, CureStep
from .readings import AsBuilt


@dataclass(frozen=True, slots=True)
class _Handle:
    """A group that may move between `least` and `most` marks; `pulls` is what each gap gains by one inch."""

    act: Act
    kind: SizeKind
    feature: str
    names: tuple[str, ...]
    parts: tuple[str, ...]
    least: int
    most: int
    pulls: Mapping[str, Fraction]

    @property
    def price(self) -> int:
        return self.act.value * len(self.parts)


FARTHEST = Fraction(2)  # inches a cure may move a size
SHALLOWEST = Fraction(1, 8)  # a channel that still holds a panel (common practice, no source)
CURES = 6


def gaps_out_of_range(fit: Fit) -> tuple[GapSpread, ...]:
    """The gaps whose mean lies out of their range as things stand."""
    return tuple(spread for spread in fit.spreads.values() if not spread.holds())


def find_cures(
    fit: Fit, as_built: AsBuilt, gaps: Sequence[str] | None = None, most: int = CURES
) -> tuple[Cure, ...]:
    """Ways to mend the broken gaps (or those named), the least trouble first.

    Broken gaps that no size joins are mended apart. Nothing is returned for a group of gaps
    that no change of up to two inches brings right.
    """
    names = [spread.gap.name for spread in gaps_out_of_range(fit)] if gaps is None else list(gaps)
    found: list[Cure] = []
    for together in _joined(fit, names):
        found.extend(_mend(fit, as_built, together, most))
    return tuple(sorted(found, key=lambda cure: (cure.price, cure.gaps)))


def _joined(fit: Fit, names: Iterable[str]) -> list[tuple[str, ...]]:
    """The gaps grouped so that two with a size in common are together."""
    groups: list[tuple[set[str], list[str]]] = []
    for name in names:
        sizes = {size for size in fit.gaps[name].form.names if size in fit.made}
        touching = [group for group in groups if group[0] & sizes]
        groups = [group for group in groups if not group[0] & sizes]
        merged = (
            sizes.union(*(group[0] for group in touching)),
            [n for g in touching for n in g[1]] + [name],
        )
        groups.append(merged)
    return [tuple(group[1]) for group in groups]


def _mend(fit: Fit, as_built: AsBuilt, gaps: tuple[str, ...], most: int) -> list[Cure]:
    handles = _handles(fit, as_built, gaps)
    if not handles:
        return []
    found: list[Cure] = []
    forbidden: list[tuple[int, ...]] = []
    for _ in range(4 * most):
        marks = _solve(fit, gaps, handles, forbidden)
        if marks is None or len(found) == most:
            break
        used = tuple(index for index, count in enumerate(marks) if count)
        forbidden.append(used)
        step = fit.project.job.mark.step
        cure = Cure(
            tuple(
                CureStep(h.act, h.kind, h.feature, h.names, h.parts, marks[index] * step)
                for index, h in enumerate(handles)
                if marks[index]
            ),
            gaps,
            sum(handles[index].price for index in used),
        )
        if _holds(fit, cure):
            found.append(cure)
    return found


def _handles(fit: Fit, as_built: AsBuilt, gaps: tuple[str, ...]) -> list[_Handle]:
    """Every group of sizes that could move any of `gaps`, with each thing that may be done to it."""
    parts = fit.project.parts
    groups: dict[tuple[str, str, SizeKind], list[str]] = defaultdict(list)
    cases = {
        parts[made.part].case
        for gap in gaps
        for name in fit.gaps[gap].form.names
        if (made := fit.made.get(name)) and made.part in parts
    }
    for made in fit.made.values():
        if made.kind in _MOVES and parts[made.part].case in cases:
            groups[parts[made.part].match or made.part, made.feature, made.kind].append(made.name)
    far = int(FARTHEST / fit.project.job.mark.step)
    found: list[_Handle] = []
    every = [(feature, kind, names) for (_, feature, kind), names in groups.items()]
    # Of a finished set, one part alone may be wrong, and is then brought to the others.
    alone = {name for _, _, names in every if not fit.facts.keys() >= set(names) for name in names}
    every += [
        (fit.made[name].feature, fit.made[name].kind, [name]) for name in sorted(alone & fit.facts.keys())
    ]
    for feature, kind, names in every:
        pulls = _pulls(fit, names)
        if not any(gap in pulls for gap in gaps):
            continue
        marks = tuple(fit.made[name].part for name in names)
        done = any(name in as_built.cut or name in fit.facts for name in names)
        less, more = _room(fit, kind, names, far)
        for act, least, most in _MOVES[kind] if done else ((Act.CUT, -1, 1),):
            bounds = (-less if least else 0, more if most else 0)
            found.append(_Handle(act, kind, feature, tuple(names), marks, *bounds, pulls))
    return found


def _room(fit: Fit, kind: SizeKind, names: Sequence[str], far: int) -> tuple[int, int]:
    """How many marks a size may shrink and grow. A channel stays deep enough to hold and leaves half of its
    part."""
    if kind is not SizeKind.DEPTH:
        return far, far
    sizes, step = fit.project.sizes, fit.project.job.mark.step
    shallower = min(sizes.of(name) for name in names) - SHALLOWEST
    parts = (fit.project.parts[fit.made[name].part] for name in names)
    deeper = min(
        sizes.of(part.thickness) / 2 - sizes.of(name) for part, name in zip(parts, names, strict=True)
    )
    return max(0, int(shallower / step)), max(0, int(deeper / step))


# What may be done to a finished size, and whether it may then shrink (-1) or grow (1).
_MOVES: Mapping[SizeKind, tuple[tuple[Act, int, int], ...]] = {
    SizeKind.LENGTH: ((Act.TRIM, -1, 0), (Act.REMAKE, -1, 1)),
    SizeKind.WIDTH: ((Act.TRIM, -1, 0), (Act.REMAKE, -1, 1)),
    SizeKind.DEPTH: ((Act.DEEPEN, 0, 1), (Act.REMAKE, -1, 1)),
    SizeKind.CHANNEL: ((Act.WIDEN, 0, 1), (Act.REMAKE, -1, 1)),
    SizeKind.PLACE: ((Act.REMAKE, -1, 1),),
}


def _pulls(fit: Fit, names: Sequence[str]) -> dict[str, Fraction]:
    """How much each gap gains when all `names` grow by one inch and what follows them follows."""
    moved: dict[str, Fraction] = defaultdict(Fraction)
    for name in names:
        moved[name] += 1
        for later, slope in slopes(fit.project.sizes, name).items():
            moved[later] += slope
    pulls: dict[str, Fraction] = defaultdict(Fraction)
    for name, slope in moved.items():
        for gap in fit.touches.get(name, ()):
            pulls[gap] += slope * fit.gaps[gap].form.coefficient(name)
    return {gap: pull for gap, pull in pulls.items() if pull}


def _solve(
    fit: Fit, gaps: tuple[str, ...], handles: list[_Handle], forbidden: list[tuple[int, ...]]
) -> list[int] | None:
    """Marks to move each handle by, at the least price, with the mended gaps near their aim."""
    step = fit.project.job.mark.step
    solver = Solver()
    moves = [solver.addIntegral(lb=handle.least, ub=handle.most) for handle in handles]
    used = [solver.addBinary() for _ in handles]
    for move, use, handle in zip(moves, used, handles, strict=True):
        solver.addConstr(move <= handle.most * use)
        solver.addConstr(move >= handle.least * use)
    for before in forbidden:
        solver.addConstr(sum(used[index] for index in before) <= len(before) - 1)
    # A handle's two ways (trim it or make it again) exclude each other.
    by_names: dict[tuple[str, ...], list[int]] = defaultdict(list)
    for index, handle in enumerate(handles):
        by_names[handle.names].append(index)
    for same in by_names.values():
        if len(same) > 1:
            solver.addConstr(sum(used[index] for index in same) <= 1)
    off_aim = []
    touched = dict.fromkeys((*gaps, *(gap for handle in handles for gap in handle.pulls)))
    for gap in touched:
        spread = fit.spreads[gap]
        pulled = [
            (float(handle.pulls[gap]), move)
            for handle, move in zip(handles, moves, strict=True)
            if gap in handle.pulls
        ]
        if not pulled:
            return None
        gain = sum(pull * move for pull, move in pulled)
        mendable = gap in gaps or spread.holds()
        low, high = (spread.low, spread.high) if mendable else (spread.mean, spread.mean)
        if low is not None:
            solver.addConstr(gain >= float((low - spread.mean) / step) - 1e-6)
        if high is not None:
            solver.addConstr(gain <= float((high - spread.mean) / step) + 1e-6)
        if gap in gaps:
            aim = float((fit.project.sizes.of(spread.gap.aim) - spread.mean) / step)
            off = solver.addVariable(lb=0)
            solver.addConstr(off >= gain - aim)
            solver.addConstr(off >= aim - gain)
            off_aim.append(off)
    price = sum(1000 * handle.price * use for handle, use in zip(handles, used, strict=True))
    answer = solver.answer("looking for the least work that closes a gap", least=price + sum(off_aim))
    if answer.ending is Ending.INFEASIBLE:
        return None
    values = answer.values
    return [round(values[index]) for index in range(len(handles))]


def _holds(fit: Fit, cure: Cure) -> bool:
    """Whether the exact ledger agrees that every mended gap closes and no other opens."""
    after = fit.given({name: (value, fit.facts.get(name)) for name, value in cure.sizes(fit).items()})
    was_broken = {spread.gap.name for spread in gaps_out_of_range(fit)} - set(cure.gaps)
    now_broken = {spread.gap.name for spread in gaps_out_of_range(after)}
    return now_broken <= was_broken
