"""The pages as a person meets them, in a real browser, on a desk and on a phone."""

from __future__ import annotations

import base64
import shutil
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
import uvicorn
from playwright.sync_api import Browser, Page, Route, ViewportSize, sync_playwright

from bearing.hung_jobs import hung
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.web.routes import tabs
from casewright.web.server import listen
from casewright.web.web_app import make_app
from web_bench import JOB

pytestmark = pytest.mark.browser

ARGUMENTS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
DESK: ViewportSize = {"width": 1280, "height": 800}
PHONE: ViewportSize = {"width": 390, "height": 844}
BOTH = pytest.mark.parametrize("screen", [DESK, PHONE], ids=["desk", "phone"])
OPENING = '[name="runs.0.opening"]'
CONTROLS = "button, input:not([type=hidden]), select, textarea, summary, .chip, .sum a, .top a"
AXE = Path(__file__).parents[2] / "node_modules" / "axe-core" / "axe.min.js"


HUNG = hung('framing = { kind = "wood studs", studs = [8, 24, 40, 54] }').text


@dataclass(frozen=True)
class Bench:
    address: str
    saved: KeptJobs


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    saved = KeptJobs.open(tmp_path_factory.mktemp("shop") / "shop.sqlite3")
    listening = listen("127.0.0.1", 0)
    server = uvicorn.Server(uvicorn.Config(make_app(saved, 0.1), log_level="warning"))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield Bench(f"http://127.0.0.1:{listening.getsockname()[1]}", saved)
    server.should_exit = True
    thread.join(10)
    listening.close()


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=ARGUMENTS)
        yield running
        running.close()


@pytest.fixture
def browser(chromium: Browser) -> Iterator[Browser]:
    """The browser, with what a test has opened shut after it: an open page goes on asking and drawing."""
    yield chromium
    for context in chromium.contexts:
        context.close()


def open_page(browser: Browser, address: str, screen: ViewportSize, **context: Any) -> Page:
    page = browser.new_context(viewport=screen, **context).new_page()
    page.set_default_timeout(15_000)
    page.goto(address)
    return page


@pytest.fixture
def job(bench: Bench) -> str:
    """The address of a fresh job."""
    return f"{bench.address}/jobs/{bench.saved.start(JOB).id}"


@BOTH
def test_a_finished_example_opens_and_a_tapped_size_tells_where_it_comes_from(
    browser: Browser, bench: Bench, screen: ViewportSize
) -> None:
    page = open_page(browser, bench.address, screen)
    page.get_by_role("button", name="Pottery studio, glaze room", exact=True).click()
    page.locator('text[data-name="B3.width"]').click()
    card = page.locator("#card")
    card.locator("h1", has_text="B3 width").wait_for()
    card.locator("table.sum a", has_text="124").first.click()
    card.get_by_text("This size is an input").wait_for()
    card.get_by_role("link", name="Change it").click()
    card.locator(OPENING).wait_for()
    # The field holds what the maker wrote, not what the program made of it.
    assert card.locator(OPENING).input_value() == "10' 4 1/2"


@BOTH
def test_a_changed_opening_is_redrawn_at_once_and_garbage_is_kept_in_its_field(
    browser: Browser, job: str, screen: ViewportSize
) -> None:
    page = open_page(browser, f"{job}/runs/0", screen)
    width = page.locator('text[data-name="B2.width"]')
    assert width.inner_html().startswith("36")
    opening = page.locator(OPENING)
    opening.fill("66 1/2")
    opening.press("Tab")
    page.get_by_text("Saved as revision 2").wait_for()
    page.locator('text[data-name="B2.width"]', has_text="40").wait_for()

    opening.fill("about sixty")
    page.get_by_label("Ceiling").focus()
    page.keyboard.type("8 ft")
    said = page.locator('[id="why-runs.0.opening"]')
    said.get_by_text("holds no number").wait_for()
    assert opening.input_value() == "about sixty"
    assert page.get_by_label("Ceiling").input_value() == "8 ft"
    assert "Not saved yet" in page.locator("#form-said").inner_text()

    opening.fill("64")
    opening.press("Tab")
    page.get_by_text("Saved as revision 3").wait_for()
    assert said.inner_text() == ""


