"""Every number that steers the search: none changes what a plan means, only how soon it is found.

Hand another set to `solve(..., parameters=...)`. `python -m benchmarks ablation` halves and doubles each over
a fixed set of instances. What was tried is told where it was measured (`docs/planner.md`); a field that says
nothing of it was set by hand and not varied by itself. Caps on memory and numerical tolerances stay with the
code they protect, and the constants of the C kernel are compiled in.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import Enum, auto
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class PricingEffort:
    """Limits on one exact pricing: rectangles assembled bottom-up until one of these is reached."""

    built: int
    """Rectangles kept in all."""
    joins: int
    """Pairs of rectangles looked at."""
    level: int
    """Rectangles with the same number of items that larger ones are assembled from."""
    columns: int = 30
    """Columns returned, the most valuable ones."""
    counting: int = 0
    """Additions for tables that count some kinds of items: slower, and far sharper."""
    worthless: bool = False
    """Whether items whose dual is zero take part: of use only to enumerate every pattern."""

    def shared(self, among: int) -> PricingEffort:
        """The share of each of so many pricings."""
        return replace(self, joins=self.joins // among, counting=self.counting // among)


@dataclass(frozen=True, slots=True)
class SearchParameters:
    """The planner's tuning. Times are shares of what is left; work is counted, so that runs repeat."""

    # ---- engine: rounds of search and bounding in turn (engine/solve_instance.py)

    stretch_work: int = 400_000
    """Iterations times items between two looks at the stop rule: a few hundredths of a second."""
    search_only_stretches: int = 2
    """Stretches of search before the bounding begins. Most plans are proved by then, and a caller that stops
    sooner wants a plan rather than a proof."""
    relaxed_steps: int = 20
    """Steps of the bounding between two stretches while its tables are small."""
    relaxed_work: int = 160_000_000
    """Additions for those steps, so that there are fewer of them where tables are large."""
    stretches_per_dive: int = 4
    """Stretches of search to one dive. A dive in every round found the same plans on six open instances."""
    stuck_after: int = 12
    """Stretches without a better plan after which the pattern pool begins."""
    slow_after: int = 36
    """Stretches without a better plan after which the search itself slows down: it has come to rest."""
    few_bins: int = 4
    """Plans of no more bins are left to the slow search: their patterns are too few to recombine. Elsewhere
    the slow search in place of the pool found as many plans, but other ones."""
    quick_history: int = 500
    """Late acceptance looks back so far. 5000 found two of seven hard plans in 10 s that 500 did not, and
    50,000 none; once left-out items weighed more, 500 found 27 of 49, 1000 24 and 200 16."""
    slow_history: int = 1000
    slow_patience: int = 50_000
    """The slow search: how far it looks back, and after how many iterations without a better state it
    restarts from a part of its plan. 15 of 16 runs with few bins found their plan; (2000, 100,000) gave 13,
    (300, 15,000) 12: perhaps chance."""
    pool_dives: int = 5
    pool_gathering: int = 20
    """One turn of the pool: rounds that dive into it, then rounds in which the search fills it. Shorter turns
    found 119 of 144 plans in place of 120."""
    stuck_search_factor: int = 3
    """Stretches to a round that fills the pool. Two found 24 plans of 32 in place of 27."""
    few_kinds: int = 40
    """Jobs of no more copies are enumerated after their first failed dive, jobs of no more kinds of items
    after `dives_before_enumeration`, others after `turns_before_enumeration` turns of the pool."""
    dives_before_enumeration: int = 3
    turns_before_enumeration: int = 2
    bound_interval: int = 4
    """Rounds to a step of the bounding while the search is stuck."""
    bound_interval_doubtful: int = 2
    """The same where dives into the pool lead nowhere, so that there may be no better plan: of 960 drawn
    instances it proved three more and saved 53 s of 582."""
    bound_interval_few_bins: int = 8
    bound_interval_hopeless: int = 12
    hopeless_gap: float = 0.1
    """The same where the plan has few bins, and where the LP lies so far (in bins) below the next better cost
    that no proof is near."""

    # ---- engine: set cover over enumerated patterns (engine/set_cover.py)

    cover_time_share: float = 0.4
    """Of the seconds left, the most for one cover."""
    cover_nodes: int = 4000
    """Nodes of the branch and bound of one cover."""
    glance_effort: PricingEffort = PricingEffort(100_000, 10_000_000, 100_000, 3000, 60_000_000)
    """A first enumeration, to learn soon whether the patterns are few."""
    enumeration_effort: PricingEffort = PricingEffort(400_000, 60_000_000, 400_000, 20_000, 250_000_000)
    """The largest enumeration. With ten times as many rectangles (380 MB) it was still incomplete for gaps
    above 0.05 of a sheet."""

    # ---- engine: pool of patterns (engine/pattern_pool.py)

    pool_fill: float = 0.88
    """Patterns are remembered from this share of the fill that the goal needs on average."""
    pool_patterns: int = 60_000
    pool_counts: int = 6_000_000
    """The most patterns, and the most patterns times kinds of items, so that a large job fits in memory."""
    pool_first_columns: int = 300
    pool_added_at_once: int = 150
    """Columns of the pool's first LP, and those added each time it is priced."""
    pool_columns: int = 1500
    """Columns near the optimum of the LP that a dive may use. 4000 made dives half as many for the same plans
    or fewer."""
    pool_slack: float = 0.05
    """Of the dearest price: columns that miss the goal by so little still go into the LP."""
    pool_backtracks: int = 16
    """How often a dive into the pool goes back: 39 of 57 plans found, where new dives each time found 35."""

    # ---- engine: diving (engine/diving.py)

    dive_pricings: int = 3
    """Pricings between two roundings."""
    dive_pricings_in_all: int = 80
    """Of one kind of bin, in one dive; then the columns at hand have to do."""
    dive_sure: float = 0.85
    """A column this near the next whole number is rounded up without drawing."""
    dive_left_to_search: float = 0.3
    """Share of the cost at which the search takes over. Two thirds found 88 of 144 plans, 0.45 117, and 0.3
    119 in less time."""
    dive_backtracks: int = 4
    """How often a dive that prices goes back."""
    dive_search_work: int = 1_500_000
    """Iterations times items for the end of one dive. Half of it: 114 plans in place of 119."""

    # ---- engine: column generation (engine/column_generation.py), pricing (pricing.py, pricing_tables.py)

    relaxed_gap: float = 0.02
    counted_gap: float = 0.004
    """Of the dearest price: how close LP and bound must come before (more) items are bounded."""
    counted_work: int = 150_000_000
    """Additions for one step's tables: as many kinds are counted as that allows."""
    relaxed_smoothing: float = 0.3
    """First trial point between the best duals and the LP's. 0.5 and 0.15 made no
    difference that can be told from chance."""
    exact_smoothing: float = 0.25
    early_proof_reach: float = 0.3
    early_proof_interval: int = 5
    """In the exact stage every so many steps a full search is made early, if the proof need reach no further
    than this towards the LP's duals. Without that limit one instance went from 0.5 s to 12 s."""
    patterns_per_table: int = 30
    """Columns from one table. In place of one: a third to a half of the steps to converge."""
    exact_efforts: tuple[PricingEffort, ...] = (
        PricingEffort(100_000, 10_000_000, 100_000, counting=60_000_000),
        PricingEffort(200_000, 30_000_000, 200_000, counting=250_000_000),
        PricingEffort(400_000, 60_000_000, 400_000, counting=1_000_000_000),
    )
    """The exact pricing, tried harder and harder. A first effort four or twelve times as large: 97 and 107 s
    for the bounds of 18 instances in place of 71."""
    narrow_effort: PricingEffort = PricingEffort(200_000, 1_500_000, 200)
    """The narrow pricing that finds columns but proves nothing. Smaller ones: 76 to 107 s on the same 18."""
    joins_per_second: int = 8_000_000
    additions_per_second: int = 3_000_000_000
    nodes_per_second: int = 100
    """What a slow machine does, so that a pricing or a cover is sure to end in its time."""
    table_work: int = 20_000_000
    """Additions for one table; a bin with a finer grid is seen through a coarser one. Tables of 40 million,
    always twenty steps of them, left the search an eighth of the time and lost two of 25 plans in large bins
    in 1 s; these lose none."""
    dense_share: float = 0.6
    """Where this share of the widths matters, all are let in: a row of the table is then worked on at full
    speed."""

    # ---- first phase: money for sheets (solve.py, first_phase/fewest_sheets.py)

    later_time_share: float = 0.3
    later_seconds: float = 1.0
    """Time kept for the later goals if nothing is proved before: this share, but no more than so long."""
    sheet_kinds_alone: int = 6
    """Where no more kinds of sheet can be had without limit, each is tried by itself: given all of them, the
    search can miss a cheaper plan of one kind."""
    alone_iterations: int = 2000
    alone_time_share: float = 0.2
    """Iterations for each of them, and the share of the time for all."""
    hand_cut_iterations: int = 4000
    """Iterations for each way to part sheets by hand before any way gets more."""

    # ---- second phase: leftovers, settings, cuts, turns (second_phase/refine.py, reshape.py)

    give_up_after: int = 150
    """Rounds without a better plan after which nothing more is expected."""
    whole_job_parts: int = 150
    """Jobs of up to so many parts are also refilled as a whole."""
    few_settings_parts: int = 600
    """Jobs of up to so many parts are first tried as a whole on few settings."""
    few_settings_share: float = 0.1
    """How often a round tries that again, while there are more settings than the parts need."""
    long_try: int = 4
    longest_try: int = 30
    """Times the usual iterations for such a try, at first and just before the search gives up. Tries that
    grow sooner, round by round: 3472 settings over 190 plans in place of about 3400."""
    cheaper_share: float = 0.3
    """How often a round tries to do with one sheet less, until it is proved that none can be saved."""
    pair_share: float = 0.5
    """How often a round pairs parts, where settings matter more than leftovers. 0.75: 3397 settings over 190
    plans in place of 3394 to 3414."""
    pair_share_late: float = 0.15
    keep_pairs_late: float = 0.3
    """How often a round pairs parts, and how often another keeps pairs, where leftovers matter more:
    large ones are found by moving single parts, and pairs are in the way."""
    try_iterations: int = 400
    try_iterations_per_part: int = 25
    """The engine's iterations for one round."""
    reshape_depth: int = 4
    """Stacks nested deeper than this are left as they are."""

    @property
    def pool_turn(self) -> int:
        """Rounds of one turn of the pool."""
        return self.pool_dives + self.pool_gathering

    @property
    def cover_efforts(self) -> tuple[PricingEffort, ...]:
        """How a cover is tried, one after the other: at a glance, in full, then with worthless items too."""
        return (
            self.glance_effort,
            self.enumeration_effort,
            replace(self.enumeration_effort, worthless=True),
        )

    def within(self, effort: PricingEffort, seconds: float | None) -> PricingEffort:
        """As much of the effort as is sure to be done in that time; all of it when there is no limit."""
        if seconds is None:
            return effort
        return replace(
            effort,
            joins=min(effort.joins, int(self.joins_per_second * seconds)),
            counting=min(effort.counting, int(self.additions_per_second * seconds / 3)),
        )

    def nodes_within(self, seconds: float | None) -> int:
        """As many of `cover_nodes` as are sure to be done in that time, at least one."""
        if seconds is None:
            return self.cover_nodes
        return max(1, min(self.cover_nodes, int(self.nodes_per_second * seconds)))


