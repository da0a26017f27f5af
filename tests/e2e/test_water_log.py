"""Water and the page for a breakdown, without signal: who drinks, what may be drunk, what is read over a radio."""

import re

import pytest
from e2e.device import Device
from playwright.sync_api import expect


@pytest.fixture
def camp(phone: Device) -> Device:
    """A phone without signal at the water page of a vehicle with two people and one tank of 90 L."""
    book = phone.new_vehicle("Wren")
    phone.ready_offline()
    phone.offline()
    for name in ("Mara", "Joss"):
        phone.open(f"/b/{book}/plan/person/new")
        phone.type("Name or initials", name)
        phone.page.get_by_role("radio", name="Person", exact=True).click()
        phone.touch("Save on this phone")
        expect(phone.page).to_have_url(re.compile("/plan$"))
    phone.open(f"/b/{book}/water")
    phone.type("Capacity", "90")
    phone.touch("Add this tank")
    expect(phone.page.get_by_label("Litres", exact=True)).to_be_visible()
    return phone


def board(phone: Device, name: str) -> None:
    phone.page.get_by_role("button", name=re.compile(f"^{name}")).click()
    phone.touch(f"{name} comes aboard")
    expect(phone.page.get_by_role("button", name=re.compile(f"^{name}\\s*aboard"))).to_be_visible()


def fill(phone: Device, litres: str, source: str) -> None:
    phone.type("Litres", litres)
    phone.page.get_by_role("radiogroup", name="Full now?").get_by_role("radio", name="Yes").click()
    phone.page.get_by_role("radiogroup", name="Where from?").get_by_role("radio", name=source).click()
    phone.touch("Save this entry")
    expect(phone.page.get_by_text("Saved on this phone.")).to_be_visible()


def days(phone: Device) -> float:
    text = phone.page.locator(".answer").inner_text()
    return float(re.findall(r"\d+\.\d", text)[0])


def test_people_join_and_the_days_are_shared(camp: Device) -> None:
    board(camp, "Mara")
    fill(camp, "90", "Mains")
    alone = days(camp)
    board(camp, "Joss")
    assert days(camp) == pytest.approx(alone / 2, abs=0.11)
    camp.page.get_by_role("button", name=re.compile("^Joss")).click()
    camp.type("Share of water", "0.5")
    camp.touch("Keep this share")
    expect(camp.page.get_by_role("button", name=re.compile("Joss.*share 0.50"))).to_be_visible()
    assert days(camp) == pytest.approx(alone / 1.5, abs=0.11)


def test_bore_water_is_not_counted_as_drinkable_until_somebody_says_so(camp: Device) -> None:
    board(camp, "Mara")
    fill(camp, "90", "Bore")
    expect(camp.page.get_by_text("not known to be drinkable")).to_be_visible()
    drink = camp.page.get_by_text("For drink and food, 3.0").locator("..")
    expect(drink).to_contain_text("0.0 days")
    camp.page.get_by_role("radio", name="Emptied").click()
    camp.touch("Save this entry")
    fill(camp, "90", "Mains")
    expect(drink).to_contain_text(re.compile(r"(26\.9|27\.0) days"))  # (90 - 9) L at 3 L
    camp.page.get_by_role("radio", name="Hot, active").click()
    expect(camp.page.get_by_text("For drink and food, 10.0").locator("..")).to_contain_text(
        re.compile(r"8\.[01] days")
    )


def test_how_long_it_lasts_is_two_touches_away(camp: Device) -> None:
    board(camp, "Mara")
    fill(camp, "90", "Mains")
    camp.open("/")
    camp.page.get_by_role("link", name="Wren").click()
    expect(camp.page.get_by_text("Water for")).to_be_visible()
    camp.page.get_by_role("link", name=re.compile("Water for")).click()
    expect(camp.page.locator(".answer")).to_contain_text("Count on")


def test_the_breakdown_page_can_be_read_over_a_radio(camp: Device) -> None:
    board(camp, "Mara")
    fill(camp, "90", "Mains")
    camp.page.get_by_role("link", name="If we break down here").click()
    camp.type("Where are we?", "Third gate, 40 km past the bore")
    text = camp.page.locator(".radio")
    for line in (
        "Place: Third gate, 40 km past the bore.",
        "People: 1 person: Mara.",
        "Vehicle: Wren.",
        "Fuel: not logged.",
    ):
        expect(text).to_contain_text(line)
    expect(text).to_contain_text(
        re.compile(r"Drinking water: at least 8\d.L, 2\d\.\d days at 3 L a person and day\.")
    )
    expect(text).to_contain_text(re.compile(r"Last contact: \d+ \w+ \d{4}, \d\d:\d\d"))
    camp.context.grant_permissions(["clipboard-read", "clipboard-write"])
    camp.touch("Copy this text")
    expect(camp.page.get_by_text("Copied.")).to_be_visible()
    copied = camp.page.evaluate("navigator.clipboard.readText()")
    assert copied.splitlines()[2] == "People: 1 person: Mara."


def test_the_position_is_asked_for_on_a_touch_alone(camp: Device) -> None:
    book = camp.page.url.split("/")[4]
    camp.context.grant_permissions(["geolocation"])
    camp.context.set_geolocation({"latitude": -23.5, "longitude": 133.25, "accuracy": 12})
    camp.open(f"/b/{book}/breakdown")
    expect(camp.page.locator(".radio")).to_contain_text("Place: not said.")
    camp.touch("Take this device's position")
    expect(camp.page.locator(".radio")).to_contain_text("Place: -23.5000, 133.2500 (± 12 m).")
