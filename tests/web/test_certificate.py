"""The certificate made on the spot: taken by a device that trusts the shop, for local names only."""

from __future__ import annotations

import ssl
import stat
from pathlib import Path

import pytest

from casewright.errors import StoreError
from casewright.web.certificate import Authority, authority_beside, tls_for


def shake_hands(authority: Authority, server: ssl.SSLContext, name: str) -> None:
    """Raise SSLError unless a device that trusts the authority takes what is shown under this name."""
    device = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    device.load_verify_locations(cadata=ssl.DER_cert_to_PEM_cert(authority.to_install))
    to_server, to_device = ssl.MemoryBIO(), ssl.MemoryBIO()
    one = device.wrap_bio(to_device, to_server, server_hostname=name)
    other = server.wrap_bio(to_server, to_device, server_side=True)
    waiting = [one, other]
    while waiting:
        for side in list(waiting):
            try:
                side.do_handshake()
                waiting.remove(side)
            except ssl.SSLWantReadError:
                continue


@pytest.fixture
def authority(tmp_path: Path) -> Authority:
    return authority_beside(tmp_path / "shop")


@pytest.mark.parametrize("name", ["192.168.1.20", "10.0.0.7", "workshop.local", "workshop.fritz.box"])
def test_a_device_that_trusts_the_shop_takes_it(authority: Authority, name: str) -> None:
    shake_hands(authority, tls_for(authority, ["192.168.1.99", name]), name)


def test_it_is_for_the_names_it_was_made_for(authority: Authority) -> None:
    with pytest.raises(ssl.SSLCertVerificationError, match="mismatch"):
        shake_hands(authority, tls_for(authority, ["192.168.1.20"]), "192.168.1.21")


@pytest.mark.parametrize("name", ["bank.example.com", "8.8.8.8"])
def test_the_shops_authority_can_vouch_for_no_site(authority: Authority, name: str) -> None:
    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"):
        shake_hands(authority, tls_for(authority, [name]), name)


def test_another_shops_authority_is_not_trusted(authority: Authority, tmp_path: Path) -> None:
    other = authority_beside(tmp_path / "other")
    with pytest.raises(ssl.SSLCertVerificationError):
        shake_hands(other, tls_for(authority, ["192.168.1.20"]), "192.168.1.20")


def test_it_is_kept_for_the_next_start_where_its_owner_alone_reads_it(tmp_path: Path) -> None:
    first, second = (authority_beside(tmp_path / "shop") for _ in range(2))
    assert first.fingerprint == second.fingerprint and len(first.fingerprint) == 95
    (kept,) = tmp_path.iterdir()
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600
    tls_for(second, ["192.168.1.20"])
    assert list(tmp_path.iterdir()) == [kept]


def test_a_key_that_cannot_be_read_is_said(tmp_path: Path) -> None:
    path = tmp_path / "shop.network-key.pem"
    path.write_bytes(b"no key")
    with pytest.raises(StoreError, match="delete it to have a new one made"):
        authority_beside(tmp_path / "shop")
