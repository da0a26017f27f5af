"""The fuel log as people keep it, without signal: few touches, slips that are held, late and doubled entries."""

import re

import pytest
from e2e.device import Device
from playwright.sync_api import expect


@pytest.fixture
def wren(phone: Device) -> Device:
    """A phone without signal at the fuel page of a vehicle with one tank of 80 L."""
    book = phone.new_vehicle("Wren")
    phone.ready_offline()
    phone.open(f"/b/{book}/fuel")
    phone.offline()
    phone.type("Capacity", "80")
    phone.touch("Add this tank")
    expect(phone.page.get_by_label("Odometer", exact=True)).to_be_visible()
    return phone


def fill(phone: Device, odometer: str, litres: str, full: bool = True, *, twice: bool = False) -> None:
    """Log a fill of the only tank; `twice`: what is doubted at the first touch is saved at the second."""
    phone.type("Odometer", odometer)
    phone.type("Litres", litres)
    phone.page.get_by_role("radio", name="Yes, full" if full else "No, part").click()
    phone.touch("Save this fill")
    if twice:
        phone.touch("Save it all the same")
    expect(phone.page.get_by_text("Saved on this phone.")).to_be_visible()


def count_on(phone: Device) -> int:
    """The count-on range of the headline, km."""
    text = phone.page.locator(".answer").inner_text()
    return int(re.sub(r"\D", "", text))


def steady(phone: Device) -> None:
    fill(phone, "1000", "60")
    fill(phone, "1500", "54")
    fill(phone, "1980", "50")


def test_a_fill_takes_four_touches_and_its_digits(wren: Device) -> None:
    steady(wren)
    wren.open("/fuel")  # the shortcut of the home screen
    touches = [
        wren.page.get_by_label("Odometer", exact=True),
        wren.page.get_by_label("Litres", exact=True),
        wren.page.get_by_role("radio", name="Yes, full"),
        wren.page.get_by_role("button", name="Save this fill"),
    ]
    for touched, digits in zip(touches, ("2400", "46", "", ""), strict=True):
        touched.click()
        wren.page.keyboard.type(digits)
    expect(wren.page.get_by_text("Saved on this phone.")).to_be_visible()
    expect(wren.page.get_by_text("4 full tanks").or_(wren.page.get_by_text("3 full tanks"))).to_be_visible()


def test_what_is_still_asked_comes_into_view_and_the_answer_after_it(wren: Device) -> None:
    steady(wren)
    page = wren.page
    wren.type("Odometer", "2400")
    wren.type("Litres", "46")
    question = page.get_by_role("radio", name="Yes, full")
    page.evaluate("scrollTo(0, document.documentElement.scrollHeight)")
    wren.touch("Save this fill")
    expect(page.get_by_text("Full to the click, or part? Touch one.")).to_be_in_viewport(ratio=1)
    expect(question).to_be_focused()
    question.click()
    wren.touch("Save this fill")
    expect(page.get_by_text("Saved on this phone.")).to_be_in_viewport(ratio=1)
    expect(page.locator(".answer")).to_be_in_viewport(ratio=1)


def test_a_tenfold_slip_is_asked_about_held_and_corrected(wren: Device) -> None:
    steady(wren)
    before = count_on(wren)
    wren.type("Odometer", "2400")
    wren.type("Litres", "460")
    wren.page.get_by_role("radio", name="Yes, full").click()
    wren.touch("Save this fill")
    expect(wren.page.get_by_text("460 L into Main tank, which holds 80 L, cannot be.")).to_be_visible()
    expect(wren.page.get_by_role("button", name="46 L")).to_be_visible()
    wren.touch("Save it all the same")
    told = wren.page.get_by_role("alert").filter(has_text="Not used")
    expect(told).to_contain_text("cannot be")
    assert count_on(wren) < before
    wren.touch("Correct it")
    expect(wren.page.get_by_label("Litres", exact=True)).to_have_value("460")
    wren.type("Litres", "46")
    wren.touch("Save this fill")
    expect(wren.page.get_by_text("corrected")).to_be_visible()
    wren.page.go_back()
    expect(wren.page.get_by_role("alert")).to_have_count(0)


def test_a_slip_that_fits_the_tank_is_held_and_the_lower_answer_stands(wren: Device) -> None:
    steady(wren)
    before = count_on(wren)
    fill(wren, "2400", "4.6")
    held = wren.page.get_by_role("alert").filter(has_text="Held, and the lower answer stands")
    expect(held).to_contain_text("it does not fit the other entries")
    expect(held).to_contain_text("Or a fill is missing before it (about")
    assert count_on(wren) < before
    wren.touch("It is right as typed")
    expect(held).to_have_count(0)


def test_a_missing_fill_is_added_with_about_the_litres_that_were_said(wren: Device) -> None:
    steady(wren)
    fill(wren, "3400", "70")
    held = wren.page.get_by_role("alert").filter(has_text="cannot be")
    expect(held).to_contain_text(re.compile(r"1.420.km on 80.L cannot be"))
    litres = re.search(r"about (\d+)", held.inner_text())
    assert litres is not None
    assert 70 < int(litres[1]) < 95  # 1420 km at 10.6 L/100 km, less 70 L
    wren.touch("Add the missing fill")
    wren.type("Litres", litres[1])
    wren.page.get_by_role("radio", name="No, part").click()
    wren.touch("Save this fill")
    expect(wren.page.locator(".answer")).to_be_visible()
    expect(wren.page.get_by_role("alert")).to_have_count(0)


