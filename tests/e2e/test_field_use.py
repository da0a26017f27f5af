"""Sun, gloves, one hand, small screens, screen readers: on every page that the frame has."""

from collections.abc import Callable

import pytest
from e2e.device import Device
from e2e.host import ROOT
from playwright.sync_api import expect

AXE = ROOT / "web" / "node_modules" / "axe-core" / "axe.min.js"
PAGES = ["/sign-in", "/", "/new", "/device", "/b/{book}", "/b/{book}/members", "/b/{book}/plates"]
RULES = "{ rules: { 'color-contrast-enhanced': { enabled: true } } }"  # 7:1
SIZES = """() => [...document.querySelectorAll('a, button, input, select')]
    .map((one) => ({
        what: one.textContent || one.getAttribute('aria-label') || one.id,
        box: one.getBoundingClientRect(),
        hidden: one.closest('.visually-hidden, [aria-hidden=true]') !== null,
        inText: one.parentElement.tagName === 'P' }))
    .filter(({ box, hidden, inText }) => !hidden && !inText && box.width > 0 && (box.height < 48 || box.width < 44))
    .map(({ what, box }) => `${what}: ${box.width} x ${box.height}`)"""


@pytest.fixture
def at_each_page(phone: Device) -> Callable[[], object]:
    """Goes through the pages, one after the other."""
    book = phone.new_vehicle("Wren", gross="3500")

    def pages() -> object:
        for path in PAGES:
            phone.open(path.format(book=book))
            expect(phone.page.get_by_role("heading", level=1)).to_be_visible()
            yield path

    return pages


def test_targets_are_big_enough_for_gloves(phone: Device, at_each_page: Callable[[], list[str]]) -> None:
    phone.page.set_viewport_size({"width": 360, "height": 640})
    small = {path: phone.page.evaluate(SIZES) for path in at_each_page()}
    assert {path: found for path, found in small.items() if found} == {}


def test_the_main_action_lies_in_the_lower_half(phone: Device) -> None:
    for path, name in (("/", "New vehicle"), ("/new", "Make this vehicle")):
        phone.open(path)
        box = phone.page.get_by_role("button", name=name).bounding_box()
        assert box is not None
        assert box["y"] > 844 / 2
        assert box["height"] >= 64


def test_nothing_needs_scrolling_sideways(phone: Device, at_each_page: Callable[[], list[str]]) -> None:
    phone.page.set_viewport_size({"width": 320, "height": 640})
    wide = "document.documentElement.scrollWidth > document.documentElement.clientWidth"
    assert [path for path in at_each_page() if phone.page.evaluate(wide)] == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(phone: Device, at_each_page: Callable[[], list[str]], scheme: str) -> None:
    phone.page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    cdp = phone.context.new_cdp_session(phone.page)
    found = {}
    for path in at_each_page():
        # past the policy, which lets no script of a test in
        cdp.send("Runtime.evaluate", {"expression": AXE.read_text()})
        result = phone.page.evaluate(f"axe.run(document, {RULES})")
        found[path] = [f"{one['id']}: {one['nodes'][0]['html']}" for one in result["violations"]]
    assert {path: list_ for path, list_ in found.items() if list_} == {}


def test_numbers_bring_up_the_decimal_keys(phone: Device) -> None:
    phone.open("/new")
    field = phone.page.get_by_label("Gross", exact=True)
    assert field.get_attribute("type") == "text"
    assert field.get_attribute("inputmode") == "decimal"


def test_a_sole_group_of_three_is_asked_about(phone: Device) -> None:
    phone.open("/new")
    phone.type("What do you call it?", "Wren")
    phone.type("Gross", "3,500")
    phone.touch("Make this vehicle")
    expect(phone.page.get_by_text("Did you mean")).to_be_visible()
    phone.touch("3500 kg")
    expect(phone.page.get_by_label("Gross", exact=True)).to_have_value("3500")
    phone.touch("Make this vehicle")
    expect(phone.page.get_by_role("heading", name="Wren")).to_be_visible()


def test_a_new_page_is_read_out_by_its_title(phone: Device) -> None:
    phone.page.get_by_role("link", name="This computer, sign out").click()
    expect(phone.page.get_by_role("heading", name="This computer")).to_be_focused()
    expect(phone.page).to_have_title("This computer · Tareway")
    phone.page.go_back()
    expect(phone.page.get_by_role("heading", name="Vehicles")).to_be_focused()


def test_the_status_is_read_out_when_it_changes(phone: Device) -> None:
    phone.ready_offline()
    phone.offline()
    phone.new_vehicle("Wren")
    status = phone.page.get_by_role("status").filter(has_text="waiting")
    expect(status).to_have_text("saved on this computer · 1 waiting")
