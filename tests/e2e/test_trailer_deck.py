"""A trailer from the plan to the deck: added, coupled, weighed with and without it, and what is kept of that."""

import re
from collections.abc import Callable
from typing import Any

import pytest
from e2e.device import Device
from e2e.host import Account
from e2e.test_field_use import AXE, RULES, SIZES
from playwright.sync_api import Page, expect

WIDE = "document.documentElement.scrollWidth > document.documentElement.clientWidth"
TARGETS = """() => [...document.querySelectorAll('.beam-touch rect')]
    .map((one) => one.getBoundingClientRect()).map(({ width, height }) => Math.min(width, height))"""
OVERLAPS = """() => {
    const boxes = [...document.querySelectorAll('.beam-figure, .beam-tick')].map((one) => one.getBoundingClientRect());
    const apart = (a, b) => a.right <= b.left || b.right <= a.left || a.bottom <= b.top + 4 || b.bottom <= a.top + 4;
    return boxes.flatMap((a, i) => boxes.slice(i + 1).filter((b) => !apart(a, b))).length;
}"""


def save(phone: Device) -> None:
    phone.touch("Save on this phone")
    expect(phone.page.get_by_role("heading", name="Items", exact=True)).to_be_visible()


def choose(phone: Device, question: str, answer: str) -> None:
    group = phone.page.get_by_role("radiogroup", name=question, exact=True)
    group.get_by_role("radio", name=answer, exact=True).click()


def add_trailer(phone: Device, book: str, name: str = "Wagtail") -> None:
    phone.open(f"/b/{book}/plan")
    phone.page.get_by_role("link", name="Add a trailer").click()
    phone.type("Name", name)
    choose(phone, "Body", "Closed, such as a caravan")
    phone.type("Coupling to axle", "3.4")
    phone.type("How many axles", "2")
    phone.type("Empty mass on the coupling", "95")
    phone.type("Empty mass on its axles", "905")
    choose(phone, "Has it a levelling hitch?", "Yes")
    phone.type("Moment of the hitch as set", "1961.33")
    phone.page.get_by_label("Unit of Moment of the hitch as set").select_option("Nm")
    save(phone)


def add_driver(phone: Device, book: str) -> None:
    phone.open(f"/b/{book}/plan/seat/new")
    phone.type("Name", "Driver")
    save(phone)
    phone.open(f"/b/{book}/plan/person/new")
    phone.type("Name or initials", "Mara")
    choose(phone, "Who travels?", "Person")
    phone.type("Mass, dressed", "70")
    choose(phone, "Usual seat", "Driver")
    save(phone)


def couple(phone: Device, book: str) -> None:
    phone.open(f"/b/{book}")
    phone.page.get_by_role("button", name=re.compile("Trailer Wagtail.*not coupled")).click()
    expect(phone.page.get_by_role("button", name=re.compile("Touch to uncouple it"))).to_be_visible()


@pytest.fixture
def towing(phone: Device) -> str:
    """The book of a vehicle with its driver aboard and its trailer on."""
    book = phone.new_vehicle("Wren", gross="3500", front_axle="1500", rear_axle="2300")
    add_trailer(phone, book)
    add_driver(phone, book)
    couple(phone, book)
    return book


class Hand:
    """Counts touches; digits go to whatever field has the focus, since a hand does not touch it again."""

    def __init__(self, phone: Device) -> None:
        self.phone, self.touches = phone, 0

    def shortcut(self) -> None:
        self.phone.open("/weigh")
        expect(self.phone.page.get_by_role("textbox")).to_be_focused()
        self.touches += 1

    def touch(self, name: str, role: Any = "button") -> None:
        self.phone.page.get_by_role(role, name=name, exact=True).click()
        self.touches += 1

    def digits(self, figure: str) -> None:
        expect(self.phone.page.get_by_role("textbox")).to_be_focused()
        self.phone.page.keyboard.type(figure)


def kept(phone: Device, account: Callable[[Device], Account], kind: str) -> list[dict[str, Any]]:
    phone.synced()
    return [one["body"] for one in account(phone).versions(kind)]