def test_what_was_typed_in_vain_is_back_when_its_form_is_opened_again(browser: Browser, job: str) -> None:
    page = open_page(browser, f"{job}/runs/0", DESK)
    opening = page.locator(OPENING)
    opening.fill("about sixty")
    opening.press("Tab")
    page.get_by_text("Not saved yet").wait_for()
    page.locator('text[data-name="B2"]').click()
    page.locator("#card h1", has_text="base case").wait_for()
    page.goto(f"{job}/runs/0")
    page.get_by_text("back in its field").wait_for()
    assert opening.input_value() == "about sixty"
    opening.fill("64")
    opening.press("Tab")
    page.get_by_text("Saved as revision 2").wait_for()
    page.reload()
    assert opening.input_value() == "64"
    assert page.locator("#form-said").inner_text() == ""


def test_a_server_out_of_reach_costs_nothing_that_was_typed(browser: Browser, job: str) -> None:
    page = open_page(browser, f"{job}/runs/0", DESK)
    page.context.set_offline(True)
    page.locator(OPENING).fill("64")
    page.locator(OPENING).press("Tab")
    page.get_by_text("does not answer").wait_for()
    page.context.set_offline(False)
    page.get_by_role("button", name="Save").click()
    page.get_by_text("Saved as revision 2").wait_for()


def test_a_part_in_the_elevation_and_the_case_around_it_open_by_key_and_tap(
    browser: Browser, job: str
) -> None:
    page = open_page(browser, job, DESK)
    page.locator('[data-name="B1-L"]').first.click()
    page.locator("#card h1", has_text="left side").wait_for()
    page.locator('text[data-name="B2"]').focus()
    page.keyboard.press("Enter")
    page.locator("#card h1", has_text="base case").wait_for()


def colours(page: Page, shot: bytes) -> int:
    """How many different colours a screenshot has."""
    count: int = page.evaluate(
        """async (coded) => {
            const image = new Image();
            image.src = "data:image/png;base64," + coded;
            await image.decode();
            const sheet = document.createElement("canvas");
            sheet.width = image.width; sheet.height = image.height;
            const pen = sheet.getContext("2d");
            pen.drawImage(image, 0, 0);
            const { data } = pen.getImageData(0, 0, image.width, image.height);
            return new Set(new Uint32Array(data.buffer)).size;
        }""",
        base64.b64encode(shot).decode(),
    )
    return count


def test_the_model_is_drawn_turned_taken_apart_and_tapped(browser: Browser, job: str) -> None:
    page = open_page(browser, f"{job}/round", DESK)
    page.locator("#round[data-ready=yes]").wait_for()
    canvas = page.locator("canvas")
    page.wait_for_timeout(300)
    first = canvas.screenshot()
    assert colours(page, first) > 20
    page.get_by_role("button", name="Front").click()
    page.wait_for_timeout(300)
    front = canvas.screenshot()
    assert front != first
    page.get_by_label("Take apart").fill("80")
    page.wait_for_timeout(300)
    assert canvas.screenshot() != front
    page.get_by_label("Take apart").fill("0")
    box = canvas.bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.locator("#card .mark").first.wait_for()
    assert page.locator("#card .mark").first.inner_text().startswith("B")


def test_the_sheets_appear_when_they_are_planned(browser: Browser, job: str) -> None:
    page = open_page(browser, f"{job}/sheets", DESK)
    page.locator("figure [data-name='B1-L']").first.wait_for()
    page.locator("figure [data-name='B1-L']").first.click()
    page.locator("#card h1", has_text="left side").wait_for()


def test_the_map_of_a_sheet_fits_a_phone_with_words_that_can_be_read(browser: Browser, job: str) -> None:
    """Upright and within its frame; an em of the smallest print is 8 px or more."""
    page = open_page(browser, f"{job}/sheets", PHONE)
    page.locator("figure.drawing svg").first.wait_for()
    for figure in page.locator("figure.drawing").all():
        assert figure.evaluate("one => one.scrollWidth <= one.clientWidth")
        frame, drawn = figure.bounding_box(), figure.locator("svg").bounding_box()
        assert frame is not None and drawn is not None
        assert frame["x"] <= drawn["x"] and drawn["x"] + drawn["width"] <= frame["x"] + frame["width"]
        assert frame["y"] <= drawn["y"] and drawn["y"] + drawn["height"] <= frame["y"] + frame["height"]
        assert drawn["height"] > drawn["width"] > 0.8 * PHONE["width"]
        scale = figure.locator("svg").evaluate("one => one.getScreenCTM().a ** 2 + one.getScreenCTM().b ** 2")
        sizes = figure.locator("text").evaluate_all("all => all.map(one => +one.getAttribute('font-size'))")
        assert min(sizes) * scale**0.5 >= 8.0
    page.locator("figure [data-name='B1-L']").first.click()
    page.locator("#card h1", has_text="left side").wait_for()


