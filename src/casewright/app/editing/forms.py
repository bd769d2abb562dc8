"""The forms of a job: which entries are edited together, and saving what was typed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from ...findings import Finding, refusals
from ...jobfile.catalogue import packaged_catalogue
from ...jobfile.read.board_entries import SHEETS_ONLY
from ...jobfile.read.schema_faults import place_of
from ..choices import KINDS
from ..jobs.kept_jobs import LONGEST_NOTE, KeptJobs, OpenedRevision, Overtaken, RefusedChange
from ..jobs.worked_job import WorkedJob
from .arrangement import case_path
from .doubtful_entries import asked_first
from .field_faults import with_faults
from .followed import follow_path
from .form_fields import Field, as_typed, changes, keys_at
from .form_groups import Group, group_at
from .front_forms import fitted_groups, front_groups, of_doors_and_drawers
from .merging import SentField, joined
from .text_edits import Path, as_path, look_up, shaped_values_of
from .usual_values import with_usual

SHEET_FIRST = ("readings", "price", "sheet", "name")
FILLER = ("width", "scribe", "material")
CASE = ("width", "height", "depth", "kind", "mark")
PLACE = ("name", "wall", "wall_length", "along", "gap", "left_scribe", "right_scribe")
GAPS = ("wall_gaps", "left_gaps", "right_gaps")


@dataclass(frozen=True)
class SentForm:
    """A form as the browser sent it: the texts of its fields by name, as it was made at revision `based_on`.

    `settled` and `yielded` answer earlier questions about entries that two devices changed: the other's
    value that was read before the maker's own was chosen, and the names where the other's was. `seen` holds
    what a field showed when the maker typed, where that was before the page was made: what was typed then
    and not saved comes back in its field. `sure` holds what was typed into a field, by its name, and stands
    although it looks like a slip.
    """

    typed: Mapping[str, str]
    based_on: int
    settled: Mapping[str, str] = field(default_factory=dict)
    yielded: frozenset[str] = frozenset()
    seen: Mapping[str, str] = field(default_factory=dict)
    sure: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class FormOutcome:
    """The outcome of a submitted form: the job now, its groups of fields, and findings of no field.

    `kept` says whether a new revision was made. `sent` holds the texts as the browser still shows them, by
    the fields' names of now; `moved` says that these are not the names the browser sent.
    """

    work: OpenedRevision
    groups: tuple[Group, ...]
    loose: tuple[Finding, ...]
    kept: bool
    sent: Mapping[str, str] = field(default_factory=dict)
    moved: bool = False

    @property
    def refused(self) -> bool:
        return bool(self.loose) or any(field.faults for group in self.groups for field in group.fields)


def case_form(worked: WorkedJob, mark: str) -> tuple[Group, ...]:
    """What makes up one case; KeyError when there is none of that mark."""
    path = case_path(worked.values, mark)
    return (
        group_at(worked, "Case", path, CASE),
        *_bay_groups(worked, path),
        group_at(worked, "Made of", (*path, "made_of"), folded=True),
        *_put_together(worked, (*path, "construction"), folded=True),
        group_at(worked, "What its shelves bear", (*path, "loads"), folded=True),
        *_loads_of_shelves(worked, mark),
        group_at(worked, "Face frame", path, ("frame_with_left",), folded=True),
        *_edged(worked, (*path, "edged"), folded=True),
        *fitted_groups(worked, (*path, "fitted_with"), folded=True),
    )


def _loads_of_shelves(worked: WorkedJob, case: str) -> Iterator[Group]:
    """What each shelf of a case bears alone."""
    if worked.project is not None:
        for one in worked.borne.shelves:
            if one.part.case == case:
                mark = one.part.mark
                yield group_at(worked, f"What {mark} alone bears", ("loads_of", mark), folded=True)


def _bay_groups(worked: WorkedJob, case: Path) -> Iterator[Group]:
    """What is inside each bay of a case, and what is before it."""
    bays = look_up(worked.values, (*case, "bays")) or [{}]
    several = len(bays) > 1
    keys = ("width", "fixed", "adjustable") if several else ("fixed", "adjustable")
    for bay in range(len(bays)):
        path: Path = (*case, "bays", bay)
        name = f"Bay {bay + 1}" if several else ""
        fronts = front_groups(worked, path, name)
        yield replace(group_at(worked, name or "Inside", path, keys), bay=bay, fronts=len(fronts))
        yield from fronts


def run_form(worked: WorkedJob, index: int) -> tuple[Group, ...]:
    """What makes up one run but for its cases; KeyError when there is no such run."""
    path: Path = ("runs", index)
    if not look_up(worked.values, path):
        raise KeyError(index)
    return (
        group_at(worked, "Opening", path, ("opening", "ceiling", "lift")),
        group_at(worked, "Left filler", (*path, "left_filler"), FILLER),
        group_at(worked, "Right filler", (*path, "right_filler"), FILLER),
        group_at(worked, "Worktop on the base cases", (*path, "worktop"), folded=True),
        group_at(worked, "Place", path, PLACE, folded=True),
        group_at(worked, "How flat the walls are", path, GAPS, folded=True),
        group_at(worked, "What carries the wall", (*path, "framing"), folded=True),
    )


def materials_form(worked: WorkedJob) -> tuple[Group, ...]:
    """Every material, what is made of which, and the climate of solid wood."""
    values = worked.values
    groups: list[Group] = []
    for key in values.get("materials", ()):
        path, name = ("materials", key), _sheet_name(worked, key)
        of_boards = look_up(values, (*path, "boards")) is not None
        hidden = ("others", "boards", *(SHEETS_ONLY if of_boards else ()))
        first = [entry for entry in SHEET_FIRST if entry not in hidden]
        groups.append(replace(group_at(worked, name, path, first), key=key))
        rest = [entry for entry in keys_at(path) if entry not in (*SHEET_FIRST, *hidden)]
        groups.append(group_at(worked, f"More about {name}", path, rest, folded=True))
    moist = group_at(worked, "How moist solid wood is", ("climate",), folded=True)
    return (*groups, group_at(worked, "Made of", ("made_of",)), moist)


def edging_form(worked: WorkedJob) -> tuple[Group, ...]:
    """Every edging, and what is edged with which; nothing to choose before there is one."""
    groups = []
    for key, table in worked.values.get("edging", {}).items():
        title = str(table.get("name") or key)
        groups.append(replace(group_at(worked, title, ("edging", key)), key=key))
    return (*groups, *_edged(worked, ("edged",)))


def construction_form(worked: WorkedJob) -> tuple[Group, ...]:
    """How the job's cases are put together, unless a kind or a case says otherwise."""
    joints = ("bottom", "top", "back", "shelf", "toe", "strips", "frame")
    every = keys_at(("construction",))
    doors = of_doors_and_drawers(every)
    keys = tuple(key for key in every if key not in doors)
    depths = tuple(
        key
        for key in keys
        if key.endswith(("_depth", "_play", "_inset")) and not key.startswith(("toe", "pin", "frame"))
    )
    pins = tuple(key for key in keys if key.startswith("pin_"))
    frame = tuple(key for key in keys if key.startswith("frame_"))
    rest = tuple(key for key in keys if key not in (*joints, *depths, *pins, *frame))
    path: Path = ("construction",)
    return (
        group_at(worked, "Joints", path, joints),
        group_at(worked, "Depths and plays", path, depths),
        group_at(worked, "Sizes", path, rest),
        group_at(worked, "Shelf pins", path, pins),
        group_at(worked, "Face frame", path, frame),
        group_at(worked, "Doors and drawers", path, doors),
        group_at(worked, "What the shelves bear", ("loads",)),
    )


