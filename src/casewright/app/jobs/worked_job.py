"""One worked job: a job file's text and all that follows from it, each answer worked out once.

Every way in (commands, pages, packet, tablet) opens a job here and reads its answers off this one value, so
that no two can say different things: `open_job(text)` gives a `WorkedJob`, what the text alone settles;
`.planned(...)` or `.with_plan(plans)` a `PlannedJob`, what hangs on the sheet plans as well. Both are kept
warm, jobs by their text, and with a job the plans it was last looked at with.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property, lru_cache
from hashlib import sha256
from threading import Lock
from typing import TYPE_CHECKING, Any

from ...bearing.borne import Borne, borne
from ...boards.board_plan import BoardPlan
from ...boards.board_problem import BoardProblem
from ...boards.keep_boards import keep_boards
from ...boards.plan_boards import plan_boards
from ...casework.job import Job
from ...casework.parts.cut_alike import PartGroup, cut_alike, within_case
from ...casework.parts.weights import weight_of
from ...casework.project import Project, draw_up
from ...errors import JobError
from ...findings import Finding, Weight, refusals, said_once
from ...jobfile.read.locate import located
from ...jobfile.read.read_job import read_job
from ...planner.begun import Begun
from ...planner.plan import Plan, sheets_of_parts
from ...planner.problem import Problem
from ...record.plan_of_record import plan_name
from ...repair.prevention.easily_turned import EasilyTurned, easily_turned
from ...repair.prevention.saw_check import LookAlike, look_alikes
from ...tolerance.chains.made_sizes import made_sizes
from ...tolerance.errors.shared_settings import planned_method
from ...tolerance.outcomes.gap_spread import Fit, fit
from ...workshop.assembly.joining import Joinings, glue_ups_of_all
from ...workshop.batch_wording import BatchText, BatchWriter
from ...workshop.boards.board_problems import board_problems
from ...workshop.boards.board_purchases import BoardPurchase, boards_to_buy
from ...workshop.boards.board_work import NO_BOARDS
from ...workshop.costs.cost_lines import JobCosts
from ...workshop.costs.job_costs import job_costs
from ...workshop.hardware import Hardware, hardware
from ...workshop.holes.boring import StoryStick, sticks_needed
from ...workshop.order.batches import WorkOrder, order
from ...workshop.order.step_times import Pace
from ...workshop.sheets.cut_problems import cut_problems
from ...workshop.sheets.purchases import Purchase, buying_list
from ...workshop.sheets.sheet_marks import SheetMarks, sheet_marks
from ...workshop.work import Work, shop_findings, work
from ..choices import BOARD_LOTS, SECONDS
from ..editing.text_edits import shaped_values_of
from ..views.job_views import JobView
from .job_plan import Asked, JobPlan, Report, nobody_asks
from .stock_findings import findings_of_plans, findings_of_stock

if TYPE_CHECKING:
    from ...solids.bodies import Bodies

KEPT_WARM = 16
"""Jobs kept: one for each revision that somebody is looking at, and a few of those before."""
PLANS_KEPT = 4
"""Plans kept with a job: the benches' own, the planner's, and one or two being compared."""


@dataclass(frozen=True, eq=False)
class WorkedJob:
    """What a job file's text comes to, without its sheets.

    `project` is None while no parts can be made of it, and `job` too where the text cannot even be
    read; `findings` say why. Every other answer then raises JobError with those findings.
    """

    text: str
    job: Job | None
    project: Project | None
    refused: tuple[Finding, ...] = ()
    _plans: list[PlannedJob] = field(default_factory=list, repr=False)
    _lock: Lock = field(default_factory=Lock, repr=False)

    def needed(self) -> Project:
        """The project; JobError with the findings while there is none."""
        if self.project is None:
            raise JobError(self.findings)
        return self.project

    def needed_sound(self) -> Project:
        """The project; JobError where there is none, or where cases or parts are in each other's way or do
        not fit their room, so that nothing should be cut for it. The solids are built for it, once."""
        project = self.needed()
        if refused := refusals(project.findings):
            raise JobError(located(refused, self.text))
        if refused := refusals(self.solid_findings):
            raise JobError(refused)
        return project

    @cached_property
    def revision(self) -> str:
        """A short name for exactly this text, printed on every page of its packet."""
        return sha256(self.text.encode("utf-8", "surrogatepass")).hexdigest()[:8]

    @cached_property
    def values(self) -> Mapping[str, Any]:
        """What the text says, as plain values in the shape of a job file."""
        return shaped_values_of(self.text)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """All there is to say short of building the solids, each with its line: what is wrong in the
        file, the cases, what the shop's tools and sheets cannot do, what does not bear its load."""
        if self.project is None:
            return located(self.refused, self.text)
        stock = findings_of_stock(self.project, self.problems, self.board_problems)
        cut = (*shop_findings(self.project), *stock)
        found = (*self.project.findings, *cut, *self.borne.findings)
        return located(found, self.text) if found else ()

    @cached_property
    def solid_findings(self) -> tuple[Finding, ...]:
        """What the geometry kernel finds: parts that share room, joints that are not seated, cases
        of the wrong outside size. Takes its time, so that nothing asks for it while a job is edited."""
        # The kernel is loaded only for a job that gets this far.
        from ...solids.solid_check import examine

        found = examine(self.needed(), self.bodies).findings
        return located(found, self.text) if found else ()

    @property
    def all_findings(self) -> tuple[Finding, ...]:
        """Everything there is to say before a saw starts, the solid check's findings last."""
        return self.findings if self.project is None else (*self.findings, *self.solid_findings)

    @cached_property
    def shown(self) -> JobView | None:
        """The project as the pages print it; None while there is none."""
        return JobView(self.project) if self.project else None

    def needed_shown(self) -> JobView:
        """The project as printed; JobError with the findings while there is none."""
        return self.shown or JobView(self.needed())

    @cached_property
    def parts_list(self) -> tuple[PartGroup, ...]:
        """Parts cut alike, in the order of the parts list."""
        return cut_alike(self.needed())

    def parts_of_case(self, case: str) -> tuple[PartGroup, ...]:
        """The parts list of one case."""
        return within_case(self.parts_list, case)

    @cached_property
    def joinings(self) -> Joinings:
        """The glue-ups of each case by its mark, in their order."""
        return glue_ups_of_all(self.needed())

    @cached_property
    def hardware(self) -> Hardware:
        """Shelf pins and screws."""
        return hardware(self.needed(), (one for case in self.joinings.values() for one in case))

    @cached_property
    def weight(self) -> Fraction | None:
        """Pounds of all parts; None where the weight of a sheet is not known."""
        project = self.needed()
        return weight_of(project, project)

    @cached_property
    def borne(self) -> Borne:
        """What shelves and hung cases bear."""
        return borne(self.needed())

    @cached_property
    def look_alikes(self) -> tuple[LookAlike, ...]:
        """Pairs of sizes that a glance could confuse, the nearest first."""
        return look_alikes(self.needed())

    @cached_property
    def easily_turned(self) -> tuple[EasilyTurned, ...]:
        """Parts that are easily turned the wrong way."""
        return easily_turned(self.needed())

    @cached_property
    def sticks(self) -> tuple[StoryStick, ...]:
        """The story sticks for rows of holes that the shop's jig cannot bore."""
        return sticks_needed(self.needed())

    @cached_property
    def problems(self) -> Mapping[str, Problem]:
        """What is to be cut from each material that is bought in sheets, by its key."""
        return cut_problems(self.needed())

    @cached_property
    def board_problems(self) -> Mapping[str, BoardProblem]:
        """What is to be cut from each material that is bought as boards, by its key."""
        return board_problems(self.needed())

    @cached_property
    def board_plans(self) -> Mapping[str, BoardPlan]:
        """The boards cut up anew, by the material's key. They follow from the board problems alone:
        a revision that leaves those as they are has the same boards, and none is cut up for it."""
        return {material: plan_boards(problem) for material, problem in self.board_problems.items()}

    @cached_property
    def fit(self) -> Fit:
        """How every joint closes while no plan says which parts share a setting."""
        return fit(self.needed())

    @cached_property
    def bodies(self) -> Bodies:
        """Every part as a body in its place."""
        from ...solids.bodies import assemble

        return assemble(self.needed())

    @cached_property
    def model(self) -> bytes:
        """The job as a model to turn, in binary glTF."""
        from ...solids.gltf import glb_file
        from ...solids.palette import palette

        return glb_file(self.bodies, palette(self.needed()))

    def planned(
        self,
        seconds: float = SECONDS,
        seed: int = 0,
        cores: int = 1,
        progress: Report | None = None,
        before: Mapping[str, Plan] | None = None,
        begun: Mapping[str, Begun] | None = None,
        stopped: Asked = nobody_asks,
    ) -> PlannedJob:
        """The job with the best sheet plans found in so many seconds.

        From the plans `before` parts move only for a reason; sheets that are `begun` stay as they are. Once
        `stopped` says so, the best so far is taken. Raises JobError while there is no project, PlanError when
        a material's sheets, saws or rack make no sense together.
        """
        # The planner is loaded only for a job that is planned.
        from ..sheets.plan_search import plan_problems

        made = plan_problems(
            self.needed(), self.problems, seconds, seed, cores, progress, before, begun, stopped=stopped
        )
        return self._kept(made.plans, made)

    def with_plan(
        self,
        plans: Mapping[str, Plan],
        seconds: float = 0.0,
        seed: int = 0,
        boards: Mapping[str, BoardPlan] = NO_BOARDS,
    ) -> PlannedJob:
        """The job with plans made before, by material key; of board plans what can stay stays."""
        project = self.needed()
        used = {key: plan for key, plan in plans.items() if key in self.problems}
        bought = buying_list(project, used)
        return self._kept(plans, JobPlan(project, self.problems, used, bought, seconds, seed), boards)

    def _kept(
        self, plans: Mapping[str, Plan], made: JobPlan, boards: Mapping[str, BoardPlan] = NO_BOARDS
    ) -> PlannedJob:
        """The one `PlannedJob` of these plans."""
        with self._lock:
            found = next((one for one in self._plans if one.plans == plans and one.boards == boards), None)
            found = found or PlannedJob(self, plans, made, boards)
            self._plans[:] = [found, *(one for one in self._plans if one is not found)][:PLANS_KEPT]
        return found