def test_without_scripts_a_job_is_read_and_changed_all_the_same(
    browser: Browser, bench: Bench, job: str
) -> None:
    page = open_page(browser, job, PHONE, java_script_enabled=False)
    page.get_by_role("link", name="B1 24").click()
    width = page.locator('[name="runs.0.cases.0.width"]')
    width.fill("much")
    page.get_by_role("button", name="Save").click()
    page.locator('[id="why-runs.0.cases.0.width"]', has_text="holds no number").wait_for()
    assert width.input_value() == "much"
    width.fill("27 3/8")
    page.get_by_role("button", name="Save").click()
    page.locator("#facts .dims").get_by_role("link", name="27 3/8", exact=True).wait_for()


def test_missing_libraries_are_said_in_plain_words(browser: Browser, job: str) -> None:
    page = browser.new_page()
    page.route("**/static/vendor/**", lambda route: route.abort())
    page.goto(job)
    page.get_by_role("alert").get_by_text("make setup").wait_for()


@pytest.mark.parametrize(
    ("screen", "scheme"), [(DESK, "light"), (PHONE, "dark")], ids=["desk by day", "phone by night"]
)
def test_every_page_passes_the_accessibility_rules_and_fits_its_screen(
    browser: Browser, bench: Bench, job: str, screen: ViewportSize, scheme: str
) -> None:
    page = open_page(browser, bench.address, screen, color_scheme=scheme)
    axe = AXE.read_text(encoding="utf-8")
    for path in (
        "",
        "/cases/B2",
        "/sizes/B2.width",
        "/parts/B1-L",
        "/parts",
        "/round",
        "/hanging",
        "/shelves",
        "/text",
        "/history",
        "/shop-test",
        None,
    ):
        page.goto(bench.address if path is None else f"{job}{path}")
        page.evaluate(axe)
        found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")["violations"]
        bad = [
            (rule["id"], [node["html"][:160] for node in rule["nodes"][:3]])
            for rule in found
            if rule["impact"] in ("serious", "critical")
        ]
        assert not bad, (path, bad)
        assert page.evaluate("document.scrollingElement.scrollWidth") <= screen["width"], path


def test_a_phone_shows_one_hung_case_at_a_time_with_figures_to_be_read(
    browser: Browser, bench: Bench
) -> None:
    """Its own picture within the screen, its heights beside it, no word under 12 px; the whole wall is for a
    desk."""
    address = f"{bench.address}/jobs/{bench.saved.start(HUNG).id}/hanging"
    page = open_page(browser, address, PHONE)
    assert page.locator(".hang-wall").is_hidden()
    for mark in ("W1", "W2"):
        page.get_by_label("Cases of W1 and W2").get_by_role("link", name=mark, exact=True).click()
        shown = page.locator(".hang-one:visible")
        assert shown.count() == 1 and shown.get_attribute("aria-label") == f"{mark} on its wall"
        box = shown.bounding_box()
        assert box is not None and box["x"] >= 0 and box["x"] + box["width"] <= PHONE["width"]
        words = shown.locator("text")
        texts = [" ".join(one.split()) for one in words.all_text_contents()]
        assert any(one.startswith("54") for one in texts) and mark in texts and len(texts) >= 6
        high = words.evaluate_all("all => all.map((one) => one.getBoundingClientRect().height)")
        assert min(high) >= 12, sorted(zip(high, texts, strict=True))[:3]
        places = words.evaluate_all("all => all.map((one) => one.getBoundingClientRect().x)")
        assert min(places) >= box["x"], "a height is cut off"
    desk = open_page(browser, address, DESK)
    assert desk.locator(".hang-wall").is_visible() and desk.locator(".hang-one").first.is_hidden()


def test_the_open_tab_is_in_sight_on_a_phone(browser: Browser, job: str) -> None:
    """The row is longer than the screen."""
    page = open_page(browser, job, PHONE)
    row = page.locator(".tabs")
    assert row.evaluate("row => row.scrollWidth > row.clientWidth")
    for tab in tabs():
        page.goto(f"{job}{tab.path}")
        if tab.words == "Shop":
            continue  # a screen of its own
        place = page.locator(".tabs [aria-current]").bounding_box()
        assert place is not None
        assert place["x"] >= 0 and place["x"] + place["width"] <= PHONE["width"] + 1, tab.words


