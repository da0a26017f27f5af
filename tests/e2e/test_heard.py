"""An answer says what it cannot contain: what lies on another phone, and since when."""

import re
from collections.abc import Callable

from e2e.device import Device
from playwright.sync_api import expect


def test_the_fuel_page_says_when_the_other_phone_was_heard(
    phone: Device, new_device: Callable[..., Device]
) -> None:
    book = phone.new_vehicle("Wren")
    phone.open(f"/b/{book}/fuel")
    phone.type("Capacity", "80")
    phone.touch("Add this tank")
    phone.synced()
    tablet = new_device()
    tablet.sign_in(phone.name)
    with tablet.page.expect_response(lambda one: book in (one.request.post_data or "")):
        tablet.open(f"/b/{book}/fuel")
    phone.ready_offline()
    phone.open(f"/b/{book}/fuel")
    others = phone.page.locator("section").filter(has_text="Other phones")
    said = re.compile(r"last heard .*\d\d:\d\d; what was typed there since is not in these figures")
    expect(others).to_contain_text(said)
    phone.offline()
    phone.page.reload()
    expect(others.get_by_text("Your other phone", exact=True)).to_be_visible()
    expect(others).to_contain_text(said)
