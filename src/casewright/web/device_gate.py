"""Who is answered: this machine itself, and paired devices. Others get the page that asks for the code."""

from __future__ import annotations

from urllib.parse import quote, urlsplit

from fastapi import Request
from fastapi.responses import RedirectResponse
from starlette.types import ASGIApp, Receive, Scope, Send

from ..app.devices.pairing import PairingDesk
from .refusals import Refusal, respond, wants_json
from .this_machine import is_this_machine

COOKIE = "__Host-casewright"
"""So named, browsers send it over HTTPS alone and to this host alone (RFC 6265bis)."""

FOR_ALL = ("/pair", "/certificate.crt")
LOOKS = ("/static/css/", "/static/mark.svg", "/static/js/pair.js")


class DeviceGate:
    """Lets this machine and paired devices through. Says in the request's state which device it is."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let the request through, or send it to the pairing page."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope, receive)
        request.state.device = ""
        if not is_this_machine(scope):
            device = desk_of(request).who_shows(request.cookies.get(COOKIE, ""))
            if device is None and request.url.path not in FOR_ALL and not request.url.path.startswith(LOOKS):
                await _to_pairing(request)(scope, receive, send)
                return
            request.state.device = device.name if device else ""
        await self.app(scope, receive, send)


def desk_of(request: Request) -> PairingDesk:
    """Where devices are paired."""
    desk = request.app.state.desk
    assert isinstance(desk, PairingDesk)
    return desk


def _to_pairing(request: Request) -> ASGIApp:
    if request.method == "GET" and not wants_json(request) and not request.headers.get("hx-request"):
        return RedirectResponse(_pairing_for(str(request.url)), 303)
    text = "This device is not paired with casewright, so nothing was done."
    fix = "Pair it with the code on the screen of the machine that casewright runs on."
    # The page it was sent from: what is behind `#` is for that page's own script to add.
    page = request.headers.get("hx-current-url") or request.headers.get("referer") or "/"
    return respond(request, Refusal(401, "not-paired", text, fix, link=_pairing_for(page)))


def _pairing_for(address: str) -> str:
    """The pairing page, which leads back to this address of ours."""
    _, _, path, query, _ = urlsplit(address)
    return f"/pair?to={quote(path + (f'?{query}' if query else ''), safe='')}"
