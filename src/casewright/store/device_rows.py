"""Devices that may use the jobs over the shop's network, until they are revoked."""

from __future__ import annotations

from dataclasses import astuple, dataclass

from ..errors import StoreError
from .shop_file import StoreFile


@dataclass(frozen=True)
class DeviceRow:
    """A device: the hash of what it shows to be let in, and since when; `revoked` is when that ended."""

    id: str
    name: str
    token_hash: str
    paired: str
    revoked: str | None = None


def list_devices(file: StoreFile) -> tuple[DeviceRow, ...]:
    """The devices that are let in, the first paired first."""
    with file.reading() as connection:
        rows = connection.execute(
            "SELECT * FROM device WHERE revoked IS NULL ORDER BY paired, name"
        ).fetchall()
    return tuple(DeviceRow(**dict(row)) for row in rows)


def device_that_shows(file: StoreFile, token_hash: str) -> DeviceRow | None:
    """The device with this hash; None when there is none, or it was revoked."""
    with file.reading() as connection:
        row = connection.execute(
            "SELECT * FROM device WHERE token_hash = ? AND revoked IS NULL", (token_hash,)
        ).fetchone()
    return None if row is None else DeviceRow(**dict(row))


def add_device(file: StoreFile, device: DeviceRow) -> None:
    """Let a device in. StoreError when another of that name is let in already: the history names them."""
    with file.writing() as connection:
        taken = connection.execute(
            "SELECT 1 FROM device WHERE name = ? AND revoked IS NULL", (device.name,)
        ).fetchone()
        if taken:
            raise StoreError(f"Another device is called “{device.name}”; give this one another name.")
        connection.execute("INSERT INTO device VALUES (?, ?, ?, ?, ?)", astuple(device))


def revoke_device(file: StoreFile, device: str, when: str) -> None:
    """Let a device in no more. What it did stays in the history."""
    with file.writing() as connection:
        connection.execute("UPDATE device SET revoked = ? WHERE id = ?", (when, device))
