"""The catalogue, offline: a vehicle begun with typical figures, a kit in one touch, an article typed over."""

import re

from e2e.device import Device
from playwright.sync_api import expect

THIN = "\u202f"


def typical_book(phone: Device) -> str:
    """A vehicle made with typical figures, and no signal."""
    phone.open("/new")
    phone.type("What do you call it?", "Wren")
    phone.page.get_by_role("radio", name="Mid-size utility, dual cab").click()
    phone.touch("Make this vehicle")
    expect(phone.page.get_by_role("heading", name="Wren")).to_be_visible()
    phone.synced()
    phone.ready_offline()
    phone.offline()
    return phone.page.url.rsplit("/", 1)[1]


def test_a_kit_and_an_article(phone: Device) -> None:
    book = typical_book(phone)
    page = phone.page
    phone.open(f"/b/{book}/plan")
    expect(page.get_by_text("typical of a mid-size utility, dual cab, not yours")).to_be_visible()
    page.get_by_role("link", name="Take it from the catalogue").click()
    phone.type("Search", "first aid")
    page.get_by_role("link", name=re.compile("^Recovery, tools and first aid")).click()
    expect(page.get_by_text("It always stays aboard")).to_have_count(3)
    phone.touch("Add all 5")
    expect(page.get_by_role("button", name=re.compile("^First aid kit"))).to_contain_text(f"3{THIN}kg")
    expect(page.get_by_role("button", name=re.compile("^High-lift jack"))).to_contain_text(f"at 3.40{THIN}m")
    phone.touch("Undo Recovery, tools and first aid: added")  # one step takes the whole kit back
    expect(page.get_by_role("button", name=re.compile("^First aid kit"))).to_have_count(0)
    expect(page.get_by_role("button", name=re.compile("^High-lift jack"))).to_have_count(0)
    page.get_by_role("link", name="Take it from the catalogue").click()
    page.get_by_role("link", name=re.compile("^Recovery, tools and first aid")).click()
    phone.touch("Add all 5")
    expect(page.get_by_role("button", name=re.compile("^First aid kit"))).to_be_visible()
    phone.open(f"/b/{book}/catalogue")
    page.get_by_role("link", name=re.compile("^Winch, synthetic rope")).click()
    expect(page.get_by_text(f"Nine in ten: 22 to 38{THIN}kg, from memory")).to_be_visible()
    expect(page.get_by_label("Place", exact=True)).to_have_value("-0.70")
    phone.type("Mass of one", "61.7 lb")
    page.get_by_role("radio", name="Weighed").click()
    phone.touch("Add to the plan")
    expect(page.get_by_role("link", name=re.compile("^Winch, synthetic rope"))).to_contain_text("in the plan")
    phone.open(f"/b/{book}/plan")
    expect(page.get_by_role("button", name=re.compile("^Winch, synthetic rope"))).to_contain_text(
        f"28{THIN}kg"
    )
    phone.offline(False)
    phone.synced()


def test_what_is_typical_is_replaced_by_what_was_measured(phone: Device) -> None:
    book = typical_book(phone)
    page = phone.page
    phone.open(f"/b/{book}/plan/vehicle/{book}")
    expect(page.get_by_label("Wheelbase", exact=True)).to_have_value("3.2")
    for label, text in {
        "Wheelbase": "3.22",
        "Empty mass on the front axle": "1180",
        "Empty mass on the rear axle": "910",
    }.items():
        phone.type(label, text)
    page.get_by_role("radio", name="Weighed").click()
    phone.touch("Save on this phone")
    expect(page).to_have_url(re.compile("/plan$"))
    expect(page.get_by_role("heading", name="Items")).to_be_visible()
    expect(page.get_by_text("typical of a mid-size utility")).to_have_count(0)
