"""Every page is there, says what it should, and works without a script."""

from __future__ import annotations

import re

import pytest

from casewright.app.jobs import worked_job as worked
from casewright.app.jobs.kept_jobs import KeptJobs
from web_bench import JOB, Client

PAGES = (
    "",
    "/elevation",
    "/round",
    "/parts",
    "/sheets",
    "/papers",
    "/hanging",
    "/shelves",
    "/text",
    "/history",
    "/history/1",
    "/cases/B1",
    "/parts/B1-L",
    "/sizes/B1-B.length",
    "/runs/0",
    "/materials",
    "/construction",
    "/settings",
    "/machines",
    "/kinds/tall",
)


@pytest.mark.parametrize("path", PAGES)
def test_every_page_of_a_job_is_there(client: Client, path: str) -> None:
    answer = client.get(f"/jobs/larder{path}")
    assert answer.status_code == 200
    assert "text/html" in answer.headers["content-type"]
    assert "default-src 'self'" in answer.headers["content-security-policy"]


@pytest.mark.parametrize("path", [page for page in PAGES if page not in ("/elevation",)])
def test_every_page_has_one_heading_a_title_and_a_way_past_the_header(client: Client, path: str) -> None:
    text = client.get(f"/jobs/larder{path}").text
    assert len(re.findall(r"<h1[ >]", text)) == 1
    assert "<title>Larder" in text
    assert 'href="#main"' in text


def test_the_list_offers_the_examples_and_shows_the_jobs(client: Client) -> None:
    text = client.get("/").text
    assert "Larder" in text and "Pottery studio" in text


def test_the_elevation_names_cases_parts_and_sizes(client: Client) -> None:
    text = client.get("/jobs/larder/elevation").text
    for name in ("B1", "B2", "B1-L", "run1.opening", "B1.width"):
        assert f'data-name="{name}"' in text


@pytest.mark.parametrize(
    ("name", "leads_to"),
    [("B1", "cases/B1"), ("B1-L", "parts/B1-L"), ("run1.opening", "sizes/run1.opening")],
)
def test_a_name_in_the_drawing_leads_to_its_card(client: Client, name: str, leads_to: str) -> None:
    answer = client.get(f"/jobs/larder/at/{name}")
    assert answer.status_code == 303
    assert answer.headers["location"] == f"/jobs/larder/{leads_to}"


def test_a_size_is_explained_down_to_the_inputs(client: Client) -> None:
    """Follows the first figure of each sum until one is given."""
    path, steps = "/jobs/larder/sizes/B2-B.length", 0
    while True:
        text = client.get(path, htmx=True).text
        figures = re.findall(r'<td class="figure">\s*<a class="size" href="([^"]+)"', text)
        if not figures:
            break
        path, steps = figures[0].replace("&amp;", "&"), steps + 1
        assert steps < 20
    assert steps >= 2
    assert "This size is an input" in text
    assert "Change it" in text


def test_the_trail_leads_back(client: Client) -> None:
    text = client.get("/jobs/larder/sizes/ply.thickness?trail=B2-B.length,B2.width", htmx=True).text
    trail = text[text.index('class="trail"') : text.index("</nav>")]
    assert "/sizes/B2-B.length?trail=" in trail
    assert "/sizes/B2.width?trail=B2-B.length" in trail


def test_a_card_alone_goes_to_the_script_and_a_whole_page_to_everyone_else(client: Client) -> None:
    card = client.get("/jobs/larder/cases/B1", htmx=True).text
    whole = client.get("/jobs/larder/cases/B1").text
    assert "<html" not in card and "<html" in whole
    assert 'name="runs.0.cases.0.width"' in card and 'name="runs.0.cases.0.width"' in whole


def test_parts_cut_alike_share_a_row(client: Client) -> None:
    text = client.get("/jobs/larder/parts").text
    rows = [row for row in re.findall(r"<tr>.*?</tr>", text, re.S) if "adjustable shelf" in row]
    assert any("B2-A2" in row and "B2-A3" in row for row in rows)


def test_the_sheet_plan_is_made_while_the_page_waits(client: Client) -> None:
    first = client.get("/jobs/larder/sheets").text
    assert "Planning the sheets" in first or "<svg" in first
    stream = client.get("/jobs/larder/sheets/progress")
    assert stream.headers["content-type"].startswith("text/event-stream")
    assert stream.text.endswith("event: done\ndata: {}\n\n")
    assert re.search(r'^data: ".*sheet', stream.text, re.M)
    finished = client.get("/jobs/larder/sheets").text
    assert "Planning the sheets" not in finished
    assert 'data-name="B1-L"' in finished


def test_the_model_is_a_binary_gltf_with_every_part(client: Client) -> None:
    answer = client.get("/jobs/larder/model.glb")
    assert answer.content[:4] == b"glTF"
    assert b'"B1-L"' in answer.content and b'"B2-K"' in answer.content


def test_a_new_job_from_a_measured_opening_can_be_built(client: Client, saved: KeptJobs) -> None:
    sent = {"start": "opening", "name": "Pantry", "opening": "7' 3 1/2\"", "unit": "in"}
    answer = client.post("/jobs", data=sent)
    assert answer.headers["location"] == "/jobs/pantry"
    work = saved.take("pantry")
    assert work.worked.project is not None
    assert str(work.worked.project.sizes.of("run1.opening")) == "175/2"