def test_what_a_late_fill_changes_is_said(wren: Device) -> None:
    steady(wren)
    fill(wren, "2400", "46")
    before = count_on(wren)
    fill(wren, "2200", "4", full=False, twice=True)
    note = wren.page.get_by_role("note").filter(has_text="Entered late")
    expect(note).to_contain_text(re.compile(r"at 2.200.km"))
    expect(note).to_contain_text(re.compile(f"the count-on range was {before}.km, is {count_on(wren)}.km"))


def test_the_same_fill_twice_is_asked_about_until_somebody_answers(wren: Device) -> None:
    steady(wren)
    fill(wren, "1981", "50")
    asked = wren.page.get_by_role("alert").filter(has_text="The same?")
    expect(asked).to_contain_text("Until you say, the lower answer stands.")
    wren.touch("One fill, logged twice")
    expect(asked).to_have_count(0)
    wren.page.get_by_role("link", name="All entries").click()
    expect(wren.page.get_by_text("The same as another entry")).to_be_visible()


def test_each_tank_of_a_stop_is_full_or_part(wren: Device) -> None:
    book = wren.page.url.split("/")[4]
    for name, can in (("Second tank", False), ("Can", True)):
        wren.open(f"/b/{book}/plan/tank/new")
        wren.type("Name", name)
        wren.page.get_by_role("radio", name="Fuel", exact=True).click()
        wren.type("Capacity to the shut-off", "20")
        if can:
            wren.page.get_by_role("radio", name="Yes", exact=True).click()
        wren.touch("Save on this phone")
        expect(wren.page).to_have_url(re.compile("/plan$"))
    wren.open(f"/b/{book}/fuel")
    wren.type("Odometer", "1000")
    for tank, litres in (("Main tank", "60"), ("Second tank", "15"), ("Can", "10")):
        wren.type(f"Litres into {tank}", litres)
    for tank, answer in (("Main tank", "Yes, full"), ("Second tank", "No, part"), ("Can", "No, part")):
        asked = wren.page.get_by_role("radiogroup", name=f"{tank}: full to the click?")
        asked.get_by_role("radio", name=answer).click()
    wren.touch("Save this fill")
    expect(wren.page.get_by_text("Saved on this phone.")).to_be_visible()
    wren.page.get_by_role("link", name="Pour or move fuel").click()
    into = wren.page.get_by_role("radiogroup", name="Into")
    expect(into.get_by_role("radio", name="Main tank")).to_be_checked()
    into.get_by_role("radio", name="Second tank").click()
    wren.touch("Save this entry")
    wren.page.get_by_role("link", name="All entries").click()
    expect(wren.page.get_by_text("Moved all")).to_be_visible()


def test_an_entry_is_moved_to_the_other_vehicle(wren: Device) -> None:
    steady(wren)
    first = wren.page.url.split("/")[4]
    other = wren.new_vehicle("Dipper")
    wren.open(f"/b/{other}/fuel")
    wren.type("Capacity", "90")
    wren.touch("Add this tank")
    expect(wren.page.get_by_label("Odometer", exact=True)).to_be_visible()
    wren.open(f"/b/{first}/log")
    wren.page.get_by_role("button", name=re.compile("Fuel 50")).click()
    wren.touch("It belongs to another vehicle")
    wren.page.get_by_role("radio", name="Dipper").click()
    wren.touch("Move it to Dipper")
    expect(wren.page.get_by_text("Belongs to another vehicle")).to_be_visible()
    wren.open(f"/b/{other}/log")
    expect(wren.page.get_by_role("button", name=re.compile("Fuel 50"))).to_be_visible()


def test_the_litres_that_put_a_rating_over_are_said_before_they_are_saved(phone: Device) -> None:
    book = phone.new_vehicle("Wren", rear_axle="985")
    phone.ready_offline()
    phone.offline()
    phone.open(f"/b/{book}/plan/vehicle/{book}")
    for label, text in (("Wheelbase", "3"), ("Empty mass on the front axle", "1200")):
        phone.type(label, text)
    phone.type("Empty mass on the rear axle", "900")
    phone.page.get_by_role("radio", name="Weighed").click()
    phone.touch("Save on this phone")
    expect(phone.page).to_have_url(re.compile("/plan$"))
    phone.open(f"/b/{book}/plan/tank/new")
    phone.page.get_by_role("radio", name="Fuel", exact=True).click()
    for label, text in (("Name", "Main"), ("Capacity to the shut-off", "90"), ("Place of its middle", "2.7")):
        phone.type(label, text)
    phone.page.get_by_role("radio", name="Measured").click()
    phone.touch("Save on this phone")
    expect(phone.page).to_have_url(re.compile("/plan$"))
    phone.open(f"/b/{book}/fuel")
    fill(phone, "1000", "20", full=True)
    fill(phone, "1500", "30", full=False)
    phone.type("Odometer", "1510")
    phone.type("Litres", "5")
    told = phone.page.get_by_text("then the first rating goes over: Rear axle.")
    expect(told).to_be_visible()
    phone.page.get_by_role("radio", name="No, part").click()
    expect(phone.page.get_by_text("With it: count on")).to_be_visible()
    phone.type("Litres", "89")
    expect(phone.page.get_by_text("With this fill, Rear axle: over by")).to_be_visible()


