"""The account on a weighing's page: what stands in its lines adds up to the total that stands under them."""

import re
from pathlib import Path

from e2e.demo_browser import Profiles, demo_server, sign_in
from playwright.sync_api import BrowserType, Locator, Page, expect

OWNER = ("jelka", "kettle-on-by-four")
VEHICLE = "High van"
MINUS = "\u2212"


def kilograms(text: str) -> int:
    """A figure as it is shown: a sign apart from it, a thin space between thousands; blank is nothing."""
    digits = re.sub(r"[^\d]", "", text)
    return (-1 if MINUS in text else 1) * int(digits or "0")


def section(page: Page, title: str) -> Locator:
    return page.locator("section").filter(has=page.get_by_role("heading", name=title, exact=True))


def columns(rows: Locator, cell: str = "td") -> list[list[int]]:
    """The figures of rows as they stand at one moment, column by column, without the ± under or beside them."""
    read = "(rows, cell) => rows.map((row) => [...row.querySelectorAll(cell)].map((one) => one.innerText))"
    shown = [[kilograms(text.split("±")[0]) for text in row] for row in rows.evaluate_all(read, cell)]
    return [list(column) for column in zip(*shown, strict=True)]


def check_account(account: Locator) -> int:
    lines = columns(account.locator("tbody tr"), "td:nth-child(2)")[0]
    ((total,),) = columns(account.locator("tfoot tr"), "td:nth-child(2)")
    assert len(lines) >= 5
    assert sum(lines) == total
    return total


def check_since(since: Locator) -> None:
    lines, sums = (columns(since.locator("tbody").nth(n).locator("tr")) for n in (0, 1))
    assert len(lines) == len(sums) >= 1
    for column, (listed, bridge, unexplained) in zip(lines, sums, strict=True):
        assert sum(column) == listed
        assert listed + unexplained == bridge


def test_the_lines_on_the_page_add_up(chromium: BrowserType, built: Path, tmp_path: Path) -> None:
    profiles = Profiles(chromium, tmp_path)
    with demo_server(tmp_path / "data") as address, profiles.open("owner") as context:
        page = context.pages[0]
        sign_in(page, address, *OWNER)
        page.get_by_role("link", name=VEHICLE).first.click()
        page.locator("a[href*='/weighing/']").first.click()
        account = section(page, "Where the kilograms are")
        account.wait_for()
        total = check_account(account)
        weighed = account.locator("tfoot").inner_text()
        choice = account.get_by_label("Plan as of")
        days = choice.locator("option").evaluate_all("(all) => all.map((one) => one.value)")
        assert len(days) > 1
        plans = set()
        for day in days:
            choice.select_option(day)
            page.evaluate("() => new Promise(requestAnimationFrame)")
            assert check_account(account) == total
            plans.add(account.locator("tbody tr").first.inner_text())
        assert len(plans) > 1
        assert account.locator("tfoot").inner_text() == weighed
        check_since(section(page, "Since last time"))
        taught = section(page, "What the weighings taught")
        taught.wait_for()
        expect(taught.get_by_role("img")).to_have_count(3)
        expect(taught.get_by_role("listitem").filter(has_text="before,")).not_to_have_count(0)
    assert profiles.troubles == []


LOSE_THE_DESK = """async () => {
  for (const name of await caches.keys()) {
    const cache = await caches.open(name);
    for (const kept of await cache.keys()) if (kept.url.includes("/assets/desk-")) await cache.delete(kept);
  }
}"""


def test_the_verdicts_stand_before_the_rest_has_arrived(
    chromium: BrowserType, built: Path, tmp_path: Path
) -> None:
    """The signal went after the shell and before the pages of the desk."""
    profiles = Profiles(chromium, tmp_path)
    with demo_server(tmp_path / "data") as address, profiles.open("owner") as context:
        page = context.pages[0]
        sign_in(page, address, *OWNER)
        page.get_by_role("link", name=VEHICLE).first.click()
        page.locator("a[href*='/weighing/']").first.wait_for()
        weighing = page.locator("a[href*='/weighing/']").first.get_attribute("href")
        assert weighing
        context.set_offline(True)
        page.evaluate(LOSE_THE_DESK)
        context.new_cdp_session(page).send("Network.clearBrowserCache")
        page.goto(address + weighing)
        expect(
            page.get_by_text(re.compile("^The rest of this page is not on this phone yet"))
        ).to_be_visible()
        expect(section(page, "As weighed").locator(".verdict").first).to_be_visible()
        expect(section(page, "Where the kilograms are")).to_have_count(0)
        context.set_offline(False)
        page.reload()
        expect(section(page, "Where the kilograms are")).to_be_visible()
    assert built
