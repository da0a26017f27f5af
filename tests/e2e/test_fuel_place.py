"""A page just opened, without signal, goes on from the place that the phone kept in its fuel log."""

from collections.abc import Callable
from typing import Any

from e2e.device import Device
from e2e.host import Account
from playwright.sync_api import Page, expect

from tests.factories import mutation, new_id, vehicle

FILLS = 60
KEPT = """
async ([book, gone]) => {
  const name = (await indexedDB.databases()).map((one) => one.name).find((one) => one.startsWith("tareway:"));
  const asked = (request) => new Promise((done, fail) => {
    request.onsuccess = () => done(request.result);
    request.onerror = () => fail(request.error);
  });
  const database = await asked(indexedDB.open(name));
  const meta = database.transaction("meta", gone ? "readwrite" : "readonly").objectStore("meta");
  const found = await Promise.all(["kept", "place"].map((what) => asked(meta.get(`${what}:${book}`))));
  if (gone) await Promise.all(["kept", "place"].map((what) => asked(meta.delete(`${what}:${book}`))));
  database.close();
  return found.every(Boolean);
}
"""


def seeded(ask: Any) -> str:
    """A book with one tank and sixty fills, every sixth a part fill."""
    book = new_id()
    tank = mutation(book, "tank", {"name": "Main", "holds": "fuel", "capacity_l": 80.0})
    made = [vehicle(book, name="Wren"), tank]
    for n in range(FILLS):
        full = n % 6 != 5
        line = {"tank_id": tank["id"], "litres_l": 40.0 + n % 3 if full else 22.0, "full": full}
        body = {"at": f"2026-0{1 + n // 28}-{1 + n % 28:02d}T08:00:00Z", "zone": "UTC", "lines": [line]}
        made.append(mutation(book, "fill", {**body, "odometer_km": 1_000.0 + 400 * n}))
    numbered = [{**one, "device_seq": n + 1} for n, one in enumerate(made)]
    answers = ask("POST", "/api/sync", {"device": new_id(), "mutations": numbered, "books": []})["answers"]
    assert all(one["outcome"] == "applied" for one in answers), answers
    return book


def kept(page: Page, book: str, *, gone: bool = False) -> bool:
    """Whether the phone keeps an answer and a place of this book; then perhaps no longer."""
    return bool(page.evaluate(KEPT.strip(), [book, gone]))


def told(page: Page) -> list[str]:
    """The headline, and what it rests on."""
    rests = page.get_by_role("heading", name="What this rests on").locator("xpath=ancestor::*[2]")
    return [page.locator(".answer").inner_text(), rests.inner_text()]


def test_a_page_just_opened_answers_as_one_that_reads_the_whole_log(
    phone: Device, account: Callable[[Device], Account]
) -> None:
    book = seeded(account(phone).ask)
    phone.open("/")
    phone.page.get_by_role("link", name="Wren").click()
    phone.ready_offline()
    phone.offline()
    phone.open(f"/b/{book}/fuel")
    expect(phone.page.locator(".answer")).to_be_visible()
    phone.page.wait_for_function(f"async () => await ({KEPT.strip()})(['{book}', false])")
    phone.page.close()
    phone.page = phone.context.new_page()
    phone.open(f"/b/{book}/fuel")
    before = told(phone.page)
    phone.type("Odometer", str(1_000 + 400 * FILLS))
    phone.type("Litres", "47.5")
    phone.page.get_by_role("radio", name="Yes, full").click()
    expect(phone.page.get_by_text("With it: count on")).to_be_visible()
    phone.touch("Save this fill")
    expect(phone.page.get_by_text("Saved on this phone.")).to_be_visible()
    expect(phone.page.locator(".answer")).not_to_have_text(before[0])
    gone_on = told(phone.page)
    assert gone_on[1] != before[1]
    assert kept(phone.page, book, gone=True)
    phone.page.close()
    phone.page = phone.context.new_page()
    phone.open(f"/b/{book}/fuel")
    expect(phone.page.locator(".answer")).to_have_text(gone_on[0])
    assert told(phone.page) == gone_on
