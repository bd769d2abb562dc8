"""Other devices than the machine itself: asked for the code, let in once paired, put out when revoked."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest
from fastapi import FastAPI

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.packet.shop_packet import PacketContents
from casewright.store.event_rows import events_after
from casewright.web.device_gate import COOKIE
from casewright.web.opened_network import OpenedNetwork
from casewright.web.routes import modules
from web_bench import JOB, Client

AWAY = "192.168.1.9"


class Phone(Client):
    """A device that keeps its cookie."""

    def __init__(self, app: FastAPI) -> None:
        super().__init__(app, AWAY)
        self.token = ""

    def ask(self, method: str, path: str, **sent: Any) -> Any:
        if self.token:
            sent["headers"] = {**sent.get("headers", {}), "cookie": f"{COOKIE}={self.token}"}
        return super().ask(method, path, **sent)

    def pair(self, name: str = "phone at the saw", to: str = "/") -> Any:
        sent = {"code": self.app.state.desk.code, "name": name, "to": to}
        answer = self.post("/pair", data=sent)
        if set_cookie := answer.headers.get("set-cookie"):
            self.token = re.match(rf"{COOKIE}=([\w-]+);", set_cookie)[1]  # type: ignore[index]
        return answer


@pytest.fixture
def phone(app: FastAPI) -> Phone:
    return Phone(app)


def opened() -> OpenedNetwork:
    return OpenedNetwork(("https://192.168.1.20:8412",), b"certificate", "AA:BB", None)  # type: ignore[arg-type]


def test_a_stranger_gets_the_page_that_asks_for_the_code_and_nothing_else(phone: Phone) -> None:
    answer = phone.get("/jobs/larder/parts?by=case")
    assert answer.status_code == 303
    path, _, query = answer.headers["location"].partition("?to=")
    assert (path, unquote(query)) == ("/pair", "/jobs/larder/parts?by=case")
    page = phone.get(answer.headers["location"])
    assert page.status_code == 200 and "Pair this device" in page.text
    assert "Larder" not in page.text and phone.app.state.desk.code not in page.text
    assert phone.get("/static/css/ink.css").status_code == 200


def test_a_form_sent_from_a_device_put_out_leads_to_pairing_and_back_to_its_page(phone: Phone) -> None:
    """It was told to open /pair, in words that could not be pressed."""
    at = "http://bench/jobs/larder/runs/0"
    sent = ({"HX-Request": "true", "HX-Current-URL": f"{at}?x=1"}, {"referer": f"{at}?x=1"})
    for headers in sent:
        answer = phone.post("/jobs/larder/runs/0", data={"x": "1"}, headers=headers)
        assert answer.status_code == 401
        link = re.search(r'href="/pair\?to=([^"]+)"', answer.text)
        assert link and unquote(link[1]) == "/jobs/larder/runs/0?x=1"


def test_no_route_answers_a_stranger(phone: Phone) -> None:
    """Every path and method there is, with the job that there is."""
    asked = 0
    for module in modules():
        for route in module.router.routes:
            path = re.sub(
                r"\{(\w+)(:path)?\}", lambda found: {"job": "larder"}.get(found[1], "1"), route.path
            )
            for method in route.methods:
                answer = phone.ask(method, path, headers={"accept": "application/json"})
                if path not in ("/pair", "/certificate.crt"):
                    assert answer.status_code == 401, (method, path)
                    assert answer.json()["error"]["code"] == "not-paired"
                asked += 1
    assert asked > 80
    for path in ("/api/openapi.json", "/static/js/tap.js", "/static/css/../js/tap.js", "/nowhere"):
        assert phone.get(path, headers={"accept": "application/json"}).status_code == 401, path


def test_a_paired_device_does_everything_until_it_is_revoked(
    phone: Phone, client: Client, saved: KeptJobs
) -> None:
    paired = phone.pair(to="/jobs/larder/shop")
    assert (paired.status_code, paired.headers["location"]) == (303, "/jobs/larder/shop")
    cookie = paired.headers["set-cookie"].lower()
    assert all(said in cookie for said in ("httponly", "secure", "samesite=lax", "path=/"))
    assert "domain" not in cookie
    assert phone.get("/jobs/larder").status_code == 200
    page = client.get("/devices").text
    revoke = re.search(r'action="(/devices/[\w-]+/revoke)"', page)
    assert "phone at the saw" in page and revoke
    assert client.post(revoke[1]).status_code == 303
    assert phone.get("/jobs/larder").status_code == 303
    assert "phone at the saw" not in client.get("/devices").text


def test_only_the_machine_itself_lists_and_revokes_devices_and_goes_back_to_backups(phone: Phone) -> None:
    phone.pair()
    for method, path in (
        ("GET", "/devices"),
        ("POST", "/devices/x/revoke"),
        ("GET", "/backup"),
        ("GET", "/backup/file"),
        ("POST", "/backup/restore/confirm"),
    ):
        answer = phone.ask(method, path, data={"key": "k"} if method == "POST" else None)
        assert answer.status_code == 403 and "machine that casewright runs on" in answer.text, path


def test_a_wrong_code_is_said_beside_it_and_guessing_is_stopped(phone: Phone, app: FastAPI) -> None:
    wrong = "1" * 8 if app.state.desk.code != "1" * 8 else "2" * 8
    sent = {"code": wrong, "name": "phone", "to": "/jobs/larder"}
    for _ in range(5):
        answer = phone.post("/pair", data=sent)
        assert answer.status_code == 403 and "not the code on the screen" in answer.text
        assert f'value="{wrong}"' in answer.text and 'value="/jobs/larder"' in answer.text
    answer = phone.pair()
    assert answer.status_code == 429 and "wait a minute" in answer.text
    assert phone.get("/").status_code == 303


@pytest.mark.parametrize(
    "to", ["//elsewhere.example", "https://elsewhere.example", "/\\elsewhere.example", "/\n/x", ""]
)
def test_pairing_leads_to_no_other_site(phone: Phone, to: str) -> None:
    assert phone.pair(to=to).headers["location"] == "/"


@pytest.mark.parametrize("address", ["127.0.0.1", "::1", "127.0.0.53"])
def test_the_machine_itself_needs_no_code(app: FastAPI, address: str) -> None:
    assert Client(app, address).get("/jobs/larder").status_code == 200


@pytest.mark.parametrize("header", ["x-forwarded-for", "forwarded", "x-real-ip"])
def test_nobody_becomes_the_machine_itself_by_saying_so(phone: Phone, header: str) -> None:
    assert phone.get("/", headers={header: "127.0.0.1"}).status_code == 303


def test_what_a_device_did_has_its_name_in_the_history(phone: Phone, saved: KeptJobs, client: Client) -> None:
    phone.pair("phone at the saw")
    change = {"entries": [{"path": "runs.0.opening", "value": 64}], "based_on": 1}
    assert phone.ask("PATCH", "/api/jobs/larder", json=change).json()["revision"] == 2
    assert [revision.device for revision in saved.history("larder")] == ["phone at the saw", ""]
    assert "on phone at the saw" in client.get("/jobs/larder/history").text
    event = {"id": "e1", "bench": "saw", "seq": 1, "at": "2026-11-29T10:00:00Z", "kind": "claimed"}
    event |= {"parts": ["B1-L"]}
    answer = phone.ask("POST", "/jobs/larder/shop/events", json={"events": [event]}).json()
    assert answer["kept"] == ["e1"], answer
    assert [row.device for row in events_after(saved.file, "larder")] == ["phone at the saw"]


def test_the_page_shows_the_code_and_addresses_that_work_elsewhere(client: Client, app: FastAPI) -> None:
    assert "start casewright with <code>casewright serve</code>" in client.get("/devices").text
    app.state.network = opened()
    page = client.get("/devices").text
    code = app.state.desk.code
    assert "https://192.168.1.20:8412" in page and f"{code[:4]} {code[4:]}" in page and "<svg" in page
    assert client.get("/certificate.crt").content == b"certificate"
    scanned = Phone(app).get(f"/pair?code={code}").text
    assert f'value="{code}"' in scanned and "install the certificate" in scanned


def test_codes_printed_from_the_page_lead_to_the_network(
    client: Client, app: FastAPI, saved: KeptJobs, monkeypatch: pytest.MonkeyPatch
) -> None:
    printed: list[str] = []

    def note(of: PacketContents) -> bytes:
        printed.append(of.address)
        return b""

    monkeypatch.setattr("casewright.app.papers.packet_files.packet", note)
    # A job of its own: papers are kept, and no other test is to be given this empty one.
    saved.start(JOB.replace("Larder", "Scullery"))
    client.get("/jobs/scullery/sheets/progress")
    client.get("/jobs/scullery/papers/packet.pdf")
    app.state.network = opened()
    client.get("/jobs/scullery/papers/packet.pdf")
    client.get("/jobs/scullery/papers/everything.zip")
    assert printed == ["casewright:part/", "https://192.168.1.20:8412/jobs/scullery/shop#"]


def test_a_device_shown_a_backup_of_before_stays_out(tmp_path: Path) -> None:
    """Going back to a backup does not bring a revoked device back; see also tests/store/test_copies.py."""
    from casewright.app.jobs.backups import back_up, opened_copy, put_backup_back
    from casewright.web.web_app import make_app

    saved = KeptJobs.open(tmp_path / "shop")
    saved.start(JOB)
    app = make_app(saved)
    phone = Phone(app)
    phone.pair()
    back_up(tmp_path / "shop", tmp_path / "copy")
    app.state.desk.revoke(app.state.desk.devices()[0].id)
    with opened_copy(tmp_path / "copy") as copy:
        put_backup_back(tmp_path / "shop", copy, saved.clock())
    assert phone.get("/jobs/larder").status_code == 303
