"""One tap a joint at the dry fit, on the case's sheet of the shop screen: kept, seen, taken back."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Browser, Page, expect

from casewright.app.learning.dry_fit_figures import dry_fit_figures
from casewright.app.learning.shop_record import dry_fits_of_shop
from casewright.app.shop.shop_floor import BenchRecord
from web.test_in_browser import Bench, bench, browser, chromium  # noqa: F401
from web.test_shop_screen import at_bench, heard, shop  # noqa: F401

pytestmark = pytest.mark.browser


def case_sheet(page: Page) -> None:
    page.evaluate("location.hash = 'B1'")
    page.locator(".joints li").first.wait_for()


def test_a_tap_is_kept_seen_at_another_bench_and_taken_back(
    browser: Browser,  # noqa: F811
    bench: Bench,  # noqa: F811
    shop: str,  # noqa: F811
    heard: Callable[[], BenchRecord],  # noqa: F811
) -> None:
    page, other = at_bench(browser, shop, "saw"), at_bench(browser, shop, "assembly")
    case_sheet(page)
    case_sheet(other)
    rows = page.locator(".joints li")
    joints = rows.count()
    assert joints > 5
    eased = rows.first.get_by_role("button", name="eased")
    eased.click()
    expect(eased).to_have_attribute("aria-pressed", "true")
    there = other.locator(".joints li").first.get_by_role("button", name="eased")
    expect(there).to_have_attribute("aria-pressed", "true", timeout=5_000)
    page.get_by_role("button", name=f"The other {joints - 1} by hand").click()
    expect(page.locator('.joints [aria-pressed="true"]')).to_have_count(joints)
    expect(other.locator('.joints [aria-pressed="true"]')).to_have_count(joints, timeout=5_000)
    state = heard().state
    assert state is not None and len(state.dry_fits) == joints
    assert sorted(set(state.dry_fits.values())) == ["by hand", "eased"]
    fits = dry_fits_of_shop(bench.saved)
    assert sum(one.joints for one in fits.records) == joints
    assert "to ease" in " ".join(line.sentence for line in dry_fit_figures(fits).lines)
    page.get_by_role("button", name="Close").click()
    page.get_by_role("button", name="Undo").click()
    expect(other.locator('.joints [aria-pressed="true"]')).to_have_count(joints - 1, timeout=5_000)


def test_without_the_network_the_tap_waits_on_the_tablet(
    browser: Browser,  # noqa: F811
    shop: str,  # noqa: F811
    heard: Callable[[], BenchRecord],  # noqa: F811
) -> None:
    page = at_bench(browser, shop, "saw")
    case_sheet(page)
    page.context.set_offline(True)
    clamp = page.locator(".joints li").first.get_by_role("button", name="clamp")
    clamp.click()
    expect(clamp).to_have_attribute("aria-pressed", "true")
    assert not heard().events
    page.context.set_offline(False)
    for _ in range(100):
        if heard().events:
            break
        page.wait_for_timeout(100)
    state = heard().state
    assert state is not None and list(state.dry_fits.values()) == ["clamp"]
