"""A part is spoiled: the ways to finish all the same, and the job that follows from the one chosen."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from ...boards.board_plan import BoardPlan
from ...casework.inputs import input_called
from ...casework.job import Job
from ...casework.project import Project, draw_up
from ...casework.size_names import read_name
from ...errors import CasewrightError, JobError
from ...findings import Finding
from ...jobfile.read.read_job import read_job
from ...jobfile.read.toml_text import values_of
from ...jobfile.write import literals
from ...jobfile.write.write_job import write_job
from ...lengths.quantities import with_cents
from ...planner.plan import Plan
from ...repair.find_ways import ways
from ...repair.plans_after import plans_after
from ...repair.price import Cost, Seen
from ...repair.saw_out_faults import saw_out_faults
from ...repair.way_wording import explain_rank, group_alike_inputs, list_steps
from ...repair.ways.mends import depths_taken
from ...repair.ways.way import (
    Buy,
    BuyBoard,
    Forgo,
    GlueOn,
    MakeOf,
    Mend,
    NewPlaces,
    Option,
    ServeAs,
    SetInput,
    SwapBays,
    WayKind,
    Ways,
)
from ...sizes.affine import size
from ..editing.text_edits import Edit, SetEntry, apply_edits, look_up
from .mishap import RepairTask

MOST_OF_A_KIND = 3

Report = Callable[[str], None]


@dataclass(frozen=True)
class WayLine:
    """One way, printed. `best`: no way of its kind is better. `tied`: another costs just the same. `saw_out`
    are those of its steps that saw the fault out of a sheet, before all else.

    `rank` explains its place in the list; `parts` are the marks of the parts it works on, buys wood for or
    leaves out.
    """

    number: int
    kind: str
    what: str
    why: str
    money: str
    minutes: str
    again: int
    in_sight: str
    best: bool
    tied: bool
    saw_out: tuple[str, ...]
    steps: tuple[str, ...]
    rank: str
    parts: tuple[str, ...]
    cost: Cost
    buys: bool

    def plain(self) -> dict[str, Any]:
        """The line as JSON: money in the job's money and minutes as numbers."""
        cost = self.cost
        return {
            "number": self.number,
            "kind": self.kind,
            "buys": self.buys,
            "money": cost.money_figure,
            "minutes": cost.whole_minutes,
            "seen": cost.seen.value,
            "ask_client": cost.ask_client,
            "steps": list(self.steps),
            "parts": list(self.parts),
            "price": cost.price_figure,
            "rank": self.rank,
            "what": self.what,
            "why": self.why,
            "again": self.again,
            "in_sight": self.in_sight,
            "best": self.best,
            "tied": self.tied,
        }


@dataclass(frozen=True)
class FoundWays:
    """The ways worth showing, best first, and what is proved.

    `left_off` counts those not shown, `as_good` those of them that cost no more than the best of their kind.
    """

    asked: RepairTask
    options: tuple[Option, ...]
    lines: tuple[WayLine, ...]
    proof: str
    must_buy: bool
    left_off: int
    as_good: int
    searched: tuple[str, ...] = ()

    @property
    def taken(self) -> tuple[str, ...]:
        """What is taken for granted of damages that nobody measured, a sentence each."""
        return depths_taken(self.asked.project, self.asked.facts)

    def option(self, number: int) -> Option:
        """The way with a number of the list; JobError when there is none."""
        if not 1 <= number <= len(self.options):
            text = f"there is no way {number}."
            fix = f"Choose one from 1 to {len(self.options)}." if self.options else self.proof
            raise JobError((Finding("no-such-way", "choose", text, fix),))
        return self.options[number - 1]