def kind_form(worked: WorkedJob, kind: str) -> tuple[Group, ...]:
    """What every case of one kind is, unless it says otherwise; KeyError for an unknown kind."""
    if kind not in KINDS:
        raise KeyError(kind)
    return (
        group_at(worked, "Size", (kind,), ("height", "depth")),
        group_at(worked, "Made of", (kind, "made_of")),
        *_put_together(worked, (kind, "construction")),
        group_at(worked, "What the shelves bear", (kind, "loads")),
        *_edged(worked, (kind, "edged")),
        *fitted_groups(worked, (kind, "fitted_with")),
    )


def machines_form(worked: WorkedJob) -> tuple[Group, ...]:
    """The shop's saws, cutters and jig, and what one person carries."""
    return (
        group_at(worked, "Hand-held saw", ("shop", "hand_saw")),
        group_at(worked, "Table saw", ("shop", "table_saw")),
        group_at(worked, "Dado stack", ("shop", "dado_stack")),
        group_at(worked, "Pin jig", ("shop", "pin_jig")),
        group_at(worked, "Carried alone", ("shop", "carry")),
        group_at(worked, "How exactly it works", ("shop",), ("workmanship",)),
        group_at(worked, "What an hour at the bench counts as", ("shop",), ("hourly",)),
        group_at(worked, "Your own figures (standard deviations)", ("shop", "deviations")),
    )


