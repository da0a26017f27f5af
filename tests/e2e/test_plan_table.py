"""The plan's lists, offline: cells by keyboard on a wide screen, rows that open in place on a phone, and undo."""

import re
from collections.abc import Callable
from typing import Any

import pytest
from e2e.device import Device
from e2e.host import Account
from e2e.planned import item, seed
from e2e.test_field_use import AXE, RULES, SIZES
from playwright.sync_api import Locator, Page, expect

ITEMS = [
    item("Fridge", 25.0, 3.05, as_typed={"mass_kg": ["25", "kg"], "x_m": ["3.05", "m"]}),
    item("Drawers", 70.0, 3.4, known_by="similar"),
    item("Winch", 29.0, -1.025),
]
WIDE = {"width": 1280, "height": 800}


@pytest.fixture
def book(phone: Device, account: Callable[[Device], Account]) -> str:
    """A plan of three items on this phone, which has lost its signal."""
    book = seed(account(phone).ask, ITEMS)
    phone.open("/")
    phone.page.get_by_role("link", name="Wren").click()
    expect(phone.page.get_by_role("heading", name="Wren")).to_be_visible()
    phone.ready_offline()
    phone.offline()
    phone.open(f"/b/{book}/plan")
    expect(phone.page.get_by_role("heading", name="Items")).to_be_visible()
    return book


def kept(phone: Device, account: Callable[[Device], Account], name: str) -> dict[str, Any]:
    """An item as the server has it once the phone is back, with how often it was edited."""
    phone.offline(False)
    # a page that was loaded without a network is not told by this browser when there is one again
    phone.page.evaluate("dispatchEvent(new Event('online'))")
    phone.synced()
    versions = [one for one in account(phone).versions("item") if one["body"]["name"] == name]
    assert all(one["standing"] == "applied" for one in versions)
    body: dict[str, Any] = versions[-1]["body"]
    return body


def cell(page: Page, row: str, column: int) -> Locator:
    return page.get_by_role("row", name=re.compile(f"^{row}")).locator("th, td").nth(column)


def test_cells_are_walked_and_typed_with_the_keyboard(
    phone: Device, book: str, account: Callable[[Device], Account]
) -> None:
    page = phone.page
    page.set_viewport_size(WIDE)
    cell(page, "Fridge", 0).focus()
    for key in ("ArrowRight", "2", "7", ",", "5", "Enter"):
        page.keyboard.press(key)
    expect(cell(page, "Drawers", 1)).to_be_focused()
    expect(cell(page, "Fridge", 1)).to_have_text("27.5")
    for key in ("7", "2", "Tab"):
        page.keyboard.press(key)
    expect(cell(page, "Drawers", 2)).to_be_focused()
    page.keyboard.press("Enter")
    page.get_by_label("How known: Drawers").select_option("Weighed")
    page.keyboard.press("Tab")
    expect(cell(page, "Drawers", 3)).to_have_text("0.36")
    page.keyboard.press("ArrowRight")
    page.keyboard.type("3560 mm")
    page.keyboard.press("Enter")
    expect(cell(page, "Drawers", 4)).to_have_text("3560 mm")
    assert kept(phone, account, "Fridge")["as_typed"]["mass_kg"] == ["27.5", "kg"]
    drawers = kept(phone, account, "Drawers")
    assert (drawers["mass_kg"], drawers["known_by"], drawers["x_m"]) == (72, "weighed", 3.56)
    assert drawers["as_typed"] == {"mass_kg": ["72", "kg"], "x_m": ["3560", "mm"]}


def test_what_cannot_be_read_stays_typed_even_over_a_reload(phone: Device, book: str) -> None:
    page = phone.page
    page.set_viewport_size(WIDE)
    cell(page, "Fridge", 4).click()
    page.keyboard.type("45")
    page.keyboard.press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("45 m is not possible, it must be -3 to 20 m")
    page.wait_for_timeout(400)  # a draft is written after a pause
    phone.open(f"/b/{book}/plan")
    typed = page.get_by_label("Place, m: Fridge")
    expect(typed).to_have_value("45")
    typed.fill("2.345")
    page.keyboard.press("Enter")
    page.get_by_role("button", name="2.345 m").click()
    expect(cell(page, "Fridge", 4)).to_have_text("2.3450")
    cell(page, "Fridge", 4).click()
    page.keyboard.press("Escape")
    expect(cell(page, "Fridge", 4)).to_be_focused()


