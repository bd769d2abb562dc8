"""The one place where an error becomes an answer: a page for people, JSON for programs."""

from __future__ import annotations

import logging
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect

from ..app.jobs.kept_jobs import NoSuchJob, Overtaken, UnknownBase
from ..errors import CasewrightError, ExtraMissing, JobError, KernelError, LibraryError, PlanError, StoreError
from ..findings import Finding
from .body_limit import BodyTooLong

log = logging.getLogger(__name__)


@dataclass(frozen=True)
class Refusal:
    """What went wrong, in one sentence, and what to do. `findings` where there are several; `link` is the
    page on which a device that is not paired gets paired."""

    status: int
    code: str
    text: str
    fix: str = ""
    findings: tuple[Finding, ...] = ()
    link: str = ""


def render_refusals(app: FastAPI) -> None:
    """Turn what an endpoint raises on purpose into an answer; `OriginGuard` does so with anything else."""
    for kind in (CasewrightError, HTTPException, RequestValidationError):
        app.add_exception_handler(kind, _handle)
    app.add_exception_handler(ClientDisconnect, _leave)


def respond(request: Request, refusal: Refusal) -> Response:
    """The refusal as JSON, a card or a page, whichever the request asks for."""
    answer = _answer(request, refusal)
    if refusal.status == 413:
        answer.headers["Connection"] = "close"  # the rest of what was sent is not read
    return answer


def _answer(request: Request, refusal: Refusal) -> Response:
    if wants_json(request):
        return JSONResponse({"error": refusal_json(refusal)}, refusal.status)
    from .rendering import page, partial

    if request.headers.get("hx-request"):
        answer = partial(request, "refusal_card.html", refusal=refusal, status=refusal.status)
        # Where a form's own answer would go nowhere, the refusal still takes the card's place.
        answer.headers["HX-Retarget"] = "#card"
        answer.headers["HX-Reswap"] = "innerHTML"
        return answer
    return page(request, "refusal.html", refusal=refusal, status=refusal.status)


def refusal_json(refusal: Refusal) -> dict[str, Any]:
    """The shape of every error: code, text, fix, findings."""
    return {
        "code": refusal.code,
        "text": refusal.text,
        "fix": refusal.fix,
        "findings": [finding_json(finding) for finding in refusal.findings],
    }


def finding_json(finding: Finding) -> dict[str, Any]:
    """A finding as plain values."""
    return {**asdict(finding), "weight": finding.weight.value}


def wants_json(request: Request) -> bool:
    """Whether a program asks: below /api, or one that accepts JSON and no HTML."""
    accepts = request.headers.get("accept", "")
    return request.url.path.startswith("/api") or ("json" in accepts and "html" not in accepts)


async def _leave(_request: Request, _fault: Exception) -> Response:
    return Response(status_code=400)  # which nobody waits for


async def _handle(request: Request, fault: Exception) -> Response:
    return respond(request, refusal_of(fault))


def refusal_of(fault: Exception) -> Refusal:
    """The refusal that an exception stands for."""
    match fault:
        case NoSuchJob():
            return Refusal(404, "no-such-job", str(fault), "Choose one from the list of jobs.")
        case UnknownBase():
            return Refusal(409, "unknown-revision", str(fault), "Reload the page and make the change again.")
        case Overtaken():
            return Refusal(409, "overtaken", str(fault), "Reload the page and make the change again.")
        case JobError() | PlanError():
            words = "The job cannot be built as it is."
            return Refusal(422, "cannot-be-built", words, "Correct each finding below.", fault.findings)
        case ExtraMissing():
            return Refusal(501, "extra-missing", str(fault), "The other formats are available without it.")
        case StoreError():
            return Refusal(503, "store", str(fault))
        case LibraryError() | KernelError():
            log.error("a library failed", exc_info=fault)
            return Refusal(500, "library-failed", str(fault), "The job is unchanged. Try again.")
        case CasewrightError():
            return Refusal(422, "refused", str(fault))
        case RequestValidationError():
            return Refusal(
                422, "bad-request", _asked_wrongly(fault.errors()[0]), "Go back and submit the form again."
            )
        case BodyTooLong():
            return Refusal(413, "too-long", fault.detail, "Send less at a time.")
        case HTTPException(status_code=400) if "maximum size" in fault.detail:  # Starlette's, of one entry
            text = "One entry of the form is longer than a million bytes, so nothing was read."
            return Refusal(413, "entry-too-long", text, "Send a long text as a file, from the list of jobs.")
        case HTTPException(status_code=404):
            said = fault.detail if fault.detail != "Not Found" else "This page does not exist."
            return Refusal(404, "not-found", said, "Start from the list of jobs.")
        case HTTPException():
            return Refusal(fault.status_code, "refused", f"{str(fault.detail).rstrip('.')}.")
    log.error("an endpoint failed", exc_info=fault)
    return Refusal(
        500,
        "our-fault",
        "casewright failed because of a bug; the job is unchanged.",
        "Reload the page. If it fails again, report it with the last lines in casewright's terminal.",
    )


def _asked_wrongly(error: Mapping[str, Any]) -> str:
    place = ".".join(str(step) for step in error.get("loc", ())[1:]) or "the request"
    return f"{place}: {str(error.get('msg', 'is not valid')).rstrip('.')}."