def test_sand_ahead_widens_and_lowers_the_range_at_once(wren: Device) -> None:
    steady(wren)
    ahead = wren.page.get_by_role("radiogroup", name="Surface ahead")
    row = wren.page.get_by_text("Count on", exact=True).locator("..")

    def figures() -> tuple[int, int]:
        counted, likely = (int(re.sub(r"\D", "", one)) for one in row.inner_text().split("likely"))
        return counted, likely

    ahead.get_by_role("radio", name="Sealed").click()
    sealed = figures()
    ahead.get_by_role("radio", name="Sand").click()
    sand = figures()
    assert sand[0] < sealed[0]
    assert sand[1] < sealed[1]
    assert sand[0] / sand[1] < sealed[0] / sealed[1]


def test_what_the_log_begins_with_can_be_changed(wren: Device) -> None:
    steady(wren)
    before = count_on(wren)
    book = wren.page.url.split("/")[4]
    wren.page.get_by_role("link", name="What is taken for granted").click()
    wren.page.get_by_role("link", name=re.compile("^Fuel never counted on")).click()
    wren.type("Fuel never counted on", "30")
    wren.touch("Save on this phone")
    expect(wren.page).to_have_url(re.compile("/defaults/fuel$"))
    wren.open(f"/b/{book}/fuel")
    expect(wren.page.get_by_text("Reserve not counted on").locator("..")).to_contain_text("30")
    assert count_on(wren) < before - 150


def test_the_odometer_is_measured_and_counts_for_the_whole_log(wren: Device) -> None:
    steady(wren)
    before = count_on(wren)
    book = wren.page.url.split("/")[4]
    wren.page.get_by_role("link", name="Measure the odometer").click()
    wren.type("The odometer counted", "100")
    wren.type("The true distance", "104")
    expect(wren.page.get_by_text("True km per km on the odometer: 1.040")).to_be_visible()
    wren.touch("Take it for the whole log: it was so all along")
    expect(wren.page.get_by_text("Kept on this phone.")).to_be_visible()
    wren.open(f"/b/{book}/fuel")
    assert count_on(wren) == pytest.approx(1.04 * before, rel=0.02)


def test_the_past_is_drawn_with_its_cost(wren: Device) -> None:
    wren.touch("Price, or litres without a meter")
    for odometer, litres, paid in (("1000", "60", "120"), ("1500", "54", "108"), ("1980", "50", "95.5")):
        for label, text in (("Odometer", odometer), ("Litres", litres), ("Paid", paid), ("Currency", "xts")):
            wren.type(label, text)
        wren.page.get_by_role("radio", name="Yes, full").click()
        wren.touch("Save this fill")
        expect(wren.page.get_by_text("Saved on this phone.")).to_be_visible()
    wren.page.get_by_role("link", name="Consumption over time, and its cost").click()
    expect(wren.page.get_by_role("img", name=re.compile("^Sealed, between"))).to_be_visible()
    cost = wren.page.get_by_text("XTS per 100 km").locator("..")
    expect(cost).to_contain_text("20.77")  # 203.5 over 980 km
    expect(wren.page.get_by_text("All of them together").locator("..")).to_contain_text("10.6")


def test_poured_twice_over_the_log_gives_segments_range_and_the_next_stop(wren: Device) -> None:
    """Part, missed, can and late fills in one log: what is left of it is said, with its segments and the next stop."""
    steady(wren)
    fill(wren, "2200", "12", full=False)
    fill(wren, "2480", "38")
    wren.type("Odometer", "3300")
    wren.type("Litres", "45")
    wren.page.get_by_role("radio", name="Yes, full").click()
    wren.page.get_by_role("radio", name="No, one is missing").click()
    wren.touch("Save this fill")
    expect(wren.page.get_by_text("Saved on this phone.")).to_be_visible()
    fill(wren, "2700", "9", full=False, twice=True)
    expect(wren.page.get_by_role("alert")).to_have_count(0)
    wren.type("Next certain fuel is at", "300")
    expect(wren.page.get_by_text("Reached, counting on it")).to_be_visible()
    wren.type("Next certain fuel is at", "900")
    expect(wren.page.get_by_text(re.compile("ikely (not )?reached"))).to_be_visible()
    wren.page.get_by_role("link", name="Consumption over time, and its cost").click()
    expect(wren.page.get_by_text(re.compile(r"1.980 to 2.480 km"))).to_be_visible()
    expect(wren.page.get_by_text(re.compile(r"2.480 to 3.300 km"))).to_have_count(0)