def look(asked: RepairTask, report: Report | None = None) -> FoundWays:
    """Every way worth showing. `report` hears of each as it is found."""
    told = (lambda option: report(option.why)) if report else None
    found = ways(asked.project, asked.facts, report=told)
    shown = worth_showing(found)
    lines = tuple(_line(asked, found, option, number) for number, option in enumerate(shown, 1))
    off = [option for option in found.options if option not in shown]
    as_good = sum(1 for option in off if _is_best(found, option))
    searched = tuple(kind.value for kind in found.searched)
    return FoundWays(asked, shown, lines, found.proof, found.must_buy, len(off), as_good, searched)


def plans_of_way(found: FoundWays, option: Option) -> dict[str, Plan]:
    """All plans by material once the way is chosen."""
    asked = found.asked
    return plans_after(asked.project, asked.plans, asked.done, asked.facts, option)


def boards_of_way(found: FoundWays, option: Option) -> dict[str, BoardPlan]:
    """The same for boards."""
    return {**found.asked.boards, **option.boards}


def worth_showing(found: Ways, most: int = MOST_OF_A_KIND) -> tuple[Option, ...]:
    """The best ways of each kind, at most so many of one, all in rank order."""
    shown: Counter[WayKind] = Counter()
    kept: list[Option] = []
    for option in found.options:
        shown[option.kind] += 1
        if shown[option.kind] <= most:
            kept.append(option)
    return tuple(kept)


def _is_best(found: Ways, option: Option) -> bool:
    first = found.best_of(option.kind)
    return first is not None and first.cost.key() == option.cost.key()


def _line(asked: RepairTask, found: Ways, option: Option, number: int) -> WayLine:
    project, cost = asked.project, option.cost
    saw_out: tuple[str, ...] = ()
    if any(blank.flaws for blank in asked.facts.blanks):
        after = plans_after(project, asked.plans, asked.done, asked.facts, option)
        saw_out = saw_out_faults(project, asked.facts, after)
    same = sum(1 for other in found.options if other.cost.key() == cost.key())
    return WayLine(
        number,
        option.kind.value,
        option.why.partition(". ")[0] + ".",
        option.why,
        f"{project.job.money}{with_cents(cost.money)}" if cost.money else "none",
        str(cost.whole_minutes),
        cost.remade,
        in_sight(project, option),
        _is_best(found, option),
        same > 1,
        saw_out,
        (*saw_out, *list_steps(project, option.project, option.actions)),
        explain_rank(project, cost),
        parts_of(option),
        cost,
        option.buys,
    )


def parts_of(option: Option) -> tuple[str, ...]:
    """The marks of the parts that a way works on, each once."""
    marks: list[str] = []
    for one in option.actions:
        if isinstance(one, NewPlaces):
            marks += one.marks
        elif isinstance(one, ServeAs):
            marks += (one.piece, one.mark)
        elif not isinstance(one, Buy | BuyBoard | SetInput | SwapBays):
            marks.append(one.mark)
    return tuple(dict.fromkeys(mark for mark in marks if mark in option.project.parts))


def in_sight(project: Project, option: Option) -> str:
    """What changes in sight, in a few words."""
    if option.cost.seen is Seen.NOTHING:
        return "nothing"
    said = [f"no {one.mark}" for one in option.actions if isinstance(one, Forgo)]
    said += [
        f"the bays of {one.case} the other way about" for one in option.actions if isinstance(one, SwapBays)
    ]
    said += [f"{one.mark} of another sheet" for one in option.actions if isinstance(one, MakeOf)]
    said += [f"a glue line along {one.mark}" for one in option.actions if isinstance(one, GlueOn)]
    said += [one.shows for one in option.actions if isinstance(one, Mend) and one.shows]
    for words, sets in group_alike_inputs(option.actions):
        by = project.printed(sets[0].moved)
        said.append(f"{words} {by} {'less' if sets[0].new < sets[0].old else 'more'}")
    where = {Seen.HIDDEN_LINE: ", hidden", Seen.DESIGN: ": ask the client"}.get(option.cost.seen, "")
    return (", ".join(said) or option.cost.seen.value) + where


