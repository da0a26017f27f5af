"""The way ahead without signal: the next supply, where one is, surfaces corrected, water in the heat."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from e2e.demo_browser import Profiles, demo_server, sign_in
from e2e.device import Device
from playwright.sync_api import BrowserType, Page, expect


@pytest.fixture
def address(built: Path, tmp_path: Path) -> Iterator[str]:
    """A server of each test's own: a loaded browser may send something although it was told to be offline."""
    assert built
    with demo_server(tmp_path / "data") as found:
        yield found


@pytest.fixture
def page(chromium: BrowserType, address: str, tmp_path: Path) -> Iterator[Page]:
    """The owner of the canopy utility with a phone of each test's own, which has no signal and knows where it is."""
    profiles = Profiles(chromium, tmp_path)
    with profiles.open("owner") as context:
        context.grant_permissions(["geolocation"])
        context.set_geolocation({"latitude": -30.25, "longitude": 131.0})
        opened = context.new_page()
        sign_in(opened, address, "orsolla", "dust-and-corrugation")
        opened.get_by_role("link", name="Canopy utility").click()
        expect(opened.get_by_role("heading", name="Weighings")).to_be_visible()
        context.set_offline(True)
        yield opened
    assert profiles.troubles == []


def at(page: Page, task: str) -> None:
    """Another page of the vehicle, as it stands on this phone."""
    book = re.search(r"/b/([^/]+)", page.url)
    assert book
    page.goto(page.url.split("/b/")[0] + f"/b/{book[1]}{task}")


def count_on(page: Page) -> int:
    text = page.locator(".answer").inner_text()
    found = re.search(r"Count on ([\d\s]+)", text)
    assert found, text
    return int(re.sub(r"\s", "", found[1]))


def drive_on_sand(page: Page) -> None:
    """From the fuel page: the way since the last entry was sand, kept without a fill."""
    surface = page.get_by_role("radiogroup", name="Surface since the last entry")
    surface.get_by_role("radio", name="Sand", exact=True).click()
    expect(page.get_by_text("if sand ahead")).to_be_visible()
    expect(page.get_by_text("not saved yet")).to_be_visible()


def keep_surface(page: Page) -> None:
    page.get_by_role("button", name="Keep odometer and surface, no fill").click()
    expect(page.get_by_text("not saved yet")).to_have_count(0)


def test_the_next_supply_and_the_one_after_it(page: Page) -> None:
    at(page, "/fuel")
    ahead = page.get_by_role("group", name="Next fuel on the route")
    expect(ahead).to_contain_text(re.compile(r"Next fuel: Dray Flat, 150.km on\. Reached, counting on it"))
    expect(ahead).to_contain_text(re.compile(r"120.km sealed, 30.km gravel"))
    expect(ahead).to_contain_text(re.compile(r"If Dray Flat is shut: Marl Siding, 505.km on\."))
    expect(ahead).to_contain_text(re.compile(r"\d+.L more would have to be carried"))
    where = page.get_by_label("Where on the route are you?")
    where.select_option(label="At Dray Flat, 150\u202fkm")
    expect(ahead).to_contain_text(re.compile(r"Next fuel: Marl Siding, 355.km on\."))
    page.reload()
    expect(ahead).to_contain_text(re.compile(r"Next fuel: Marl Siding, 355.km on\."))
    expect(where.locator("option:checked")).to_have_text(re.compile("150.km, from the place you chose"))
    where.select_option("odometer")
    expect(ahead).to_contain_text("Next fuel: Dray Flat")


def test_a_report_takes_the_supply_away(page: Page) -> None:
    at(page, "/fuel")
    page.get_by_role("link", name=re.compile("^The whole way")).click()
    page.get_by_role("button", name=re.compile("^Dray Flat · 150")).first.click()
    page.get_by_role("radio", name="Shut", exact=True).click()
    page.get_by_role("button", name="Report it to everybody").click()
    expect(page.get_by_text(re.compile("reported shut by orsolla"))).to_have_count(2)
    at(page, "/fuel")
    ahead = page.get_by_role("group", name="Next fuel on the route")
    expect(ahead).to_contain_text(re.compile(r"Next fuel: Marl Siding, 505.km on\."))
    expect(ahead).to_contain_text(re.compile("Dray Flat reported shut by orsolla"))
    at(page, "/breakdown")
    expect(page.locator(".radio")).not_to_contain_text("Route:")
    at(page, "/fuel")
    where = page.get_by_label("Where on the route are you?")
    where.select_option(label="At Quillabar, 0\u202fkm")
    page.get_by_role("link", name=re.compile("^The whole way")).click()
    expect(where.locator("option:checked")).to_have_text(re.compile("0.km, from the place you chose"))
    at(page, "/breakdown")
    expect(page.locator(".radio")).to_contain_text(
        re.compile(r"Route: Salt track to Marl Siding, about 0.km")
    )
    expect(page.locator(".radio")).to_contain_text(
        re.compile(r"Dray Flat 150.km ahead, reported shut by orsolla")
    )


