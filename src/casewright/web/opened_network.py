"""The shop's network, opened to paired devices: where they reach this machine, and how it is encrypted."""

from __future__ import annotations

import ssl
from dataclasses import dataclass, field
from pathlib import Path

from fastapi import Request

from ..errors import StoreError
from .shop_network import addresses_here, name_here


@dataclass(frozen=True)
class OpenedNetwork:
    """`addresses` lead to this machine from other devices, the likeliest first; `to_install` is the
    certificate that a device may install, and `fingerprint` the hash it shows of it."""

    addresses: tuple[str, ...]
    to_install: bytes
    fingerprint: str
    tls: ssl.SSLContext = field(repr=False)

    @property
    def address(self) -> str:
        """The address to use."""
        return self.addresses[0]

    def pairing_address(self, code: str) -> str:
        """Where a device is paired that scans this as a square code."""
        return f"{self.address}/pair?code={code}"

    def part_address(self, job: str) -> str:
        """What the mark of a part is put behind, so that a label's square code opens the part on a device."""
        return f"{self.address}/jobs/{job}/shop#"


def network_of(request: Request) -> OpenedNetwork | None:
    """The network that the app is open to; None while it serves its own machine only."""
    network = request.app.state.network
    assert network is None or isinstance(network, OpenedNetwork)
    return network


def open_network(file: Path, port: int) -> OpenedNetwork:
    """The network as it is now, for a server that listens on `port`. StoreError where there is none."""
    addresses = addresses_here()
    if not addresses:
        raise StoreError("this machine is on no network; join one first.")
    names = (*addresses, name_here())
    # The library is only loaded where it is needed: it takes a moment, and few open the network.
    from .certificate import authority_beside, tls_for

    authority = authority_beside(file)
    return OpenedNetwork(
        tuple(f"https://{name}:{port}" for name in names),
        authority.to_install,
        authority.fingerprint,
        tls_for(authority, names),
    )
