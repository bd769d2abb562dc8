"""A certificate made on the spot, so that what devices and this machine say to each other is encrypted.

The shop gets an authority of its own, kept beside its file. It signs a new certificate for today's addresses
at every start. Nobody else vouches for it, so a device warns once; a device on which the authority is
installed does not, and also keeps the shop screen for when the network is away. The authority may vouch for
names and addresses of local networks only: a device that trusts it can be told nothing false about any site.
"""

from __future__ import annotations

import os
import ssl
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address, ip_network
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from ..errors import StoreError
from .origin_guard import LOCAL

AUTHORITY_DAYS, DAYS = 3650, 397  # browsers take none that is good for longer than 398 days
LOCAL_NETWORKS = ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "fc00::/7", "fe80::/10")


class Authority(NamedTuple):
    """The shop's own authority."""

    key: ec.EllipticCurvePrivateKey
    certificate: x509.Certificate

    @property
    def to_install(self) -> bytes:
        """What a device installs to trust it (DER)."""
        return self.certificate.public_bytes(serialization.Encoding.DER)

    @property
    def fingerprint(self) -> str:
        """The hash that a device shows of it, to be compared."""
        return self.certificate.fingerprint(hashes.SHA256()).hex(":").upper()


def authority_beside(file: Path) -> Authority:
    """The authority kept beside the shop's file, made the first time. StoreError when it cannot be."""
    path = file.with_name(f"{file.name}.network-key.pem")
    try:
        if path.exists():
            kept = path.read_bytes()
            key = serialization.load_pem_private_key(kept, None)
            certificate = x509.load_pem_x509_certificate(kept)
            if isinstance(key, ec.EllipticCurvePrivateKey) and certificate.not_valid_after_utc > _now():
                return Authority(key, certificate)
        made = _new_authority()
        # Readable by its owner alone from the first moment.
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        with os.fdopen(handle, "wb") as out:
            out.write(_as_pem(made.key) + _certificate_as_pem(made.certificate))
    except (OSError, ValueError) as fault:
        raise StoreError(
            f"{path}, the key for the shop's network, cannot be read or written ({fault}); "
            "delete it to have a new one made, or serve this machine only."
        ) from fault
    return made


def tls_for(authority: Authority, names: Sequence[str]) -> ssl.SSLContext:
    """The encryption of a server that is reached by these names and addresses."""
    key = ec.generate_private_key(ec.SECP256R1())
    reached = [
        x509.IPAddress(ip_address(name)) if _is_address(name) else x509.DNSName(name) for name in names
    ]
    certificate = (
        _begun("casewright", authority.certificate.subject, key, DAYS)
        .add_extension(x509.SubjectAlternativeName(reached), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .sign(authority.key, hashes.SHA256())
    )
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    with TemporaryDirectory(prefix="casewright-") as folder:  # the ssl module reads keys from files only
        path = Path(folder, "chain.pem")
        chain = [certificate, authority.certificate]
        path.touch(0o600)
        path.write_bytes(_as_pem(key) + b"".join(map(_certificate_as_pem, chain)))
        context.load_cert_chain(path)
    return context


def _new_authority() -> Authority:
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "casewright in this shop")])
    local = [x509.DNSName(ending.removeprefix(".")) for ending in LOCAL]
    networks = [x509.IPAddress(ip_network(network)) for network in LOCAL_NETWORKS]
    certificate = (
        _begun("casewright in this shop", name, key, AUTHORITY_DAYS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(x509.NameConstraints([*local, *networks], None), critical=True)
        .sign(key, hashes.SHA256())
    )
    return Authority(key, certificate)


def _begun(
    name: str, issuer: x509.Name, key: ec.EllipticCurvePrivateKey, days: int
) -> x509.CertificateBuilder:
    start = _now() - timedelta(days=1)  # a tablet's clock may be behind
    return (
        x509.CertificateBuilder()
        .subject_name(x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)]))
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(start)
        .not_valid_after(start + timedelta(days=days))
    )


def _as_pem(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def _certificate_as_pem(certificate: x509.Certificate) -> bytes:
    return certificate.public_bytes(serialization.Encoding.PEM)


def _is_address(name: str) -> bool:
    try:
        ip_address(name)
    except ValueError:
        return False
    return True


def _now() -> datetime:
    return datetime.now(UTC)
