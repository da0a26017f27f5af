"""The road without signal: what if the next stop is shut, which axle rises, a route typed in, a track taken in."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from xml.etree import ElementTree

import pytest
from e2e.demo_browser import Profiles, demo_server, sign_in
from e2e.device import Device
from playwright.sync_api import BrowserType, Locator, Page, expect

GPX = """<?xml version="1.0"?>
<gpx version="1.1" creator="hand" xmlns="http://www.topografix.com/GPX/1/1">
 <wpt lat="0.01" lon="10.5"><name>Half way well</name></wpt>
 <wpt lat="2" lon="10.5"><name>Far off</name></wpt>
 <trk><name>East along the line</name><trkseg>
  <trkpt lat="0" lon="10"/><trkpt lat="0" lon="10.5"/><trkpt lat="0" lon="11"/>
 </trkseg></trk>
</gpx>"""


@pytest.fixture(scope="module")
def demo(chromium: BrowserType, built: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """A served demo and its profiles."""
    folder = tmp_path_factory.mktemp("road")
    profiles = Profiles(chromium, folder)
    with demo_server(folder / "data") as address:
        PROFILES[address] = profiles
        yield address
    assert built
    assert profiles.troubles == []


PROFILES: dict[str, Profiles] = {}


def on_the_road(page: Page, address: str, who: tuple[str, str], vehicle: str) -> None:
    """Signed in, without signal, on the vehicle's only route."""
    sign_in(page, address, *who)
    page.get_by_role("link", name=vehicle).click()
    expect(page.get_by_role("heading", name="Weighings")).to_be_visible()
    page.context.set_offline(True)
    page.get_by_role("link", name="The road").click()
    expect(page.get_by_role("heading", name="Loads on the way")).to_be_visible()


def test_if_the_next_stop_is_shut(demo: str) -> None:
    with PROFILES[demo].open("owner") as context:
        page = context.new_page()
        on_the_road(page, demo, ("orsolla", "dust-and-corrugation"), "Canopy utility")
        fuel = supplies_of(page, "Fuel")
        expect(fuel.get_by_role("status")).to_contain_text("Count on reaching Dray Flat")
        post = fuel.get_by_role("group").get_by_role(
            "button", name=re.compile("^Dray Flat, 150.km, certain$")
        )
        expect(post).to_have_attribute("aria-pressed", "false")
        post.click()
        expect(fuel.get_by_role("status")).to_contain_text(re.compile(r"Count on [34]\d\d.km"))
        expect(fuel.get_by_text("Short by the count-on figure")).to_be_visible()
        expect(fuel.get_by_text("would have to be carried")).to_be_visible()
        expect(fuel.get_by_role("button", name=re.compile("Dray Flat.*struck out"))).to_have_count(2)
        page.get_by_role("button", name="Put back as it was").click()
        expect(fuel.get_by_role("status")).to_contain_text("Count on reaching Dray Flat")
        # the same by keys, and said to everybody
        post.focus()
        post.press("Enter")
        expect(page.get_by_text("Only looking, nothing is saved: Dray Flat is shut.")).to_be_visible()
        page.get_by_role("button", name="Report to everybody: Dray Flat is shut", exact=True).click()
        expect(page.get_by_role("button", name="Put back as it was")).to_have_count(0)
        page.reload()
        expect(fuel.get_by_role("status")).to_contain_text(re.compile(r"Count on [34]\d\d.km"))
        expect(fuel.get_by_text(re.compile("not counted on; reported shut by orsolla"))).to_be_visible()


def supplies_of(page: Page, holds: str) -> Locator:
    return page.locator("section").filter(has=page.get_by_role("heading", name=holds, exact=True))


def shared_with_a_co_driver(page: Page, address: str) -> None:
    sign_in(page, address, "tevrin", "second-tank-first")
    page.get_by_role("link", name="Long wagon").click()
    page.get_by_role("link", name="Share", exact=True).click()
    page.get_by_label("Sign-in name").fill("minnow")
    page.get_by_role("button", name="Share", exact=True).click()
    expect(page.get_by_text(re.compile("^minnow"))).to_be_visible()