def test_three_stops_coupled_and_one_uncoupled_in_six_touches(
    phone: Device, towing: str, account: Callable[[Device], Account]
) -> None:
    hand = Hand(phone)
    hand.shortcut()
    for figure in ("1320", "3720", "5080"):
        hand.digits(figure)
        hand.touch("Take this reading")
    hand.digits("3600")
    hand.touch("Take it and roll off")
    expect(phone.page.get_by_text("Wagtail, coupled")).to_be_visible()
    hand.touch("Yes, save as logged")
    expect(phone.page.get_by_text("Whole vehicle, uncoupled")).to_be_visible()
    assert hand.touches == 6
    (weighing,) = kept(phone, account, "weighing")
    assert [(one["on_deck"], one["value_kg"], one["differs"]) for one in weighing["readings"]] == [
        (["front"], 1320, None),
        (["front", "rear"], 3720, None),
        (["front", "rear", "trailer"], 5080, None),
        (["front", "rear"], 3600, {"uncoupled": True}),
    ]
    assert [one["repeat_of"] for one in weighing["readings"]] == [None] * 4
    assert not any("split" in one for one in weighing["readings"])
    (aboard,) = kept(phone, account, "aboard")
    (trailer,) = account(phone).versions("trailer")
    assert (aboard["subject"], aboard["subject_id"], aboard["aboard"]) == ("trailer", trailer["id"], True)
    assert weighing["state"]["trailers"] == [{"trailer_id": trailer["id"], "coupled": True}]
    assert {"id": trailer["id"], "rev": trailer["rev"]} in weighing["state"]["plan"]
    assert trailer["body"]["as_typed"]["hitch_moment_kgm"] == ["1961.33", "Nm"]
    assert trailer["body"]["hitch_moment_kgm"] == pytest.approx(200, rel=1e-9)  # over 9.80665 m/s2
    assert towing in phone.page.url


def test_three_readings_take_six_touches_without_a_trailer(phone: Device) -> None:
    phone.new_vehicle("Wren", gross="3500")
    hand = Hand(phone)
    hand.shortcut()
    for figure in ("1340", "3560", "2220"):
        hand.digits(figure)
        hand.touch("Take this reading")
    hand.touch("Roll off")
    hand.touch("Yes, save as logged")
    expect(phone.page.get_by_text("No plan yet")).to_be_visible()
    assert hand.touches == 6


def test_one_total_is_off_the_deck_in_three_touches(
    phone: Device, account: Callable[[Device], Account]
) -> None:
    phone.new_vehicle("Wren", gross="3500")
    hand = Hand(phone)
    hand.shortcut()
    hand.touch("Whole vehicle", "radio")
    hand.digits("3320")
    hand.touch("Take it and roll off")
    expect(phone.page.get_by_role("heading", name="Rolled off")).to_be_visible()
    assert hand.touches == 3
    hand.touch("Yes, save as logged")
    expect(phone.page.get_by_text("under by 180\u202fkg")).to_be_visible()
    (weighing,) = kept(phone, account, "weighing")
    assert [one["on_deck"] for one in weighing["readings"]] == [["front", "rear"]]


def test_who_is_out_and_what_is_off_is_kept_with_the_reading(
    phone: Device, towing: str, account: Callable[[Device], Account]
) -> None:
    phone.open(f"/b/{towing}/weigh")
    hand = Hand(phone)
    hand.touch("Different now? as before")
    hand.touch("Mara is out")
    hand.digits("1250")
    hand.touch("Take this reading")
    expect(phone.page.get_by_role("button", name="Front axle, Mara out 1\u202f250\u202fkg")).to_be_visible()
    hand.touch("Mara is out")
    hand.touch("Trailer uncoupled")
    hand.digits("3600")
    hand.touch("Take it and roll off")
    hand.touch("Correct it first")
    choose(phone, "Wagtail coupled?", "No")
    hand.touch("Save this weighing")
    expect(phone.page.get_by_text("Front axle, Mara out")).to_be_visible()
    (weighing,) = kept(phone, account, "weighing")
    (seat,) = account(phone).versions("seat")
    # what was corrected to be off is no difference any more
    assert [one["differs"] for one in weighing["readings"]] == [{"seats_empty": [seat["id"]]}, None]
    assert [one["coupled"] for one in weighing["state"]["trailers"]] == [False]


