"""How other devices reach this machine: its addresses on the shop's network, and its name there."""

from __future__ import annotations

import socket
from contextlib import suppress
from ipaddress import ip_address

# Nothing is sent to these: asking for a way there tells from which of this machine's addresses it would go.
# The first is anywhere (RFC 5737); the others are where routers without the internet behind them mostly are.
ELSEWHERE = ("192.0.2.1", "192.168.0.1", "192.168.1.1", "192.168.178.1", "10.0.0.1", "172.16.0.1")


def addresses_here() -> tuple[str, ...]:
    """This machine's addresses of version 4 that others can reach, the one most used first."""
    found: list[str] = []
    # Each may fail: it is on no network, or nobody knows its name.
    for there in ELSEWHERE:
        with suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
            asking.connect((there, 9))
            found.append(asking.getsockname()[0])
    with suppress(OSError):
        entries = socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET)
        found += [str(entry[4][0]) for entry in entries]
    return tuple(address for address in dict.fromkeys(found) if _reachable(address))


def name_here() -> str:
    """The name that phones and tablets find this machine by, where it answers to it (RFC 6762)."""
    return f"{socket.gethostname().partition('.')[0].lower()}.local"


def _reachable(address: str) -> bool:
    read = ip_address(address)
    return not (read.is_loopback or read.is_unspecified or read.is_link_local)
