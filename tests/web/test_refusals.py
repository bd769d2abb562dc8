"""Whatever goes wrong: one shape for programs, one page in plain words for people, no traceback."""

from __future__ import annotations

import json
from urllib.parse import quote

import pytest
from fastapi import FastAPI

from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.errors import LibraryError, StoreError
from web_bench import JOB, Client

MISSING = (
    "/nowhere",
    "/jobs/attic",
    "/jobs/attic/parts",
    "/jobs/larder/cases/Z9",
    "/jobs/larder/parts/Z9-L",
    "/jobs/larder/sizes/Z9.width",
    "/jobs/larder/at/Z9",
    "/jobs/larder/runs/7",
    "/jobs/larder/history/99",
    "/static/nothing.css",
)
API_MISSING = (
    "/api/nowhere",
    "/api/jobs/attic",
    "/api/jobs/larder/sizes/Z9.width",
    "/api/jobs/larder/revisions/9",
)


@pytest.mark.parametrize("path", MISSING)
def test_what_is_not_there_is_said_on_a_page(client: Client, path: str) -> None:
    answer = client.get(path)
    assert answer.status_code == 404
    assert "Traceback" not in answer.text
    assert 'class="refusal"' in answer.text
    assert "Z9" not in path or "Z9" in answer.text


@pytest.mark.parametrize("path", API_MISSING)
def test_what_is_not_there_is_said_to_programs_in_one_shape(client: Client, path: str) -> None:
    answer = client.get(path)
    assert answer.status_code == 404
    assert_shape(answer.json())


def assert_shape(said: dict[str, dict[str, object]]) -> None:
    assert set(said) == {"error"}
    assert set(said["error"]) == {"code", "text", "fix", "findings"}
    assert said["error"]["text"]


def test_every_endpoint_for_programs_refuses_an_unknown_job_in_that_shape(
    app: FastAPI, client: Client
) -> None:
    asked = 0
    for path, methods in app.openapi()["paths"].items():
        for method in methods:
            if "{job}" not in path:
                continue
            address = path.format(job="attic", number=1, name="B1.width", mark="B1", part="B1-L")
            bodies = {
                "put": {"text": JOB, "based_on": 1},
                "patch": {"entries": [{"path": "job"}], "based_on": 1},
            }
            answer = client.ask(method.upper(), address, json=bodies.get(method))
            assert answer.status_code in (404, 422), address
            assert_shape(answer.json())
            asked += 1
    assert asked >= 9


def test_a_request_of_the_wrong_shape_names_the_field(client: Client) -> None:
    answer = client.ask("PUT", "/api/jobs/larder/text", json={"text": 3})
    assert answer.status_code == 422
    assert_shape(answer.json())
    assert "based_on" in answer.text or "text" in answer.text


def test_a_change_that_cannot_be_built_carries_its_findings(client: Client, saved: KeptJobs) -> None:
    sent = {"entries": [{"path": "runs.0.opening", "value": "wide"}], "based_on": 1}
    answer = client.ask("PATCH", "/api/jobs/larder", json=sent)
    assert answer.status_code == 422
    assert_shape(answer.json())
    (finding,) = answer.json()["error"]["findings"]
    assert finding["place"] == "runs.north.opening" and finding["line"]
    assert saved.take("larder").revision.number == 1


def test_programs_change_a_job_and_see_its_sizes(client: Client) -> None:
    sent = {"entries": [{"path": "runs.0.opening", "value": 64}], "based_on": 1}
    assert client.ask("PATCH", "/api/jobs/larder", json=sent).json()["revision"] == 2
    assert client.get("/api/jobs/larder/sizes").json()["run1.opening"] == "64"
    told = client.get("/api/jobs/larder/sizes/B2.width").json()
    assert told["how"] == "share" and told["inches"] == "38"
    late = client.ask("PUT", "/api/jobs/larder/text", json={"text": JOB, "based_on": 1})
    assert late.status_code == 409
    assert_shape(late.json())


@pytest.mark.parametrize("path", ["runs.9.opening", "runs.0.cases.0.mark.deeper", "job.0", "", "runs.x"])
def test_a_path_to_nothing_is_refused_not_guessed_at(client: Client, saved: KeptJobs, path: str) -> None:
    sent = {"entries": [{"path": path, "value": 1}], "based_on": 1}
    answer = client.ask("PATCH", "/api/jobs/larder", json=sent)
    assert 400 <= answer.status_code < 500
    assert_shape(answer.json())
    assert saved.take("larder").revision.number == 1


@pytest.mark.parametrize("half", ["\ud800", "a\udfffb"])
def test_half_a_character_is_refused_and_said(client: Client, saved: KeptJobs, half: str) -> None:
    for method, path, sent in (
        ("POST", "/api/jobs", {"text": f'job = "{half}"'}),
        ("PUT", "/api/jobs/larder/text", {"text": JOB + f"# {half}", "based_on": 1}),
        ("PATCH", "/api/jobs/larder", {"entries": [{"path": "notes", "value": half}], "based_on": 1}),
    ):
        answer = client.ask(
            method, path, content=json.dumps(sent), headers={"content-type": "application/json"}
        )
        assert answer.status_code == 422, (path, answer.text)
        assert_shape(answer.json())
    assert len(saved.history("larder")) == 1


