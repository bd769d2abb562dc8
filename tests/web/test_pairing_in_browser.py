"""A phone is paired as its owner does it: the code scanned, a name typed, over the certificate made here."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import uvicorn
from playwright.sync_api import Browser, Page, expect

from casewright.app.devices.pairing import PairingDesk
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.shop.shop_floor import hand_out, read_record
from casewright.record.events import Done
from casewright.web import device_gate
from casewright.web.network_switch import SETTINGS
from casewright.web.opened_network import OpenedNetwork, open_network
from casewright.web.server import listen
from casewright.web.web_app import make_app
from planned_once import planned_once
from web.test_in_browser import PHONE, browser, chromium, open_page  # noqa: F401
from web_bench import JOB

pytestmark = pytest.mark.browser


@pytest.fixture
def network(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[tuple[OpenedNetwork, KeptJobs, PairingDesk]]:
    """The app on a network that is only this machine's own, where nobody is taken for the machine itself."""
    monkeypatch.setattr(device_gate, "is_this_machine", lambda _: False)
    monkeypatch.setattr("casewright.web.opened_network.addresses_here", lambda: ("127.0.0.1",))
    saved = KeptJobs.open(tmp_path / "shop")
    saved.start(JOB)
    listening = listen("127.0.0.1", 0)
    app = make_app(saved, 0.1)
    app.state.network = opened = open_network(tmp_path / "shop", listening.getsockname()[1])
    config = uvicorn.Config(app, **SETTINGS)
    config.load()
    config.ssl = opened.tls
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield opened, saved, app.state.desk
    server.should_exit = True
    thread.join(10)
    listening.close()


def test_a_phone_is_paired_by_the_scanned_code_and_changes_the_job(
    browser: Browser,  # noqa: F811
    network: tuple[OpenedNetwork, KeptJobs, PairingDesk],
) -> None:
    opened, saved, desk = network
    # What a part's label leads to, before this phone is known.
    page = open_page(browser, f"{opened.address}/jobs/larder", PHONE, ignore_https_errors=True)
    page.get_by_role("heading", name="Pair this device").wait_for()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), "nothing hangs over the side"
    page.get_by_label("The code").fill("1234")
    page.get_by_label("A name for this device").fill("Phone at the saw")
    page.get_by_role("button", name="Pair").click()
    page.get_by_text("not the code on the screen").wait_for()
    assert page.get_by_label("A name for this device").input_value() == "Phone at the saw"

    page.goto(opened.pairing_address(desk.code))
    page.get_by_label("A name for this device").fill("Phone at the saw")
    page.get_by_role("button", name="Pair").click()
    page.get_by_role("link", name="Larder").wait_for()
    assert page.evaluate("document.cookie") == ""
    page.goto(f"{opened.address}/jobs/larder/runs/0")
    opening = page.locator('[name="runs.0.opening"]')
    opening.fill("66 1/2")
    opening.press("Tab")
    page.get_by_text("Saved as revision 2").wait_for()
    assert saved.history("larder")[0].device == "Phone at the saw"
    page.context.close()  # before the server: it holds connections open


def hand_out_larder(saved: KeptJobs) -> None:
    hand_out(saved.file, "larder", 1, planned_once(JOB).plans, "issue-1", saved.clock())


def pair(page: Page, desk: PairingDesk) -> None:
    page.get_by_label("The code").fill(desk.code)
    page.get_by_label("A name for this device").fill("Phone at the saw")
    page.get_by_role("button", name="Pair").click()


def test_a_label_scanned_before_pairing_opens_its_part_after_it(
    browser: Browser,  # noqa: F811
    network: tuple[OpenedNetwork, KeptJobs, PairingDesk],
) -> None:
    """The mark behind the `#` never reaches the server, and was lost."""
    opened, saved, desk = network
    hand_out_larder(saved)
    label = f"{opened.part_address('larder')}B1-L"
    page = open_page(browser, label, PHONE, ignore_https_errors=True)
    page.get_by_label("The code").fill("1234")
    page.get_by_label("A name for this device").fill("Phone")
    page.get_by_role("button", name="Pair").click()
    page.get_by_text("not the code on the screen").wait_for()
    pair(page, desk)
    expect(page.locator("#part-mark")).to_have_text("B1-L")
    page.context.close()


def test_a_label_scanned_before_the_pairing_code_is_scanned_opens_its_part(
    browser: Browser,  # noqa: F811
    network: tuple[OpenedNetwork, KeptJobs, PairingDesk],
) -> None:
    opened, saved, desk = network
    hand_out_larder(saved)
    label = f"{opened.part_address('larder')}B1-L"
    page = open_page(browser, label, PHONE, ignore_https_errors=True)
    page.get_by_role("heading", name="Pair this device").wait_for()
    # The camera opens the code's address in a tab of its own.
    scanned = page.context.new_page()
    scanned.goto(opened.pairing_address(desk.code))
    scanned.get_by_label("A name for this device").fill("Phone at the saw")
    scanned.get_by_role("button", name="Pair").click()
    expect(scanned.locator("#part-mark")).to_have_text("B1-L")
    page.context.close()


def test_a_device_put_out_at_the_bench_is_led_to_pairing_and_back_with_what_was_tapped(
    browser: Browser,  # noqa: F811
    network: tuple[OpenedNetwork, KeptJobs, PairingDesk],
) -> None:
    opened, saved, desk = network
    hand_out_larder(saved)
    page = open_page(browser, f"{opened.address}/jobs/larder/shop", PHONE, ignore_https_errors=True)
    pair(page, desk)
    page.locator(".batch").wait_for()
    for _ in range(2):
        page.get_by_role("button", name="Batch ›").click()
    there = page.locator(".batch h1").inner_text()
    desk.revoke(desk.devices()[0].id)
    notice = page.get_by_role("alert").filter(has_text="no longer paired")
    notice.wait_for()
    ticked = page.locator(".tick").first
    key = ticked.get_attribute("data-step")
    ticked.click()
    expect(page.locator("#shop-status")).to_contain_text("1 saved here, not sent yet")
    assert not read_record(saved.file, "larder").events

    notice.get_by_role("link", name="Pair this device").click()
    pair(page, desk)
    expect(page.locator(".batch h1")).to_have_text(there)
    expect(page.locator("#shop-status")).not_to_contain_text("saved here")
    expect(notice).to_have_count(0)
    (event,) = read_record(saved.file, "larder").events
    assert event.what == Done((str(key),))
    page.context.close()


def test_a_device_put_out_with_a_part_open_comes_back_to_that_part(
    browser: Browser,  # noqa: F811
    network: tuple[OpenedNetwork, KeptJobs, PairingDesk],
) -> None:
    opened, saved, desk = network
    hand_out_larder(saved)
    page = open_page(browser, f"{opened.address}/jobs/larder/shop", PHONE, ignore_https_errors=True)
    pair(page, desk)
    page.get_by_role("button", name="B1-L", exact=True).first.click()
    sheet = page.locator(".part-sheet")
    expect(sheet.locator("#part-mark")).to_have_text("B1-L")
    desk.revoke(desk.devices()[0].id)
    sheet.get_by_role("link", name="Pair this device").click()
    pair(page, desk)
    expect(sheet.locator("#part-mark")).to_have_text("B1-L")
    page.context.close()
