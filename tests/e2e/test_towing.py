"""A long wagon and its trailer at the bridge, offline: all loads of towing, a mistyped figure, the next reading."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from e2e.demo_browser import Profiles, demo_server, sign_in
from playwright.sync_api import BrowserType, Locator, Page, expect

OWNER = ("tevrin", "second-tank-first")
TOWING = ("1350", "3460", "4420")
ALONE = "3290"


@pytest.fixture(scope="module")
def wagon(
    built: Path, chromium: BrowserType, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[tuple[Page, str]]:
    """The owner's phone on the wagon's page, without signal."""
    profiles = Profiles(chromium, tmp_path_factory.mktemp("profiles"))
    with (
        demo_server(tmp_path_factory.mktemp("demo")) as address,
        profiles.open("phone") as context,
    ):
        page = context.pages[0]
        sign_in(page, address, *OWNER)
        page.get_by_role("link", name=re.compile("Long wagon")).click()
        expect(page.get_by_text("Camp trailer", exact=False).first).to_be_visible()
        context.set_offline(True)
        yield page, page.url
    assert profiles.troubles == []


def verdict(page: Page, rating: str) -> Locator:
    """One rating of the weighing: of the day, which stands before the full states."""
    row = page.locator(".verdict").filter(
        has=page.locator(".verdict-name", has_text=re.compile(f"^{rating}"))
    )
    return row.first


def read(page: Page, *figures: str) -> None:
    for figure in figures:
        expect(page.get_by_role("textbox").first).to_be_focused()
        page.keyboard.type(figure)
        page.get_by_role("button", name="Take this reading", exact=True).click()


def says(kilograms: str) -> re.Pattern[str]:
    """Figures with whatever space stands between their digits."""
    return re.compile(re.sub(r"(?<=\d) (?=\d)|(?<=\d) (?=kg)", "\\\\s?", kilograms))


def test_three_coupled_stops_and_one_uncoupled_give_every_load(wagon: tuple[Page, str]) -> None:
    page, home = wagon
    page.goto(f"{home}/weigh")
    read(page, *TOWING)
    for rating, told in {
        "Front axle": "1 350",
        "Rear axle": "2 110",
        "Gross": "3 460",
        "Trailer axles": "960",
        "Combination": "4 420",
    }.items():
        expect(verdict(page, rating)).to_contain_text(says(told))
        expect(verdict(page, rating)).not_to_contain_text("from the plan")
    expect(verdict(page, "Coupling")).to_contain_text("from the plan")
    expect(verdict(page, "Rear axle")).to_contain_text(says("over by 65 kg"))
    read(page, ALONE)
    expect(verdict(page, "Coupling")).to_contain_text(says("under by 80 kg"))
    expect(verdict(page, "Trailer$")).to_contain_text(says("1 130"))
    page.get_by_role("button", name="Roll off", exact=True).click()
    page.get_by_role("button", name="Yes, save as logged", exact=True).click()
    solo = page.get_by_role("heading", name="All tanks full, everyone aboard, from the plan")
    expect(solo).to_be_visible()
    full = page.locator(".section").filter(has=page.locator("h2", has_text="aboard, from the plan"))
    towing = page.locator(".section").filter(has=page.locator("h2", has_text="Camp trailer on"))
    rear = re.compile("^Rear axle")
    assert "over" not in full.locator(".verdict").filter(has_text=rear).inner_text()
    expect(towing.locator(".verdict").filter(has_text=rear)).to_contain_text("over by")


def test_a_mistyped_figure_is_caught_and_asked_about_never_changed(wagon: tuple[Page, str]) -> None:
    page, home = wagon
    page.goto(home)
    page.get_by_role("button", name=re.compile("Touch to uncouple")).click()
    expect(page.get_by_role("button", name=re.compile("Touch to couple"))).to_be_visible()
    page.goto(f"{home}/weigh")
    read(page, "1420", "2380", "1870")
    expect(page.get_by_text("do not agree with each other")).to_be_visible()
    for rating in ("Front axle", "Rear axle", "Gross"):
        expect(verdict(page, rating)).to_contain_text("cannot tell")
    expect(page.get_by_role("button", name="Read the whole vehicle again")).to_be_visible()
    question = page.get_by_role("button", name=says("Whole vehicle: does the display show 3 280 kg"))
    question.click()
    figure = page.get_by_role("textbox").first
    expect(figure).to_have_value("2380")
    figure.fill("3280")
    page.get_by_role("button", name="Take this reading", exact=True).click()
    expect(page.get_by_text("do not agree with each other")).to_have_count(0)
    expect(verdict(page, "Gross")).to_contain_text("under by")


def test_the_vehicles_page_judges_what_is_coupled(wagon: tuple[Page, str]) -> None:
    page, home = wagon
    page.goto(home)
    couple = page.get_by_role("button", name=re.compile("Touch to couple"))
    uncouple = page.get_by_role("button", name=re.compile("Touch to uncouple"))
    expect(couple.or_(uncouple)).to_be_visible()
    if couple.is_visible():
        couple.click()
    expect(uncouple).to_be_visible()
    expect(page.get_by_role("heading", name=re.compile("Camp trailer on, from the plan"))).to_be_visible()
    for rating in ("Combination", "Trailer axles", "Coupling"):
        expect(verdict(page, rating)).to_be_visible()
    expect(verdict(page, "Rear axle")).to_contain_text("over by")
    now = page.get_by_role("link", name=re.compile("^As logged now"))
    expect(now).to_contain_text("Rear axle over by")
    page.goto(f"{home}/water")
    expect(page.get_by_text("Without Camp trailer and what its tanks hold")).to_have_count(1)
    page.goto(home)
    uncouple.click()
    expect(
        page.get_by_role("heading", name="All tanks full, everyone aboard, from the plan", exact=True)
    ).to_be_visible()
    expect(verdict(page, "Rear axle")).to_contain_text("under by")
    expect(now).not_to_contain_text("over")
    page.goto(f"{home}/water")
    expect(page.get_by_text("In the tanks", exact=True)).to_be_visible()
    expect(page.get_by_text("what its tanks hold")).to_have_count(0)
