"""Tanks on the beam and their dip scales, offline: a level touched, typed, read off lamps, corrected."""

import re
from collections.abc import Callable

import pytest
from e2e.device import Device
from e2e.host import Account
from e2e.test_field_use import AXE, RULES, SIZES
from playwright.sync_api import Locator, Page, expect

TOP, TALL, WIDE = 16, 188, 340  # of the picture, in its own units
MAIN = {"name": "Main", "holds": "fuel", "capacity_l": 80.0, "x_m": 2.0, "height_m": 0.28, "breadth_m": 0.5,
        "z_bottom_m": 0.4, "unusable_l": 4.0, "y_m": -0.3}  # fmt: skip
SUB = {**MAIN, "name": "Second", "capacity_l": 40.0, "x_m": 2.0, "y_m": 0.4}
WATER = {"name": "Fresh", "holds": "water", "capacity_l": 60.0, "x_m": 3.1}


@pytest.fixture
def bowser(phone: Device) -> Device:
    """A phone without signal at the fuel page of a vehicle with one tank of 80 L."""
    book = phone.new_vehicle("Wren")
    phone.ready_offline()
    phone.offline()
    phone.open(f"/b/{book}/fuel")
    phone.type("Capacity", "80")
    phone.touch("Add this tank")
    expect(dial(phone.page)).to_be_visible()
    return phone


def dial(page: Page) -> Locator:
    return page.get_by_role("slider", name=re.compile("^Level read in"))


def touch(page: Page, share: float) -> None:
    """A finger on the picture of a tank that has nothing below its outlet, at a share of it."""
    paper = page.locator(".tank-touch")
    paper.scroll_into_view_if_needed()
    box = paper.bounding_box()
    assert box is not None
    y = (TOP + TALL * (1 - share)) / WIDE * box["width"]
    page.mouse.click(box["x"] + 0.85 * box["width"], box["y"] + y)


def test_a_level_takes_two_touches(bowser: Device) -> None:
    page = bowser.page
    expect(page.get_by_text("Main tank, 80\u202fL: level not known. Read it once")).to_be_visible()
    touch(page, 0.75)
    expect(dial(page)).to_have_attribute("aria-valuetext", "60\u202fL ±\u00a08 of 80\u202fL")
    expect(page.get_by_text("Blank: 4.0\u202fL, 5 % of the tank (assumed)")).to_be_visible()
    bowser.touch("Save this level")
    expect(page.get_by_text(re.compile("saved on this phone", re.IGNORECASE))).to_have_count(1)
    told = re.compile("^Main tank: 60\u202fL ±\u00a0[89] of 80\u202fL, from the log")
    expect(page.get_by_text(told)).to_be_visible()
    expect(page.locator("svg.tank")).to_have_attribute("aria-label", told)
    expect(page.get_by_role("button", name="Save this level", exact=True)).to_have_count(0)


