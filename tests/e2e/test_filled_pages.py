"""Pages with a book full of entries: what holds for the empty ones holds for them."""

from collections.abc import Iterator

import pytest
from e2e.test_field_use import AXE, RULES, SIZES
from playwright.sync_api import Page, expect

PAGES = (
    "",
    "/weigh",
    "/fuel",
    "/road",
    "/road/new/edit",
    "/water",
    "/breakdown",
    "/entry/moved",
    "/entry/change",
    "/entry/water_use",
    "/defaults/fuel",
    "/defaults/water",
    "/consumption",
    "/odometer",
    "/plan",
    "/plates",
    "/room",
    "/import",
    "/catalogue",
    "/catalogue/recovery",
    "/catalogue/canopy",
    "/compare",
    "/log",
    "/members",
    "/weighing",
)
WIDE = "document.documentElement.scrollWidth > document.documentElement.clientWidth"


def visited(page: Page) -> Iterator[str]:
    """Each page in turn; the last is that of the latest weighing."""
    vehicle = "/".join(page.url.split("/")[:5])
    for path in PAGES:
        page.goto(vehicle if path == "/weighing" else vehicle + path)
        expect(page.get_by_role("heading", level=1)).to_be_visible()
        if path == "/weighing":
            page.get_by_role("link", name="Unplanned").click()
            expect(page.get_by_role("heading", name="Planned against weighed")).to_be_visible()
        page.wait_for_timeout(300)
        yield path
    page.goto(vehicle)


@pytest.mark.parametrize("width", [390, 360, 320])
def test_nothing_needs_scrolling_sideways(owner: Page, width: int) -> None:
    owner.set_viewport_size({"width": width, "height": 800})
    assert [path for path in visited(owner) if owner.evaluate(WIDE)] == []


def test_targets_are_big_enough_for_gloves(owner: Page) -> None:
    owner.set_viewport_size({"width": 390, "height": 844})
    small = {path: owner.evaluate(SIZES) for path in visited(owner)}
    assert {path: found for path, found in small.items() if found} == {}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(owner: Page, scheme: str) -> None:
    owner.set_viewport_size({"width": 390, "height": 844})
    owner.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    cdp = owner.context.new_cdp_session(owner)
    found = {}
    for path in visited(owner):
        # past the policy, which lets no script of a test in
        cdp.send("Runtime.evaluate", {"expression": AXE.read_text()})
        result = owner.evaluate(f"axe.run(document, {RULES})")
        found[path] = [f"{one['id']}: {one['nodes'][0]['html'][:150]}" for one in result["violations"]]
    assert {path: wrong for path, wrong in found.items() if wrong} == {}
