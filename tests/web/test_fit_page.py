"""The page that says what may not close, its cards, and what it refuses."""

from __future__ import annotations

import html
import re
from urllib.parse import quote, urlencode

import pytest

from web_bench import Client

GAP = "B1: B1-K in the groove of B1-R"
PAGES = (
    "/fit",
    f"/fit/gap?name={quote(GAP)}",
    f"/fit/gap?name={quote('north: its cases in the opening')}",
    "/fit/case?mark=B1",
    "/fit/square?mark=B1&rising=42&falling=41%207%2F8",
    "/fit/measured?readings=B1-L.width%3D24&cut=B1-L",
    "/fit/measure",
    "/fit/advice",
)


def text_of(client: Client, path: str, *, htmx: bool = False) -> str:
    answer = client.ask("GET", f"/jobs/larder{path}", htmx=htmx)
    assert answer.status_code == 200
    return html.unescape(re.sub(r"\s+", " ", answer.text))


@pytest.mark.parametrize("path", PAGES)
def test_each_is_a_page_of_its_own_without_a_script(client: Client, path: str) -> None:
    text = text_of(client, path)
    assert len(re.findall(r"<h1[ >]", text)) == 1 and 'href="#main"' in text


def test_the_page_lists_cases_advice_and_gaps_and_leads_to_each_chain(client: Client) -> None:
    assert "Planning the sheets" in text_of(client, "/fit")
    client.get("/jobs/larder/sheets/progress")
    text = text_of(client, "/fit")
    assert "by hand" in text and "cut again" in text and "What helps most" in text
    advice = text_of(client, "/fit/advice", htmx=True)
    assert "Takes no time, saves " in advice and "Taken for granted" in advice
    assert "in the buying list" in text_of(client, "/fit/measure", htmx=True)
    case = text_of(client, "/fit/case?mark=B1", htmx=True)
    links = re.findall(r'hx-get="(/jobs/larder/fit/gap\?name=[^"]+)"', case)
    assert len(links) > 10
    for link in links[:4]:
        assert "Wanted" in text_of(client, link.removeprefix("/jobs/larder"), htmx=True)


def test_a_gap_s_card_shows_its_chain_and_its_links_add_up(client: Client) -> None:
    text = text_of(client, f"/fit/gap?name={quote(GAP)}", htmx=True)
    assert "<svg" in text and 'data-name="loose link"' in text
    assert "<html" not in text
    steps = re.findall(r'<td class="figure">([+−]) ([^<]+)</td>', text)
    assert [sign for sign, _ in steps] == ["−", "+"]
    assert "left over, with every setting at a mark" in text


def test_a_wide_side_breaks_a_gap_and_the_card_says_what_mends_it(client: Client) -> None:
    readings = quote("B1-L.width = 24 1/16\nB1-R.width = 24 1/16")
    text = text_of(client, f"/fit/measured?readings={readings}&cut=B1-L+B1-R+B1-B", htmx=True)
    assert text.index("Measure again first") < text.index('1/16" wider than the 24" planned')
    assert "If the readings of B1-L.width and B1-R.width are right, this no longer closes:" in text
    assert (
        "If not, everything still closes." in text and "If they are right, any one of these mends it" in text
    )
    assert "Trim 2 sides (B1-L, B1-R)" in text and "Remake the bottom B1-B" in text


def test_a_slip_is_asked_about_before_it_is_used_and_each_answer_is_one_tap(client: Client) -> None:
    lines = "B1-L.length = 345 rule\nB1-L.width = 24"
    text = text_of(client, f"/fit/measured?readings={quote(lines)}&cut=B1-L", htmx=True)
    assert '34 1/2" was planned; 345 is ten times that. Did you mean 34 1/2?' in text
    assert "closes" not in text and 'role="alert"' in text
    use, keep, again = forms_of(client, f"/fit/measured?readings={quote(lines)}&cut=B1-L")
    assert use["readings"] == ["B1-L.length = 34 1/2 rule\nB1-L.width = 24"]
    assert keep["readings"] == [lines] and keep["sure"] == ["B1-L.length = 345 rule"]
    assert again["readings"] == [lines] and "sure" not in again and keep["cut"] == again["cut"] == ["B1-L"]
    used = text_of(client, f"/fit/measured?{urlencode(use, doseq=True)}", htmx=True)
    assert "Everything still closes" in used and "34 1/2" in used
    kept = text_of(client, f"/fit/measured?{urlencode(keep, doseq=True)}", htmx=True)
    assert "longer than the 34 1/2" in kept


