"""What is on order, what a plan forgets, where a load may go: asked on the plan's page, offline."""

import re
from collections.abc import Callable
from typing import Any

from e2e.device import Device
from e2e.host import Account
from e2e.planned import item
from e2e.test_field_use import AXE, RULES, SIZES
from e2e.test_plan_drag import loads
from e2e.test_plan_table import kept
from playwright.sync_api import Locator, Page, expect

ITEMS = [
    item("Canopy", 150.0, 3.4, known_by="weighed"),
    item("Winch", 32.0, -0.6, stage="on_order"),
    item("Fridge", 50.0, 3.0),
]
Open = Callable[..., str]


def rated(page: Page, rating: str) -> Locator:
    """Gives the row of one rating."""
    return page.locator(".verdict").filter(
        has=page.locator(".verdict-name", has_text=re.compile(f"^{rating}"))
    )


def test_once_all_on_order_is_fitted(phone: Device, opened: Open) -> None:
    opened(ITEMS)
    page = phone.page
    today = loads(page)
    added = page.locator(".row").filter(has_text="then under by")
    expect(added.filter(has_text="Front axle")).to_contain_text("+\u202f38\u202fkg")  # 32 (1 + 0.6/3.2)
    expect(added.filter(has_text="Rear axle")).to_contain_text("\u2212\u202f6\u202fkg")
    expect(added.filter(has_text="Gross")).to_contain_text("+\u202f32\u202fkg")
    page.get_by_role("radio", name="Once all on order is fitted").click()
    assert [b - a for a, b in zip(today, loads(page), strict=True)] == [38, -6]
    expect(page.locator(".beam-planned")).to_have_count(1)
    expect(page.locator(".row").filter(has_text="without it under by")).to_have_count(3)


def test_a_part_that_arrives_is_fitted(
    phone: Device, opened: Open, account: Callable[[Device], Account]
) -> None:
    opened(ITEMS)
    page = phone.page
    page.get_by_role("button", name=re.compile("^Winch.*on order")).click()
    page.get_by_role("link", name="More about it").click()
    page.get_by_role("radio", name="Fitted", exact=True).click()
    phone.touch("Save on this phone")
    expect(page.get_by_role("heading", name="Items")).to_be_visible()
    expect(page.get_by_role("radio", name="Once all on order is fitted")).to_have_count(0)
    assert kept(phone, account, "Winch")["stage"] == "fitted"


def test_forgotten_mass_is_counted_in_and_taken_out_again(
    phone: Device,
    opened: Open,
    account: Callable[[Device], Account],
) -> None:
    book = opened(ITEMS)
    page = phone.page
    before = loads(page)
    section = page.locator(".section").filter(has_text="Forgotten mass")
    expect(section.locator(".row").first).to_contain_text(re.compile("4.5 % of the added mass\\s*9 ±\\s3"))
    section.get_by_role("radio", name="Yes, in every figure here").click()
    expect(page.get_by_role("button", name="Undo Wren: Forgotten mass")).to_be_visible()
    page.wait_for_timeout(300)
    assert sum(loads(page)) - sum(before) in (8, 9, 10)
    share = section.get_by_label("Share of the added mass that is forgotten")
    expect(share).to_have_value("4.5")
    share.fill("10")
    page.keyboard.press("Enter")
    expect(section.locator(".row").first).to_contain_text(re.compile("10 % of the added mass\\s*20 ±\\s8"))
    assert vehicle(phone, account, book)["as_typed"] == {"forgotten_share": ["10", "%"]}
    page.get_by_role("button", name=re.compile("^Undo Wren: Share")).click()
    expect(share).to_have_value("4.5")
    section.get_by_role("radio", name="No").click()
    expect(share).to_have_count(0)
    assert vehicle(phone, account, book)["forgotten_share"] is None


def vehicle(phone: Device, account: Callable[[Device], Account], book: str) -> dict[str, Any]:
    """The vehicle as the server has it once the phone is back."""
    phone.offline(False)
    phone.page.evaluate("dispatchEvent(new Event('online'))")
    phone.synced()
    body: dict[str, Any] = account(phone).versions("vehicle")[-1]["body"]
    return body


