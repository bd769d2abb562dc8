"""The shop screen in a real browser: several benches, gloves, and a network that comes and goes."""

from __future__ import annotations

import json
import re
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

import pytest
import uvicorn
from playwright.sync_api import Browser, Page, Route, expect

from casewright.app.fit.fit_as_built import shop_state
from casewright.app.jobs.kept_jobs import KeptJobs
from casewright.app.shop.receiving import receive
from casewright.app.shop.shop_floor import BenchRecord, hand_out, read_record
from casewright.app.shop.state_changes import with_keys
from casewright.app.shop.tablet_order import tablet_order
from casewright.lengths.length import Unit
from casewright.record.events import Done, Measured
from casewright.record.shop_state import Status
from casewright.web.server import listen
from casewright.web.web_app import make_app
from planned_once import planned_once
from web.test_in_browser import PHONE, Bench, bench, browser, chromium, open_page  # noqa: F401
from web_bench import JOB

pytestmark = pytest.mark.browser


@pytest.fixture
def shop(bench: Bench) -> str:  # noqa: F811
    """The address of the shop screen of a fresh job, its work handed out."""
    job = bench.saved.start(JOB).id
    hand_out(bench.saved.file, job, 1, planned_once(JOB).made.plans, f"issue-{job}", bench.saved.clock())
    return f"{bench.address}/jobs/{job}/shop"


@pytest.fixture
def heard(bench: Bench, shop: str) -> Callable[[], BenchRecord]:  # noqa: F811
    """What the record on disk holds."""
    job = shop.split("/")[-2]
    return lambda: read_record(bench.saved.file, job)


def at_bench(browser: Browser, shop: str, name: str) -> Page:  # noqa: F811
    page = open_page(browser, shop, PHONE)
    page.locator(".batch").wait_for()
    page.get_by_label("This bench's name").fill(name)
    page.get_by_label("This bench's name").press("Tab")
    return page


def to_batch(page: Page, words: str) -> None:
    for _ in range(400):
        if words in page.locator(".batch h1").inner_text():
            return
        page.get_by_role("button", name="Batch ›").click()
    raise AssertionError(f"no batch is called {words}")


def test_the_work_is_handed_out_by_a_button(browser: Browser, bench: Bench) -> None:  # noqa: F811
    job = bench.saved.start(JOB).id
    page = open_page(browser, f"{bench.address}/jobs/{job}/shop", PHONE)
    page.get_by_role("button", name="Hand the work out").click()
    page.locator(".batch .tick").first.wait_for()
    floor = read_record(bench.saved.file, job).floor
    assert floor is not None and floor.plans.keys() == planned_once(JOB).plans.keys()


def test_benches_see_each_other_s_ticks_within_a_second(browser: Browser, shop: str) -> None:  # noqa: F811
    saw, assembly = at_bench(browser, shop, "saw"), at_bench(browser, shop, "assembly")
    first = saw.locator(".tick").first
    key = first.get_attribute("data-step")
    first.click()
    seen = assembly.locator(f'.tick[data-step="{key}"]')
    expect(seen).to_have_attribute("aria-pressed", "true", timeout=1_000)
    expect(seen).to_contain_text("done at saw")
    seen.click()  # and undone from the other bench
    expect(first).to_have_attribute("aria-pressed", "false", timeout=1_000)


def arrived(page: Page, heard: Callable[[], BenchRecord], events: int) -> BenchRecord:
    """What the server has heard, once the page has had time to send so many events."""
    for _ in range(200):
        if len(heard().events) >= events:
            break
        page.wait_for_timeout(50)
    expect(page.locator("#shop-status")).not_to_contain_text("saved here")
    return heard()


@contextmanager
def serving(saved: KeptJobs, port: int = 0) -> Iterator[int]:
    """A server of its own over the shop's file, to be switched off."""
    listening = listen("127.0.0.1", port)
    server = uvicorn.Server(uvicorn.Config(make_app(saved, 0.1), log_level="warning"))
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield listening.getsockname()[1]
    server.should_exit = server.force_exit = True
    thread.join(10)
    listening.close()


