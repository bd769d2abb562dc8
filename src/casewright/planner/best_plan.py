"""The best plan so far, and how both phases fill sheets and offer better plans."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ..findings import Finding
from . import engine
from .first_phase.hand_cuts import add_hand_cuts
from .layout.engine_bridge import Room, engine_model, sheet_layouts
from .layout.exact_plan import sheet_plan
from .layout.fence_settings import beyond_reach, split_groups
from .layout.integer_grid import grid_of
from .layout.layout_tree import CarriedPiece, HandStack, Leaf, Node, SheetLayout, Stack, count_stages, leaves
from .layout.one_piece import breaks_of_grain, with_blanks
from .layout.plan_figures import figures_of
from .layout.score import Scorer, job_totals
from .parameters import DEFAULT_PARAMETERS, SearchParameters
from .plan import Plan, PlanStatus, Unplaced
from .plan_wording import over_limit
from .problem import FirstCut, Goal, PatternKind, Problem

Report = Callable[[Plan], None]


@dataclass(frozen=True)
class Proof:
    """A proved lower bound: the least money for sheets and the fewest sheets of any plan of this kind."""

    money: Fraction
    sheets: int


Merit = tuple[Fraction | int, ...]


class BestPlan:
    """The best layouts found for a problem, with the proof so far. Reports every better plan.

    `asked` is the problem as it was put, `problem` as the search sees it, with blanks for parts of one piece.
    `demand[i]` is how many copies of item i are asked for; `carries` says that sheets must first be cut by
    hand into pieces one person can carry.
    """

    def __init__(
        self,
        problem: Problem,
        found: tuple[Finding, ...],
        progress: Report | None,
        parameters: SearchParameters = DEFAULT_PARAMETERS,
        count: engine.Count = engine.uncounted,
    ) -> None:
        self.parameters = parameters
        self.asked = problem
        self.problem = with_blanks(problem)
        self.found = found
        self.grid = grid_of(self.problem)
        self.scorer = Scorer(self.problem, self.grid, count)
        self.demand = [item.count for item in self.problem.items]
        self.carries = problem.hand_saw is not None and problem.limits.any
        self.progress = progress
        self.proof = Proof(Fraction(0), 0)
        self.layouts: list[SheetLayout] = []
        self.missing = list(self.demand)
        self.merit: Merit = ()

    def fill(
        self,
        wanted: Sequence[int],
        rooms: Sequence[Room],
        pattern: PatternKind,
        stop: engine.Stop,
        seed: int,
        cores: int = 1,
        report: Callable[[list[SheetLayout], list[int]], object] | None = None,
        proves: bool = False,
    ) -> tuple[list[SheetLayout], list[int]]:
        """Have the engine cut the items wanted from these rooms: the layouts, and how many of each item found
        no place. `proves` says that the engine's bound holds for the whole job."""
        model = engine_model(self.grid, wanted, rooms, pattern)

        def take(solution: engine.Solution) -> tuple[list[SheetLayout], list[int]]:
            if proves and model.exact:
                self.prove(Proof(solution.bound.cost * model.money, solution.bound.bins))
            missing = model.missing(solution.unplaced, len(self.demand))
            return sheet_layouts(rooms, model.layouts(solution.patterns)), missing

        def better(solution: engine.Solution) -> None:
            if report:
                report(*take(solution))

        return take(engine.solve_instance(model.instance, stop, seed, better, cores, self.parameters))

    def offer(self, layouts: list[SheetLayout], missing: list[int]) -> bool:
        """Take these layouts, cut at the table saw alone, if they make a better plan once hand cuts are
        added."""
        return self.offer_ready([self.ready(layout) for layout in layouts], missing)

    def ready(self, layout: SheetLayout) -> SheetLayout:
        """The layout with the hand cuts it needs; unchanged where there is no room for them."""
        if not self.carries or not isinstance(layout.root, Leaf | Stack):
            return layout
        return add_hand_cuts(self.grid, layout) or layout

    def offer_ready(self, layouts: list[SheetLayout], missing: list[int]) -> bool:
        """Take these complete layouts if they keep to the pattern asked for and make a better plan."""
        # Missing parts outrank every goal: a cheaper plan with a part less is no plan.
        merit = (sum(missing), *job_totals(self.scorer, layouts).rank())
        if (self.merit and merit >= self.merit) or not all(self.keeps_pattern(lay) for lay in layouts):
            return False
        self.layouts, self.missing, self.merit = layouts, missing, merit
        if self.progress:
            self.progress(self.plan())
        return True

    def keeps_pattern(self, layout: SheetLayout) -> bool:
        """Whether no carried piece needs more stages than allowed."""
        most = self.problem.pattern.stages
        return most is None or all(self._stages(node) <= most for node in _pieces(layout.root))

    def _stages(self, node: Node) -> int:
        first = self.problem.pattern.first_cut
        if first is FirstCut.ANY:
            return count_stages(node)
        across = first is FirstCut.ACROSS
        as_asked = isinstance(node, Stack) and node.along_x == across
        return count_stages(node if as_asked else Stack(across, (node,)))

    def prove(self, bound: Proof) -> None:
        self.proof = Proof(max(self.proof.money, bound.money), max(self.proof.sheets, bound.sheets))

    @property
    def money(self) -> Fraction:
        return sum((self.grid.bins[layout.bin].cost for layout in self.layouts), Fraction(0))

    @property
    def settled(self) -> bool:
        """Whether the money for sheets is proved least, with nothing missing or over the limits."""
        return not any(self.missing) and self.money <= self.proof.money and not self.over_limit

    @property
    def over_limit(self) -> int:
        return sum(self.scorer(layout).over_limit for layout in self.layouts)

    def plan(self) -> Plan:
        problem = self.problem
        sheets = tuple(sheet_plan(problem, self.grid, layout, n) for n, layout in enumerate(self.layouts, 1))
        figures = figures_of(problem, sheets)
        unplaced = tuple(
            Unplaced(name, count)
            for item, count in enumerate(self.missing)
            if count
            for name in self._names(item)
        )
        status = PlanStatus.OPEN
        if unplaced:
            status = PlanStatus.IMPOSSIBLE
        elif problem.goals[0] is Goal.SHEET_MONEY and self.proof.money == figures.money:
            status = PlanStatus.OPTIMAL
        findings = (
            *self.found,
            *split_groups(problem, sheets),
            *self._over_limit(),
            *beyond_reach(problem, sheets),
            *breaks_of_grain(self.asked, sheets),
        )
        return Plan(sheets, self.proof.money, self.proof.sheets, status, figures, unplaced, findings)

    def _over_limit(self) -> Iterator[Finding]:
        """A finding for every sheet with a piece that is more than one person carries."""
        if not self.carries:
            return
        for number, layout in enumerate(self.layouts, 1):
            parts = self._parts_over_limit(layout)
            if parts or self.scorer.uncounted(layout).over_limit:
                yield over_limit(f"sheet {number}", parts)

    def _parts_over_limit(self, layout: SheetLayout) -> list[str]:
        bin_ = self.grid.bins[layout.bin]
        return sorted(
            {
                name
                for leaf in leaves(layout.root)
                for name in self._names(leaf.item)
                if not self.grid.carriable(bin_, *self.grid.items[leaf.item].size(leaf.turned))
            }
        )

    def _names(self, item: int) -> list[str]:
        """What an item is called; the parts' names for a blank."""
        parts = self.grid.items[item].parts or (item,)
        return [self.problem.items[part].name for part in parts]


def _pieces(root: Node | HandStack | CarriedPiece) -> list[Node]:
    """The content of each piece that goes to the table saw."""
    if isinstance(root, HandStack):
        return [node for child in root.children for node in _pieces(child)]
    return [root.node] if isinstance(root, CarriedPiece) else [root]


def pattern_for_bounds(problem: Problem) -> PatternKind:
    """The pattern whose bound holds for the whole job.

    Stages are counted within a carried piece. Hand cuts come before them, so over a whole sheet any number of
    stages is possible and only the unrestricted pattern proves anything.
    """
    carries = problem.hand_saw is not None and problem.limits.any
    return PatternKind() if carries else replace(problem.pattern)
