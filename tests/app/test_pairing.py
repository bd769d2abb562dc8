"""Devices are let in by the code on the screen, and by nothing else."""

from __future__ import annotations

from pathlib import Path

import pytest

from casewright.app.devices.pairing import DIGITS, TRIES, TRIES_SECONDS, PairingDesk, PairingRefused
from casewright.errors import StoreError
from casewright.store.shop_file import open_file


class Desk(PairingDesk):
    """One whose clock the test moves on."""

    at = 0.0


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    made = Desk(open_file(tmp_path / "shop"), lambda: "2026-11-29T10:00:00Z", lambda: made.at)
    return made


def test_a_device_with_the_code_is_known_until_it_is_revoked(desk: Desk) -> None:
    token = desk.pair(f" {desk.code[:4]} {desk.code[4:]}", "  blue   tablet ")
    known = desk.who_shows(token)
    assert known is not None and known.name == "blue tablet"
    assert [device.name for device in desk.devices()] == ["blue tablet"]
    desk.revoke(known.id)
    assert desk.who_shows(token) is None and desk.devices() == ()


def test_a_code_is_good_for_one_device(desk: Desk) -> None:
    code = desk.code
    assert len(code) == DIGITS and code.isdigit()
    desk.pair(code, "one")
    assert desk.code != code
    with pytest.raises(PairingRefused, match="not the code"):
        desk.pair(code, "two")


def test_the_file_holds_nothing_that_lets_anybody_in(desk: Desk, tmp_path: Path) -> None:
    token = desk.pair(desk.code, "one")
    kept = b"".join(path.read_bytes() for path in tmp_path.iterdir())
    assert token.encode() not in kept
    (device,) = desk.devices()
    assert desk.who_shows(device.token_hash) is None
    assert desk.who_shows("") is None and desk.who_shows("\ud800") is None


def test_guessing_is_stopped_after_a_few_tries_and_may_go_on_later(desk: Desk) -> None:
    wrong = "0" * DIGITS if desk.code != "0" * DIGITS else "1" * DIGITS
    for _ in range(TRIES):
        with pytest.raises(PairingRefused, match="not the code") as refused:
            desk.pair(wrong, "thief")
        assert refused.value.status == 403
    with pytest.raises(PairingRefused, match="wait a minute") as refused:
        desk.pair(desk.code, "mine")  # the right code does not help while tries are used up
    assert refused.value.status == 429
    desk.at = TRIES_SECONDS - 0.5
    with pytest.raises(PairingRefused, match="wait a minute"):
        desk.pair(desk.code, "mine")
    desk.at = TRIES_SECONDS
    assert desk.pair(desk.code, "mine")


@pytest.mark.parametrize("name", ["", "  ", "x" * 41, "a\x07b", "a\u202eb"])
def test_a_name_that_cannot_stand_in_the_history_is_refused_and_the_code_stays(desk: Desk, name: str) -> None:
    code = desk.code
    with pytest.raises(PairingRefused, match="name of 1 to 40"):
        desk.pair(code, name)
    assert desk.code == code and desk.devices() == ()


def test_two_devices_have_two_names(desk: Desk) -> None:
    desk.pair(desk.code, "phone")
    code = desk.code
    with pytest.raises(StoreError, match="Another device is called “phone”"):
        desk.pair(code, "phone")
    assert desk.pair(code, "phone 2")
