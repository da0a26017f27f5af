"""What a least change may take: kept aboard by name until somebody says no, and some of several copies; offline."""

import re
from collections.abc import Callable

from e2e.device import Device
from e2e.host import Account
from e2e.planned import item
from e2e.test_plan_stages import vehicle
from playwright.sync_api import Page, expect

KIT = item(
    *("Recovery kit", 60.0, 4.0),
    known_by="weighed",
    may_stay_behind=True,
    may_move_to=[{"label": "Behind the seats", "x_m": 1.5}],
)
CANS = item(
    *("Jerry cans", 15.0, 4.0),
    known_by="weighed",
    count=4,
    may_move_to=[{"label": "Behind the canopy door", "x_m": 2.6}],
)
CANOPY = item("Canopy", 950.0, 3.4, nature="part", known_by="weighed", position_by="measured")


def to_move(page: Page, book: str) -> None:
    """Opens the least change of the vehicle with full tanks."""
    page.goto(f"{page.url.split('/b/')[0]}/b/{book}/change")
    expect(page.get_by_text("What stays aboard", exact=True)).to_be_visible()


def test_a_recovery_kit_is_kept_by_its_name_until_somebody_says_no(
    phone: Device, opened: Callable[..., str]
) -> None:
    book = opened([CANOPY, KIT])
    page = phone.page
    to_move(page, book)
    expect(page.get_by_text("Cannot be met", exact=True)).to_be_visible()
    expect(
        page.get_by_text(re.compile("^Kept aboard, by the plan or by the name: Recovery kit"))
    ).to_be_visible()
    page.goto(page.url.replace("/change", "/plan"))
    page.get_by_role("button", name=re.compile("^Recovery kit")).click()
    page.get_by_role("link", name="More about it").click()
    page.get_by_role("button", name="More about it").click()
    keep = page.get_by_role("radiogroup", name="Must it always stay aboard?")
    expect(keep.get_by_role("radio", name="By its name", exact=True)).to_be_checked()
    expect(page.get_by_text("Kept aboard: its name says that it helps in an emergency.")).to_be_visible()
    expect(page.get_by_text("Counts once it is not kept aboard.")).to_have_count(2)
    keep.get_by_role("radio", name="No", exact=True).click()
    expect(page.get_by_text("Not kept aboard: you say so.")).to_be_visible()
    expect(page.get_by_text("Counts once it is not kept aboard.")).to_have_count(0)
    phone.touch("Save on this phone")
    expect(page.get_by_role("button", name="Undo Recovery kit: edited", exact=True)).to_be_visible()
    to_move(page, book)
    expect(page.locator(".move", has_text="Move Recovery kit")).to_contain_text("Behind the seats")
    expect(page.get_by_text(re.compile("^Kept aboard"))).to_have_count(0)


def test_two_of_four_cans_move_in_one_touch_and_come_back_in_one(
    phone: Device, opened: Callable[..., str], account: Callable[[Device], Account]
) -> None:
    # by hand: 15 kg at 4.0 m put 18.75 kg on the rear axle, at 2.6 m 12.2; one left is one move, two moved are two
    book = opened([CANOPY, CANS])
    page = phone.page
    to_move(page, book)
    move = page.locator(".move")
    expect(move).to_contain_text("Leave Jerry cans behind: 1 of 4")
    page.get_by_role("radio", name="What is left behind", exact=True).click()
    expect(move).to_contain_text("Move Jerry cans: 2 of 4")
    expect(page.get_by_text("Each copy that moves counts as a move.", exact=True)).to_be_visible()
    page.get_by_role("button", name="Write it into the plan", exact=True).click()
    expect(page.get_by_text("Nothing need move.", exact=True)).to_be_visible()
    page.get_by_role("button", name="Undo what was moved", exact=True).click()
    expect(move).to_contain_text("Move Jerry cans: 2 of 4")
    page.get_by_role("button", name="Redo what was moved", exact=True).click()
    expect(page.get_by_text("Nothing need move.", exact=True)).to_be_visible()
    vehicle(phone, account, book)
    latest = {one["id"]: one["body"] for one in account(phone).versions("item")}
    cans = [one for one in latest.values() if one["name"] == "Jerry cans" and not one.get("deleted")]
    assert sorted((one["count"], one["mass_kg"], one["x_m"]) for one in cans) == [(2, 15, 2.6), (2, 15, 4)]
    assert len({one["article_id"] for one in cans}) == 1
