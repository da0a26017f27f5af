"""On the deck without a plan: verdicts from the readings alone, a reading that does not fit, and what is kept."""

from collections.abc import Callable

from e2e.device import Device
from e2e.host import Account
from playwright.sync_api import Locator, expect


def read(phone: Device, *figures: str) -> None:
    for figure in figures:
        phone.page.get_by_role("textbox").first.fill(figure)
        phone.touch("Take this reading")


def word(phone: Device, told: str) -> Locator:
    """The word of a verdict, beside its rating."""
    return phone.page.locator(".verdict-word").filter(has_text=told.replace(" kg", "\u202fkg"))


def at_the_bridge(phone: Device) -> None:
    book = phone.new_vehicle("Wren", gross="3500", front_axle="1500", rear_axle="2300")
    phone.open(f"/b/{book}/weigh")


def test_three_readings_judge_a_vehicle_without_a_plan(phone: Device) -> None:
    at_the_bridge(phone)
    read(phone, "1340", "3560", "2220")
    for told in ("under by 160 kg", "under by 80 kg", "over by 60 kg"):
        expect(word(phone, told)).to_be_visible()
    phone.touch("Roll off")
    phone.touch("Yes, save as logged")
    expect(phone.page.get_by_text("No plan yet")).to_be_visible()


def test_the_next_reading_is_said_and_a_touch_away(phone: Device) -> None:
    at_the_bridge(phone)
    read(phone, "1340")
    phone.page.get_by_role("button", name="One more reading, rear axle, would settle the rear axle.").click()
    expect(phone.page.get_by_label("Rear axle", exact=True).first).to_be_visible()
    read(phone, "2140")
    expect(word(phone, "under by 160 kg")).to_have_count(2)


def test_one_total_alone_judges_the_gross(phone: Device) -> None:
    at_the_bridge(phone)
    phone.page.get_by_role("button", name="Rear axle").click()
    read(phone, "3320")
    expect(word(phone, "under by 180 kg")).to_be_visible()
    expect(phone.page.get_by_text("not weighed").first).to_be_visible()


def test_a_reading_that_does_not_fit_is_set_aside_by_a_person(
    phone: Device, account: Callable[[Device], Account]
) -> None:
    at_the_bridge(phone)
    read(phone, "1340", "3560", "1220")
    expect(phone.page.get_by_text("do not agree with each other")).to_be_visible()
    expect(word(phone, "cannot tell")).to_have_count(3)
    phone.page.get_by_role("button", name="Rear axle 1\u202f220\u202fkg").click()
    phone.page.get_by_role("radio", name="Set aside: the figure is doubtful").click()
    expect(phone.page.get_by_text("do not agree with each other")).to_have_count(0)
    read(phone, "2220")
    phone.touch("Roll off")
    phone.touch("Yes, save as logged")
    expect(phone.page.get_by_text("set aside: the figure is doubtful")).to_be_visible()
    phone.synced()
    (weighing,) = account(phone).versions("weighing")
    kept = [(one["value_kg"], one["struck_out"]) for one in weighing["body"]["readings"]]
    assert kept == [(1340, None), (3560, None), (1220, "the figure is doubtful"), (2220, None)]


def test_the_last_bridge_is_prefilled_and_its_plate_kept(
    phone: Device, account: Callable[[Device], Account]
) -> None:
    at_the_bridge(phone)
    read(phone, "1340")
    phone.touch("Roll off")
    phone.type("Name or number of the bridge", "Mill Road")
    phone.page.get_by_role("button", name="More about the bridge").click()
    phone.type("Max of the scale", "70 t")
    phone.touch("Yes, save as logged")
    phone.page.wait_for_url("**/weighing/**")
    book = phone.page.url.split("/b/")[1].split("/")[0]
    phone.open(f"/b/{book}/weigh")
    read(phone, "1350")
    phone.touch("Roll off")
    expect(phone.page.get_by_label("Name or number of the bridge")).to_have_value("Mill Road")
    phone.touch("Yes, save as logged")
    phone.page.wait_for_url("**/weighing/**")
    phone.synced()
    first, second = (one["body"]["bridge"] for one in account(phone).versions("weighing"))
    assert (first["interval_kg"], first["settled_by"]) == (20, "guessed_from_readings")
    # the second figure is no multiple of 20: the bridge is the same, its step is guessed anew
    assert (second["name"], second["max_kg"], second["interval_kg"]) == ("Mill Road", 70_000, 10)


def test_an_axle_is_put_on_the_deck_with_the_keyboard(phone: Device) -> None:
    book = phone.new_vehicle("Wren", gross="3000")
    phone.open(f"/b/{book}/weigh")
    axle = phone.page.locator(".beam-touch").last
    was = axle.get_attribute("aria-pressed")
    axle.focus()
    expect(axle).to_be_focused()
    phone.page.keyboard.press("Space")
    expect(axle).to_have_attribute("aria-pressed", "false" if was == "true" else "true")


def test_how_warm_the_fuel_is_may_be_said_after_roll_off(phone: Device, opened: Callable[..., str]) -> None:
    tank = {"name": "Main", "holds": "fuel", "capacity_l": 80.0, "x_m": 2.4}
    book = opened([], tank=[tank])
    phone.open(f"/b/{book}/weigh")
    read(phone, "1340", "2340")
    expect(phone.page.get_by_label("How warm is the fuel?", exact=True)).to_have_count(0)
    phone.touch("Roll off")
    warm = phone.page.get_by_label("How warm is the fuel?", exact=True)
    expect(warm).to_have_value("")
    warm.fill("320")
    expect(phone.page.get_by_text("it must be -40 to 90 °C")).to_be_visible()
    phone.touch("Yes, save as logged")
    expect(warm).to_have_value("320")
    warm.fill("32,5")
    phone.touch("Yes, save as logged")
    expect(phone.page.locator(".row").filter(has_text="Temperature of the fuel")).to_contain_text("33 ±")
