"""The exceptions of casewright.

CasewrightError
 ├── LengthError       (ValueError)   a text is not a length, or could be read two ways
 ├── LedgerError       (ValueError)   a size is defined twice, in a circle, or not at all
 ├── JobError          (ValueError)   a job cannot be built; carries its findings
 ├── PlanError         (ValueError)   a break-down problem is malformed; carries its findings
 ├── RecordError       (ValueError)   an event of the shop's record cannot be read; carries its findings
 ├── StoreError        (RuntimeError) the job file could not be read, written or migrated
 └── ExtraMissing      (ImportError)  a format needs a library that is an extra and not installed

What a maker can get wrong is a `Finding`, not an exception; `JobError`, `PlanError` and
`RecordError` only carry findings to whoever asked for a result that cannot exist.
"""

from __future__ import annotations

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


class ExtraMissing(CasewrightError, ImportError):
    """A format needs a library that is an extra and not installed."""
