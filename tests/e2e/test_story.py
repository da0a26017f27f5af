"""A phone goes out of signal, is switched off and on, and comes back; another phone then sees it all."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from e2e.conftest import VIEWPORT
from e2e.device import Device
from e2e.host import Account, Site
from e2e.launch import launching
from playwright.sync_api import BrowserType, expect


@pytest.fixture
def switched_on(chromium: BrowserType, site: Site, tmp_path: Path) -> Iterator[Callable[[], Device]]:
    """Opens the same profile again and again, as a phone that is switched off and on."""
    devices: list[Device] = []

    def switch_on(offline: bool = False) -> Device:
        for before in devices:
            before.context.close()
        context = chromium.launch_persistent_context(
            tmp_path / "profile",
            viewport=VIEWPORT,  # type: ignore[arg-type]
            offline=offline,
            **launching(),  # type: ignore[arg-type]
        )
        devices.append(Device(site, context))
        return devices[-1]

    yield switch_on
    devices[-1].context.close()
    for device in devices:
        device.check()


def test_an_edit_made_without_signal_arrives_once(
    switched_on: Callable[..., Device],
    new_device: Callable[..., Device],
    account: Callable[[Device], Account],
) -> None:
    phone = switched_on()
    phone.sign_up()
    name = phone.name
    book = phone.new_vehicle("Wren", gross="3500", front_axle="1 480", rear_axle="2100")
    phone.synced()
    phone.ready_offline()

    phone = switched_on(offline=True)
    phone.name = name
    phone.open("/")
    expect(phone.page.get_by_role("link", name="Wren")).to_be_visible()
    phone.rename(book, "Kestrel")
    phone.says(re.compile("1 waiting$"))

    phone = switched_on(offline=True)
    phone.name = name
    phone.open("/")
    expect(phone.page.get_by_role("link", name="Kestrel")).to_be_visible()
    phone.says(re.compile("1 waiting$"))
    phone.offline(False)
    phone.synced()

    versions = account(phone).versions("vehicle")
    assert [one["body"]["name"] for one in versions] == ["Wren", "Kestrel"]
    assert versions[1]["base_rev"] == versions[0]["rev"]
    other = new_device()
    other.sign_in(name)
    expect(other.page.get_by_role("link", name="Kestrel")).to_be_visible()


def test_a_new_vehicle_keeps_what_was_typed(phone: Device, account: Callable[[Device], Account]) -> None:
    book = phone.new_vehicle("Wren", gross="3.5 t", front_axle="1480", rear_axle="2100")
    phone.synced()
    (plate,) = account(phone).versions("plate")
    assert plate["book"] == book
    assert plate["body"]["gross_kg"] == 3500
    assert plate["body"]["as_typed"] == {
        "gross_kg": ["3.5", "t"],
        "front_axle_kg": ["1480", "kg"],
        "rear_axle_kg": ["2100", "kg"],
    }


def test_every_page_opens_without_signal(phone: Device) -> None:
    book = phone.new_vehicle("Wren")
    phone.synced()
    phone.ready_offline()
    phone.offline()
    pages = ["/", "/new", "/device", "/sign-in", "/weigh", "/fuel"]
    pages += [f"/b/{book}{rest}" for rest in ("", "/weigh", "/fuel", "/water", "/plan", "/log", "/members")]
    for path in pages:
        phone.open(path)
        expect(phone.page.get_by_role("heading", level=1)).to_be_visible()
        expect(phone.page.get_by_text("This page has failed")).to_have_count(0)


def test_a_half_typed_form_is_there_again_after_a_reload(phone: Device) -> None:
    phone.open("/new")
    phone.type("What do you call it?", "Wr")
    phone.type("Gross", "35x")
    phone.page.wait_for_timeout(400)
    phone.page.reload()
    expect(phone.page.get_by_label("What do you call it?")).to_have_value("Wr")
    expect(phone.page.get_by_label("Gross", exact=True)).to_have_value("35x")


def test_two_touches_make_one_vehicle(phone: Device, account: Callable[[Device], Account]) -> None:
    phone.open("/new")
    phone.type("What do you call it?", "Wren")
    phone.page.get_by_role("button", name="Make this vehicle").dblclick()
    expect(phone.page.get_by_role("heading", name="Wren")).to_be_visible()
    phone.synced()
    assert len(account(phone).versions("vehicle")) == 1


def test_signing_out_leaves_nothing_here(phone: Device) -> None:
    phone.new_vehicle("Wren")
    phone.synced()
    phone.open("/device")
    phone.touch("Sign out")
    phone.touch("Sign out and remove")
    expect(phone.page.get_by_role("heading", name="Sign in")).to_be_visible()
    left = phone.page.evaluate("indexedDB.databases().then((all) => all.map((one) => one.name))")
    assert left == ["tareway"]
    assert [one for one in phone.context.cookies() if one["name"] == "__Host-tareway"] == []
    assert phone.page.evaluate("Object.keys(localStorage).length + Object.keys(sessionStorage).length") == 0


def test_sharing_by_sign_in_name(phone: Device, new_device: Callable[..., Device]) -> None:
    other = new_device()
    other.sign_up()
    book = phone.new_vehicle("Wren")
    phone.synced()
    phone.open(f"/b/{book}/members")
    phone.type("Sign-in name", other.name)
    phone.page.get_by_role("radio", name="fitter").click()
    phone.touch("Share")
    expect(phone.page.get_by_text(f"Shared with {other.name}.")).to_be_visible()
    other.open("/")
    expect(other.page.get_by_role("link", name=re.compile("Wren"))).to_be_visible()
    phone.touch(f"Stop sharing with {other.name}")
    phone.touch("Stop sharing")
    expect(phone.page.get_by_role("button", name=re.compile("^Stop sharing"))).to_have_count(0)
    other.open("/")
    expect(other.page.get_by_role("link", name=re.compile("Wren"))).to_have_count(0)
