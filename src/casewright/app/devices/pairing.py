"""Pairing: a device that shows the code on this machine's screen once is let in until it is revoked.

The code has eight digits and is good for one device. Whoever guesses has so few tries a minute that it would
take years. What the device shows from then on is 256 random bits, of which the shop's file keeps the hash.
"""

from __future__ import annotations

import hashlib
import secrets
import threading
from collections import deque
from collections.abc import Callable
from dataclasses import dataclass, field

from ...errors import CasewrightError
from ...store.device_rows import DeviceRow, add_device, device_that_shows, list_devices, revoke_device
from ...store.shop_file import StoreFile

DIGITS = 8
TRIES, TRIES_SECONDS = 5, 60.0
"""Wrong codes taken from all devices together in so many seconds."""
LONGEST_NAME = 40


class PairingRefused(CasewrightError):
    """The device is not let in; `status` is HTTP's."""

    def __init__(self, text: str, status: int) -> None:
        super().__init__(text)
        self.status = status


def new_code() -> str:
    """A code that nobody can foresee."""
    return "".join(secrets.choice("0123456789") for _ in range(DIGITS))


@dataclass
class PairingDesk:
    """Lets devices in. `clock` gives the time as the store writes it, `seconds` a clock that only runs on."""

    file: StoreFile
    clock: Callable[[], str]
    seconds: Callable[[], float]
    code: str = field(default_factory=new_code)
    _wrong: deque[float] = field(default_factory=deque)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def pair(self, code: str, name: str) -> str:
        """Let the device with this code in; gives the token that it is to show.

        Raises PairingRefused for a wrong code, for too many of them, and for a name that will not do, and
        StoreError for a name that another device has.
        """
        name = " ".join(name.split())
        with self._lock:
            self._check_tries()
            typed = "".join(sign for sign in code if sign.isascii() and sign.isdigit())
            if not secrets.compare_digest(typed, self.code):
                self._wrong.append(self.seconds())
                raise PairingRefused("This is not the code on the screen; look again and retype it.", 403)
            if not name or len(name) > LONGEST_NAME or not name.isprintable():
                raise PairingRefused(f"Give the device a name of 1 to {LONGEST_NAME} characters.", 422)
            token = secrets.token_urlsafe(32)
            add_device(self.file, DeviceRow(secrets.token_urlsafe(9), name, _hash(token), self.clock()))
            self.code = new_code()
        return token

    def _check_tries(self) -> None:
        now = self.seconds()
        while self._wrong and now - self._wrong[0] >= TRIES_SECONDS:
            self._wrong.popleft()
        if len(self._wrong) >= TRIES:
            raise PairingRefused(
                f"{TRIES} wrong codes were typed within a minute; wait a minute, then try again.", 429
            )

    def who_shows(self, token: str) -> DeviceRow | None:
        """The paired device that shows this token; None for anybody else."""
        return device_that_shows(self.file, _hash(token)) if token else None

    def devices(self) -> tuple[DeviceRow, ...]:
        """The devices that are let in."""
        return list_devices(self.file)

    def revoke(self, device: str) -> None:
        """Let a device in no more, from its next request on."""
        revoke_device(self.file, device, self.clock())


def _hash(token: str) -> str:
    # Of a random token a plain hash suffices: there is nothing to guess.
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()
