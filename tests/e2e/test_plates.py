"""Plates and ratings, offline: what is in force, what an upgrade changes and what not, and what tyres carry."""

import re

from e2e.device import Device
from e2e.test_weighing import read
from playwright.sync_api import Locator, expect

THIN = "\u202f"


def figure(text: str) -> str:
    """As figures are written: 3_400 kg with narrow spaces."""
    return text.replace("_", THIN).replace(" kg", f"{THIN}kg")


def weighed(phone: Device) -> str:
    """A vehicle over its gross rating, weighed, and then no signal."""
    book = phone.new_vehicle("Wren", gross="3000", front_axle="1500", rear_axle="2000")
    phone.open(f"/b/{book}/weigh")
    read(phone, "1340", "3120", "1780")
    phone.touch("Roll off")
    phone.touch("Yes, save as logged")
    expect(phone.page.get_by_text("No plan yet")).to_be_visible()
    phone.synced()
    phone.ready_offline()
    phone.offline()
    return book


def add_plate(
    phone: Device, book: str, of: str, day: str = "", *, planned: bool = False, **fields: str
) -> None:
    """Add a plate by its form; ends on the page of plates."""
    phone.open(f"/b/{book}/plates")
    phone.page.get_by_role("link", name="Add a plate").click()
    phone.page.get_by_role("radio", name=of, exact=True).click()
    phone.touch("More about it")
    if day:
        phone.type("In force from", day)
    if planned:
        phone.page.get_by_role("radio", name="Only planned").click()
    for label, text in fields.items():
        phone.type(LABELS[label], text)
    phone.touch("Save on this phone")
    expect(phone.page.get_by_role("heading", name="Plates and ratings")).to_be_visible()
    phone.open(f"/b/{book}/plates")


LABELS = {
    "gross": "Gross", "rear": "Rear axle", "combination": "Combination",
    "size": "Size", "index": "Load index",
}  # fmt: skip


def row(phone: Device, name: str) -> Locator:
    """A rating's row in the list of those in force."""
    return phone.page.locator(".section").first.locator(".row").filter(has_text=re.compile(f"^{name}"))


def test_an_upgrade_says_what_it_changes_and_what_not(phone: Device) -> None:
    book = weighed(phone)
    add_plate(phone, book, "Towbar", combination="6000")
    add_plate(phone, book, "Vehicle", planned=True, gross="3400")
    page = phone.page
    expect(row(phone, "Gross")).to_contain_text(figure("3_000 kg"))
    expect(row(phone, "Roof")).to_contain_text("not known")
    entry = page.get_by_role("article").first
    expect(entry).to_contain_text(figure("Gross 3_000 → 3_400 kg."))
    expect(entry).to_contain_text("Unchanged: Front axle, Rear axle, Combination.")
    expect(entry).to_contain_text("raises neither combination, coupling nor roof")
    expect(entry).to_contain_text(figure("leaves 2_600 kg for the trailer's axles; it was 3_000 kg"))
    expect(page.get_by_text("under by")).to_have_count(0)
    entry.get_by_role("radio", name="Yes").click()
    expect(page.get_by_role("heading", name="Ratings if the planned plate were in force")).to_be_visible()
    expect(row(phone, "Gross")).to_contain_text(figure("3_400 kg"))
    expect(entry).to_contain_text(figure("under by 280 kg"))
    expect(entry).to_contain_text(figure("now: over by 120 kg"))
    entry.get_by_role("radio", name="No").click()
    expect(row(phone, "Gross")).to_contain_text(figure("3_000 kg"))


def test_tyres_bind_the_axles_and_tell_the_odometer(phone: Device) -> None:
    book = weighed(phone)
    add_plate(phone, book, "Tyres", "2025-01-10", size="265/65R17 112S")
    add_plate(phone, book, "Tyres", "2026-02-10", size="265/70 r 17", index="97")
    page, entry = phone.page, phone.page.get_by_role("article").first
    expect(entry).to_contain_text("rim 17")
    expect(entry).to_contain_text(figure("1_460 kg"))
    expect(row(phone, "Front axle")).to_contain_text(figure("1_460 kg"))
    expect(row(phone, "Front axle")).to_contain_text(figure("Also stated: 1_500 kg (Vehicle)"))
    expect(entry).to_contain_text("if it read true before (265/65R17 112S)")
    expect(page.get_by_text("So far it counts as 1.")).to_be_visible()
    phone.touch("Take it from now on: something was changed")
    expect(page.get_by_text("The vehicle counts with this factor.")).to_be_visible()
    phone.open(f"/b/{book}/plan/vehicle/{book}")
    phone.touch("More about it")
    expect(page.get_by_label("True km per km on the odometer")).to_have_value("1.0341")
    phone.open(f"/b/{book}/log")
    expect(page.get_by_text("Tyres changed")).to_be_visible()


def test_what_cannot_be_read_is_said(phone: Device) -> None:
    book = phone.new_vehicle("Wren", gross="3000")
    add_plate(phone, book, "Tyres", size="round and black")
    expect(phone.page.get_by_text("The size cannot be read")).to_be_visible()
    expect(phone.page.get_by_text("The load is not known")).to_be_visible()
    expect(row(phone, "Front axle")).to_contain_text("not known")
    phone.page.get_by_role("link", name="Tyres").click()
    phone.touch("More about it")
    phone.type("Load index", "131")
    phone.touch("Save on this phone")
    expect(phone.page.get_by_text("131 is not a whole number from 60 to 130")).to_be_visible()
