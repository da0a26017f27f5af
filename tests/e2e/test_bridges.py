"""Which bridge it was: the one of last time, another by name, pads and decks; and what is said of left and right."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

from e2e.demo_browser import Profiles, demo_server, sign_in
from e2e.device import Device
from e2e.host import Account
from e2e.test_field_use import AXE, RULES, SIZES
from e2e.test_towing import OWNER
from e2e.test_trailer_deck import WIDE, Hand, choose, kept
from playwright.sync_api import BrowserType, expect


def weigh(phone: Device, *figures: str) -> None:
    for figure in figures:
        phone.page.get_by_role("textbox").fill(figure)
        phone.touch("Take this reading")


def chip(phone: Device, name: str) -> Any:
    group = phone.page.get_by_role("radiogroup", name="Which bridge was it?")
    return group.get_by_role("radio", name=name, exact=True)


def first_visit(phone: Device, book: str) -> None:
    """A bridge with all that its plate says."""
    phone.open(f"/b/{book}/weigh")
    weigh(phone, "1340", "3560", "2220")
    phone.touch("Roll off")
    phone.type("Name or number of the bridge", "Hill bridge")
    phone.page.get_by_role("button", name=re.compile("^More about the bridge")).click()
    choose(phone, "Accuracy class", "Class IIII")
    phone.type("Max of the scale", "900")
    expect(
        phone.page.get_by_text(re.compile("900 t is not possible, it must be 100 to 200000 kg")).first
    ).to_be_visible()
    phone.touch("Yes, save as logged")
    expect(phone.page.get_by_role("heading", name="Rolled off")).to_be_visible()
    phone.page.wait_for_timeout(500)  # a draft is written a quarter of a second after the last key
    phone.page.reload()
    phone.page.get_by_role("button", name=re.compile("^More about the bridge")).click()
    expect(phone.page.get_by_label("Max of the scale", exact=True)).to_have_value("900")
    phone.type("Max of the scale", "50")
    phone.type("Site number", "HB-7")
    phone.touch("Yes, save as logged")
    expect(phone.page.get_by_role("heading", name="Readings")).to_be_visible()
    expect(phone.page.get_by_text("One deck, class IIII, Max 50\u202ft")).to_be_visible()


def test_the_bridge_of_last_time_comes_with_all_that_is_known_of_it(
    phone: Device, account: Callable[[Device], Account]
) -> None:
    book = phone.new_vehicle("Wren", gross="3500")
    first_visit(phone, book)
    phone.open(f"/b/{book}/weigh")
    weigh(phone, "1340", "3560")
    phone.touch("Roll off")
    expect(chip(phone, "Hill bridge, 20\u202fkg")).to_have_attribute("aria-checked", "true")
    phone.touch("Yes, save as logged")
    expect(phone.page.get_by_text("Hill bridge, HB-7")).to_be_visible()
    first, second = (one["bridge"] for one in kept(phone, account, "weighing"))
    assert second == {**first, "settled_by": "confirmed"}
    assert (second["accuracy_class"], second["max_kg"], second["site_number"]) == ("IIII", 50_000, "HB-7")


def test_figures_overrule_its_interval_and_another_vehicle_is_offered_it(phone: Device) -> None:
    first_visit(phone, phone.new_vehicle("Wren", gross="3500"))
    other = phone.new_vehicle("Plover", gross="3500")
    phone.open(f"/b/{other}/weigh")
    weigh(phone, "1330")
    phone.touch("Roll off")
    expect(chip(phone, "Another bridge")).to_have_attribute("aria-checked", "true")
    phone.type("Name or number of the bridge", " hill  BRIDGE")
    expect(chip(phone, "Hill bridge, 20\u202fkg")).to_have_attribute("aria-checked", "true")
    expect(phone.page.get_by_text("The figures step by 10\u202fkg, not 20\u202fkg.")).to_be_visible()
    interval = phone.page.get_by_role("radiogroup", name="Interval of the display")
    expect(interval.get_by_role("radio", name="10\u202fkg", exact=True)).to_have_attribute(
        "aria-checked", "true"
    )
    phone.type("Name or number of the bridge", "Hill bridge two")
    expect(chip(phone, "Another bridge")).to_have_attribute("aria-checked", "true")


def with_plan(phone: Device, book: str) -> None:
    phone.open(f"/b/{book}/plan/vehicle/{book}")
    phone.touch("More about it")
    for label, text in (
        ("Wheelbase", "3"),
        ("Track of the front axle", "1.6"),
        ("Track of the rear axle", "1.6"),
        ("Empty mass on the front axle", "1200"),
        ("Empty mass on the rear axle", "1400"),
    ):
        phone.type(label, text)
    phone.touch("Save on this phone")
    expect(phone.page.get_by_role("heading", name="Items", exact=True)).to_be_visible()


def test_one_pad_moved_from_wheel_to_wheel_gives_left_and_right(
    phone: Device, account: Callable[[Device], Account]
) -> None:
    book = phone.new_vehicle("Wren", gross="3500")
    with_plan(phone, book)
    phone.open(f"/b/{book}/weigh")
    hand = Hand(phone)
    hand.touch("Different now? as before")
    hand.touch("Pads, one wheel each")
    hand.touch("One pad, moved from wheel to wheel")
    for figure in ("640", "660", "820", "780"):
        phone.page.get_by_role("textbox").fill(figure)
        hand.touch("Take this reading")
    expect(phone.page.get_by_role("button", name="Rear right wheel 780\u202fkg")).to_be_visible()
    hand.touch("Roll off")
    phone.page.get_by_role("button", name=re.compile("^More about the bridge")).click()
    choose(phone, "Accuracy class", "Not verified")
    hand.touch("Yes, save as logged")
    expect(phone.page.get_by_text(re.compile("type what its maker states")).first).to_be_visible()
    phone.type("Error in percent of the reading", "1")
    hand.touch("Yes, save as logged")
    expect(phone.page.get_by_role("heading", name="Left and right")).to_be_visible()
    expect(phone.page.get_by_role("row", name=re.compile("Left side 1.300 .*1.460 "))).to_be_visible()
    expect(phone.page.get_by_text(re.compile("Planned with a flexible frame"))).to_be_visible()
    (weighing,) = kept(phone, account, "weighing")
    assert [(one["on_deck"], one["deck"]) for one in weighing["readings"]] == [
        ([wheel], "pad") for wheel in ("front_left", "front_right", "rear_left", "rear_right")
    ]
    assert (weighing["bridge"]["form"], weighing["bridge"]["percent"]) == ("pads", 1)


def test_either_wheels_of_the_axles_and_several_decks_at_once(
    phone: Device, account: Callable[[Device], Account]
) -> None:
    book = phone.new_vehicle("Wren", gross="3500")
    phone.open(f"/b/{book}/weigh")
    phone.touch("Different now? as before")
    phone.touch("Pads, one wheel each")
    choose(phone, "Which wheels?", "Right")
    phone.touch("Rear axle")
    expect(phone.page.get_by_label("Right wheels", exact=True)).to_be_visible()
    choose(phone, "Which wheels?", "Both")
    expect(phone.page.get_by_label("Whole vehicle", exact=True)).to_be_visible()
    phone.touch("Several decks at once")
    weigh(phone, "1340", "2220")
    phone.touch("Roll off")
    phone.touch("Yes, save as logged")
    expect(phone.page.get_by_role("heading", name="Readings")).to_be_visible()
    expect(
        phone.page.get_by_text("Several decks, class III (assumed), Max 60\u202ft (assumed)")
    ).to_be_visible()
    (weighing,) = kept(phone, account, "weighing")
    assert [(one["on_deck"], one["deck"]) for one in weighing["readings"]] == [
        (["front"], "front"),
        (["rear"], "rear"),
    ]


def test_light_figures_and_means_are_said(phone: Device) -> None:
    book = phone.new_vehicle("Wren", gross="3500")
    phone.open(f"/b/{book}/weigh")
    weigh(phone, "380")
    phone.page.get_by_role("radio", name="Front axle", exact=True).click()
    weigh(phone, "360")
    phone.touch("Roll off")
    phone.touch("Yes, save as logged")
    expect(phone.page.get_by_role("heading", name="Readings")).to_be_visible()
    said = (
        "Read twice: the mean, 370\u202fkg, counts. Below this bridge's least load: no limit of error holds."
    )
    expect(phone.page.get_by_text(said)).to_have_count(2)


def test_the_pages_hold_for_gloves_and_readers(phone: Device) -> None:
    book = phone.new_vehicle("Wren", gross="3500")
    first_visit(phone, book)
    phone.open(f"/b/{book}/weigh")
    phone.touch("Different now? as before")
    phone.touch("Pads, one wheel each")
    checked(phone, "deck")
    weigh(phone, "640", "660", "820", "780")
    phone.touch("Roll off")
    phone.page.get_by_role("button", name=re.compile("^More about the bridge")).click()
    choose(phone, "Accuracy class", "Not verified")
    checked(phone, "rolled off")
    phone.type("Error in percent of the reading", "1")
    phone.touch("Yes, save as logged")
    expect(phone.page.get_by_role("heading", name="Left and right")).to_be_visible()
    checked(phone, "weighing")


def checked(phone: Device, page: str) -> None:
    cdp = phone.context.new_cdp_session(phone.page)
    phone.page.wait_for_timeout(200)
    assert phone.page.evaluate(SIZES) == [], page
    # past the policy, which lets no script of a test in
    cdp.send("Runtime.evaluate", {"expression": AXE.read_text()})
    result = phone.page.evaluate(f"axe.run(document, {RULES})")
    assert [f"{one['id']}: {one['nodes'][0]['html'][:150]}" for one in result["violations"]] == [], page
    phone.page.set_viewport_size({"width": 320, "height": 640})
    assert not phone.page.evaluate(WIDE), page
    phone.page.set_viewport_size({"width": 390, "height": 844})


def test_a_towed_wagon_is_no_wider_than_a_narrow_phone(
    built: Path, chromium: BrowserType, tmp_path: Path
) -> None:
    profiles = Profiles(chromium, tmp_path)
    with demo_server(tmp_path / "data") as address, profiles.open("phone") as context:
        page = context.pages[0]
        sign_in(page, address, *OWNER)
        page.set_viewport_size({"width": 320, "height": 640})
        page.get_by_role("link", name=re.compile("Long wagon")).click()
        page.get_by_role("link", name="Unplanned").click()
        table = page.get_by_role("table").filter(has=page.get_by_role("columnheader", name="Gap"))
        expect(table.get_by_role("row", name=re.compile("^Combination"))).to_be_visible()
        page.wait_for_timeout(300)
        assert not page.evaluate(WIDE)
        sizes = "cells => Math.min(...cells.map((one) => parseFloat(getComputedStyle(one).fontSize)))"
        assert table.locator("th, td").evaluate_all(sizes) >= 16
    assert profiles.troubles == []


# As an older phone could keep it: in percent, and nobody had asked how many.
SPOIL = """async () => {
  for (const { name } of await indexedDB.databases()) {
    const db = await new Promise((done, fail) => {
      const asked = indexedDB.open(name);
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => fail(asked.error);
    });
    if (db.objectStoreNames.contains("records")) {
      const records = db.transaction("records", "readwrite").objectStore("records");
      const all = await new Promise((done) => {
        records.getAll().onsuccess = (event) => done(event.target.result);
      });
      const last = all.find((one) => one.kind === "weighing" && one.body.readings[0].value_kg === 1360);
      if (last) {
        const body = { ...last.body, bridge: { accuracy_class: "percent" } };
        await new Promise((done) => {
          records.put({ ...last, body }).onsuccess = done;
        });
      }
    }
    db.close();
  }
}"""


def test_a_weighing_that_cannot_be_read_says_so_and_spoils_no_other(phone: Device) -> None:
    book = phone.new_vehicle("Wren", gross="3500")
    phone.ready_offline()
    phone.offline()
    for figures in (("1340", "3560"), ("1360", "3600")):
        phone.open(f"/b/{book}/weigh")
        weigh(phone, *figures)
        phone.touch("Roll off")
        phone.touch("Yes, save as logged")
        expect(phone.page.get_by_role("heading", name="Readings")).to_be_visible()
    phone.page.evaluate(SPOIL)
    phone.open(f"/b/{book}")
    told = "Cannot be read: the error of the scale in percent is blank."
    row = phone.page.get_by_role("link").filter(has_text=told)
    expect(row).to_have_count(1)
    expect(phone.page.get_by_text("1\u202f340 ± 26, no rating entered")).to_be_visible()
    row.click()
    expect(phone.page.get_by_text(told)).to_be_visible()
    assert phone.page.evaluate(WIDE) is False
    phone.page.get_by_role("link", name="Log").click()
    phone.page.get_by_role("button", name=re.compile("^Weighed 3.600")).click()
    phone.type("Why is it wrong?", "percent missing")
    phone.touch("Strike it out")
    expect(phone.page.get_by_text("Corrected: percent missing")).to_be_visible()
    phone.open(f"/b/{book}")
    expect(phone.page.get_by_role("heading", name="Weighings")).to_be_visible()
    expect(phone.page.get_by_text(told)).to_have_count(0)


def test_a_figure_beyond_the_class_is_said_on_the_deck(phone: Device) -> None:
    book = phone.new_vehicle("Wren", gross="3500")
    phone.open(f"/b/{book}/weigh")
    weigh(phone, "1000")
    phone.touch("Roll off")
    phone.page.get_by_role("button", name=re.compile("^More about the bridge")).click()
    choose(phone, "Accuracy class", "Class IIII")
    choose(phone, "Interval of the display", "5\u202fkg")
    phone.touch("Back to the deck")
    beyond = phone.page.get_by_text("reaches 5\u202f000\u202fkg, and 5\u202f005\u202fkg was read")
    expect(beyond).to_have_count(0)
    weigh(phone, "5005")
    expect(beyond).to_be_visible()
    assert phone.page.evaluate(WIDE) is False
    phone.touch("Roll off")
    phone.touch("Yes, save as logged")
    expect(phone.page.get_by_role("heading", name="Rolled off")).to_be_visible()
    choose(phone, "Interval of the display", "10\u202fkg")
    phone.touch("Yes, save as logged")
    expect(phone.page.get_by_role("heading", name="Readings")).to_be_visible()
