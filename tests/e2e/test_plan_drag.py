"""Things of the plan moved along the drawing, offline: by finger, by keys, out of a crowd."""

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import pytest
from e2e.device import Device
from e2e.host import Account
from e2e.planned import item, many
from e2e.test_field_use import AXE, RULES, SIZES
from e2e.test_plan_table import WIDE, cell, kept
from playwright.sync_api import Locator, Page, expect

FRONT_M, TAIL_M = -1.02, 4.67  # what the drawing of this vehicle reaches from and to, with its margin
LONE = [item("Fridge", 60.0, 2.0), item("Winch", 30.0, -0.5), item("Spare wheel", 38.0, 4.4)]
WATER = {"name": "Water", "holds": "water", "capacity_l": 60.0, "x_m": 3.2}


def at(page: Page, x_m: float) -> tuple[float, float]:
    """Where a place is on the screen."""
    box = page.locator(".beam-band").bounding_box()
    assert box is not None
    return box["x"] + box["width"] * (x_m - FRONT_M) / (TAIL_M - FRONT_M), box["y"] + box["height"] / 2


@contextmanager
def held(page: Page, from_m: float, to_m: float) -> Iterator[None]:
    """A finger that has dragged something, and has not let go."""
    page.mouse.move(*at(page, from_m))
    page.mouse.down()
    page.mouse.move(*at(page, to_m), steps=8)
    yield
    page.mouse.up()


def loads(page: Page) -> list[int]:
    """Front and rear, as they stand under the drawing."""
    figures = page.locator(".beam-figure").all_text_contents()
    return [int(re.sub(r"\D", "", one.split("±")[0])) for one in figures]


def slider(page: Page, name: str) -> Locator:
    return page.get_by_role("slider", name=name)


def test_a_drag_and_the_same_edit_typed_give_the_same_record(
    phone: Device, opened: Callable[..., str], account: Callable[[Device], Account]
) -> None:
    opened(LONE)
    page = phone.page
    page.set_viewport_size(WIDE)
    before = loads(page)
    with held(page, 2.0, 3.01):
        expect(page.locator(".beam-block")).to_be_visible()
        moved = loads(page)
        assert moved[1] - before[1] == pytest.approx(60 * 1.01 / 3.2, abs=2)
        assert sum(moved) == pytest.approx(sum(before), abs=2)
    expect(page.locator(".beam-block")).to_have_count(0)
    expect(page.get_by_role("button", name="Undo Fridge: Place")).to_be_visible()
    place = cell(page, "Fridge", 4)
    expect(place).to_have_text(re.compile(r"^[23]\.\d\d$"))
    typed = place.inner_text()
    assert 2.95 <= float(typed) <= 3.07
    dragged = kept(phone, account, "Fridge")
    page.get_by_role("button", name="Undo Fridge: Place").click()
    expect(place).to_have_text("2")
    place.click()
    page.keyboard.type(typed)
    page.keyboard.press("Enter")
    expect(place).to_have_text(typed)
    assert kept(phone, account, "Fridge") == dragged
    assert dragged["as_typed"] == {"x_m": [typed, "m"]}
    assert dragged["x_m"] == float(typed)
    assert "position_by" not in dragged


def test_arrow_keys_move_what_is_picked_and_make_one_edit(
    phone: Device, opened: Callable[..., str], account: Callable[[Device], Account]
) -> None:
    opened(LONE)
    page = phone.page
    page.mouse.click(*at(page, -0.5))
    expect(slider(page, "Winch")).to_be_focused()
    before = loads(page)
    for key in ("ArrowRight", "ArrowRight", "Shift+ArrowRight", "ArrowLeft"):
        page.keyboard.press(key)
    expect(slider(page, "Winch")).to_have_attribute("aria-valuetext", "-0.39 m")
    assert loads(page)[0] < before[0]
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Undo Winch: Place")).to_be_visible()
    kept(phone, account, "Winch")
    versions = [one for one in account(phone).versions("item") if one["body"]["name"] == "Winch"]
    assert [one["body"]["x_m"] for one in versions] == [-0.5, -0.39]
    slider(page, "Winch").focus()
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("Escape")
    expect(slider(page, "Winch")).to_have_attribute("aria-valuetext", "-0.39 m")


def test_one_is_chosen_out_of_a_crowd_and_moved(phone: Device, opened: Callable[..., str]) -> None:
    opened([*many(200), item("Fridge", 60.0, 3.1)])
    page = phone.page
    page.mouse.click(*at(page, 3.1))
    expect(page.get_by_text("things in one place. Which one?")).to_be_visible()
    page.get_by_role("button", name="Fridge 60\u202fkg", exact=True).click()
    expect(slider(page, "Fridge")).to_have_attribute("aria-valuetext", "3.10 m")
    assert page.evaluate(SIZES) == []
    with held(page, 3.1, 1.2):
        expect(page.locator(".beam-held")).to_contain_text("Fridge")
    expect(page.get_by_role("button", name="Undo Fridge: Place")).to_be_visible()
    expect(page.get_by_label("Place", exact=True)).to_have_value(re.compile(r"^1\.(1[5-9]|2[0-5])$"))


def test_a_tank_and_a_seat_are_moved_with_what_is_in_them(phone: Device, opened: Callable[..., str]) -> None:
    opened([item("Winch", 30.0, -0.5)], tank=[WATER])
    page = phone.page
    before = loads(page)
    with held(page, 3.2, 0.0):
        assert loads(page)[0] - before[0] == pytest.approx(60, abs=2)
    expect(page.get_by_role("button", name="Undo Water: Place of its middle")).to_be_visible()
    page.keyboard.press("Control+z")
    expect(page.locator(".beam-figure").first).to_contain_text(re.compile(str(before[0])[-3:]))


def test_what_is_picked_holds_for_readers(phone: Device, opened: Callable[..., str]) -> None:
    opened(LONE)
    page = phone.page
    cdp = phone.context.new_cdp_session(page)
    page.mouse.click(*at(page, 2.0))
    expect(slider(page, "Fridge")).to_be_focused()
    cdp.send("Runtime.evaluate", {"expression": AXE.read_text()})
    result = page.evaluate(f"axe.run(document, {RULES})")
    assert [f"{one['id']}: {one['nodes'][0]['html'][:150]}" for one in result["violations"]] == []
    assert page.evaluate(SIZES) == []