def test_ticks_made_without_network_are_kept_and_sent_once(
    browser: Browser,  # noqa: F811
    bench: Bench,  # noqa: F811
    shop: str,
    heard: Callable[[], BenchRecord],
) -> None:
    path = shop.removeprefix(bench.address)
    with serving(bench.saved) as port:
        page = at_bench(browser, f"http://127.0.0.1:{port}{path}", "saw")
        expect(page.locator("#shop")).to_have_attribute("data-kept", "yes")
    status = page.locator("#shop-status")
    keys = [tick.get_attribute("data-step") for tick in page.locator(".tick").all()][:3]
    for key in keys:
        page.locator(f'.tick[data-step="{key}"]').click()
    expect(status).to_contain_text(f"{len(keys)} saved here, not sent yet")
    # Even the page itself comes back without its server, and the ticks with it.
    page.reload()
    for key in keys:
        expect(page.locator(f'.tick[data-step="{key}"]')).to_have_attribute("aria-pressed", "true")
    assert not heard().events
    with serving(bench.saved, port):
        expect(status).not_to_contain_text("saved here", timeout=15_000)
    ticked = [step for event in heard().events if isinstance(event.what, Done) for step in event.what.steps]
    assert sorted(ticked) == sorted(str(key) for key in keys)


def test_an_answer_that_is_lost_on_its_way_back_makes_no_second_tick(
    browser: Browser,  # noqa: F811
    shop: str,
    heard: Callable[[], BenchRecord],
) -> None:
    """The server keeps the event, the tablet never hears so and sends it again."""
    page = at_bench(browser, shop, "saw")
    lost: list[int] = []

    def lose_the_first(route: Route) -> None:
        if not lost:
            lost.append(route.fetch().status)
            route.abort()
        else:
            route.continue_()

    page.route("**/events", lose_the_first)
    page.locator(".tick").first.click()
    page.wait_for_function("document.querySelector('.tick[aria-pressed=true]')")
    expect(page.locator("#shop-status")).not_to_contain_text("saved here", timeout=10_000)
    assert lost == [200]
    assert len(arrived(page, heard, 1).events) == 1


def test_measure_spoil_and_put_back_from_any_part(
    browser: Browser,  # noqa: F811
    shop: str,
    heard: Callable[[], BenchRecord],
) -> None:
    page = at_bench(browser, f"{shop}#B1-L", "bench")
    sheet = page.locator(".part-sheet")
    expect(sheet.locator("h1")).to_have_text("B1-L")
    sheet.get_by_label("Reading").fill("34 15/32")
    sheet.get_by_role("button", name="Measured").click()
    expect(sheet.locator(".sizes li").first).to_contain_text('34 15/32"')
    sheet.get_by_label("Reading").fill("about 34")
    sheet.get_by_role("button", name="Measured").click()
    expect(sheet.get_by_role("alert")).to_contain_text("“about 34” was not accepted")
    expect(page.locator(".last-tap")).to_contain_text("34 15/32")  # what was refused is no tap
    sheet.get_by_role("button", name="Close").click()
    refused = page.get_by_role("alert").filter(has_text="about 34")
    expect(refused).to_contain_text("was not accepted")
    refused.get_by_role("button", name="Seen").click()
    expect(refused).to_have_count(0)
    page.evaluate("location.hash = '#B1-L'")
    sheet.get_by_label("What went wrong").fill("dado in the wrong face")
    sheet.get_by_role("button", name="Spoiled").click()
    page.evaluate("location.hash = '#B1-L'")
    expect(sheet.locator(".status")).to_have_text("spoiled: dado in the wrong face")
    now = arrived(page, heard, 2)
    assert now.state is not None and now.state.status("B1-L") is Status.SPOILED
    readings = [event.what for event in now.events if isinstance(event.what, Measured)]
    assert [str(reading.value) for reading in readings] == ["1103/32"]
    sheet.get_by_role("button", name="It is good after all").click()
    expect(sheet.locator(".status")).to_have_text("to cut")


