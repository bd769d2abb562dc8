"""Fields of a job under one title, each holding what the job's text says there."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..jobs.worked_job import WorkedJob
from .form_fields import Field, fields_at, keys_at
from .text_edits import Path
from .usual_values import with_usual


@dataclass(frozen=True)
class Group:
    """Fields under one title. `folded` ones are seldom needed.

    `bay` numbers the groups of bays, with how many `fronts` there are before each. `key` names what a button
    beside the form takes out.
    """

    title: str
    fields: tuple[Field, ...]
    folded: bool = False
    bay: int | None = None
    key: str = ""
    fronts: int = 0


def group_at(
    worked: WorkedJob, title: str, path: Path, keys: Iterable[str] | None = None, *, folded: bool = False
) -> Group:
    """A field for each of `keys` of the table at `path`, or for all it may hold."""
    fields = fields_at(worked.values, path, keys_at(path) if keys is None else keys)
    # What the maker has set for himself is not hidden in a fold.
    open_anyway = any(field.typed for field in fields)
    return Group(title, with_usual(fields, worked), folded and not open_anyway)