def test_a_row_opens_in_place_on_a_phone(
    phone: Device, book: str, account: Callable[[Device], Account]
) -> None:
    page = phone.page
    row = page.get_by_role("button", name=re.compile("^Winch"))
    row.click()
    page.get_by_label("Place", exact=True).fill("-0.7")
    page.get_by_label("Mass of one", exact=True).fill("31")
    page.keyboard.press("Enter")
    expect(row).to_contain_text("31")
    expect(row).to_contain_text("at −0.70")
    winch = kept(phone, account, "Winch")
    assert (winch["mass_kg"], winch["x_m"]) == (31, -0.7)
    assert winch["as_typed"] == {"mass_kg": ["31", "kg"], "x_m": ["-0.7", "m"]}


def test_edits_of_this_visit_are_taken_back_one_by_one(
    phone: Device, book: str, account: Callable[[Device], Account]
) -> None:
    page = phone.page
    page.set_viewport_size(WIDE)
    cell(page, "Fridge", 1).click()
    page.keyboard.type("40")
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Undo Fridge: Mass of one")).to_be_visible()
    phone.open(f"/b/{book}/plan")  # a new visit: what was done before it stays
    expect(page.get_by_role("button", name=re.compile("^Undo"))).to_have_count(0)
    cell(page, "Fridge", 4).click()
    page.keyboard.type("1.5")
    page.keyboard.press("Enter")
    page.get_by_role("link", name="More about Drawers").click()
    page.get_by_role("button", name="More about it").click()
    page.get_by_role("button", name="Take it out of the plan").click()
    expect(page.get_by_role("row", name=re.compile("^Drawers"))).to_have_count(0)
    page.get_by_role("button", name="Undo Drawers: taken out").click()
    expect(page.get_by_role("row", name=re.compile("^Drawers"))).to_be_visible()
    page.locator("h1").focus()
    page.keyboard.press("Control+z")
    expect(cell(page, "Fridge", 4)).to_have_text("3.05")
    expect(page.get_by_role("button", name=re.compile("^Undo"))).to_have_count(0)
    page.keyboard.press("Control+Shift+z")
    expect(cell(page, "Fridge", 4)).to_have_text("1.5")
    page.keyboard.press("Control+y")
    expect(page.get_by_role("row", name=re.compile("^Drawers"))).to_have_count(0)
    expect(page.get_by_role("button", name=re.compile("^Redo"))).to_have_count(0)
    page.keyboard.press("Control+z")
    page.get_by_role("button", name="Undo Fridge: Place", exact=True).click()
    redo = page.get_by_role("button", name="Redo Fridge: Place", exact=True)
    redo.click()
    expect(cell(page, "Fridge", 4)).to_have_text("1.5")
    page.keyboard.press("Control+z")
    expect(redo).to_be_visible()
    cell(page, "Winch", 1).click()
    page.keyboard.type("33")
    page.keyboard.press("Enter")  # what is typed anew ends what could be done again
    expect(page.get_by_role("button", name="Undo Winch: Mass of one", exact=True)).to_be_visible()
    expect(redo).to_have_count(0)
    fridge = kept(phone, account, "Fridge")
    assert (fridge["mass_kg"], fridge["x_m"]) == (40, 3.05)
    assert fridge["as_typed"] == {"mass_kg": ["40", "kg"], "x_m": ["3.05", "m"]}
    assert kept(phone, account, "Drawers").get("deleted") is False


def test_the_stored_figures_of_a_form_are_never_asked_about(phone: Device, book: str) -> None:
    page = phone.page
    page.set_viewport_size(WIDE)
    page.get_by_role("link", name="More about Winch").click()
    expect(page.get_by_label("Place", exact=True)).to_have_value("-1.025")
    page.get_by_label("Name", exact=True).fill("Winch with rope")
    phone.touch("Save on this phone")
    expect(page.get_by_role("row", name=re.compile("^Winch with rope"))).to_be_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_lists_hold_for_gloves_and_readers(phone: Device, book: str, scheme: str) -> None:
    page = phone.page
    page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    cdp = phone.context.new_cdp_session(page)
    for width in (1280, 390):
        page.set_viewport_size({"width": width, "height": 844})
        if width > 600:
            cell(page, "Fridge", 4).click()
            page.keyboard.type("1.234")
            page.keyboard.press("Enter")
        else:
            page.get_by_role("button", name=re.compile("^Fridge")).click()
        page.wait_for_timeout(300)
        cdp.send("Runtime.evaluate", {"expression": AXE.read_text()})
        result = page.evaluate(f"axe.run(document, {RULES})")
        assert [f"{one['id']}: {one['nodes'][0]['html'][:150]}" for one in result["violations"]] == [], width
        assert page.evaluate(SIZES) == [], width
