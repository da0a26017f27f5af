"""A new version of the app while entries wait and a form is half typed."""

import re
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from e2e.device import Device
from e2e.host import Account, Site
from playwright.sync_api import expect

OFFER = "A new version is ready."
NEXT = "meta[name=release]"  # waited for by locator: the page's policy forbids a function given as text


@pytest.fixture
def release(built: Path, tmp_path: Path) -> Iterator[tuple[Site, Callable[[], None]]]:
    """A server of one release, and what turns it into the next."""
    static = tmp_path / "static"
    shutil.copytree(built, static)
    site = Site(tmp_path / "data", static).start()

    def next_release() -> None:
        site.stop()
        make_newer(static)
        site.start()

    yield site, next_release
    site.stop()


def make_newer(static: Path) -> None:
    """Change the page and, as a build would, its revision and the worker's build in the list."""
    page, worker = static / "index.html", static / "sw.js"
    page.write_text(page.read_text().replace("</head>", '<meta name="release" content="next" /></head>'))
    text = worker.read_text()
    text, pages = re.subn(r"(url:`/index\.html`,revision:`)[0-9a-f]{16}", r"\g<1>" + "0" * 16, text)
    text, builds = re.subn(r"(?<=\+`)[0-9a-f]{16}(?=`)", "1" * 16, text)
    assert (pages, builds) == (1, 1), "the worker no longer looks as this test expects"
    worker.write_text(text)
    for packed in (*static.glob("index.html.*"), *static.glob("sw.js.*")):
        packed.unlink()


def is_next(device: Device, page: object = None) -> bool:
    target = page or device.page
    return bool(target.evaluate("document.querySelector('meta[name=release]') !== null"))  # type: ignore[attr-defined]


def test_it_is_offered_and_waits_until_it_is_wanted(
    release: tuple[Site, Callable[[], None]], new_device: Callable[..., Device]
) -> None:
    site, next_release = release
    phone = new_device(site)
    phone.sign_up()
    phone.ready_offline()
    next_release()
    phone.open("/")
    expect(phone.page.get_by_text(OFFER)).to_be_visible(timeout=15_000)
    phone.open("/device")
    assert not is_next(phone)
    phone.touch("Use it now")
    expect(phone.page.locator(NEXT)).to_have_count(1)
    expect(phone.page.get_by_text(OFFER)).to_have_count(0)


def test_entries_and_half_typed_forms_live_through_it(
    release: tuple[Site, Callable[[], None]], new_device: Callable[..., Device]
) -> None:
    site, next_release = release
    phone = new_device(site)
    phone.sign_up()
    phone.ready_offline()
    phone.sync_route(lambda route: route.abort())
    phone.new_vehicle("Wren")
    other = phone.context.new_page()
    phone.open("/new", other)
    other.get_by_label("What do you call it?").fill("Kest")
    next_release()
    phone.open("/")
    expect(phone.page.get_by_text(OFFER)).to_be_visible(timeout=15_000)
    phone.touch("Use it now")
    expect(phone.page.locator(NEXT)).to_have_count(1)
    expect(other.get_by_label("What do you call it?")).to_have_value("Kest")
    assert not is_next(phone, other), "a page was loaded anew under a half-typed form"
    phone.says(re.compile("1 waiting$"))
    other.get_by_role("link", name="Back").click()
    expect(other.locator(NEXT)).to_have_count(1)
    phone.context.unroute("**/api/sync")
    phone.synced()
    assert [one["body"]["name"] for one in Account(site, phone.name).versions("vehicle")] == ["Wren"]


def test_a_page_of_the_old_release_still_finds_its_parts(
    release: tuple[Site, Callable[[], None]], new_device: Callable[..., Device]
) -> None:
    site, next_release = release
    phone = new_device(site)
    phone.sign_up()
    phone.ready_offline()
    next_release()
    phone.open("/")
    expect(phone.page.get_by_text(OFFER)).to_be_visible(timeout=15_000)
    caches = phone.page.evaluate("caches.keys()")
    assert len([one for one in caches if one.startswith("tareway-shell-")]) == 2
    phone.touch("Use it now")
    expect(phone.page.locator(NEXT)).to_have_count(1)
    assert len(phone.page.evaluate("caches.keys()")) == 2
