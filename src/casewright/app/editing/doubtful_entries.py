"""Caliper readings in a form that look like slips, asked about before they are kept as on the shop screen."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from ...casework.checks.sheet_checks import READING_APART
from ...errors import JobError
from ...jobfile.read.toml_text import values_of
from ..jobs.worked_job import open_job
from .field_faults import with_faults
from .form_fields import Field, changes, parse_typed
from .text_edits import apply_edits


def asked_first(
    text: str, before: Sequence[Field], after: Sequence[Field], sure: Mapping[str, str]
) -> tuple[Field, ...] | None:
    """The fields with the questions that what was typed raises; None where there is none to ask.

    `text` is the job's before, `sure` what the maker has said stands, by the field's name. Only what was
    typed now is asked about; what the job says already is a warning there.
    """
    typed_in = {
        new.name
        for old, new in zip(before, after, strict=True)
        if changes([old], [new]) and not _stands(new, sure.get(new.name))
    }
    if not typed_in:
        return None
    try:
        changed = apply_edits(text, changes(before, after))
    except (JobError, LookupError):
        return None  # refused for that in its turn
    worked = open_job(changed)
    if worked.project is None:
        return None
    apart = [finding for finding in worked.findings if finding.code == READING_APART]
    told, _ = with_faults(after, values_of(changed), apart)
    asked = [
        replace(new, asked=True) if new.faults and new.name in typed_in else old
        for old, new in zip(after, told, strict=True)
    ]
    return tuple(asked) if any(one.asked for one in asked) else None


def _stands(field: Field, sure: str | None) -> bool:
    """Whether the maker is sure of just what the field holds now."""
    return sure is not None and parse_typed(sure, field.kind) == parse_typed(field.typed, field.kind)
