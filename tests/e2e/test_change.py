"""The least change, offline: what to move to be under, refused and taken back, written into the plan or the log."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from e2e.demo_browser import Profiles, demo_server, sign_in
from playwright.sync_api import BrowserType, Locator, Page, expect

WAGON = ("tevrin", "second-tank-first", "Long wagon")
UTILITY = ("orsolla", "dust-and-corrugation", "Canopy utility")
LINK = "What to move to be under"
UNDER = re.compile(r"to bring every known rating under at 95 %")


@pytest.fixture
def address(built: Path, tmp_path: Path) -> Iterator[str]:
    """A server of each test's own: a loaded browser may send something although it was told to be offline."""
    with demo_server(tmp_path / "data") as where:
        yield where


@pytest.fixture(scope="module")
def profiles(chromium: BrowserType, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Profiles]:
    made = Profiles(chromium, tmp_path_factory.mktemp("profiles"))
    yield made
    assert made.troubles == []


@pytest.fixture
def vehicle(address: str, profiles: Profiles, request: pytest.FixtureRequest) -> Iterator[Page]:
    """An owner's phone on the page of a vehicle, without signal."""
    name, password, title = request.param
    with profiles.open(request.node.name) as context:
        page = context.pages[0]
        sign_in(page, address, name, password)
        page.get_by_role("link", name=re.compile(title)).click()
        expect(page.get_by_role("link", name=LINK)).to_be_visible()
        context.set_offline(True)
        yield page


def moves(page: Page) -> Locator:
    return page.locator(".move")


def solved(page: Page, *, moves_least: int = 1) -> None:
    """Every rating after the moves is under."""
    expect(page.get_by_text(UNDER)).to_be_visible()
    assert moves(page).count() >= moves_least
    after = page.locator(".verdict")
    expect(after.first).to_be_visible()
    assert after.count() == page.locator(".verdict-under").count()


@pytest.mark.parametrize("vehicle", [WAGON], indirect=True)
def test_refusing_a_move_gives_the_next_best_and_the_plan_takes_what_is_left(vehicle: Page) -> None:
    page = vehicle
    page.get_by_role("link", name=LINK).click()
    page.get_by_role("radio", name="All full, all aboard, Camp trailer on").click()
    spare = page.locator(".move", has_text="Second spare wheel")
    expect(spare).to_contain_text("rear axle")
    solved(page, moves_least=3)
    rear = page.locator(".verdict", has_text="Rear axle")
    expect(rear).to_contain_text(re.compile(r"over by .* → under by"))
    page.get_by_role("button", name="Second spare wheel on the carrier stays").click()
    expect(spare).to_have_count(0)
    solved(page, moves_least=3)
    page.get_by_role("button", name=re.compile("Second spare wheel.*let it move again")).click()
    expect(spare).to_have_count(1)
    fewest = moves(page).count()
    page.get_by_role("radio", name="What is left behind").click()
    expect(page.get_by_role("radio", name="What is left behind")).to_be_checked()
    expect(moves(page)).not_to_have_count(0)
    solved(page, moves_least=fewest)
    page.get_by_role("button", name="Write it into the plan").click()
    expect(page.get_by_text("Nothing need move.")).to_be_visible()
    expect(page.get_by_text("Written down.")).to_be_visible()
    page.get_by_role("button", name="Undo what was moved", exact=True).click()
    expect(moves(page)).not_to_have_count(0)
    expect(page.get_by_text("Written down.")).to_have_count(0)
    page.get_by_role("button", name="Redo what was moved", exact=True).click()
    expect(page.get_by_text("Nothing need move.")).to_be_visible()
    expect(moves(page)).to_have_count(0)
    page.goto(page.url.split("/change")[0] + "/plan")
    expect(page.get_by_text("Second spare wheel on the carrier").first).to_be_visible()


@pytest.mark.parametrize("vehicle", [UTILITY], indirect=True)
def test_for_today_what_is_left_behind_goes_into_the_log(vehicle: Page) -> None:
    page = vehicle
    home = page.url
    page.get_by_role("link", name=LINK).click()
    solved(page)
    left = page.locator(".move", has_text=re.compile("^.*Leave")).first.locator("strong").inner_text()
    name = left.split(":")[0].removeprefix("Leave ").removesuffix(" behind")
    page.get_by_role("button", name="Do it for today").click()
    expect(page.get_by_text("Nothing need move.")).to_be_visible()
    page.goto(f"{home}/log")
    expect(page.get_by_text(name, exact=False).first).to_be_visible()


@pytest.mark.parametrize("vehicle", [WAGON], indirect=True)
def test_a_weighing_that_is_over_leads_to_what_to_move_in_its_own_state(vehicle: Page) -> None:
    page = vehicle
    page.goto(f"{page.url}/weigh")
    for figure in ("1350", "3460", "4420", "3290"):
        expect(page.get_by_role("textbox").first).to_be_focused()
        page.keyboard.type(figure)
        page.get_by_role("button", name="Take this reading", exact=True).click()
    page.get_by_role("button", name="Roll off", exact=True).click()
    page.get_by_role("button", name="Yes, save as logged", exact=True).click()
    page.get_by_role("link", name=LINK).first.click()
    expect(page.get_by_role("radio", name=re.compile("^As weighed"))).to_be_checked()
    solved(page)
    expect(page.locator(".verdict", has_text="Rear axle")).to_contain_text(
        re.compile(r"over by \d\d.* → under")
    )
    expect(page.get_by_text("The readings alone stand with the weighing.")).to_be_visible()


@pytest.mark.parametrize("vehicle", [WAGON], indirect=True)
def test_a_reserve_that_cannot_be_is_named_and_a_rating_that_cannot_be_met_is_said(vehicle: Page) -> None:
    page = vehicle
    page.get_by_role("link", name=LINK).click()
    solved(page)
    page.get_by_label("Drinking water that stays").fill("much")
    expect(page.locator(".field-error")).to_be_visible()
    page.get_by_label("Drinking water that stays").fill("0")
    expect(page.locator(".field-error")).to_have_count(0)
    while moves(page).count() > 0:
        first = moves(page).first.get_by_role("button")
        label = first.get_attribute("aria-label") or ""
        first.click()
        expect(page.get_by_role("button", name=label, exact=True)).to_have_count(0)
        expect(page.get_by_text(re.compile("Working it out|Looking at choices"))).to_have_count(0)
    expect(page.get_by_text("Cannot be met", exact=True)).to_be_visible()
    expect(page.get_by_role("alert").first).to_be_visible()


@pytest.mark.parametrize("vehicle", [WAGON], indirect=True)
def test_a_change_keeps_the_coupling_load_that_the_trailer_asks_for(vehicle: Page) -> None:
    page = vehicle
    home = page.url
    page.goto(f"{home}/plan")
    page.get_by_role("link", name=re.compile("^Camp trailer")).first.click()
    page.get_by_text("More about it", exact=True).click()
    page.get_by_label("Least load on the coupling", exact=True).fill("60")
    page.get_by_role("button", name="Save on this phone", exact=True).click()
    expect(page).to_have_url(f"{home}/plan")
    page.goto(home)
    page.get_by_role("link", name=LINK).click()
    page.get_by_role("radio", name="All full, all aboard, Camp trailer on").click()
    expect(page.get_by_text("Blank: 60\u202fkg, as the trailer's page says.")).to_be_visible()