def changed_text(text: str, option: Option) -> str:
    """The job's text once the way is chosen: in place where that says it, else written anew.

    The text drawn up from nothing has the very parts the way was judged by; anything else is
    refused as CasewrightError.
    """
    if not any(isinstance(action, SetInput | SwapBays | Forgo | MakeOf) for action in option.actions) and (
        read_job(text).as_cut == option.project.job.as_cut
    ):
        return text
    for make in (_in_place, _in_place_settled, _anew):
        try:
            made = make(text, option)
            if _same_parts(draw_up(read_job(made)), option):
                return made
        except (LookupError, ValueError):  # this way of writing it leads nowhere; the next one may
            continue
    raise CasewrightError("This change cannot be written into the job file exactly; choose another way.")


def _in_place(text: str, option: Option) -> str:
    return apply_edits(text, list(_edits(text, option)))


def _in_place_settled(text: str, option: Option) -> str:
    """With shared widths written down too, so that moving one moves no other."""
    way = option.project
    shared = draw_up(read_job(text)).shared
    sizes = {name: way.sizes.of(way.shared.get(name, size(name))) for name in shared}
    return apply_edits(text, list(_edits(text, option, sizes)))


def _anew(text: str, option: Option) -> str:
    return write_job(changed_job(option))


def changed_job(option: Option) -> Job:
    """The job after the way, as plain values."""
    job = option.project.job
    forgone = {one.mark for one in option.actions if isinstance(one, Forgo)}
    other = {one.mark: one.material for one in option.actions if isinstance(one, MakeOf)}
    return replace(job, left_out=job.left_out | forgone, sheet_of={**job.sheet_of, **other})


def _same_parts(project: Project, option: Option) -> bool:
    forgone = {one.mark for one in option.actions if isinstance(one, Forgo)}
    wanted = {
        part.mark: (part.material, option.project.dimensions(part))
        for part in option.project
        if part.mark not in forgone
    }
    return wanted == {part.mark: (part.material, project.dimensions(part)) for part in project}


def _edits(text: str, option: Option, settled: Mapping[str, Fraction] | None = None) -> Iterator[Edit]:
    values, project = values_of(text), option.project
    moved = {one.name: one.new for one in option.actions if isinstance(one, SetInput)}
    sets = {**(settled or {}), **moved}
    for name, value in sets.items():
        yield _put(project.job, name, value)
    gone = [one.mark for one in option.actions if isinstance(one, Forgo)]
    if gone:
        yield SetEntry(("left_out",), [*(look_up(values, ("left_out",)) or []), *gone])
    for one in option.actions:
        if isinstance(one, MakeOf):
            yield SetEntry(("sheet_of", one.mark), one.material)
        elif isinstance(one, SwapBays):
            yield from _bays_changed_over(values, one.case)
    yield from _sizes_as_cut(read_job(text), project.job)


def _bays_changed_over(values: Mapping[str, Any], mark: str) -> Iterator[Edit]:
    """The bays of a case in the other order, each as it is written."""
    for number, run in enumerate(values["runs"]):
        for at, case in enumerate(run["cases"]):
            if case["mark"] == mark:
                yield SetEntry(("runs", number, "cases", at, "bays"), case["bays"][::-1])


def _sizes_as_cut(before: Job, after: Job) -> Iterator[Edit]:
    """The sizes of parts that are used as they were cut, and of those that are no longer."""
    for name in (*before.as_cut, *after.as_cut):
        if before.as_cut.get(name) != after.as_cut.get(name):
            size, value = read_name(name), after.as_cut.get(name)
            said = None if value is None else literals.length_literal(value, after.unit)
            yield SetEntry(("as_cut", size.owner, size.what), said)


def _put(job: Job, name: str, value: Fraction) -> SetEntry:
    said = literals.length_literal(value, job.unit)
    one = input_called(job, name)
    return SetEntry(one.place, [said] if one.listed else said)