def test_a_stop_read_twice_is_asked_about_in_one_touch(
    phone: Device, account: Callable[[Device], Account]
) -> None:
    book = phone.new_vehicle("Wren", gross="3500")
    phone.open(f"/b/{book}/weigh")
    hand = Hand(phone)
    hand.digits("1340")
    hand.touch("Take this reading")
    hand.touch("Front axle", "radio")
    hand.digits("1440")
    hand.touch("Take this reading")
    hand.touch("Yes, set 1\u202f340\u202fkg aside", "radio")
    hand.touch("Roll off")
    hand.touch("Yes, save as logged")
    expect(phone.page.get_by_text("set aside: read again, and the two differ")).to_be_visible()
    (weighing,) = kept(phone, account, "weighing")
    first, second = weighing["readings"]
    assert (first["struck_out"], second["struck_out"]) == ("read again, and the two differ", None)
    assert second["repeat_of"] == first["id"]


def test_a_trailer_that_the_log_does_not_know_is_on_in_two_touches(phone: Device, towing: str) -> None:
    phone.open(f"/b/{towing}")
    phone.page.get_by_role("button", name=re.compile("Touch to uncouple it")).click()
    expect(phone.page.get_by_role("button", name=re.compile("Touch to couple it"))).to_be_visible()
    phone.open(f"/b/{towing}/weigh")
    expect(phone.page.get_by_role("radio", name="With trailer")).to_have_count(0)
    phone.touch("Different now? as before")
    phone.touch("Wagtail is on")
    expect(phone.page.get_by_role("radio", name="With trailer")).to_be_visible()
    expect(phone.page.get_by_role("button", name="Trailer axles")).to_be_visible()


def with_wide_pair(phone: Device, book: str) -> None:
    """The longest drawing: a second rear axle on its own springs, and the trailer behind."""
    phone.open(f"/b/{book}/plan/vehicle/{book}")
    phone.type("Wheelbase", "3.8")
    choose(phone, "Rear axles", "Two, each on its own springs")
    phone.type("First to second rear axle", "1.1")
    phone.type("Empty mass on the front axle", "1200")
    phone.type("Empty mass on the rear axle", "1400")
    save(phone)


def measured(page: Page) -> tuple[list[float], int]:
    return page.evaluate(TARGETS), page.evaluate(OVERLAPS)


def test_the_longest_drawing_reads_and_can_be_touched(phone: Device, towing: str) -> None:
    with_wide_pair(phone, towing)
    phone.open(f"/b/{towing}/weigh")
    expect(phone.page.get_by_role("button", name="Second rear axle")).to_be_visible()
    for width in (390, 360, 1280):
        phone.page.set_viewport_size({"width": width, "height": 844})
        targets, overlaps = measured(phone.page)
        assert len(targets) == 4
        assert min(targets) >= (48 if width >= 390 else 44), width
        assert overlaps == 0, width
    phone.page.set_viewport_size({"width": 390, "height": 844})
    phone.open(f"/b/{towing}/plan")
    phone.page.get_by_role("radio", name="All full, all aboard, Wagtail on").click()
    expect(phone.page.locator(".beam-long")).to_be_visible()
    assert measured(phone.page)[1] == 0


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_pages_with_a_trailer_hold_for_gloves_and_readers(phone: Device, towing: str, scheme: str) -> None:
    phone.page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    cdp = phone.context.new_cdp_session(phone.page)
    for path in ("", "/weigh", "/plan", "/plan/trailer/new", "/plan/item/new"):
        phone.page.set_viewport_size({"width": 390, "height": 844})
        phone.open(f"/b/{towing}{path}")
        expect(phone.page.get_by_role("heading", level=1)).to_be_visible()
        phone.page.wait_for_timeout(200)
        assert phone.page.evaluate(SIZES) == [], path
        # past the policy, which lets no script of a test in
        cdp.send("Runtime.evaluate", {"expression": AXE.read_text()})
        result = phone.page.evaluate(f"axe.run(document, {RULES})")
        assert [f"{one['id']}: {one['nodes'][0]['html'][:150]}" for one in result["violations"]] == [], path
        phone.page.set_viewport_size({"width": 320, "height": 640})
        assert not phone.page.evaluate(WIDE), path
