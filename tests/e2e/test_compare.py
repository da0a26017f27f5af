"""Two plans side by side, offline: before and after an edit, with what is on order, and lines that add up."""

import re
from collections.abc import Callable

import pytest
from e2e.device import Device
from e2e.host import Account
from e2e.planned import item, seed
from playwright.sync_api import Locator, expect

ITEMS = [
    item("Fridge", 30.0, 1.6, mass_u_kg=1.0, x_u_m=0.0),
    item("Winch", 32.0, -0.8, mass_u_kg=1.0, x_u_m=0.0, stage="on_order"),
]
TRAILER = {
    "name": "Camper",
    "coupling_to_axle_m": 4.0,
    "base_coupling_kg": 64.0,
    "base_axles_kg": 536.0,
    "axles": 1,
}
THIN = "\u202f"


@pytest.fixture
def book(phone: Device, account: Callable[[Device], Account]) -> str:
    """A plan on this phone, which has lost its signal, with its two plans opened."""
    book = seed(account(phone).ask, ITEMS, of_vehicle={"coupling_x_m": 4.4}, trailer=[TRAILER])
    phone.open("/")
    phone.page.get_by_role("link", name="Wren").click()
    phone.page.get_by_role("link", name="Plan", exact=True).click()
    phone.ready_offline()
    phone.offline()
    phone.page.get_by_role("link", name="Compare two plans").click()
    expect(phone.page.get_by_role("heading", name="First plan").first).to_be_visible()
    return book


def cells(phone: Device, name: str) -> list[str]:
    """The figures of one line, without spaces."""
    row = phone.page.get_by_role("row", name=re.compile(f"^{name}"))
    return [text.replace(THIN, "") for text in row.locator("td").all_inner_texts()]


def number(text: str) -> int:
    return int(text.replace("\u2212", "-"))


def choose(phone: Device, name: str, *, second: bool) -> None:
    phone.page.get_by_role("radio", name=name).nth(int(second)).click()


def test_what_is_on_order_is_one_line_that_adds_up(phone: Device, book: str) -> None:
    choose(phone, "Fitted alone", second=False)
    choose(phone, "And on order", second=True)
    line = phone.page.get_by_role("row", name=re.compile("^Winch"))
    expect(line).to_contain_text("on order")
    # by hand: 32 kg 0.8 m ahead of the front axle of 3.2 m
    assert cells(phone, "Winch") == ["+40", "\u22128", "+32"]
    expect(figures(phone, "Second plan")).to_contain_text(f"1{THIN}245")


def figures(phone: Device, name: str) -> Locator:
    return phone.page.get_by_role("row", name=re.compile(f"^{name}"))


def test_a_trailer_comes_with_its_load_and_every_column_adds_up(phone: Device, book: str) -> None:
    choose(phone, "Camper", second=True)
    expect(figures(phone, "Camper")).to_contain_text("with the trailer")
    expect(phone.page.get_by_text("Trailer axles").first).to_be_visible()
    first, second = cells(phone, "First plan"), cells(phone, "Second plan")
    for one, other, more in zip(first, second, cells(phone, "Camper"), strict=True):
        assert number(one) + number(more) == number(other)
    # by hand: 64 kg on a coupling at 4.4 m of a 3.2 m wheelbase
    assert cells(phone, "Camper") == ["\u221224", "+88", "+64", "+64", "+536"]


def test_the_levels_of_the_tanks_stand_beside_each_other(phone: Device, opened: Callable[..., str]) -> None:
    opened(ITEMS, tank=[{"name": "Water", "holds": "water", "capacity_l": 60.0, "x_m": 2.2}])
    page = phone.page
    page.get_by_role("link", name="Compare two plans").click()
    expect(page.locator(".beam-tank-notch")).to_have_count(2)
    row = page.get_by_role("row", name=re.compile("^Water")).first
    expect(row.locator("td")).to_have_text([f"60{THIN}L of 60{THIN}L"] * 2)
    page.get_by_role("radio", name="As logged now", exact=True).click()
    expect(row.locator("td")).to_have_text(["not known, counted as half full"] * 2)
    expect(page.locator(".beam-tank-notch")).to_have_count(0)


def test_an_edit_of_today_lies_between_that_day_and_now(phone: Device, book: str) -> None:
    page = phone.page
    expect(page.get_by_text("Nothing differs: the two plans are the same.")).to_be_visible()
    phone.open(f"/b/{book}/plan")
    page.get_by_role("button", name=re.compile("^Fridge")).click()
    page.get_by_label("Place", exact=True).fill("3.2")
    page.get_by_label("Mass of one", exact=True).fill("36")
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name=re.compile("^Fridge"))).to_contain_text("36")
    phone.open(f"/b/{book}/compare")
    expect(page.get_by_role("heading", name="First plan, 4 Mar 2026")).to_be_visible()
    line = page.get_by_role("row", name=re.compile("^Fridge"))
    expect(line).to_contain_text(f"30{THIN}kg to 36{THIN}kg, moved, 1.60{THIN}m to 3.20{THIN}m")
    # by hand: half of 30 kg on either axle, then 36 kg over the rear one
    assert cells(phone, "Fridge") == ["\u221215", "+21", "+6"]


def test_before_the_plan_there_is_nothing_to_compare(phone: Device) -> None:
    book = phone.new_vehicle("Teal", gross="3000")
    phone.open(f"/b/{book}/compare")
    expect(phone.page.get_by_text("There was no plan then").first).to_be_visible()