def settings_form(worked: WorkedJob) -> tuple[Group, ...]:
    """The job's name, rule and notes. Its unit is no field: changing it asks what its figures are to mean."""
    return (
        group_at(
            worked,
            "Job",
            (),
            ("job", "mark", "rounding", "grade", "money", "notes", "optional", "either_way"),
        ),
    )


def sheet_goods() -> tuple[str, ...]:
    """The names of the sheet goods in the shop's list."""
    return tuple(packaged_catalogue().sheets)


def submit_form(
    saved: KeptJobs, work: OpenedRevision, make: Callable[[WorkedJob], tuple[Group, ...]], sent: SentForm
) -> FormOutcome:
    """Put what the maker changed into the job, and keep it if the job can be built with it.

    `make` gives the form's groups, and `work` is the job at its newest revision. Where another revision is
    saved at the same moment, it is looked at in its turn.
    """
    while True:
        try:
            return _submitted(saved, work, make(work.worked), sent)
        except Overtaken:
            work = saved.take(work.id)


def _submitted(
    saved: KeptJobs, work: OpenedRevision, groups: tuple[Group, ...], sent: SentForm
) -> FormOutcome:
    """The form on the revision `work`. What another device changed meanwhile stays. Where
    nothing can be kept, the fields hold what was typed, and each that is at fault says why; a field that
    both changed asks.
    """
    fields, moved, gone = _sent_fields(sent, saved.values_since(work.id, sent.based_on))
    before = [field for group in groups for field in group.fields]
    after = joined(before, fields)
    shown_there = {name: one.typed for name, one in fields.items()}
    if gone or any(field.theirs is not None for field in after):
        return FormOutcome(work, _regroup(groups, after), gone, False, shown_there, moved)
    edits = changes(before, after)
    if not edits:
        return FormOutcome(work, groups, (), False, shown_there, moved)
    asked = asked_first(work.worked.text, before, after, sent.sure)
    if asked is not None:
        return FormOutcome(work, _regroup(groups, asked), (), False, shown_there, moved)
    outcome = saved.change(work.id, edits, _note(before, after), work.newest)
    if isinstance(outcome, RefusedChange):
        findings = outcome.findings
        values = shaped_values_of(outcome.text)
    else:
        # A job that was broken before may be kept broken: say so all the same.
        findings = () if outcome.worked.project else refusals(outcome.worked.findings)
        values = outcome.worked.values
    kept = not isinstance(outcome, RefusedChange)
    typed_in = [
        at for at, pair in enumerate(zip(before, after, strict=True)) if changes(*([one] for one in pair))
    ]
    shown, loose = with_faults(after, values, findings, () if kept else typed_in)
    now = work if isinstance(outcome, RefusedChange) else outcome
    named = _regroup(groups, with_usual(shown, now.worked))
    return FormOutcome(now, named, loose, kept, shown_there, moved)