def test_a_gloved_finger_finds_every_control(browser: Browser, job: str) -> None:
    """At least 44 px high, or as wide as that and 24 px high inside a line of text (WCAG 2.5.5, 2.5.8)."""
    page = open_page(browser, job, PHONE)
    for path in ("", "/cases/B2", "/sizes/B2.width", "/materials", "/shop-test"):
        page.goto(f"{job}{path}")
        small = page.evaluate(
            """(wanted) => [...document.querySelectorAll(wanted)]
                .filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 43.5)
                .map((one) => one.outerHTML.slice(0, 120))""",
            CONTROLS,
        )
        assert small == [], path


@pytest.mark.parametrize("way", ["tab", "link", "back", "put down"])
def test_a_size_typed_and_left_at_once_is_saved(browser: Browser, bench: Bench, job: str, way: str) -> None:
    page = open_page(browser, f"{bench.address}/", PHONE, has_touch=True)
    page.goto(f"{job}/runs/0")
    page.locator(OPENING).fill("64")
    match way:
        case "tab":
            page.locator(".tabs a", has_text="Text").tap()
        case "link":
            page.get_by_role("link", name="casewright").tap()
        case "back":
            page.go_back()
        case "put down":  # another program is opened, and the browser is ended while it is out of sight
            page.evaluate(
                "Object.defineProperty(document, 'visibilityState', {value: 'hidden', configurable: true});"
                "document.dispatchEvent(new Event('visibilitychange'))"
            )
    if way == "back":
        page.locator("#left-behind", has_text="Saved: opening 64.").wait_for()
    name = job.rsplit("/", 1)[1]
    for _ in range(600):  # the other tests leave it little of the machine
        if bench.saved.take(name).newest == 2:
            break
        time.sleep(0.05)
    assert "opening = 64\n" in bench.saved.take(name).revision.text
    if way in ("tab", "link"):
        page.wait_for_function("(left) => location.href !== left", arg=f"{job}/runs/0")
        page.wait_for_load_state()
    page.goto(f"{job}/runs/0")
    assert page.locator(OPENING).input_value() == "64"
    assert page.locator("#left-behind").is_hidden()


def test_what_cannot_be_saved_on_leaving_is_said_on_the_next_page_with_the_way_back(
    browser: Browser, bench: Bench, job: str
) -> None:
    page = open_page(browser, f"{job}/runs/0", PHONE, has_touch=True)
    page.locator(OPENING).fill("about sixty")
    page.locator(".tabs a", has_text="Text").tap()
    page.locator("#left-behind", has_text="Not saved: opening about sixty").wait_for()
    page.locator("#left-behind a").tap()
    page.get_by_text("back in its field").wait_for()
    assert page.locator(OPENING).input_value() == "about sixty"


def test_a_form_with_its_own_button_says_on_the_next_page_that_it_was_not_sent(
    browser: Browser, bench: Bench, job: str
) -> None:
    page = open_page(browser, f"{job}/text", DESK)
    text = page.get_by_label("Write lengths")
    changed = text.input_value().replace("62 1/2", "64")
    text.fill(changed)
    page.locator(".tabs a").first.click()
    page.locator("#left-behind", has_text="Not sent").wait_for()
    page.locator("#left-behind a").click()
    page.wait_for_url("**/text")
    assert text.input_value() == changed
    page.get_by_role("button", name="Save").click()
    page.locator('text[data-name="B2.width"]').wait_for()
    assert page.locator("#left-behind").is_hidden()
    page.goto(f"{job}/text")
    assert "opening = 64\n" in text.input_value() or 'opening = "64"' in text.input_value()


def slow_to_save(page: Page) -> None:
    """As over a weak network: the form's answer comes after all that was asked for meanwhile."""

    def later(route: Route) -> None:
        if route.request.method == "POST":
            time.sleep(0.6)
        route.continue_()

    page.route("**/runs/0", later)


@pytest.mark.parametrize("slow", [False, True])
def test_a_tap_elsewhere_right_after_typing_saves_and_is_told(
    browser: Browser, bench: Bench, job: str, slow: bool
) -> None:
    page = open_page(browser, f"{job}/runs/0", DESK)
    if slow:
        slow_to_save(page)
    page.locator(OPENING).fill("64")
    page.locator('text[data-name="B1"]').click()
    page.locator("#card h1", has_text="B1").wait_for()
    page.locator('text[data-name="B2.width"]', has_text="38").wait_for()
    assert bench.saved.take(job.rsplit("/", 1)[1]).newest == 2
    assert page.locator("#card h1", has_text="B1").is_visible(), "no answer to another card has come over it"
    assert page.locator("#left-behind").is_hidden()