def test_a_slip_is_asked_about_and_the_answer_is_what_is_kept(
    browser: Browser,  # noqa: F811
    shop: str,
    heard: Callable[[], BenchRecord],
) -> None:
    page = at_bench(browser, f"{shop}#B1-L", "bench")
    sheet = page.locator(".part-sheet")
    question = sheet.get_by_role("alert")

    def measure(said: str) -> None:
        sheet.get_by_label("Reading").fill(said)
        sheet.get_by_role("button", name="Measured").click()

    measure("345")
    expect(question).to_contain_text('34 1/2" was planned; 345 is ten times that. Did you mean 34 1/2?')
    assert not heard().events
    question.get_by_role("button", name="Use 34 1/2").click()
    expect(question).to_have_count(0)
    expect(sheet.locator(".sizes li").first).to_contain_text('measured 34 1/2"')
    measure("346")
    question.get_by_role("button", name="Type again").click()
    expect(question).to_have_count(0)
    expect(sheet.get_by_label("Reading")).to_be_focused()
    sheet.get_by_label("Which size").select_option("B1-L.thickness")
    measure("17.6")
    expect(question).to_contain_text("cannot be a sheet of")
    question.get_by_role("button", name="Keep 17.6").click()
    expect(question).to_have_count(0)
    readings = [event.what for event in arrived(page, heard, 2).events if isinstance(event.what, Measured)]
    assert [(one.name, str(one.value)) for one in readings] == [
        ("B1-L.length", "69/2"),
        ("B1-L.thickness", "88/5"),
    ]


def test_what_is_said_of_a_part_without_network_waits_in_plain_words(
    browser: Browser,  # noqa: F811
    shop: str,
    heard: Callable[[], BenchRecord],
) -> None:
    """Only the server works out what it comes to; the tablet tells what it keeps, and can take it back."""
    page = at_bench(browser, f"{shop}#B1-L", "bench")
    sheet = page.locator(".part-sheet")
    page.context.set_offline(True)
    sheet.get_by_label("Reading").fill("34 15/32")
    sheet.get_by_role("button", name="Measured").click()
    sheet.get_by_label("What went wrong").fill("wrong face")
    sheet.get_by_role("button", name="Spoiled").click()
    page.evaluate("location.hash = '#B1-L'")
    kept = sheet.locator("li").filter(has_text="saved here, not sent yet")
    expect(kept).to_contain_text(["measured 34 15/32 (rule)", "spoiled: wrong face"])
    expect(sheet.locator(".status")).to_have_text("to cut")
    kept.filter(has_text="spoiled").get_by_role("button", name="Withdraw it").click()
    expect(kept).to_have_count(1)
    page.context.set_offline(False)
    expect(kept).to_have_count(0, timeout=10_000)
    expect(sheet.locator(".sizes li").first).to_contain_text('34 15/32"')
    now = arrived(page, heard, 3)
    assert now.state is not None and now.state.status("B1-L") is Status.TO_CUT


def answer_right(page: Page) -> None:
    """Answer what is asked before the first tick of the batch."""
    asked = page.locator(".tap-question")
    work = page.evaluate(
        "fetch(`${document.querySelector('[data-base]').dataset.base}/work`).then((r) => r.json())"
    )
    text = asked.locator("p").first.inner_text()
    questions = [one["question"] for one in work["batches"] if one["question"]]
    right = next(one["right"] for one in questions if one["text"] == text)
    asked.get_by_role("button", name=right, exact=True).click()


def test_a_tick_for_a_spoiled_part_is_told_and_nothing_is_lost(browser: Browser, shop: str) -> None:  # noqa: F811
    page = at_bench(browser, f"{shop}#B1-L", "bench")
    page.locator(".part-sheet").get_by_role("button", name="Spoiled").click()
    to_batch(page, "Dado")
    row = page.locator(".steps li").filter(has_text="B1-L").first
    row.locator(".tick").click()
    answer_right(page)
    notice = page.locator("details.notice").filter(has_text="to look at")
    notice.locator("summary").click()
    expect(notice).to_contain_text("but B1-L is spoiled")


