"""From a measured opening to cabinets whose every part fits.

The names below are the library's front door; `docs/python.md` shows them at work. They are
loaded when first used, so that importing the package costs nothing.
"""

from __future__ import annotations

TYPE_CHECKING = False  # as in typing, which takes longer to import than all that is needed here
if TYPE_CHECKING:
    from typing import Any

    from .app.jobs.worked_job import open_job
    from .app.papers.packet_files import write_packet
    from .app.sheets.plan_search import plan_job
    from .casework.project import draw_up
    from .errors import CasewrightError, JobError
    from .findings import Finding
    from .jobfile.read.read_job import read_job
    from .jobfile.write.write_job import write_job
    from .lengths.length import Mark, Unit, parse_length, show
    from .sizes.ledger import explain
    from .solids.solid_check import check_solids

__all__ = [
    "CasewrightError",
    "Finding",
    "JobError",
    "Mark",
    "Unit",
    "check_solids",
    "draw_up",
    "explain",
    "open_job",
    "parse_length",
    "plan_job",
    "read_job",
    "show",
    "write_job",
    "write_packet",
]

_FROM = {
    "CasewrightError": "errors",
    "Finding": "findings",
    "JobError": "errors",
    "Mark": "lengths.length",
    "Unit": "lengths.length",
    "check_solids": "solids.solid_check",
    "draw_up": "casework.project",
    "explain": "sizes.ledger",
    "open_job": "app.jobs.worked_job",
    "parse_length": "lengths.length",
    "plan_job": "app.sheets.plan_search",
    "read_job": "jobfile.read.read_job",
    "show": "lengths.length",
    "write_job": "jobfile.write.write_job",
    "write_packet": "app.papers.packet_files",
}


def __getattr__(name: str) -> Any:
    if name not in _FROM:
        raise AttributeError(f"casewright has no {name}")
    from importlib import import_module

    value = getattr(import_module(f".{_FROM[name]}", __name__), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
