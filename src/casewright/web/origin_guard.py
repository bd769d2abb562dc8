"""Protection of a server on the maker's own machine from other sites' pages.

A page from elsewhere, open in the same browser, can send forms to 127.0.0.1, can load what it finds there,
and can have a name of its own point there. So a change is only taken from a page of our own, files are only
given to our own pages, only names that belong to this network are answered, and pages may run no script but
ours.
"""

from __future__ import annotations

from ipaddress import ip_address
from secrets import token_urlsafe
from urllib.parse import urlsplit

from fastapi import Request
from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from .refusals import Refusal, refusal_of, respond

LOCAL = (
    ".local",
    ".lan",
    ".home",
    ".home.arpa",
    ".internal",
    ".localhost",
    ".localdomain",
    ".intranet",
    ".private",
    ".fritz.box",
)
"""Endings for local use: those set apart for it (RFC 6761, RFC 6762, RFC 8375, ICANN's `.internal`), and what
common routers give out. Of the latter the internet's root holds none but `box`, where `fritz.box` belongs to
the router's maker."""

SAFE = ("GET", "HEAD", "OPTIONS")
POLICY = (
    "default-src 'self'; img-src 'self' data: blob:; style-src 'self' 'unsafe-inline'; "
    "script-src 'self' 'nonce-{nonce}'; connect-src 'self' blob:; object-src 'none'; "
    "frame-ancestors 'none'; base-uri 'none'; form-action 'self'"
)
HEADERS = {
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
}


class OriginGuard:
    """Checks every request, and sets the security headers of every answer, a refusal's among them."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer the request, whatever happens."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope, receive)
        request.state.nonce = token_urlsafe(12)
        begun = False

        async def with_headers(message: Message) -> None:
            nonlocal begun
            if message["type"] == "http.response.start":
                begun = True
                headers = MutableHeaders(scope=message)
                headers["Content-Security-Policy"] = POLICY.format(nonce=request.state.nonce)
                for name, value in HEADERS.items():
                    headers[name] = value
            await send(message)

        refusal = refusal_from(request)
        if refusal is None:
            try:
                await self.app(scope, receive, with_headers)
                return
            except Exception as fault:
                if begun:
                    raise
                refusal = refusal_of(fault)
        await respond(request, refusal)(scope, receive, with_headers)


def refusal_from(request: Request) -> Refusal | None:
    """Why a request from elsewhere is not answered; None for one of our own pages or the maker's own hand."""
    host = request.url.hostname or ""
    if not of_this_network(host):
        return Refusal(
            403,
            "name-from-elsewhere",
            f"This machine does not answer to the name {host}.",
            "Use the address that casewright printed when it started.",
        )
    if request.method in SAFE:
        if _fetched_by_another_site(request):
            text = "A page of another site asked for this, so it was not given."
            return Refusal(403, "fetched-from-elsewhere", text, "Open it from casewright's own page.")
        return None
    origin = request.headers.get("origin")
    elsewhere = origin and urlsplit(origin).netloc != request.headers.get("host")
    # Browsers say where a request comes from (Fetch Metadata, W3C); "none" is the maker's own hand.
    if elsewhere or request.headers.get("sec-fetch-site", "none") not in ("same-origin", "none"):
        return Refusal(
            403,
            "from-elsewhere",
            "This change came from a page of another site, so it was not made.",
            "Make the change on casewright's own page.",
        )
    return None


def of_this_network(host: str) -> bool:
    """Whether a host is an address, a plain machine name, or a name kept for local networks."""
    try:
        ip_address(host.strip("[]"))
    except ValueError:
        return "." not in host or host.endswith(LOCAL)
    return True


def _fetched_by_another_site(request: Request) -> bool:
    """Whether another site's page loads this into itself. To follow a link from there is no harm."""
    headers = request.headers
    return headers.get("sec-fetch-site") == "cross-site" and headers.get("sec-fetch-mode") != "navigate"
