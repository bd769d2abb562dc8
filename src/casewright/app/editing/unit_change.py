"""A job's unit changed: its figures converted, or the same figures read anew. The maker says which."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum

from ...casework.inputs import Sort, given_inputs
from ...casework.job import Job
from ...errors import JobError
from ...findings import Finding
from ...jobfile.write.other_unit import RewrittenText, in_other_unit, read_anew
from ...lengths.length import Unit, show
from ..jobs.kept_jobs import KeptJobs, OpenedRevision, RefusedChange
from ..jobs.worked_job import WorkedJob, open_job
from .text_edits import SetEntry


class UnitChange(Enum):
    """What becomes of the figures."""

    CONVERT = "convert"
    READ_ANEW = "anew"


@dataclass(frozen=True)
class UnitQuestion:
    """What either answer would do, in words.

    `examples` are figures as they stand and as they would, `rounded` those that are not exact, `exact` is
    True where rounding would leave a job that cannot be built, so that nothing is rounded; `usual` are
    sizes the file leaves out, which follow the usual practice in the new unit.
    """

    unit: str
    words: str
    words_now: str
    converted: int
    examples: tuple[str, ...]
    rounded: tuple[str, ...]
    exact: bool
    usual: tuple[str, ...]


def other_unit(worked: WorkedJob) -> Unit:
    """The unit a job could be changed to; inches for one that says none."""
    return Unit.MM if worked.values.get("unit") == Unit.INCH.value else Unit.INCH


def unit_question(worked: WorkedJob) -> UnitQuestion:
    """What changing the unit would do. Raises JobError while the text is no TOML."""
    unit = other_unit(worked)
    made, exact = _converted(worked, unit)
    lines = [f"{one.place}: {one.before} → {one.after}" for one in made.lengths]
    rounded = tuple(f"{one.place}: {one.before} → {one.after}" for one in made.rounded)
    after = open_job(in_other_unit(worked.text, unit, exactly=True).text).job
    usual = tuple(_usual(worked.job, after)) if worked.job and after else ()
    return UnitQuestion(
        unit.value,
        unit.words,
        unit.other.words,
        len(made.lengths),
        tuple(lines[:3]),
        rounded,
        exact,
        usual,
    )


def change_unit(
    saved: KeptJobs, work: OpenedRevision, how: UnitChange, based_on: int
) -> OpenedRevision | RefusedChange:
    """Keep the job in its other unit, unless it could not be built so. Raises Overtaken, and JobError while
    the text is no TOML."""
    unit = other_unit(work.worked)
    if how is UnitChange.READ_ANEW:
        text, did = read_anew(work.worked.text, unit).text, "the same figures, read anew"
    else:
        text, did = _converted(work.worked, unit)[0].text, "figures converted"
    return saved.rewrite(work.id, text, f"unit changed to {unit.words}: {did}", based_on)


def change_entries(
    saved: KeptJobs,
    work: OpenedRevision,
    edits: Sequence[SetEntry],
    note: str,
    based_on: int,
    figures: UnitChange | None,
) -> OpenedRevision | RefusedChange:
    """Set entries as a program asks; another unit only with what becomes of the `figures`, and by itself.

    Raises Overtaken, and JobError for a unit without an answer or beside other entries.
    """
    units = [edit for edit in edits if edit.path == ("unit",)]
    if not units or units[-1].value != other_unit(work.worked).value:
        return saved.change(work.id, edits, note, based_on)
    if figures is None:
        text = f"“{units[-1].value}” as the unit leaves open what the job's figures are to mean."
        fix = 'Send figures: "convert" for the same sizes, or "anew" for the same figures in the new unit.'
        raise JobError((Finding("unit-unasked", "unit", text, fix),))
    if len(edits) > 1:
        text = "the unit is changed together with other entries, and it is unclear which unit those are in."
        fix = "Change the unit in a request of its own."
        raise JobError((Finding("unit-with-others", "unit", text, fix),))
    return change_unit(saved, work, figures, based_on)


def _converted(worked: WorkedJob, unit: Unit) -> tuple[RewrittenText, bool]:
    """The text in the other unit, and whether it had to be exact.

    Widths rounded one by one may no longer fill their opening; then nothing is rounded.
    """
    rounded = in_other_unit(worked.text, unit)
    if worked.project is None or open_job(rounded.text).project is not None:
        return rounded, False
    return in_other_unit(worked.text, unit, exactly=True), True


def _usual(before: Job, after: Job) -> Iterator[str]:
    """The sizes that differ though no figure was rounded: those that the file leaves to usual practice."""
    old = {one.name: value for one, value in given_inputs(before)}
    for one, value in given_inputs(after):
        if one.name in old and old[one.name] != value and one.sort is not Sort.THICKNESS:
            was, now = (show(old[one.name], before.mark, unit=True), show(value, after.mark, unit=True))
            yield f"{one.words}: {was.plain} → {now.plain}"