def test_sand_since_the_last_entry_lowers_the_range_at_once(page: Page) -> None:
    at(page, "/fuel")
    expect(page.get_by_role("group", name="Next fuel on the route")).to_be_visible()
    sealed = count_on(page)
    drive_on_sand(page)
    sand = count_on(page)
    assert sand < 0.8 * sealed
    keep_surface(page)
    page.reload()
    expect(page.get_by_text("if sand ahead")).to_be_visible()
    assert count_on(page) == sand


def test_an_earlier_surface_is_corrected_from_the_log(page: Page) -> None:
    at(page, "/fuel")
    drive_on_sand(page)
    keep_surface(page)
    at(page, "/log")
    page.get_by_role("button", name=re.compile(r"^Sand since the entry before")).click()
    surface = page.get_by_role("radiogroup", name="Surface of the way before it")
    surface.get_by_role("radio", name="Gravel", exact=True).click()
    expect(
        page.get_by_text(re.compile(r"Count on \d+.km, if gravel ahead, instead of \d+.km, if sand"))
    ).to_be_visible()
    page.get_by_role("button", name="It was gravel: keep that", exact=True).click()
    expect(page.get_by_role("button", name=re.compile(r"^Gravel since the entry before"))).to_be_visible()
    # a fill of weeks ago: what it does to consumption is said before it is kept
    page.get_by_role("button", name=re.compile(r"^Fuel ")).nth(2).click()
    surface.get_by_role("radio", name="Sand", exact=True).click()
    expect(page.get_by_text(re.compile(r"^Sand: [\d.]+.L/100.km instead of [\d.]+.L/100.km"))).to_be_visible()


def test_heat_shortens_the_days_of_water(page: Page) -> None:
    at(page, "/water")
    expect(page.get_by_role("group", name="Next water on the route")).to_contain_text("as planned")
    days = page.locator(".answer")
    before = float(re.sub(r"[^\d.]", "", days.inner_text()))
    page.get_by_role("link", name=re.compile("^Hotter, somebody more")).click()
    page.get_by_label("How far it may move consumption").fill("1")
    page.get_by_role("button", name="Save this entry").click()
    expect(page.get_by_role("heading", name="What this rests on")).to_be_visible()
    assert float(re.sub(r"[^\d.]", "", days.inner_text())) < before
    at(page, "/log")
    expect(page.get_by_role("button", name=re.compile("^Hotter: water is used otherwise"))).to_be_visible()


def test_coordinates_are_typed_and_tell_where_one_is(page: Page) -> None:
    at(page, "/road")
    page.get_by_role("link", name=re.compile("^Salt track")).click()
    page.get_by_role("link", name="Legs, supplies, who travels").click()
    expect(page.get_by_role("heading", name="Legs", exact=True)).to_be_visible()
    for name, latitude, longitude in (("Quillabar", "-30", "131"), ("Marl Siding", "-31", "131.036")):
        page.get_by_role("button", name=re.compile(f"^{name} · ")).click()
        page.get_by_label("Latitude", exact=True).fill(latitude + "00" if name == "Quillabar" else latitude)
        page.get_by_role("button", name="Save this route").click()
        said = (
            "Latitude: -3000 ° is not possible, it must be -90 to 90 °."
            if name == "Quillabar"
            else "belong together"
        )
        expect(page.get_by_text(said)).to_be_visible()
        page.get_by_label("Latitude", exact=True).fill(latitude)
        page.get_by_label("Longitude", exact=True).fill(longitude)
        page.get_by_role("button", name=re.compile(f"^{name} · ")).click()
    page.get_by_role("button", name="Save this route").click()
    expect(page.get_by_role("heading", name="Loads on the way")).to_be_visible()
    where = page.get_by_label("Where on the route are you?")
    where.select_option(label="Ask this device's position")
    # a quarter of the way down the meridian between the two
    expect(where.locator("option:checked")).to_have_text(
        re.compile(r"About 12\d.km, by position, \d.km beside the way")
    )


def test_without_a_route_the_typed_distance_stays(phone: Device) -> None:
    book = phone.filled_up_offline("Wren")
    phone.open(f"/b/{book}/fuel")
    phone.type("Next certain fuel is at", "100")
    expect(phone.page.get_by_text("Reached, counting on it")).to_be_visible()
    expect(phone.page.get_by_label("Where on the route are you?")).to_have_count(0)
