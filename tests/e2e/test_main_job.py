"""The main job as one story: signed in once, offline, weighed, filled, synced once, and seen by the fitter."""

import re
from pathlib import Path
from typing import Any

from e2e.demo_browser import Profiles, demo_server, sign_in
from playwright.sync_api import BrowserType, Page, expect

OWNER = ("orsolla", "dust-and-corrugation")
FITTER = ("brannock", "measure-twice-bolt-once")
VEHICLE = "Canopy utility"
READINGS = ("1340", "3560", "2230")
KINDS = ("weighing", "fill", "water")
MOST_TOUCHES = 12


def counts(page: Page, address: str, book: str) -> dict[str, int]:
    """How many entries of each kind the server holds, by its own answer."""
    found = {}
    for kind in KINDS:
        answer = page.request.get(f"{address}/api/books/{book}/records?kind={kind}")
        found[kind] = len(answer.json()["records"])
    return found


def touch(page: Page, *names: str) -> None:
    for name in names:
        page.get_by_role("button", name=name, exact=True).click()


def weigh(page: Page) -> int:
    """Three readings and the state confirmed; the number of touches, digits not counted."""
    page.get_by_role("link", name="Weigh", exact=True).click()
    for figure in READINGS:
        page.get_by_role("textbox").first.fill(figure)
        touch(page, "Take this reading")
    touch(page, "Roll off", "Yes, save as logged")
    page.get_by_text("unplanned").first.wait_for()
    return 1 + len(READINGS) + 2


def fill_up(page: Page) -> None:
    page.get_by_role("link", name="Fuel", exact=True).click()
    page.get_by_label("Odometer", exact=True).fill("53800")
    page.get_by_label("Litres into Main tank", exact=True).fill("41,5")
    page.get_by_role("radio", name="Yes, full").click()
    touch(page, "Save this fill")
    page.get_by_text("Saved on this phone.").wait_for()


def water_in(page: Page) -> None:
    page.get_by_role("link", name="Water", exact=True).click()
    page.get_by_label("Litres", exact=True).fill("30")
    touch(page, "Save this entry")
    page.get_by_text("Saved on this phone.").wait_for()


def log_without_signal(page: Page, vehicle: str) -> str:
    """Weighs, fills fuel and water; gives the rear axle's difference as shown."""
    page.goto(vehicle)
    assert weigh(page) <= MOST_TOUCHES
    expect(page.get_by_text(re.compile("^somewhere (between|behind)|^Cannot be placed"))).to_be_visible()
    expect(page.get_by_text("over by").first).to_be_visible()
    gap = page.get_by_role("row").filter(has_text="Rear axle").get_by_role("cell").last.inner_text()
    for task in (fill_up, water_in):
        page.goto(vehicle)
        task(page)
    expect(page.locator(".frame-status")).to_contain_text("3 waiting")
    return str(gap)


def see_as_fitter(page: Page, address: str, book: str, gap: str) -> None:
    sign_in(page, address, *FITTER)
    page.get_by_role("link", name="Planned against weighed, all vehicles").click()
    expect(page.get_by_role("article").filter(has_text=VEHICLE)).to_contain_text(gap)
    served: Any = page.request.get(f"{address}/api/books/{book}/comparison").json()["comparison"]
    rear = next(one for one in served["gaps"] if one["row"] == "rear")
    shown = [int(one.replace("\u202f", "")) for one in re.findall(r"\d[\d\u202f]*", gap)]
    assert shown == [round(abs(rear["gap_kg"])), round(1.959964 * rear["gap_u_kg"])]


def test_weighed_offline_and_seen_by_the_fitter(chromium: BrowserType, built: Path, tmp_path: Path) -> None:
    assert (built / "sw.js").is_file()
    profiles = Profiles(chromium, tmp_path)
    with demo_server(tmp_path / "data") as address:
        with profiles.open("owner") as first:
            page = first.new_page()
            sign_in(page, address, *OWNER)
            page.get_by_role("link", name=VEHICLE).click()
            page.get_by_role("heading", name="Weighings").wait_for()
            vehicle, book = page.url, page.url.rsplit("/", 1)[-1]
            before = counts(page, address, book)
        with profiles.open("owner") as again:
            again.set_offline(True)
            page = again.new_page()
            gap = log_without_signal(page, vehicle)
            again.set_offline(False)
            expect(page.locator(".frame-status")).to_contain_text("synced", timeout=30_000)
            assert counts(page, address, book) == {kind: count + 1 for kind, count in before.items()}
        with profiles.open("fitter") as other:
            see_as_fitter(other.new_page(), address, book, gap)
    assert profiles.troubles == []