DEFAULT_PARAMETERS = SearchParameters()


class WorkKind(Enum):
    """Kinds of work that are counted. What a call costs however little it does is counted as so many units
    more, at the place that counts."""

    INSTANCE = auto()
    """Instances begun: quick bounds, and memory for the search."""
    SEARCH = auto()
    """Ruin and recreate: what the kernel counts (search.h), about nanoseconds."""
    TABLE = auto()
    """Additions for tables of worth."""
    RESTS = auto()
    """Additions for tables of what can be added beside a rectangle."""
    JOIN = auto()
    """Pairs of rectangles looked at when patterns are assembled."""
    TREE = auto()
    """Numbers of the trees in which the kernel hands over patterns."""
    COLUMN = auto()
    """Columns handed to a master problem."""
    SIMPLEX = auto()
    """Iterations of the simplex method times the rows and columns of the programme."""
    COMPARISON = auto()
    """Products of numbers, where patterns are looked through or compared."""
    DRAFT = auto()
    """Pieces of sheets that are scored."""
    NEIGHBOUR = auto()
    """Sheets cut another way, times their parts and 10 more."""
    TAKEN = auto()
    """Refilled sheets that are judged, times the sheets of the job and 5 more."""
    ROUND = auto()
    """Rounds of the second phase, times the parts of the job and 20 more."""


WORK_RATES: Mapping[WorkKind, int] = MappingProxyType(
    {
        WorkKind.INSTANCE: 10_000_000_000,
        WorkKind.SEARCH: 1_050,
        WorkKind.TABLE: 250,
        WorkKind.RESTS: 750,
        WorkKind.JOIN: 7_500,
        WorkKind.TREE: 65_000,
        WorkKind.COLUMN: 19_000_000,
        WorkKind.SIMPLEX: 20_000,
        WorkKind.COMPARISON: 300,
        WorkKind.DRAFT: 9_500_000,
        WorkKind.NEIGHBOUR: 10_000_000,
        WorkKind.TAKEN: 10_000_000,
        WorkKind.ROUND: 8_000_000,
    }
)
"""Notional picoseconds for a unit of each, whole numbers so that sums are exact. Measured in processor time
on two shared cores on 29 November 2026 (docs/planner.md says how); `python -m benchmarks counted_work` looks
whether they still hold. Another rate makes other plans."""
