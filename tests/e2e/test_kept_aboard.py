"""What helps in an emergency is not proposed until its record says that it may be; asked offline."""

import re
from collections.abc import Callable

from e2e.device import Device
from e2e.planned import item
from playwright.sync_api import Page, expect

KIT = item(
    *("Recovery kit", 60.0, 4.0),
    known_by="weighed",
    may_stay_behind=True,
    may_move_to=[{"label": "Behind the seats", "x_m": 1.5}],
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
