"""The forms of a job: which entries are edited together, and saving what was typed."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from ...findings import Finding, refusals
from ...jobfile.catalogue import packaged_catalogue
from ..choices import KINDS
from ..jobs.kept_jobs import KeptJobs, OpenedRevision, RefusedChange
from ..jobs.worked_job import WorkedJob
from .arrangement import case_path
from .form_fields import Field, as_typed, changes, fields_at, keys_at, with_faults, with_typed
from .text_edits import Path, look_up, shaped_values_of
from .usual_values import with_usual

LONGEST_NOTE = 200
SHEET_FIRST = ("readings", "price", "sheet", "name")
FILLER = ("width", "scribe", "material")


@dataclass(frozen=True)
class Group:
    """Fields under one title. `folded` ones are seldom needed; `bay` numbers the groups of bays."""

    title: str
    fields: tuple[Field, ...]
    folded: bool = False
    bay: int | None = None
    key: str = ""


@dataclass(frozen=True)
class FormOutcome:
    """The outcome of a submitted form: the job now, its groups of fields, and findings of no field.

    `kept` says whether a new revision was made.
    """

    work: OpenedRevision
    groups: tuple[Group, ...]
    loose: tuple[Finding, ...]
    kept: bool

    @property
    def refused(self) -> bool:
        return bool(self.loose) or any(field.faults for group in self.groups for field in group.fields)


def case_form(worked: WorkedJob, mark: str) -> tuple[Group, ...]:
    """What makes up one case; KeyError when there is none of that mark."""
    values = worked.values
    path = case_path(values, mark)
    bays = look_up(values, (*path, "bays")) or [{}]
    return (
        _group(worked, "Case", path, ("width", "height", "depth", "kind", "mark")),
        *(
            _group(
                worked,
                f"Bay {bay + 1}" if len(bays) > 1 else "Inside",
                (*path, "bays", bay),
                ("width", "fixed", "adjustable") if len(bays) > 1 else ("fixed", "adjustable"),
                bay=bay,
            )
            for bay in range(len(bays))
        ),
        _group(worked, "Made of", (*path, "made_of"), folded=True),
        _group(worked, "Put together", (*path, "construction"), folded=True),
    )


def run_form(worked: WorkedJob, index: int) -> tuple[Group, ...]:
    """What makes up one run but for its cases; KeyError when there is no such run."""
    path: Path = ("runs", index)
    if not look_up(worked.values, path):
        raise KeyError(index)
    return (
        _group(worked, "Opening", path, ("opening", "ceiling", "lift")),
        _group(worked, "Left filler", (*path, "left_filler"), FILLER),
        _group(worked, "Right filler", (*path, "right_filler"), FILLER),
        _group(worked, "Place", path, ("name", "wall", "wall_length", "along", "gap"), folded=True),
    )


def materials_form(worked: WorkedJob) -> tuple[Group, ...]:
    """Every material, and what is made of which."""
    values = worked.values
    groups: list[Group] = []
    for key in values.get("materials", ()):
        path, name = ("materials", key), _sheet_name(worked, key)
        groups.append(replace(_group(worked, name, path, SHEET_FIRST), key=key))
        rest = [entry for entry in keys_at(path) if entry not in SHEET_FIRST and entry != "others"]
        groups.append(_group(worked, f"More about {name}", path, rest, folded=True))
    return (*groups, _group(worked, "Made of", ("made_of",)))


def construction_form(worked: WorkedJob) -> tuple[Group, ...]:
    """How the job's cases are put together, unless a kind or a case says otherwise."""
    joints = ("bottom", "top", "back", "shelf", "toe", "strips")
    keys = keys_at(("construction",))
    depths = tuple(
        key for key in keys if key.endswith(("_depth", "_play", "_inset")) and key[:3] not in ("toe", "pin")
    )
    pins = tuple(key for key in keys if key.startswith("pin_"))
    rest = tuple(key for key in keys if key not in (*joints, *depths, *pins))
    path: Path = ("construction",)
    return (
        _group(worked, "Joints", path, joints),
        _group(worked, "Depths and plays", path, depths),
        _group(worked, "Sizes", path, rest),
        _group(worked, "Shelf pins", path, pins),
    )


def kind_form(worked: WorkedJob, kind: str) -> tuple[Group, ...]:
    """What every case of one kind is, unless it says otherwise; KeyError for an unknown kind."""
    if kind not in KINDS:
        raise KeyError(kind)
    return (
        _group(worked, "Size", (kind,), ("height", "depth")),
        _group(worked, "Made of", (kind, "made_of")),
        _group(worked, "Put together", (kind, "construction")),
    )


def machines_form(worked: WorkedJob) -> tuple[Group, ...]:
    """The shop's saws, cutters and jig, and what one person carries."""
    return (
        _group(worked, "Hand-held saw", ("shop", "hand_saw")),
        _group(worked, "Table saw", ("shop", "table_saw")),
        _group(worked, "Dado stack", ("shop", "dado_stack")),
        _group(worked, "Pin jig", ("shop", "pin_jig")),
        _group(worked, "Carried alone", ("shop", "carry")),
        _group(worked, "Rule", ("shop",), ("rule",)),
    )


def settings_form(worked: WorkedJob) -> tuple[Group, ...]:
    """The job's name, rule and notes. Its unit is no field: changing it asks what its figures are to mean."""
    return (
        _group(worked, "Job", (), ("job", "mark", "rounding", "money", "notes", "optional", "either_way")),
    )


def sheet_goods() -> tuple[str, ...]:
    """The names of the sheet goods in the shop's list."""
    return tuple(packaged_catalogue().sheets)


def submit_form(
    saved: KeptJobs, work: OpenedRevision, groups: tuple[Group, ...], typed: Mapping[str, str], based_on: int
) -> FormOutcome:
    """Put what was typed into the job, and keep it if the job can be built with it.

    Otherwise nothing is kept, the fields hold what was typed, and each that is at fault says why.
    """
    before = [field for group in groups for field in group.fields]
    after = with_typed(before, typed)
    edits = changes(before, after)
    if not edits:
        return FormOutcome(work, groups, (), False)
    outcome = saved.change(work.id, edits, _note(before, after), based_on)
    if isinstance(outcome, RefusedChange):
        findings = outcome.findings
        values = shaped_values_of(outcome.text)
    else:
        # A job that was broken before may be kept broken: say so all the same.
        findings = () if outcome.worked.project else refusals(outcome.worked.findings)
        values = outcome.worked.values
    shown, loose = with_faults(after, values, findings)
    now = work if isinstance(outcome, RefusedChange) else outcome
    return FormOutcome(
        now, _regroup(groups, with_usual(shown, now.worked)), loose, not isinstance(outcome, RefusedChange)
    )


def _group(
    worked: WorkedJob,
    title: str,
    path: Path,
    keys: Iterable[str] | None = None,
    *,
    folded: bool = False,
    bay: int | None = None,
) -> Group:
    fields = fields_at(worked.values, path, keys_at(path) if keys is None else keys)
    # What the maker has set for himself is not hidden in a fold.
    open_anyway = any(field.typed for field in fields)
    return Group(title, with_usual(fields, worked), folded and not open_anyway, bay)


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
        if old.typed.strip() != new.typed.strip()
    ]
    note = "; ".join(said)
    return note if len(note) <= LONGEST_NOTE else f"{note[: LONGEST_NOTE - 1]}…"


def _where(path: Path) -> str:
    return as_typed(path[1]) + ": " if path[0] == "materials" and len(path) > 2 else ""
