"""The shop's network is opened and closed on the page, by the machine itself alone."""

from __future__ import annotations

import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from functools import partial
from pathlib import Path

import httpx
import pytest
from fastapi import FastAPI

from casewright.errors import StoreError
from casewright.web.network_switch import NetworkSwitch
from casewright.web.shop_network import addresses_here
from web_bench import Client

AWAY = "192.168.1.9"
OPEN, CLOSED = {"state": "open"}, {"state": "closed"}
on_a_network = pytest.mark.skipif(not addresses_here(), reason="this machine is on no network")


@pytest.fixture
def served(tmp_path: Path) -> Iterator[str]:
    """The address of a server in a process of its own."""
    words = [sys.executable, "-m", "casewright.cli", "serve", str(tmp_path / "shop"), "--port", "0"]
    heeds = partial(signal.signal, signal.SIGINT, signal.SIG_DFL)
    with subprocess.Popen(
        [*words, "--no-browser"], stderr=subprocess.PIPE, text=True, preexec_fn=heeds
    ) as server:
        try:
            assert server.stderr is not None
            address = re.search(r"http://\S+", server.stderr.readline())
            assert address
            yield address[0]
        finally:
            server.send_signal(signal.SIGINT)
        said = server.stderr.read()
        assert server.wait(timeout=60) == 130
    assert said == "stopped.\n"


def switched(address: str, state: dict[str, str]) -> str:
    """The page of devices once the switch was thrown."""
    with httpx.Client(base_url=address, timeout=60, follow_redirects=True) as here:
        answer = here.post("/devices/network", data=state)
    assert answer.status_code == 200
    return answer.text


def outside_of(page: str) -> str:
    found = re.search(r"https://[\d.]+:\d+", page)
    assert found, page
    return found[0]


@on_a_network
def test_it_is_opened_closed_and_opened_again_while_the_server_runs(served: str) -> None:
    page = httpx.get(f"{served}/devices", timeout=60).text
    assert "Only this machine can see the jobs now" in page and "https://" not in page
    page = switched(served, OPEN)
    outside = outside_of(page)
    code = re.search(r"<b>(\d{4}) (\d{4})</b>", page)
    assert code and "<svg" in page and switched(served, OPEN).count(outside) == page.count(outside)
    with httpx.Client(base_url=outside, verify=False, timeout=60) as device:
        assert device.get("/").headers["location"] == "/pair?to=%2F"
        sent = {"code": code[1] + code[2], "name": "phone", "to": "/"}
        device.headers["origin"] = outside
        assert device.post("/pair", data=sent).status_code == 303
        assert device.get("/").status_code == 200
        answer = device.post("/devices/network", data=CLOSED)
        assert answer.status_code == 403 and "machine that casewright runs on" in answer.text
    with pytest.raises(httpx.TransportError):
        httpx.get(outside.replace("https", "http"), timeout=60)
    assert "Only this machine can see the jobs now" in switched(served, CLOSED)
    with pytest.raises(httpx.ConnectError):
        httpx.get(outside, verify=False, timeout=60)
    assert httpx.get(served, timeout=60).status_code == 200
    again = outside_of(switched(served, OPEN))
    assert httpx.get(f"{again}/pair", verify=False, timeout=60).status_code == 200


def with_switch(app: FastAPI) -> list[str]:
    """What the app's switch is asked for, in place of doing it."""
    asked: list[str] = []

    class Noted(NetworkSwitch):
        def __init__(self) -> None:
            pass

        def open(self) -> None:  # type: ignore[override]
            asked.append("open")
            raise StoreError("this machine is on no network; join one first.")

        def close(self) -> None:
            asked.append("close")

    app.state.switch = Noted()
    return asked


@pytest.mark.parametrize("state", [OPEN, CLOSED])
def test_no_other_device_throws_the_switch_paired_or_not(app: FastAPI, state: dict[str, str]) -> None:
    asked = with_switch(app)
    phone = Client(app, AWAY)
    json = {"accept": "application/json"}
    assert phone.ask("POST", "/devices/network", data=state, headers=json).status_code == 401
    token = app.state.desk.pair(app.state.desk.code, "phone")
    paired = {**json, "cookie": f"__Host-casewright={token}"}
    assert phone.ask("GET", "/", headers=paired).status_code == 200
    assert phone.ask("POST", "/devices/network", data=state, headers=paired).status_code == 403
    assert asked == []


def test_nor_does_a_page_of_another_site(app: FastAPI, client: Client) -> None:
    asked = with_switch(app)
    elsewhere = {"origin": "https://elsewhere.example"}
    assert client.ask("POST", "/devices/network", data=OPEN, headers=elsewhere).status_code == 403
    assert asked == []


def test_where_there_is_no_network_the_page_says_so(app: FastAPI, client: Client) -> None:
    asked = with_switch(app)
    answer = client.post("/devices/network", data=OPEN)
    assert answer.status_code == 409 and "on no network; join one first." in answer.text
    assert asked == ["open"] and client.post("/devices/network", data=CLOSED).status_code == 303
    assert client.post("/devices/network", data={"state": "ajar"}).status_code == 422


def test_without_a_server_there_is_nothing_to_open(client: Client) -> None:
    assert client.post("/devices/network", data=OPEN).status_code == 409
    assert "Open to the shop" not in client.get("/devices").text