NASTY = ["", " ", "\0", "²", "-1", "9" * 400, "1/0", "{{ 7 * 7 }}", "<b>", "'; DROP TABLE job; --", "]\n[x"]


@pytest.mark.parametrize("nasty", NASTY)
def test_nothing_that_is_sent_brings_the_server_down(client: Client, nasty: str) -> None:
    field = "runs.0.cases.0.width"
    posts: list[tuple[str, dict[str, str]]] = [
        ("/jobs", {"start": "opening", "name": nasty, "opening": nasty, "unit": nasty, "kind": nasty}),
        ("/jobs", {"start": nasty}),
        ("/jobs/larder/cases/B1", {field: nasty, "based_on": nasty}),
        ("/jobs/larder/cases/B1", {nasty: nasty, "based_on": "1"}),
        ("/jobs/larder/cases/B2/drop-bay", {"bay": nasty}),
        ("/jobs/larder/runs", {"name": nasty, "opening": nasty}),
        ("/jobs/larder/materials/add", {"sheet": nasty}),
        ("/jobs/larder/text", {"text": nasty, "based_on": nasty}),
    ]
    for path, sent in posts:
        for htmx in (True, False):
            answer = client.post(path, data=sent, htmx=htmx)
            assert answer.status_code < 500, (path, sent, answer.text[:300])
            assert "Traceback" not in answer.text
    for path in ("cases", "parts", "sizes", "at", "runs", "history", "kinds", "papers"):
        address = f"/jobs/larder/{path}/{quote(nasty, safe='')}"
        assert client.get(address).status_code < 500, address
    assert client.post(f"/jobs/larder/runs/{quote(nasty, safe='')}/drop").status_code < 500
    patch = {"entries": [{"path": nasty, "value": nasty}], "based_on": 1}
    assert client.ask("PATCH", "/api/jobs/larder", json=patch).status_code < 500


def test_markup_that_was_typed_is_shown_not_obeyed(client: Client) -> None:
    sent = {"runs.0.cases.0.width": "<script>alert(1)</script>", "based_on": "1"}
    for htmx in (True, False):
        assert "<script>alert" not in client.post("/jobs/larder/cases/B1", data=sent, htmx=htmx).text
    made = client.post(
        "/jobs", data={"start": "opening", "name": "<script>alert(1)</script>", "opening": "60"}
    )
    assert "<script>alert" not in client.get(made.headers["location"]).text


def test_a_fault_of_our_own_is_owned_up_to_without_a_traceback(app: FastAPI, client: Client) -> None:
    @app.get("/api/breaks")
    def breaks() -> None:
        raise ZeroDivisionError("inside")

    answer = client.get("/api/breaks")
    assert answer.status_code == 500
    assert_shape(answer.json())
    assert "inside" not in answer.text


def test_a_store_that_cannot_be_used_is_said_with_what_to_do(
    app: FastAPI, client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(self: KeptJobs) -> tuple[()]:
        raise StoreError("shop.sqlite3 cannot be used (disk full); make room, then save again.")

    monkeypatch.setattr(KeptJobs, "list", full)
    answer = client.get("/")
    assert answer.status_code == 503 and "make room" in answer.text


def test_a_library_that_fails_is_named_to_people_and_programs(
    client: Client, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fail(self: KeptJobs) -> tuple[()]:
        raise LibraryError("Typst", "typesetting packet.typ", "no such font")

    monkeypatch.setattr(KeptJobs, "list", fail)
    sentence = "Typst failed while typesetting packet.typ: no such font."
    answer = client.get("/")
    assert answer.status_code == 500 and sentence in answer.text and "Traceback" not in answer.text
    told = client.get("/api/jobs")
    assert told.status_code == 500
    assert (told.json()["error"]["code"], told.json()["error"]["text"]) == ("library-failed", sentence)
    assert "a library failed" in caplog.text  # whoever looks after the program sees where


def test_a_change_sent_by_another_site_is_not_made(client: Client, saved: KeptJobs) -> None:
    for origin in ("http://elsewhere.example", "null"):
        answer = client.post("/jobs/larder/put-away", headers={"origin": origin})
        assert answer.status_code == 403
    assert (
        client.post(
            "/jobs/larder/undo", data={"based_on": "1"}, headers={"origin": "http://bench"}
        ).status_code
        == 303
    )
    assert len(saved.list()) == 1


@pytest.mark.parametrize(
    ("host", "status"),
    [
        ("127.0.0.1:8411", 200),
        ("[::1]:8411", 200),
        ("localhost", 200),
        ("shop.local", 200),
        ("192.168.1.20", 200),
        ("workshop", 200),
        ("workshop.lan:8412", 200),
        ("workshop.home", 200),
        ("workshop.fritz.box", 200),
        ("workshop.lan.example.com", 403),
        ("examplelan", 200),
        ("example.notlan", 403),
        ("casewright.example.com", 403),
        ("127.0.0.1.example.com", 403),
    ],
)
def test_only_names_of_this_network_are_answered(client: Client, host: str, status: int) -> None:
    assert client.get("/", headers={"host": host}).status_code == status


def test_a_refusal_of_a_button_comes_into_the_card(client: Client) -> None:
    answer = client.post("/jobs/larder/materials/ply/drop", htmx=True)
    assert answer.status_code == 422
    assert answer.headers["hx-retarget"] == "#card"
    assert "<html" not in answer.text
