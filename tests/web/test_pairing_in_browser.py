"""A phone is paired as its owner does it: the code scanned, a name typed, over the certificate made here."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
import uvicorn
from playwright.sync_api import Browser

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.web import device_gate
from casewright.web.opened_network import OpenedNetwork, open_network
from casewright.web.server import SETTINGS, listen
from casewright.web.web_app import make_app
from web.test_in_browser import PHONE, browser, open_page  # noqa: F401
from web_bench import JOB

pytestmark = pytest.mark.browser


@pytest.fixture
def network(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[tuple[OpenedNetwork, KeptJobs, str]]:
    """The app on a network that is only this machine's own, where nobody is taken for the machine itself."""
    monkeypatch.setattr(device_gate, "is_this_machine", lambda _: False)
    monkeypatch.setattr("casewright.web.opened_network.addresses_here", lambda: ("127.0.0.1",))
    saved = KeptJobs.open(tmp_path / "shop")
    saved.start(JOB)
    listening = listen("127.0.0.1", 0)
    app = make_app(saved, 0.3)
    app.state.network = opened = open_network(tmp_path / "shop", listening.getsockname()[1])
    config = uvicorn.Config(app, **SETTINGS)
    config.load()
    config.ssl = opened.tls
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield opened, saved, app.state.desk.code
    server.should_exit = True
    thread.join(10)
    listening.close()


def test_a_phone_is_paired_by_the_scanned_code_and_changes_the_job(
    browser: Browser,  # noqa: F811
    network: tuple[OpenedNetwork, KeptJobs, str],
) -> None:
    opened, saved, code = network
    # What a part's label leads to, before this phone is known.
    page = open_page(browser, f"{opened.address}/jobs/larder", PHONE, ignore_https_errors=True)
    page.get_by_role("heading", name="Pair this device").wait_for()
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), "nothing hangs over the side"
    page.get_by_label("The code").fill("1234")
    page.get_by_label("A name for this device").fill("Phone at the saw")
    page.get_by_role("button", name="Pair").click()
    page.get_by_text("not the code on the screen").wait_for()
    assert page.get_by_label("A name for this device").input_value() == "Phone at the saw"

    page.goto(opened.pairing_address(code))
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