def test_a_slip_in_a_diagonal_is_asked_about(client: Client) -> None:
    path = "/fit/square?mark=B1&rising=420&falling=41%203%2F4"
    assert "is ten times that" in text_of(client, path, htmx=True)
    use, keep, again = forms_of(client, path)
    assert use["rising"] == ["42"] and use["falling"] == again["falling"] == ["41 3/4"]
    assert keep["rising"] == again["rising"] == ["420"] and keep["sure"] == ["true"]
    assert "Draw the" in text_of(client, f"/fit/square?{urlencode(use, doseq=True)}", htmx=True)
    refused = client.ask("GET", f"/jobs/larder/fit/square?{urlencode(keep, doseq=True)}", htmx=True)
    assert refused.status_code == 422 and "diagonals of 420.0" in refused.text


def forms_of(client: Client, path: str) -> list[dict[str, list[str]]]:
    """What each form of a card sends."""
    text = client.ask("GET", f"/jobs/larder{path}", htmx=True).text
    return [_fields(form) for form in re.findall(r"<form.*?</form>", text, re.DOTALL)]


def _fields(form: str) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for tag in re.findall(r"<input[^>]*>", form):
        name, value = (re.search(rf' {key}="([^"]*)"', tag) for key in ("name", "value"))
        assert name
        found.setdefault(name[1], []).append(html.unescape(value[1]) if value else "")
    for name, value in re.findall(r'<textarea name="(\w+)"[^>]*>([^<]*)<', form):
        found[name] = [html.unescape(value)]
    return found


def test_diagonals_say_which_corners_to_draw_in(client: Client) -> None:
    text = text_of(client, "/fit/square?mark=B1&rising=42&falling=41%203%2F4", htmx=True)
    assert "Draw the lower left and upper right corners together" in text


@pytest.mark.parametrize(
    ("path", "sentence"),
    [
        ("/fit/gap?name=nothing", "no gap with this name"),
        ("/fit/case?mark=Z", "no case or run with this name"),
        ("/fit/measured?readings=B1-L.width", "no = between"),
        ("/fit/measured?readings=B1-L.width%3D24&cut=Q", "no part with this mark"),
        ("/fit/square?mark=B1&rising=x&falling=3", "Measure both diagonals"),
        ("/fit/square?mark=B1&rising=0&falling=3", "must be greater than zero"),
    ],
)
def test_what_cannot_be_done_is_told_in_a_sentence(client: Client, path: str, sentence: str) -> None:
    answer = client.ask("GET", f"/jobs/larder{path}", htmx=True)
    assert 400 <= answer.status_code < 500
    text = html.unescape(answer.text)
    assert sentence.lower() in text.lower() and "Traceback" not in text


def test_what_cannot_be_read_stands_at_its_field_and_nothing_typed_is_lost(client: Client) -> None:
    ask = f"/jobs/larder/fit/measured?readings={quote('B1-L.width 24')}&cut=B1-R"
    refused = client.ask("GET", ask, htmx=True)
    text = html.unescape(re.sub(r"\s+", " ", refused.text))
    assert refused.status_code == 422 and "This cannot be read" in text and "cannot be built" not in text
    field = text[text.index("Readings, one per line") : text.index("<textarea")]
    assert "there is no = between the size and its length. Write it as B1-L.length = 34 1/2" in field
    assert 'value="B1-R"' in text and ">B1-L.width 24</textarea>" in text
    text = client.ask("GET", "/jobs/larder/fit/measured?readings=&cut=B9-R", htmx=True).text
    assert "B9-R: the job has no part with this mark." in text[: text.index('name="cut"')]
    square = client.ask("GET", "/jobs/larder/fit/square?mark=B1&rising=no&falling=42", htmx=True)
    assert square.status_code == 422 and "These are no diagonals of B1" in square.text
    assert 'value="no"' in square.text and "cannot be built" not in square.text


def test_runs_are_told_for_themselves_and_not_among_the_cases(client: Client) -> None:
    client.get("/jobs/larder/sheets/progress")
    text = text_of(client, "/fit")
    assert "The run “north” goes into its opening" in text
    assert "north" not in text[text.index("<tbody>") : text.index("</tbody>")]
