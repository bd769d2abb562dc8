"""The exceptions of casewright.

CasewrightError
 ├── LengthError       (ValueError)   a text is not a length, or could be read two ways
 ├── LedgerError       (ValueError)   a size is defined twice, in a circle, or not at all
 ├── JobError          (ValueError)   a job cannot be built; carries its findings
 ├── PlanError         (ValueError)   a break-down problem is malformed; carries its findings
 ├── RecordError       (ValueError)   an event of the shop's record cannot be read; carries its findings
 ├── StoreError        (RuntimeError) the job file could not be read, written or migrated
 ├── KernelError       (RuntimeError) the compiled kernel is missing or out of date
 ├── LibraryError      (RuntimeError) a library failed at a task; says which and at what
 │    ├── SolverError                HiGHS gave no answer that can be relied on
 │    └── OutOfMemory (MemoryError)  the planner's kernel needs more memory than there is
 └── ExtraMissing      (ImportError)  a format needs a library that is an extra and not installed

What a maker can get wrong is a `Finding`, not an exception; `JobError`, `PlanError` and
`RecordError` only carry findings to whoever asked for a result that cannot exist.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from .findings import Finding


class CasewrightError(Exception):
    """Everything this package raises on purpose."""


class LengthError(CasewrightError, ValueError):
    """A text is not a length, or could be read in two ways."""


class LedgerError(CasewrightError, ValueError):
    """A size is defined twice, in a circle, or not at all."""


class _WithFindings(CasewrightError, ValueError):
    def __init__(self, findings: tuple[Finding, ...]) -> None:
        super().__init__("\n".join(str(finding) for finding in findings))
        self.findings = findings


class JobError(_WithFindings):
    """A job that cannot be built; `findings` says every reason."""


class PlanError(_WithFindings):
    """A break-down problem that cannot be planned; `findings` says every reason."""


class RecordError(_WithFindings):
    """An event that cannot be read; `findings` says every fault."""


class StoreError(CasewrightError, RuntimeError):
    """The shop's file could not be read, written or migrated."""


class KernelError(CasewrightError, RuntimeError):
    """The planner's compiled kernel is missing, or was compiled from other sources."""


class LibraryError(CasewrightError, RuntimeError):
    """A library that this package relies on failed at a task, which is no fault of the maker's input."""

    def __init__(self, library: str, task: str, reason: object) -> None:
        said = " ".join(str(reason).split()).rstrip(".") or type(reason).__name__
        super().__init__(f"{library} failed while {task}: {said}.")
        self.library = library


class OutOfMemory(LibraryError, MemoryError):
    """The planner's kernel needs more memory than there is."""

    def __init__(self, task: str) -> None:
        super().__init__("The planner's kernel", task, "it needs more memory than there is")


class SolverError(LibraryError):
    """HiGHS ended without an answer that can be relied on."""


class ExtraMissing(CasewrightError, ImportError):
    """A format needs a library that is an extra and not installed."""


@contextmanager
def library_call(library: str, task: str) -> Iterator[None]:
    """Whatever the library raises inside becomes a LibraryError: one sentence that names the task.

    `task` is a participle, such as "writing a drawing as DXF". What this package raises passes unchanged.
    """
    try:
        yield
    except CasewrightError:
        raise
    except Exception as fault:
        raise LibraryError(library, task, fault) from fault
