"""Offline: every figure that the fuel log takes for granted is shown, and one said otherwise changes the answer."""

import re

from playwright.sync_api import Page, expect


def count_on(page: Page) -> str:
    row = page.get_by_role("status").filter(has_text="ount on")
    expect(row).to_be_visible()
    return row.inner_text()


def test_a_figure_taken_for_granted_is_replaced(owner: Page) -> None:
    vehicle = owner.url
    owner.context.set_offline(True)
    owner.goto(f"{vehicle}/fuel")
    before = count_on(owner)
    owner.get_by_role("link", name="What is taken for granted").click()
    for group in ("To begin with", "How exact what is read is", "When you are asked"):
        expect(owner.get_by_role("heading", name=group)).to_be_visible()
    reserve = owner.get_by_role("link", name=re.compile("^Fuel never counted on"))
    expect(reserve).to_contain_text("assumed")
    reserve.click()
    owner.get_by_label("Fuel never counted on", exact=True).fill("60")
    owner.get_by_role("button", name="Save on this phone").click()
    expect(reserve).to_contain_text(re.compile(r"60\sL.*your own"))
    owner.goto(f"{vehicle}/fuel")
    assert count_on(owner) != before
    owner.goto(f"{vehicle}/water")
    owner.get_by_role("link", name="What is taken for granted").click()
    expect(owner.get_by_text("Sphere Handbook 2011, second-hand")).to_be_visible()
