"""Protection of a server on the maker's own machine from other sites' pages.

A page from elsewhere, open in the same browser, can send forms to 127.0.0.1, and can have a name of
its own point there. So a change is only taken from a page of our own, only names that belong to this
network are answered, and pages may run no script but ours.
"""

from __future__ import annotations

from ipaddress import ip_address
from secrets import token_urlsafe
from urllib.parse import urlsplit

from fastapi import FastAPI, Request, Response
from starlette.middleware.base import BaseHTTPMiddleware, RequestResponseEndpoint

from .refusals import Refusal, respond

LOCAL = (".local", ".lan", ".home.arpa", ".internal", ".localhost")
SAFE = ("GET", "HEAD", "OPTIONS")
POLICY = (
    "default-src 'self'; img-src 'self' data: blob:; style-src 'self' 'unsafe-inline'; "
    "script-src 'self' 'nonce-{nonce}'; connect-src 'self' blob:; "
    "frame-ancestors 'none'; base-uri 'none'; form-action 'self'"
)


def guard_requests(app: FastAPI) -> None:
    """Check every request and set the security headers of every answer."""
    app.add_middleware(BaseHTTPMiddleware, dispatch=_guard)


def of_this_network(host: str) -> bool:
    """Whether a host is an address, a plain machine name, or a name kept for local networks.

    The endings are those set apart for local use (RFC 6762, RFC 8375) and what routers give out.
    """
    try:
        ip_address(host.strip("[]"))
    except ValueError:
        return "." not in host or host.endswith(LOCAL)
    return True


async def _guard(request: Request, call_next: RequestResponseEndpoint) -> Response:
    if not of_this_network(request.url.hostname or ""):
        return respond(
            request,
            Refusal(
                403,
                "name-from-elsewhere",
                f"This machine does not answer to the name {request.url.hostname}.",
                "Use the address that casewright printed when it started.",
            ),
        )
    origin = request.headers.get("origin")
    if request.method not in SAFE and origin and urlsplit(origin).netloc != request.headers.get("host"):
        return respond(
            request,
            Refusal(
                403,
                "from-elsewhere",
                "This change came from a page of another site, so it was not made.",
                "Make the change on casewright's own page.",
            ),
        )
    request.state.nonce = token_urlsafe(12)
    answer = await call_next(request)
    if not request.url.path.startswith("/api/docs"):
        answer.headers["Content-Security-Policy"] = POLICY.format(nonce=request.state.nonce)
    answer.headers["X-Content-Type-Options"] = "nosniff"
    answer.headers["Referrer-Policy"] = "same-origin"
    return answer
