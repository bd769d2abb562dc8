"""The shop screen under a thumb: what is in reach, what can be taken back, and what it says of itself."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Browser, Locator, Page, Route, expect

from casewright.app.shop.shop_floor import BenchRecord
from casewright.record.shop_state import Status
from web.test_in_browser import PHONE, bench, browser, chromium, open_page  # noqa: F401
from web.test_shop_screen import at_bench, heard, shop  # noqa: F401

pytestmark = pytest.mark.browser

IN_VIEW = """
  element => {
    const box = element.getBoundingClientRect();
    const at = document.elementFromPoint(box.left + box.width / 2, box.top + Math.min(box.height, 40) / 2);
    return box.top >= 0 && box.bottom <= innerHeight && element.contains(at);
  }
"""


def in_view(found: Locator) -> bool:
    """Whether it is seen whole, and nothing lies over it. News from the server draws the screen anew, and
    an element that has just been replaced is nowhere: so it is asked more than once."""
    return any(found.evaluate(IN_VIEW) for _ in range(5))


def foot(page: Page, name: str) -> None:
    page.locator(".shop-foot").get_by_role("button", name=name).click()


def test_every_batch_opens_at_its_top_with_the_setting_and_the_tick_in_reach(
    browser: Browser,  # noqa: F811
    shop: str,  # noqa: F811
) -> None:
    page = at_bench(browser, shop, "saw")
    batches = 0
    while True:
        batches += 1
        assert page.evaluate("scrollY") == 0
        title = page.locator(".batch h1").inner_text()
        assert in_view(page.locator(".batch h1")), title
        for line in page.locator(".batch .setting li").all()[:1]:
            assert in_view(line), title
        assert in_view(page.locator(".shop-foot .next")), title
        if page.get_by_role("button", name="Batch ›").is_disabled():
            break
        page.evaluate("scrollTo(0, document.body.scrollHeight)")
        page.get_by_role("button", name="Batch ›").click()
    assert batches > 10


def test_the_tick_in_reach_goes_through_the_batch_and_on_to_the_next(browser: Browser, shop: str) -> None:  # noqa: F811
    page = at_bench(browser, shop, "saw")
    steps = page.locator(".steps .tick")
    for done in range(steps.count()):
        expect(page.locator(".steps .done")).to_have_count(done)
        page.locator(".shop-foot .next", has_text="Tick").click()
    page.get_by_role("button", name="Go on to batch 2").click()
    expect(page.locator(".batch .faint").first).to_contain_text("2 of ")


def test_news_while_a_finger_is_down_does_not_take_the_tap_away(browser: Browser, shop: str) -> None:  # noqa: F811
    page = at_bench(browser, shop, "saw")
    page.mouse.move(*middle(page, ".shop-foot .next"))
    page.mouse.down()
    news(page)
    page.mouse.up()
    expect(page.locator(".steps .done")).to_have_count(1)

    page.mouse.move(*middle(page, ".batch h1"))  # a finger that is lifted where nothing is pressed
    page.mouse.down()
    page.evaluate("document.querySelector('.batch h1').textContent = 'as it was'")
    news(page)
    expect(page.locator(".batch h1")).to_have_text("as it was")
    page.mouse.up()
    expect(page.locator(".batch h1")).not_to_have_text("as it was")


def middle(page: Page, selector: str) -> tuple[float, float]:
    """Where to press an element, asked in one call: one that is found first may be replaced meanwhile."""
    box = page.evaluate(
        "selector => document.querySelector(selector).getBoundingClientRect().toJSON()", selector
    )
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def news(page: Page) -> None:
    """As when another tab of the same tablet has kept something."""
    page.evaluate(
        """() => {
          const key = Object.keys(localStorage).find((key) => key.startsWith("casewright"));
          window.dispatchEvent(new StorageEvent("storage", { key }));
        }"""
    )


def test_all_batches_stand_on_one_sheet_by_machine_with_how_far_each_is(browser: Browser, shop: str) -> None:  # noqa: F811
    page = at_bench(browser, shop, "saw")
    page.locator(".shop-foot .next").click()
    page.get_by_role("button", name="All batches").click()
    index = page.locator(".batch-index")
    assert index.locator("h2").count() > 1
    expect(index.locator("[aria-current]")).to_contain_text("1 of ")
    chosen = index.locator("li button").nth(3)
    number, title = re.fullmatch(r"(\d+)\. (.*) · .*", chosen.inner_text()).groups()  # type: ignore[union-attr]
    chosen.click()
    expect(index).to_be_hidden()
    expect(page.locator(".batch .faint").first).to_contain_text(f"{number} of ")
    expect(page.locator(".batch h1")).to_have_text(title)


def test_every_tap_is_taken_back_and_made_again_where_it_was_made(
    browser: Browser,  # noqa: F811
    shop: str,  # noqa: F811
    heard: Callable[[], BenchRecord],  # noqa: F811
) -> None:
    page = at_bench(browser, shop, "saw")
    done = page.locator(".steps .done")
    page.locator(".steps .tick").first.click()
    expect(done).to_have_count(1)
    page.locator(".steps .tick").first.click()  # unticked by a slip
    expect(done).to_have_count(0)
    foot(page, "Undo")
    expect(done).to_have_count(1)
    foot(page, "Undo")
    expect(done).to_have_count(0)
    foot(page, "Redo")
    expect(done).to_have_count(1)
    foot(page, "Redo")
    expect(done).to_have_count(0)

    page.evaluate("location.hash = '#B1-L'")
    page.locator(".part-sheet").get_by_role("button", name="Lost").click()
    expect(page.locator(".last-tap")).to_contain_text("B1-L marked as lost")

    def status(stands: Status) -> bool:
        expect(page.locator("#shop-status")).not_to_contain_text("not sent")
        state = heard().state
        return state is not None and state.status("B1-L") is stands

    assert status(Status.LOST)
    foot(page, "Undo")
    assert status(Status.TO_CUT)
    page.reload()
    foot(page, "Redo")
    expect(page.locator(".last-tap")).to_contain_text("B1-L marked as lost")
    assert status(Status.LOST)


def test_a_full_store_is_said_and_the_tick_is_sent_all_the_same(
    browser: Browser,  # noqa: F811
    shop: str,  # noqa: F811
    heard: Callable[[], BenchRecord],  # noqa: F811
) -> None:
    page = at_bench(browser, shop, "saw")
    page.context.set_offline(True)
    full = "() => { throw new DOMException('full', 'QuotaExceededError'); }"
    page.evaluate(f"() => {{ Storage.prototype.setItem = {full}; }}")
    page.locator(".shop-foot .next").click()
    expect(page.locator("#shop-status")).to_contain_text("store is full: keep this page open")
    page.context.set_offline(False)
    expect(page.locator("#shop-status")).not_to_contain_text("not sent")
    state = heard().state
    assert state is not None and len(state.ticks) == 1


def test_while_it_loads_it_says_so_and_not_that_nobody_answers(browser: Browser, shop: str) -> None:  # noqa: F811
    page = open_page(browser, "about:blank", PHONE)
    waiting: list[Route] = []
    page.route("**/shop/work", lambda route: waiting.append(route))
    page.goto(shop)
    expect(page.locator("#shop")).to_have_text("Loading the steps …")
    page.wait_for_timeout(300)
    expect(page.locator("#shop")).to_have_text("Loading the steps …")
    waiting[0].continue_()
    page.locator(".batch").wait_for()


def test_a_browser_that_cannot_keep_the_screen_says_so(browser: Browser, shop: str) -> None:  # noqa: F811
    page = open_page(browser, "about:blank", PHONE)
    page.add_init_script("delete Navigator.prototype.serviceWorker")  # as on a page served without HTTPS
    page.goto(shop)
    expect(page.locator("#shop-status")).to_contain_text("not kept on this tablet")
    kept = at_bench(browser, shop, "saw")
    expect(kept.locator("#shop[data-kept]")).to_have_count(1)
    assert "not kept" not in kept.locator("#shop-status").inner_text()


def test_a_wrong_answer_says_what_to_do_and_ticks_nothing(browser: Browser, shop: str) -> None:  # noqa: F811
    page = at_bench(browser, shop, "saw")
    work = page.evaluate(
        "fetch(`${document.querySelector('[data-base]').dataset.base}/work`).then((r) => r.json())"
    )
    at, question = next((at, one["question"]) for at, one in enumerate(work["batches"]) if one["question"])
    for _ in range(at):
        page.get_by_role("button", name="Batch ›").click()
    asked, ticked = page.locator(".tap-question"), page.locator(".steps .done")
    (wrong,) = set(question["answers"]) - {question["right"]}
    page.locator(".steps .tick").first.click()
    expect(asked).to_contain_text(question["text"])
    asked.get_by_role("button", name=wrong, exact=True).click()
    expect(asked).to_contain_text(question["otherwise"])
    asked.get_by_role("button", name="I will look").click()
    expect(ticked).to_have_count(0)
    page.locator(".steps .tick").first.click()
    asked.get_by_role("button", name=question["right"], exact=True).click()
    expect(ticked).to_have_count(1)
    page.locator(".steps .tick").first.click()  # unticked by a slip, and ticked again: asked once a batch
    expect(ticked).to_have_count(0)
    page.locator(".steps .tick").first.click()
    expect(ticked).to_have_count(1)