def test_one_piece_at_a_time_with_its_picture(browser: Browser, shop: str) -> None:  # noqa: F811
    page = at_bench(browser, shop, "saw")
    to_batch(page, "Dado")
    page.get_by_role("button", name="One piece at a time").click()
    picture = page.locator("img.lie")
    expect(picture).to_be_visible()
    assert picture.evaluate("image => image.decode().then(() => image.naturalWidth)") > 100
    expect(page.locator(".tick")).to_have_count(1)
    tick, setting = page.locator(".tick").bounding_box(), page.locator("ul.setting").bounding_box()
    assert tick and setting and tick["y"] < setting["y"], (
        "the piece stands before the long text of the setting"
    )
    first = page.locator(".tick").get_attribute("data-step")
    page.get_by_role("button", name="Next ›").click()
    assert page.locator(".tick").get_attribute("data-step") != first


def test_everything_to_press_is_large_enough_for_gloves(browser: Browser, shop: str) -> None:  # noqa: F811
    """At least 54 CSS pixels high (14 mm): gloves want more than the 44 that bare fingers do."""
    page = at_bench(browser, shop, "saw")
    boxes = page.evaluate(
        """[...document.querySelectorAll(".shop button, .shop summary")].map((one) => {
            const box = one.getBoundingClientRect();
            return [one.textContent, box.height, box.left, box.right];
        })"""
    )
    assert len(boxes) > 8
    for words, height, left, right in boxes:
        assert height >= 53 and left >= 0 and right <= PHONE["width"], words
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_a_part_in_hand_at_one_bench_is_left_alone_at_the_other(browser: Browser, shop: str) -> None:  # noqa: F811
    saw, assembly = at_bench(browser, shop, "saw"), at_bench(browser, shop, "assembly")
    for page in (saw, assembly):
        page.evaluate("location.hash = '#B1-L'")
    saw.get_by_role("button", name="Claim it").click()
    expect(assembly.locator(".part-sheet")).to_contain_text("saw has claimed this part", timeout=1_000)
    saw.get_by_role("button", name="Release it").click()
    expect(assembly.get_by_role("button", name="Claim it")).to_be_visible(timeout=1_000)


def test_a_case_is_measured_at_its_dry_fit(
    browser: Browser,  # noqa: F811
    shop: str,
    heard: Callable[[], BenchRecord],
) -> None:
    page = at_bench(browser, shop, "bench")
    to_batch(page, "Dry fit")
    case = page.get_by_role("button", name="B1", exact=True)
    while case.count() == 0:  # the plan says which case is fitted first
        page.get_by_role("button", name="Batch ›").click()
        to_batch(page, "Dry fit")
    case.click()
    sheet = page.locator(".part-sheet")
    expect(sheet.get_by_role("button", name="Spoiled")).to_have_count(0)
    for name in ("B1.inside", "B1.rising"):
        sheet.get_by_label("Which size").select_option(name)
        sheet.get_by_label("Reading").fill("41 3/8")
        sheet.get_by_role("button", name="Measured").click()
    readings = [event.what for event in arrived(page, heard, 2).events if isinstance(event.what, Measured)]
    assert [reading.name for reading in readings] == ["B1.inside", "B1.rising"]


def test_an_open_screen_loads_the_work_that_is_handed_out_anew(
    browser: Browser,  # noqa: F811
    bench: Bench,  # noqa: F811
    shop: str,
    heard: Callable[[], BenchRecord],
) -> None:
    """It went on showing the steps of before, beside ticks of other cuts."""
    page = at_bench(browser, shop, "saw")
    expect(page.locator("#shop-status")).not_to_contain_text("saved here")
    floor = heard().floor
    assert floor is not None
    with page.expect_request("**/shop/work", timeout=10_000):
        hand_out(bench.saved.file, shop.split("/")[-2], 1, floor.plans, "issue-anew", bench.saved.clock())
    page.locator(".tick").first.click()
    arrived(page, heard, 1)