@dataclass(frozen=True, eq=False)
class PlannedJob:
    """A worked job with its sheet plans, and all that hangs on them.

    `plans` are by material key. `made` holds those of materials that still have parts, with the
    problems they solve and what to buy. `boards` are the board plans it was given.
    """

    worked: WorkedJob
    plans: Mapping[str, Plan]
    made: JobPlan
    boards: Mapping[str, BoardPlan] = field(default_factory=dict)

    @property
    def project(self) -> Project:
        return self.worked.needed()

    @cached_property
    def plan_name(self) -> str:
        """The short name of exactly these plans, printed beside the job's revision."""
        return plan_name(self.plans, self.board_plans)

    @cached_property
    def board_plans(self) -> Mapping[str, BoardPlan]:
        """The plan of each material that is bought as boards: the one given, as far as it can stay."""
        return {
            material: keep_boards(problem, self.boards[material])
            if material in self.boards
            else self.worked.board_plans[material]
            for material, problem in self.worked.board_problems.items()
        }

    @property
    def purchases(self) -> tuple[Purchase, ...]:
        """The sheets to buy, and what the rack gives."""
        return self.made.purchases

    @cached_property
    def board_purchases(self) -> tuple[BoardPurchase, ...]:
        """The boards to buy by the board foot, how sure that is, and those at hand that are used."""
        return self.boards_to_buy()

    def boards_to_buy(
        self, lots: int = BOARD_LOTS, seed: int = 0, begun: Collection[tuple[str, int]] = ()
    ) -> tuple[BoardPurchase, ...]:
        """The same by so many drawn lots, where boards that are `begun` are there already."""
        problems = self.worked.board_problems
        return boards_to_buy(self.project, problems, self.board_plans, lots, seed, begun)

    def purchases_left(self, begun: Collection[tuple[str, int]]) -> tuple[Purchase, ...]:
        """The same where some sheets are `begun`, by material and number, and so are there already."""
        return buying_list(self.project, self.made.plans, begun) if begun else self.purchases

    @cached_property
    def work(self) -> Work:
        """Every operation that makes the job."""
        return work(self.project, self.plans, self.worked.joinings, self.board_plans)

    @cached_property
    def ordered(self) -> WorkOrder:
        """The operations as batches in the order in which they are done."""
        return order(self.work.operations)

    @cached_property
    def sheet_marks(self) -> Mapping[tuple[str, int], SheetMarks]:
        """What the map of each sheet shows of the work, by its material's key and its number."""
        return sheet_marks(self.made.plans, self.ordered.operations)

    @cached_property
    def fit(self) -> Fit:
        """How every joint closes, with settings shared as the batches share them."""
        project = self.project
        sheets = {
            mark: f"sheet {number} of {key}" for mark, (key, number) in sheets_of_parts(self.plans).items()
        }
        method = planned_method(project, made_sizes(project), self.ordered.batches, sheets)
        return fit(project, method)

    @cached_property
    def told(self) -> tuple[BatchText, ...]:
        """Every batch in words, at the usual pace."""
        return self._told(Pace())

    def told_at(self, pace: Pace) -> tuple[BatchText, ...]:
        """Every batch in words, at the shop's own pace."""
        return self.told if pace == Pace() else self._told(pace)

    def _told(self, pace: Pace) -> tuple[BatchText, ...]:
        telling = BatchWriter(self.project, pace, self.worked.joinings, self.board_plans)
        return tuple(telling.batch_text(batch) for batch in self.ordered.batches)

    @cached_property
    def costs(self) -> JobCosts:
        """What the job costs, line by line, its hours at the usual pace."""
        bought = self.purchases, self.board_purchases, self.worked.hardware
        return job_costs(self.project, self.made.plans, *bought, self.worked.joinings, self.ordered, Pace())

    @cached_property
    def doubts(self) -> tuple[Finding, ...]:
        """What the shop's machines cannot do as these plans want it."""
        return tuple(finding for finding in self.work.findings if finding.weight is not Weight.NOTE)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything there is to say of the job and its plans, each thing once."""
        of_plans = findings_of_plans(self.made, self.work.operations)
        return tuple(said_once((*self.worked.all_findings, *self.doubts, *of_plans)))


@lru_cache(maxsize=KEPT_WARM)
def open_job(text: str) -> WorkedJob:
    """Read a job file's text and draw the job up. Raises nothing: what is wrong stands in `findings`."""
    try:
        job = read_job(text)
    except JobError as refused:
        return WorkedJob(text, None, None, refused.findings)
    try:
        return WorkedJob(text, job, draw_up(job))
    except JobError as refused:
        return WorkedJob(text, job, None, refused.findings)
