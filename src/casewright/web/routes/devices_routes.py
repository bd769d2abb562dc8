"""Phones and tablets of the shop's network: paired here, and put out again on the machine itself."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, Depends, Form, HTTPException, Request, Response
from fastapi.responses import RedirectResponse

from ...app.devices.pairing import LONGEST_NAME, PairingRefused
from ...app.devices.pairing_links import code_for_page
from ...errors import StoreError
from ..device_gate import COOKIE, desk_of
from ..network_switch import switch_of
from ..opened_network import network_of
from ..rendering import page
from ..this_machine import for_this_machine

router = APIRouter(include_in_schema=False)

YEAR = 366 * 24 * 3600

HERE_ONLY = [Depends(for_this_machine)]


@router.get("/pair")
def pairing_page(request: Request, code: str = "", to: str = "/") -> Response:
    """The form that asks a device for the code; a scanned code stands in it already."""
    return _form(request, code, "", to)


@router.post("/pair")
def post_pairing(
    request: Request,
    code: Annotated[str, Form()] = "",
    name: Annotated[str, Form()] = "",
    to: Annotated[str, Form()] = "/",
) -> Response:
    """Let the device in, or ask again with the reason."""
    try:
        token = desk_of(request).pair(code, name)
    except PairingRefused as refused:
        return _form(request, code, name, to, str(refused), refused.status)
    except StoreError as refused:
        return _form(request, code, name, to, str(refused), 409)
    answer = RedirectResponse(_within(to), 303)
    answer.set_cookie(COOKIE, token, max_age=YEAR, secure=True, httponly=True, samesite="lax")
    return answer


@router.get("/certificate.crt")
def certificate(request: Request) -> Response:
    """What a device installs so that it trusts this machine."""
    network = network_of(request)
    if network is None:
        raise HTTPException(404, "There is no certificate until casewright is open to the shop's network.")
    return Response(network.to_install, media_type="application/x-x509-ca-cert")


@router.get("/devices", dependencies=HERE_ONLY)
def devices_page(request: Request) -> Response:
    """The switch that opens the shop's network, the code to pair a device with, and the devices let in."""
    return _devices(request)


@router.post("/devices/network", dependencies=HERE_ONLY)
def post_network(request: Request, state: Annotated[Literal["open", "closed"], Form()]) -> Response:
    """Open the shop's network to paired devices, or close it."""
    switch = switch_of(request)
    if switch is None:
        raise HTTPException(409, "Nothing can be opened here; start casewright with `casewright serve`.")
    if state == "closed":
        switch.close()
        return RedirectResponse("/devices", 303)
    try:
        switch.open()
    except StoreError as refused:
        return _devices(request, str(refused), 409)
    return RedirectResponse("/devices", 303)


@router.post("/devices/{device}/revoke", dependencies=HERE_ONLY)
def post_revocation(request: Request, device: str) -> Response:
    """Let a device in no more."""
    desk_of(request).revoke(device)
    return RedirectResponse("/devices", 303)


def _devices(request: Request, why: str = "", status: int = 200) -> Response:
    network, desk = network_of(request), desk_of(request)
    return page(
        request,
        "devices/list.html",
        status=status,
        why=why,
        can_switch=switch_of(request) is not None,
        network=network,
        code=desk.code,
        picture=code_for_page(network.pairing_address(desk.code)) if network else "",
        devices=desk.devices(),
    )


def _form(request: Request, code: str, name: str, to: str, why: str = "", status: int = 200) -> Response:
    return page(
        request,
        "devices/pair.html",
        status=status,
        code=code,
        name=name,
        to=_within(to),
        why=why,
        longest=LONGEST_NAME,
        network=network_of(request),
    )


def _within(to: str) -> str:
    """A path of ours; the list of jobs for anything that a browser could read as another host's address."""
    inside = to.startswith("/") and not to.startswith("//") and "\\" not in to and to.isprintable()
    return to if inside else "/"