def test_what_a_co_driver_heard_counts_for_everybody(demo: str) -> None:
    told = re.compile("reported without fuel by minnow, .*: Heard on the radio")
    with PROFILES[demo].open("heard owner") as context:
        shared_with_a_co_driver(context.new_page(), demo)
    with PROFILES[demo].open("heard co-driver") as context:
        page = context.new_page()
        on_the_road(page, demo, ("minnow", "navigates-by-stars"), "Long wagon")
        fuel = supplies_of(page, "Fuel")
        fuel.get_by_role("button", name=re.compile(r"^Tansell Roadhouse · 450")).click()
        fuel.get_by_role("button", name="Report it to everybody").click()
        expect(fuel.get_by_text("Touch what was found.")).to_be_visible()
        fuel.get_by_role("radio", name="No fuel", exact=True).click()
        fuel.get_by_label("How is it known?").fill("Heard on the radio")
        fuel.get_by_role("button", name="Report it to everybody").click()
        expect(fuel.get_by_text(told)).to_be_visible()
        expect(supplies_of(page, "Water").get_by_text(told)).to_have_count(0)
        context.set_offline(False)
        expect(page.get_by_text(re.compile("^synced "))).to_be_visible()
    with PROFILES[demo].open("heard owner's other phone") as context:
        page = context.new_page()
        on_the_road(page, demo, ("tevrin", "second-tank-first"), "Long wagon")
        fuel = supplies_of(page, "Fuel")
        row = fuel.get_by_role("button", name=re.compile(r"^Tansell Roadhouse · 450"))
        expect(row).to_contain_text(told)
        row.click()
        fuel.get_by_role("link", name="Correct this report").click()
        page.get_by_role("radio", name="Open again").click()
        page.get_by_role("button", name="Save this entry").click()
        expect(page.get_by_text("Tansell Roadhouse: open")).to_be_visible()
        page.go_back()
        expect(row).to_be_visible()
        expect(row).not_to_contain_text("not counted on")


def test_the_front_axle_rises_while_the_tail_tank_empties(demo: str) -> None:
    with PROFILES[demo].open("wagon") as context:
        page = context.new_page()
        on_the_road(page, demo, ("tevrin", "second-tank-first"), "Long wagon")
        row = page.locator(".row").filter(has_text="Front axle")
        expect(row).to_contain_text(re.compile(r"under by \d+.kg \(±.\d+\)"))
        expect(row).to_contain_text(re.compile(r"nearest at \d{3}.km, Second tank empty"))
        page.get_by_label("Which load is drawn?").select_option(label="Front axle")
        expect(page.get_by_role("group", name="Front axle over the distance")).to_be_visible()


def typed_route(phone: Device, book: str) -> None:
    """Two legs and a supply."""
    phone.open(f"/b/{book}/road")
    phone.touch("New route")
    phone.type("Name", "Out and back")
    phone.type("Of it sealed", "200")
    phone.touch("Add a leg or a stay")
    phone.type("Of it gravel", "100")
    phone.touch("Add a supply")
    phone.page.get_by_label("Name", exact=True).last.fill("Bore nine")
    phone.type("Kilometres from the beginning", "400")
    phone.page.get_by_role("radio", name="Water").click()


def test_a_route_is_typed_in_without_signal(phone: Device, new_device: Callable[..., Device]) -> None:
    book = phone.new_vehicle("Wren", gross="3500")
    phone.ready_offline()
    phone.offline()
    typed_route(phone, book)
    phone.touch("Save this route")
    expect(phone.page.get_by_text(re.compile("400.km lies beyond the end of the route"))).to_be_visible()
    phone.type("Kilometres from the beginning", "250")
    phone.touch("Save this route")
    expect(phone.page.get_by_role("heading", name="Out and back")).to_be_visible()
    expect(phone.page.get_by_text("Nothing of fuel is logged yet")).to_be_visible()
    phone.open(f"/b/{book}/road")
    expect(phone.page.get_by_role("link", name=re.compile("Out and back.*300"))).to_be_visible()
    phone.offline(False)
    phone.synced()


def test_one_distance_is_enough(phone: Device) -> None:
    book = phone.filled_up_offline("Wren")
    phone.open(f"/b/{book}/road")
    phone.type("Next certain supply is at", "300")
    expect(phone.page.get_by_text("Count on reaching Next supply")).to_be_visible()
    phone.type("Next certain supply is at", "900")
    expect(phone.page.get_by_text("Short by the count-on figure")).to_be_visible()


def test_a_track_is_looked_at_taken_in_and_its_supplies_given_out(phone: Device, tmp_path: Path) -> None:
    book = phone.new_vehicle("Wren", gross="3500")
    phone.ready_offline()
    phone.offline()
    phone.open(f"/b/{book}/road/new/edit")
    phone.type("Name", "East")
    file = tmp_path / "east.gpx"
    file.write_text("no track")
    chooser = phone.page.get_by_label("Track or route, with waypoints")
    chooser.set_input_files(file)
    expect(phone.page.get_by_text("No track and no route")).to_be_visible()
    file = tmp_path / "east of here.gpx"
    file.write_text(GPX)
    chooser.set_input_files(file)
    expect(phone.page.get_by_text(re.compile(r"^East along the line$"))).to_be_visible()
    expect(phone.page.get_by_text("Far off")).to_have_count(0)
    phone.touch("Take these in")
    phone.touch("Save this route")
    expect(phone.page.get_by_role("heading", name="East")).to_be_visible()
    with phone.page.expect_download() as got:
        phone.touch("Supplies as a GPX file")
    root = ElementTree.parse(got.value.path()).getroot()
    space = "{http://www.topografix.com/GPX/1/1}"
    (point,) = root.findall(f"{space}wpt")
    assert (float(point.attrib["lat"]), float(point.attrib["lon"])) == (0.01, 10.5)
    assert point.findtext(f"{space}name") == "Half way well"
    # half a degree of the equator is 55.66 km
    assert "56\u202fkm" in (point.findtext(f"{space}desc") or "")
