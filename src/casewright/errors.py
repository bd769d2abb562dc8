"""The exceptions of casewright.

CasewrightError
 ├── LengthError       (ValueError)   a text is not a length, or can be read in two ways
 ├── LedgerError       (ValueError)   a size is defined twice, or not defined
 ├── JobError          (ValueError)   a job cannot be built; `findings` says why
 ├── PlanError         (ValueError)   a break-down problem is malformed; `findings` says why
 ├── RecordError       (ValueError)   an event of the shop's record cannot be read; `findings` says why
 ├── StoreError        (RuntimeError) the job file could not be read, written or migrated
 ├── KernelError       (RuntimeError) the compiled kernel is missing or out of date
 ├── LibraryError      (RuntimeError) a library failed; names the library and the task
 │    ├── SolverError                HiGHS gave no reliable answer
 │    └── OutOfMemory (MemoryError)  the planner's kernel needs more memory than there is
 └── ExtraMissing      (ImportError)  a format needs an optional library that is not installed

A mistake in a maker's input is a `Finding`, not an exception; `JobError`, `PlanError` and `RecordError`
only carry the findings when the result that was asked for cannot be made.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .findings import Finding


class CasewrightError(Exception):
    """The base of every exception this package raises on purpose."""


class LengthError(CasewrightError, ValueError):
    """A text is not a length, or can be read in two ways."""


class LedgerError(CasewrightError, ValueError):
    """A size is defined twice, or not defined."""


class _WithFindings(CasewrightError, ValueError):
    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__("\n".join(str(finding) for finding in findings))
        self.findings = findings


class JobError(_WithFindings):
    """A job cannot be built; `findings` lists every reason."""


class PlanError(_WithFindings):
    """A break-down problem cannot be planned; `findings` lists every reason."""


class RecordError(_WithFindings):
    """An event cannot be read; `findings` lists every fault."""


class StoreError(CasewrightError, RuntimeError):
    """The shop's database file could not be read, written or migrated."""


class KernelError(CasewrightError, RuntimeError):
    """The planner's compiled kernel is missing, or was compiled from different sources."""


class LibraryError(CasewrightError, RuntimeError):
    """A library this package relies on failed at a task, through no fault of the maker's input."""

    def __init__(self, library: str, task: str, reason: object) -> None:
        said = " ".join(str(reason).split()).rstrip(".") or type(reason).__name__
        super().__init__(f"{library} failed while {task}: {said}.")
        self.library = library


class OutOfMemory(LibraryError, MemoryError):
    """The planner's kernel needs more memory than there is."""

    def __init__(self, task: str) -> None:
        super().__init__("The planner's kernel", task, "it needs more memory than there is")


class SolverError(LibraryError):
    """HiGHS ended without a reliable answer."""


class ExtraMissing(CasewrightError, ImportError):
    """A format needs an optional library that is not installed."""


@contextmanager
def library_call(library: str, task: str) -> Iterator[None]:
    """Turn any exception of the library into a LibraryError: one sentence that names the task.

    `task` completes "failed while ...", such as "writing a drawing as DXF". This package's own exceptions
    pass unchanged.
    """
    try:
        yield
    except CasewrightError:
        raise
    except Exception as fault:
        raise LibraryError(library, task, fault) from fault
