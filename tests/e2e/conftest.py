"""Browsers, the built application, and the server that they share."""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from e2e.demo_browser import Profiles, demo_server, sign_in
from e2e.device import Device
from e2e.host import Account, Site
from e2e.launch import launching
from e2e.planned import seed
from playwright.sync_api import Browser, BrowserType, Page, expect, sync_playwright

from server import build_web

VIEWPORT = {"width": 390, "height": 844}


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.e2e)


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the built application, built now if its sources have changed.

    A server lists its files when it starts: it must not lose them to a build that somebody starts meanwhile.
    """
    if build_web.stale():
        build_web.build()
    return Path(shutil.copytree(build_web.STATIC, tmp_path_factory.mktemp("built") / "static"))


@pytest.fixture(scope="session")
def chromium() -> Iterator[BrowserType]:
    with sync_playwright() as playwright:
        yield playwright.chromium


@pytest.fixture(scope="session")
def browser(chromium: BrowserType) -> Iterator[Browser]:
    started = chromium.launch(**launching())  # type: ignore[arg-type]
    yield started
    started.close()


@pytest.fixture(scope="session")
def site(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    """The server of all tests that do not stop it."""
    running = Site(tmp_path_factory.mktemp("site"), built).start()
    yield running
    running.stop()


@pytest.fixture
def new_device(site: Site, browser: Browser) -> Iterator[Callable[..., Device]]:
    """Makes browser profiles that have never been here; at the end none has had anything to complain of."""
    made: list[Device] = []

    def make(at: Site = site, **options: object) -> Device:
        context = browser.new_context(**{"viewport": VIEWPORT, **options})  # type: ignore[arg-type]
        made.append(Device(at, context))
        return made[-1]

    yield make
    for device in made:
        device.context.close()
    for device in made:
        device.check()


@pytest.fixture
def phone(new_device: Callable[..., Device]) -> Device:
    """A phone whose owner has just made an account."""
    device = new_device()
    device.sign_up()
    return device


@pytest.fixture
def account(site: Site) -> Callable[[Device], Account]:
    """The same person asking the server directly."""
    return lambda device: Account(site, device.name)


@pytest.fixture
def opened(phone: Device, account: Callable[[Device], Account]) -> Callable[..., str]:
    """Opens a plan on this phone, which then loses its signal."""

    def open_(items: list[dict[str, object]], **others: list[dict[str, object]]) -> str:
        book = seed(account(phone).ask, items, **others)
        phone.open("/")
        phone.page.get_by_role("link", name="Wren").click()
        expect(phone.page.get_by_role("heading", name="Wren")).to_be_visible()
        phone.ready_offline()
        phone.offline()
        phone.open(f"/b/{book}/plan")
        expect(phone.page.get_by_role("heading", name="Items")).to_be_visible()
        return book

    return open_


@pytest.fixture(scope="module")
def owner(chromium: BrowserType, built: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """The demo's owner of the canopy utility, on its page."""
    folder = tmp_path_factory.mktemp("owner")
    profiles = Profiles(chromium, folder)
    with demo_server(folder / "data") as address, profiles.open("owner") as context:
        page = context.new_page()
        sign_in(page, address, "orsolla", "dust-and-corrugation")
        page.get_by_role("link", name="Canopy utility").click()
        expect(page.get_by_role("heading", name="Weighings")).to_be_visible()
        yield page
    assert built
    assert profiles.troubles == []