def _sent_fields(
    sent: SentForm, texts: Sequence[Mapping[str, Any]]
) -> tuple[dict[str, SentField], bool, tuple[Finding, ...]]:
    """The sent fields by the names they have in the last of `texts`; whether any has another name now; and
    what was typed for entries that are there no more."""
    found: dict[str, SentField] = {}
    gone: list[Finding] = []
    moved = False
    for name, typed in sent.typed.items():
        path = as_path(name)
        now = follow_path(path, texts)
        seen = sent.seen.get(name, as_typed(look_up(texts[0], path)))
        moved = moved or now != path
        if now is not None:
            new_name = ".".join(str(step) for step in now)
            found[new_name] = SentField(typed, seen, sent.settled.get(name), name in sent.yielded)
        elif typed.strip() != seen.strip():
            gone.append(_gone(place_of(path, texts[0]), typed.strip()))
    return found, moved, tuple(gone)


def _gone(place: str, typed: str) -> Finding:
    text = f"another device removed this entry since the page was opened; “{typed}” was typed for it."
    return Finding("removed-elsewhere", place, text, "Undo brings it back; then type it again.")


def followed_case(saved: KeptJobs, job: str, mark: str, based_on: int) -> str | None:
    """The mark today of the case that was marked `mark` at revision `based_on`; None when it is gone."""
    texts = saved.values_since(job, based_on)
    now = follow_path(case_path(texts[0], mark), texts)
    return None if now is None else str(look_up(texts[-1], (*now, "mark")))


def followed_bay(saved: KeptJobs, job: str, mark: str, bay: int, based_on: int) -> int | None:
    """The place today of a bay of the case that was marked `mark` at revision `based_on`; None when it is
    gone."""
    texts = saved.values_since(job, based_on)
    now = follow_path((*case_path(texts[0], mark), "bays", bay), texts)
    return None if now is None or not isinstance(now[-1], int) else now[-1]


def followed_run(saved: KeptJobs, job: str, index: int, based_on: int) -> int | None:
    """The place today of the run that was at `index` at revision `based_on`; None when it is gone."""
    now = follow_path(("runs", index), saved.values_since(job, based_on))
    return None if now is None or not isinstance(now[1], int) else now[1]


def _put_together(worked: WorkedJob, path: Path, *, folded: bool = False) -> tuple[Group, ...]:
    """How a kind of case, or a case, is put together; its doors and drawers apart."""
    every = keys_at(path)
    doors = of_doors_and_drawers(every)
    return (
        group_at(worked, "Put together", path, [key for key in every if key not in doors], folded=folded),
        group_at(worked, "Doors and drawers", path, doors, folded=folded),
    )


def _edged(worked: WorkedJob, path: Path, *, folded: bool = False) -> tuple[Group, ...]:
    """What of a kind of case, or of a case, is edged; no fields in a job without edging."""
    return (group_at(worked, "Front edges", path, folded=folded),) if worked.values.get("edging") else ()


def _sheet_name(worked: WorkedJob, key: str) -> str:
    """What a material is called: by the job, or by the shop's list it comes from."""
    if worked.job and key in worked.job.sheets:
        return worked.job.sheets[key].name
    return str(look_up(worked.values, ("materials", key, "name")) or key)


def _regroup(groups: Iterable[Group], fields: Iterable[Field]) -> tuple[Group, ...]:
    waiting = iter(fields)
    return tuple(replace(group, fields=tuple(next(waiting) for _ in group.fields)) for group in groups)


def _note(before: Iterable[Field], after: Iterable[Field]) -> str:
    """What changed, for the history."""
    said = [
        f"{_where(new.path)}{new.label} "
        f"{old.typed or old.usual or 'as usual'} → {new.typed.strip() or 'as usual'}"
        for old, new in zip(before, after, strict=True)
        if changes([old], [new])
    ]
    note = "; ".join(said)
    return note if len(note) <= LONGEST_NOTE else f"{note[: LONGEST_NOTE - 1]}…"


def _where(path: Path) -> str:
    match path:
        case ("materials" | "hinges" | "slides", key, _, *_):
            return f"{key}: "
        case (*_, "fronts", int(place), _):
            return f"front {place + 1}: "
    return ""