def test_who_ticks_what_another_has_ticked_is_told_kindly_and_nothing_is_doubled(
    browser: Browser,  # noqa: F811
    shop: str,
    heard: Callable[[], BenchRecord],
) -> None:
    saw, assembly = at_bench(browser, shop, "saw"), at_bench(browser, shop, "assembly")
    key = assembly.locator(".tick").first.get_attribute("data-step")
    assembly.context.set_offline(True)  # so that it has not heard of the other's tick
    saw.locator(f'.tick[data-step="{key}"]').click()
    arrived(saw, heard, 1)
    clock = saw.evaluate("new Date().toLocaleString(undefined, {timeStyle: 'short'})")
    assembly.locator(f'.tick[data-step="{key}"]').click()
    assembly.context.set_offline(False)
    told = assembly.get_by_role("status").filter(has_text="already ticked")
    told.wait_for()
    words = told.inner_text()
    assert "on “saw”" in words and "counts once" in words
    assert re.search(r"already ticked at \d?\d:\d\d", words), (words, clock)
    expect(saw.get_by_role("status").filter(has_text="already ticked")).to_have_count(0)
    ticked = assembly.locator(f'.tick[data-step="{key}"]')
    expect(ticked).to_have_attribute("aria-pressed", "true")
    assembly.reload()  # it stays until it has been seen
    told.get_by_role("button", name="Seen").click()
    expect(told).to_have_count(0)
    state = arrived(assembly, heard, 2).state
    assert state is not None and list(state.ticks) == [key]


def test_the_screen_reads_the_whole_state_as_it_was_written(
    browser: Browser,  # noqa: F811
    bench: Bench,  # noqa: F811
    shop: str,
    heard: Callable[[], BenchRecord],
) -> None:
    """The columns of `state_format.py`, read by `state_format.js`."""
    job = shop.split("/")[-2]
    floor = heard().floor
    assert floor is not None
    order, parts = tablet_order(floor), list(floor.project.parts)
    ticks: list[dict[str, Any]] = [{"kind": "done", "steps": [step]} for step in reversed(order.steps[:9])]
    said: list[dict[str, Any]] = [
        *ticks,
        {"kind": "done", "steps": list(order.steps[20:24])},
        {"kind": "claimed", "parts": parts[3:5]},
        {"kind": "spoiled", "part": parts[0], "how": "wrong face"},
        {"kind": "measured", "name": f"{parts[2]}.length", "value": "30", "tool": "rule"},
        {"kind": "measured", "name": f"{parts[2]}.length", "value": "481/16"},
        {"kind": "setting", "setting": order.batches[2], "distance": "23/4", "sure": True},
    ]
    events = [{"id": f"e{n}", "bench": f"b{n % 3}", "seq": n, **what} for n, what in enumerate(said, 1)]
    assert not receive(bench.saved.file, job, events, Unit.INCH, bench.saved.clock()).refused
    page = at_bench(browser, shop, "saw")
    read = page.evaluate(
        """async (base) => {
            const { unpacked } = await import("/static/js/shop/state_format.js");
            const json = async (path) => (await fetch(base + path)).json();
            return unpacked(await json("/state"), await json("/work"));
        }""",
        shop,
    )
    written = with_keys(shop_state(heard()))
    assert read == json.loads(json.dumps(written))
    assert len(read["ticks"]) == 13 and read["parts"][parts[0]]["how"] == "wrong face"


def test_work_that_the_tablet_keeps_is_not_sent_again(
    browser: Browser,  # noqa: F811
    shop: str,
) -> None:
    page = at_bench(browser, shop, "saw")
    expect(page.locator("#shop[data-kept]")).to_have_count(1)
    with page.expect_response("**/shop/work") as answer:
        page.reload()
    assert answer.value.status == 304
    page.locator(".batch").wait_for()
    page.evaluate("localStorage.clear()")
    with page.expect_response("**/shop/work") as answer:
        page.reload()
    assert answer.value.status == 200 and answer.value.header_value("content-encoding") == "gzip"
    page.locator(".batch").wait_for()