def test_where_a_load_may_go(phone: Device, opened: Open, account: Callable[[Device], Account]) -> None:
    opened(ITEMS)
    page = phone.page
    page.get_by_role("button", name=re.compile("^Fridge")).click()
    page.get_by_role("link", name="More about it").click()
    page.get_by_role("button", name="More about it").click()
    may = page.get_by_role("radiogroup", name="May it be left behind?")
    may.get_by_role("radio", name="Yes").click()
    page.get_by_role("button", name="Add a place").click()
    phone.touch("Save on this phone")
    expect(page.get_by_text("Place 1 needs its metres, or take it out.")).to_be_visible()
    phone.type("Place 1: what you call it", "Behind the cab")
    phone.type("Place 1: metres", "1,9")
    page.get_by_role("button", name="Add a place").click()
    phone.type("Place 2: metres", "2.1")
    page.get_by_role("radiogroup", name="On what").nth(1).get_by_role("radio", name="Roof").click()
    cdp = phone.context.new_cdp_session(page)
    cdp.send("Runtime.evaluate", {"expression": AXE.read_text()})
    result = page.evaluate(f"axe.run(document, {RULES})")
    assert [f"{one['id']}: {one['nodes'][0]['html'][:150]}" for one in result["violations"]] == []
    assert page.evaluate(SIZES) == []
    phone.touch("Save on this phone")
    expect(page.get_by_role("heading", name="Items")).to_be_visible()
    body = kept(phone, account, "Fridge")
    assert body["may_stay_behind"] is True
    assert body["may_move_to"] == [
        {"label": "Behind the cab", "x_m": 1.9},
        {"x_m": 2.1, "roof": True},
    ]


def test_what_is_assumed_leads_to_the_field_that_says_it(
    phone: Device, opened: Open, account: Callable[[Device], Account]
) -> None:
    opened(ITEMS)
    page = phone.page
    estimates = page.get_by_role("button", name=re.compile("^u of a mass that is an estimate: 15 %"))
    expect(estimates).to_contain_text("2")
    estimates.click()
    page.get_by_role("link", name=re.compile("^Fridge.*± of the mass")).click()
    field = page.get_by_label("± of the mass (one standard uncertainty)", exact=True)
    expect(field).to_be_focused()
    field.fill("2")
    phone.touch("Save on this phone")
    expect(estimates).to_contain_text("1")
    assert kept(phone, account, "Fridge")["mass_u_kg"] == 2


def test_on_paper_the_plan_is_a_sheet(phone: Device, opened: Open) -> None:
    opened(ITEMS)
    page = phone.page
    page.emulate_media(media="print", color_scheme="dark")
    page.set_viewport_size({"width": 718, "height": 1000})  # A4 within its margins
    expect(page.get_by_role("row", name=re.compile("^Fridge"))).to_be_visible()
    expect(page.get_by_text("Canopy", exact=True).first).to_be_visible()
    for gone in (
        page.get_by_role("radio", name="As logged now"),
        page.get_by_role("link", name="More about Fridge"),
    ):
        expect(gone).to_be_hidden()
    assert page.evaluate("getComputedStyle(document.documentElement).backgroundColor") == "rgb(255, 255, 255)"
    assert not page.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth")


def test_a_phone_prints_the_table_too(phone: Device, opened: Open) -> None:
    opened(ITEMS)
    page = phone.page
    expect(page.get_by_role("button", name=re.compile("^Fridge"))).to_be_visible()
    drawn = "document.querySelectorAll('tbody tr').length"
    page.evaluate(f"addEventListener('beforeprint', () => {{ window.printed = {drawn} }})")
    page.pdf()
    page.wait_for_function("window.printed !== undefined")
    assert page.evaluate("window.printed") == len(ITEMS)
    expect(page.get_by_role("button", name=re.compile("^Fridge"))).to_be_visible()