@pytest.mark.parametrize(
    ("opening", "sentence"), [("wide", "holds no number"), ("-4", "not a width"), ("1", "")]
)
def test_an_opening_that_will_not_do_is_given_back_with_the_reason(
    client: Client, saved: KeptJobs, opening: str, sentence: str
) -> None:
    sent = {"start": "opening", "name": "Pantry & hall", "opening": opening, "unit": "mm", "kind": "tall"}
    answer = client.post("/jobs", data=sent)
    assert answer.status_code == 422
    why = re.search(r'id="why-opening">([^<]+)<', answer.text)
    assert why and sentence in why[1]
    assert f'name="opening" value="{opening}"' in answer.text
    assert 'value="Pantry &amp; hall"' in answer.text
    assert [row.id for row in saved.list()] == ["larder"]


def test_two_jobs_of_one_name_get_addresses_of_their_own(client: Client) -> None:
    sent = {"start": "opening", "name": "Larder", "opening": "60", "unit": "in"}
    assert client.post("/jobs", data=sent).headers["location"] == "/jobs/larder-2"


def test_a_job_file_is_taken_in_with_its_faults(client: Client) -> None:
    broken = b'job = "Hall"\nunit = "in"\nopening = 27 3/8\n'
    answer = client.post("/jobs/file", files={"file": ("hall.toml", broken)})
    text = client.get(answer.headers["location"]).text
    assert "line 3" in text
    refused = client.post("/jobs/file", files={"file": ("hall.png", b"\x89PNG\xff\xfe")})
    assert refused.status_code == 422 and "is not a text file" in refused.text


def test_a_job_put_away_leaves_the_list(client: Client) -> None:
    assert client.post("/jobs/larder/put-away").status_code == 303
    html = client.get("/").text
    assert "/jobs/larder" not in html[: html.index("Removed from the list (1)")]


def test_a_second_look_at_a_job_costs_no_second_drawing(client: Client) -> None:
    client.get("/jobs/larder")
    before = worked.open_job.cache_info().misses
    for path in ("", "/parts", "/cases/B1"):
        client.get(f"/jobs/larder{path}")
    assert worked.open_job.cache_info().misses == before


def test_every_paper_of_the_packet_can_be_fetched(client: Client) -> None:
    client.get("/jobs/larder/sheets/progress")  # until the sheets are planned
    text = client.get("/jobs/larder/papers").text
    for path in ("packet.pdf", "parts.csv", "buying.csv", "plan.json", "job.glb", "job.step", "job.toml"):
        assert f'href="/jobs/larder/papers/{path}"' in text
    assert 'href="/jobs/larder/papers/parts/B1-L.dxf"' in text
    packet = client.get("/jobs/larder/papers/packet.pdf")
    assert packet.content[:5] == b"%PDF-" and packet.headers["content-type"] == "application/pdf"
    assert client.get("/jobs/larder/papers/job.toml").text == JOB
    assert client.get("/jobs/larder/papers/parts/B1-L.svg").content.startswith(b"<?xml")
    assert "B1-L" in client.get("/jobs/larder/papers/parts.csv").text
    assert client.get("/jobs/larder/papers/parts/Z9.dxf").status_code == 404
    assert client.get("/jobs/larder/papers/..%2F..%2Fetc%2Fpasswd").status_code == 404


def test_the_sheets_say_what_the_saws_cannot_do(client: Client, saved: KeptJobs) -> None:
    low = JOB.replace("[[runs]]", "[shop.hand_saw]\ncut_length = 20\n\n[[runs]]", 1)
    path = f"/jobs/{saved.start(low.replace('Larder', 'Scullery')).id}"
    client.get(f"{path}/sheets/progress")
    text = client.get(f"{path}/sheets").text
    assert "the straightedge of the circular saw guides only 20" in text
    client.get("/jobs/larder/sheets/progress")
    assert "the straightedge of" not in client.get("/jobs/larder/sheets").text


def test_findings_have_their_lines_and_the_solid_check_follows_the_page(
    client: Client, saved: KeptJobs, monkeypatch: pytest.MonkeyPatch
) -> None:
    from casewright.casework.project import Project
    from casewright.findings import Finding
    from casewright.solids import solid_check as check

    def found(project: Project, bodies: object) -> check.Examination:
        finding = Finding("parts-interfere", "B1-L, B1-B", "they fill the same room.", "Move one.")
        return check.Examination((finding,), len(project.parts), 1, (), (), ())

    monkeypatch.setattr(check, "examine", found)
    wide = JOB.replace('opening = "62 1/2"', 'opening = "90"').replace(
        'mark = "B2"', 'mark = "B2"\nwidth = 30'
    )
    path = f"/jobs/{saved.start(wide.replace('Larder', 'Pantry')).id}"
    text = client.get(path).text
    assert re.search(r"runs\.north, line \d+</b>", text) and "same room" not in text
    assert f'hx-get="{path}/findings" hx-trigger="load"' in text
    later = client.ask("GET", f"{path}/findings", htmx=True).text
    assert "They fill the same room." in later and re.search(r"runs\.north, line \d+", later)
    told = client.get(f"/api{path}/findings").json()
    assert [(one["code"], bool(one["line"])) for one in told] == [
        ("run-leaves-room", True),
        ("parts-interfere", True),
    ]
    assert "They fill the same room." in client.get(f"{path}/text").text
