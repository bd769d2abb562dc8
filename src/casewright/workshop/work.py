"""Every operation of a job: sheets cut up, parts machined, cases dry-fitted and glued up. Start at `work`.

What comes before what, between parts:
- a part is edged and machined once the last cut on its outline has freed it, and edged first;
- a case is dry-fitted when all its parts are machined but the back and the loose shelves;
- the cuts that bring backs, face frames and fronts to size wait for the dry fit, when their true size is
  known, and those of fronts behind a frame for the frame;
- a case is glued up once it has been dry-fitted and its back is cut; edging over its front comes last.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from ..boards.board_plan import BoardPlan
from ..casework.build.case import Case
from ..casework.parts.part import FACE_FRAME, MADE_TO_THE_BOX, Part, Role
from ..casework.project import Project
from ..findings import Finding, Weight
from ..planner.plan import Plan
from .assembly.joining import GlueUp, Joinings, Stage, frame_key, glue_ups_of_all
from .assembly.unscrewed import no_screw_findings
from .boards.board_work import NO_BOARDS, cuts_of_boards
from .channels.tooling import Tools, choose_tools
from .dovetail_work import tails_first
from .edging_work import case_edging, edging_key, part_edging
from .frame_joint_work import mortises_first
from .fronts_after_frames import fronts_after_frames
from .holes.boring import level_findings
from .operations import HANDS, Hold, Operation, OperationKind
from .part_operations import part_operations
from .saw_limits import beyond_the_blade, beyond_the_rail, beyond_the_straightedge
from .sheets.matched_cuts import cut_together
from .sheets.sheet_cuts import cuts_of_plans

CUT_LATE = MADE_TO_THE_BOX | {Role.BACK}
"""Cut once the dry fit has shown what the case really measures."""

_LOOSE = CUT_LATE | {Role.ADJUSTABLE_SHELF, Role.FILLER}


@dataclass(frozen=True)
class Work:
    """Every operation of a job in an order that can be worked, the cutters chosen, and the findings."""

    operations: tuple[Operation, ...]
    tools: Tools
    findings: tuple[Finding, ...]

    @cached_property
    def by_key(self) -> Mapping[str, Operation]:
        return {operation.key: operation for operation in self.operations}

    @cached_property
    def by_part(self) -> Mapping[str, tuple[Operation, ...]]:
        """The operations each part goes through, by its mark, in their order."""
        found: dict[str, list[Operation]] = {}
        for operation in self.operations:
            for mark in operation.parts:
                found.setdefault(mark, []).append(operation)
        return {mark: tuple(operations) for mark, operations in found.items()}

    def own_features(self, mark: str) -> tuple[Operation, ...]:
        """The operations that cut the features of a part alone, in their order."""
        own = self.by_part.get(mark, ())
        return tuple(operation for operation in own if operation.feature and operation.parts == (mark,))


def work(
    project: Project,
    plans: Mapping[str, Plan],
    joinings: Joinings | None = None,
    boards: Mapping[str, BoardPlan] = NO_BOARDS,
) -> Work:
    """The operations that make `project` from its sheet plans and its plans of `boards` (by the material's
    key). `joinings` are its glue-ups where they are known already."""
    known = glue_ups_of_all(project) if joinings is None else joinings
    cuts = [*cuts_of_boards(project, boards), *cuts_of_plans(project, plans)]
    freed: dict[str, str] = {mark: cut.key for cut in cuts for mark in cut.parts}
    tools = choose_tools(project, project.parts.values())
    worked: dict[str, tuple[Operation, ...]] = {}
    edging = {one.piece: one for one in part_edging(project, freed, CUT_LATE)}
    for mark, part in project.parts.items():
        first = (edging[mark],) if mark in edging else ()
        waits = (edging_key(mark),) if first else (freed[mark],) if mark in freed else ()
        worked[mark] = (*first, *part_operations(project, part, tools, waits))
    fits = {case: dry_fit(project, case, worked, freed) for case in project.cases}
    cuts = cut_together(project, [_after_dry_fit(project, cut, fits) for cut in cuts])
    last = {case: boxed[-1] for case, glued in known.items() if (boxed := _before_fronts(glued))}
    joined = [step for case in known for step in _join(project, case, known[case], worked, freed, last)]
    machined = mortises_first(project, [step for steps in worked.values() for step in steps])
    operations = (*cuts, *tails_first(project, machined), *fits.values(), *joined)
    return Work(
        in_working_order(fronts_after_frames(project, operations)),
        tools,
        (
            *tools.findings,
            *level_findings(project),
            *no_screw_findings(project),
            *beyond_the_blade(project),
            *beyond_the_rail(project, operations),
            *beyond_the_straightedge(project, operations),
        ),
    )


def shop_findings(project: Project) -> tuple[Finding, ...]:
    """What the cutters, saws, jig and screws cannot do well, as far as is known without sheet plans."""
    tools = choose_tools(project, project.parts.values())
    found = (
        *tools.findings,
        *level_findings(project),
        *no_screw_findings(project),
        *beyond_the_blade(project),
    )
    return tuple(finding for finding in found if finding.weight is not Weight.NOTE)


def dry_fit(
    project: Project, case: str, worked: Mapping[str, tuple[Operation, ...]], freed: Mapping[str, str]
) -> Operation:
    """The dry fit of a case: its parts put together without glue."""
    parts = [part for part in project.cases[case].parts if part.role not in _LOOSE]
    after = [key for part in parts for key in _finished(part, worked, freed)]
    return _at_the_bench(project, f"{case} dry fit", OperationKind.DRY_FIT, case, (), after)


def _join(
    project: Project,
    case: str,
    glued: Iterable[GlueUp],
    worked: Mapping[str, tuple[Operation, ...]],
    freed: Mapping[str, str],
    last: Mapping[str, str],
) -> Iterator[Operation]:
    """The glue-ups of a case, one after another, once it has been dry-fitted. A frame over other cases too
    waits for the `last` glue-up of each.

    What closes the case waits for the back: it is cut after the dry fit and tried before any glue.
    """
    before, drawn = f"{case} dry fit", project.cases[case]
    framed = next((one.mark for one in project.cases.values() if case in one.framed), None)
    edging = list(case_edging(project, case, last.get(case, before)))
    backs = [part for part in project.cases[case].parts if part.role is Role.BACK]
    for joining in glued:
        parts = [project.parts[mark] for mark in joining.parts]
        if joining.stage is Stage.SHELL:
            parts += [back for back in backs if back not in parts]
        others = _neighbours(drawn, last) if joining.stage is Stage.FRAME else ()
        if joining.stage is Stage.FRONTS:
            # Hung on what is in front of the case: its edging, and a frame that is put on with a neighbour.
            others = (*(step.key for step in edging), *((frame_key(framed),) if framed else ()))
        after = [before, *others, *(key for part in parts for key in _finished(part, worked, freed))]
        joined = _at_the_bench(project, joining.key, OperationKind.JOIN, case, joining.parts, after)
        yield replace(joined, when_finished=joining.stage is Stage.FRONTS)
        before = joining.key
    yield from edging


def _before_fronts(glued: Iterable[GlueUp]) -> list[str]:
    """The glue-ups of the box itself, without its doors and drawers."""
    return [one.key for one in glued if not one.stage.is_of_fronts]


def _neighbours(case: Case, last: Mapping[str, str]) -> tuple[str, ...]:
    """The last glue-ups of the other cases under a frame."""
    return tuple(last[mark] for mark in case.framed if mark != case.mark and mark in last)


def _at_the_bench(
    project: Project, key: str, kind: OperationKind, case: str, parts: tuple[str, ...], after: list[str]
) -> Operation:
    drawn = project.cases[case]
    height, width, depth = (project.sizes.of(size) for size in (drawn.height, drawn.outside, drawn.depth))
    hold = Hold("", "", "", False)
    waits = tuple(dict.fromkeys(after))
    return Operation(key, kind, case, parts, HANDS, hold, (height, width, depth), Fraction(0), waits)


def _finished(
    part: Part, worked: Mapping[str, tuple[Operation, ...]], freed: Mapping[str, str]
) -> tuple[str, ...]:
    """The operations on a part that nothing on the same part waits for."""
    steps = worked[part.mark]
    waited_for = {key for step in steps for key in step.after}
    last = tuple(step.key for step in steps if step.key not in waited_for)
    return last or ((freed[part.mark],) if part.mark in freed else ())


def _after_dry_fit(project: Project, cut: Operation, fits: Mapping[str, Operation]) -> Operation:
    """The cut, made to wait for the dry fit if it yields only parts that are cut late; carry cuts and the
    milling of boards bring nothing to size."""
    parts = [project.parts[mark] for mark in cut.parts if mark in project.parts]
    rough = cut.kind is OperationKind.CARRY or cut.kind.mills_boards
    if rough or not parts or any(part.role not in CUT_LATE for part in parts):
        return cut
    cases = dict.fromkeys(case for part in parts for case in _measured_for(project, part))
    return replace(cut, after=(*cut.after, *(fits[case].key for case in cases)))


def _measured_for(project: Project, part: Part) -> tuple[str, ...]:
    """The cases whose dry fit tells the size of a part: all that a face frame covers, else its own."""
    framed = project.cases[part.case].framed
    return framed if part.role in FACE_FRAME else (part.case,)


def in_working_order(operations: Iterable[Operation]) -> tuple[Operation, ...]:
    """The operations so that none stands before one it waits for; otherwise in the order given.

    Operations that are waited for but not in the list count as done. Raises ValueError for a cycle.
    """
    by_key = {operation.key: operation for operation in operations}
    placed: dict[str, Operation] = {}
    for start in by_key:
        path = [start]
        while path:
            here = path[-1]
            waiting = [key for key in by_key[here].after if key in by_key and key not in placed]
            if here not in placed and waiting:
                if waiting[0] in path:
                    raise ValueError(f"{here} and {waiting[0]} wait for each other")
                path.append(waiting[0])
            else:
                placed.setdefault(here, by_key[here])
                path.pop()
    return tuple(placed.values())