def test_a_card_tapped_right_after_typing_shows_the_job_as_it_was_saved(browser: Browser, job: str) -> None:
    page = open_page(browser, f"{job}/runs/0", DESK)
    slow_to_save(page)
    page.locator(OPENING).fill("64")
    page.locator('text[data-name="B2"]').click()
    page.locator("#card h1", has_text="B2").wait_for()
    assert "38" in page.locator("#card #facts").inner_text()


def test_a_tap_elsewhere_after_typing_what_cannot_be_saved_says_so_with_the_way_back(
    browser: Browser, job: str
) -> None:
    page = open_page(browser, f"{job}/runs/0", DESK)
    slow_to_save(page)
    page.locator(OPENING).fill("about sixty")
    page.locator('text[data-name="B2"]').click()
    page.locator("#card h1", has_text="B2").wait_for()
    page.locator("#left-behind", has_text="Not saved.").wait_for()
    page.locator("#left-behind a").click()
    page.get_by_text("back in its field").wait_for()
    assert page.locator(OPENING).input_value() == "about sixty"


@BOTH
def test_a_refusal_is_in_view_at_its_field_and_marked_for_assistive_software(
    browser: Browser, job: str, screen: ViewportSize
) -> None:
    page = open_page(browser, f"{job}/cases/B1", screen)
    page.locator("summary", has_text="Put together").click()
    deep = page.locator('[name="runs.0.cases.0.construction.toe_height"]')
    deep.fill("40")
    deep.press("Enter")
    why = page.locator('[id="why-runs.0.cases.0.construction.toe_height"]', has_text="toe kick")
    why.wait_for()
    assert deep.get_attribute("aria-invalid") == "true"
    box = "const box = why.getBoundingClientRect();"
    in_view = f"why => {{ {box} return box.top >= 0 && box.bottom <= innerHeight; }}"
    page.wait_for_timeout(200)  # Enter sends the form twice, and each answer writes the words anew
    assert why.evaluate(in_view)
    deep.fill("4")
    deep.press("Enter")
    page.get_by_text("Saved as revision 2").wait_for()
    assert deep.get_attribute("aria-invalid") is None


def test_two_devices_one_entry_the_second_is_asked(browser: Browser, bench: Bench, job: str) -> None:
    first, second = (open_page(browser, f"{job}/runs/0", DESK) for _ in range(2))
    for page, width in ((first, "64"), (second, "65")):
        page.locator(OPENING).fill(width)
        page.locator(OPENING).press("Tab")
    second.get_by_text("Another device changed this from 62 1/2 to 64").wait_for()
    assert second.locator(OPENING).input_value() == "65"
    second.get_by_role("button", name="Take 64").click()
    second.get_by_text("Saved as revision 2").wait_for()
    assert second.locator(OPENING).input_value() == "64"
    # A field that nobody touched takes up what the other device saves.
    first.get_by_label("Ceiling").fill("8 ft")
    first.get_by_label("Ceiling").press("Tab")
    first.get_by_text("Saved as revision 3").wait_for()
    second.locator(OPENING).fill("63")
    second.locator(OPENING).press("Tab")
    second.get_by_text("Saved as revision 4").wait_for()
    assert second.get_by_label("Ceiling").input_value() == "8 ft"
    assert "opening = 63" in bench.saved.take(job.rsplit("/", 1)[1]).revision.text


def test_a_refused_value_that_comes_back_is_never_put_over_anothers_unasked(
    browser: Browser, bench: Bench, job: str
) -> None:
    name = job.rsplit("/", 1)[1]
    page = open_page(browser, f"{job}/runs/0", DESK)
    other = open_page(browser, f"{job}/runs/0", DESK)
    other.locator(OPENING).fill("64")
    other.locator(OPENING).press("Tab")
    other.get_by_text("Saved as revision 2").wait_for()
    page.locator(OPENING).fill("65")
    page.locator(OPENING).press("Tab")
    page.get_by_role("button", name="Take 64").wait_for()
    page.goto(f"{job}/parts")  # left without a choice
    page.goto(f"{job}/runs/0")
    page.get_by_text("back in its field").wait_for()
    page.get_by_label("Ceiling").fill("8 ft")
    page.get_by_label("Ceiling").press("Tab")
    page.get_by_role("button", name="Take 64").wait_for()
    assert "opening = 64" in bench.saved.take(name).revision.text
    page.get_by_role("button", name="Keep 65").click()
    page.get_by_text("Saved as revision 3").wait_for()
    assert "opening = 65" in bench.saved.take(name).revision.text
    page.reload()
    assert page.locator("#form-said").inner_text() == ""