def test_the_thumb_is_dragged_and_walked_with_keys(bowser: Device) -> None:
    page = bowser.page
    touch(page, 0.5)
    grip = page.locator(".tank-grip").bounding_box()
    paper = page.locator(".tank-touch").bounding_box()
    assert grip is not None
    assert paper is not None
    assert grip["height"] >= 44
    x, y = grip["x"] + grip["width"] / 2, grip["y"] + grip["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x, y + 0.25 * TALL / WIDE * paper["width"], steps=6)
    page.mouse.up()
    expect(dial(page)).to_have_attribute("aria-valuenow", "20")
    for key in ("ArrowUp", "ArrowUp", "ArrowDown", "PageUp"):
        page.keyboard.press(key)
    expect(dial(page)).to_have_attribute("aria-valuenow", "41")
    page.keyboard.press("End")
    expect(dial(page)).to_have_attribute("aria-valuenow", "80")
    expect(page.get_by_label("Litres in it, or its share", exact=True)).to_have_value("80")


def test_lamps_in_quarters_and_a_figure_typed_make_records(
    bowser: Device, account: Callable[[Device], Account]
) -> None:
    page = bowser.page
    lamps = page.get_by_role("radiogroup", name="As lamps or a gauge in quarters show it")
    lamps.get_by_role("radio", name="3/4", exact=True).click()
    expect(dial(page)).to_have_attribute("aria-valuetext", re.compile("^60\u202fL ±\u00a016 of"))
    expect(page.get_by_role("radio", name="Lamps", exact=True)).to_be_checked()
    bowser.touch("Save this level")
    expect(page.get_by_text("Saved on this phone.", exact=True)).to_be_visible()
    field = page.get_by_label("Litres in it, or its share", exact=True)
    field.fill("99")
    expect(page.get_by_text("99 L is not possible, it must be 0 to 88 L.")).to_be_visible()
    bowser.touch("Save this level")
    expect(field).to_have_value("99")
    field.fill("41,5")
    page.get_by_role("radio", name="Stick", exact=True).click()
    bowser.type("± of this reading (one standard uncertainty)", "1")
    bowser.page.get_by_label("Odometer", exact=True).last.fill("53400")
    page.get_by_role("link", name="All entries", exact=True).click()
    expect(page.get_by_text(re.compile("^Main tank read 75"))).to_be_visible()
    page.go_back()
    expect(field).to_have_value("41,5")
    bowser.touch("Save this level")
    expect(page.get_by_text("Saved on this phone.", exact=True)).to_be_visible()
    bowser.offline(False)
    page.evaluate("dispatchEvent(new Event('online'))")  # a page loaded without a network is not told of one
    bowser.synced()
    first, second = [one["body"] for one in account(bowser).versions("dip")]
    assert (first["level"], first["how"], "as_typed" in first) == (0.75, "lamps", False)
    assert (second["litres_l"], second["litres_u_l"], second["odometer_km"]) == (41.5, 1, 53_400)
    assert second["as_typed"]["litres_l"] == ["41.5", "L"]


def test_a_level_is_corrected_in_the_same_picture(bowser: Device) -> None:
    page = bowser.page
    touch(page, 0.25)
    bowser.touch("Save this level")
    expect(page.get_by_text("Saved on this phone.", exact=True)).to_be_visible()
    bowser.open(page.url.removeprefix(bowser.site.url).replace("/fuel", "/log"))
    page.get_by_role("button", name=re.compile("^Main tank read 20")).click()
    page.get_by_role("link", name="Correct it", exact=True).click()
    expect(dial(page)).to_have_attribute("aria-valuenow", "20")
    page.get_by_label("Litres in it, or its share", exact=True).fill("35")
    bowser.touch("Save this level")
    expect(page.get_by_text(re.compile("^Main tank read 35"))).to_be_visible()


def test_the_page_with_a_picture_holds_for_readers_and_fingers(bowser: Device) -> None:
    page = bowser.page
    touch(page, 0.5)
    cdp = bowser.context.new_cdp_session(page)
    cdp.send("Runtime.evaluate", {"expression": AXE.read_text()})
    result = page.evaluate(f"axe.run(document, {RULES})")
    assert [f"{one['id']}: {one['nodes'][0]['html'][:150]}" for one in result["violations"]] == []
    assert page.evaluate(SIZES) == []


def test_tanks_stand_on_the_beam_as_outlines(phone: Device, opened: Callable[..., str]) -> None:
    opened([], tank=[MAIN, SUB, WATER])
    page = phone.page
    expect(page.locator(".beam-arrow")).to_have_count(0)
    expect(page.locator(".beam-tank")).to_have_count(3)
    told = page.locator(".beam-tank title").all_text_contents()
    assert "Main: 80\u202fL of 80\u202fL" in told
    assert "Fresh: 60\u202fL of 60\u202fL (its size as drawn is assumed)" in told
    expect(page.get_by_text("Dashed: its size or height as drawn is assumed (Fresh).")).to_be_visible()
    boxes = [one.bounding_box() for one in page.locator(".beam-tank-body").all()]
    assert all(one is not None and one["width"] > one["height"] > 8 for one in boxes)
    page.get_by_role("radio", name="As logged now", exact=True).click()
    expect(page.locator(".beam-tank title").first).to_contain_text("level not known")
    expect(page.locator(".beam-tank-notch")).to_have_count(0)
