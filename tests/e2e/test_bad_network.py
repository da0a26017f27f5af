"""What networks do to a request, and what must not come of it."""

import re
import threading
import urllib.request
from collections.abc import Callable
from pathlib import Path
from uuid import uuid4

import pytest
from e2e.device import Device
from e2e.host import Account, Site
from playwright.sync_api import Page, Route, expect

Direct = Callable[[Device], Account]
WAITING = re.compile(r"saved on this computer · 1 waiting$")


def names(account: Account) -> list[str]:
    return [one["body"]["name"] for one in account.versions("vehicle")]


def test_answers_lost_on_the_way_back(phone: Device, account: Direct) -> None:
    lost = []

    def lose_three(route: Route) -> None:
        if len(lost) < 3:
            lost.append(route.fetch().status)
            route.abort("connectionreset")
        else:
            route.continue_()

    phone.sync_route(lose_three)
    phone.new_vehicle("Wren")
    phone.synced()
    assert lost == [200, 200, 200]
    assert names(account(phone)) == ["Wren"]


def test_a_request_that_arrives_twice_at_once(phone: Device, account: Direct) -> None:
    def twice(route: Route) -> None:
        other = threading.Thread(
            target=again, args=(route.request.all_headers(), route.request.post_data_buffer)
        )
        other.start()
        route.fulfill(response=route.fetch())
        other.join()

    def again(headers: dict[str, str], body: bytes | None) -> None:
        kept = {name: value for name, value in headers.items() if name in KEPT}
        request = urllib.request.Request(phone.site.url + "/api/sync", body, kept, method="POST")
        with urllib.request.urlopen(request) as answer:
            answers.append(answer.status)

    answers: list[int] = []
    phone.sync_route(twice)
    phone.new_vehicle("Wren")
    phone.synced()
    assert answers and set(answers) == {200}
    assert names(account(phone)) == ["Wren"]


KEPT = {"cookie", "content-type", "x-tareway", "origin", "sec-fetch-site"}


@pytest.mark.parametrize(
    ("status", "body", "kind"),
    [
        (200, "<html>Welcome to this network</html>", "text/html"),
        (200, "<html>Welcome to this network</html>", "application/json"),
        (200, "{}", "application/json"),
        (302, "", "text/html"),
        (511, "<html>Sign in to this network</html>", "text/html"),
    ],
)
def test_a_network_that_answers_for_the_server(
    phone: Device, account: Direct, status: int, body: str, kind: str
) -> None:
    headers = {"Content-Type": kind, "Location": "/portal"}
    phone.sync_route(lambda route: route.fulfill(status=status, body=body, headers=headers))
    phone.new_vehicle("Wren")
    phone.says(WAITING)
    assert names(account(phone)) == []
    phone.context.unroute("**/api/sync")
    phone.synced()
    assert names(account(phone)) == ["Wren"]


def test_a_session_that_is_over(phone: Device, account: Direct) -> None:
    book = phone.new_vehicle("Wren")
    phone.synced()
    phone.context.clear_cookies()
    phone.rename(book, "Kestrel")
    phone.says(f"sign in as {phone.name} to send 1")
    phone.page.get_by_role("link", name=re.compile("^sign in as")).click()
    phone.type("Password", "seven tents by the river")
    phone.touch("Sign in")
    phone.synced()
    assert names(account(phone)) == ["Wren", "Kestrel"]


def test_another_person_on_this_phone(
    phone: Device, account: Direct, new_device: Callable[[], Device]
) -> None:
    ben = new_device()
    ben.sign_up()
    ada = phone.name
    phone.sync_route(lambda route: route.abort())
    phone.new_vehicle("Wren")
    phone.says(WAITING)
    phone.context.unroute("**/api/sync")
    phone.context.clear_cookies()
    phone.sync_route(lambda route: route.abort())
    sign_in_as(phone, ben.name)
    phone.context.unroute("**/api/sync")
    phone.open("/")
    phone.synced()
    expect(phone.page.get_by_role("link", name="Wren")).to_have_count(0)
    assert names(account(phone)) == []
    sign_in_as(phone, ada)
    phone.synced()
    assert names(account(phone)) == ["Wren"]


def sign_in_as(phone: Device, name: str) -> None:
    phone.name = name
    phone.open("/sign-in")
    expect(phone.page.get_by_label("Password")).to_be_visible()
    phone.touch("Another name")
    phone.type("Sign-in name", name)
    phone.touch("Next")
    phone.type("Password", "seven tents by the river")
    phone.touch("Sign in")
    expect(phone.page.get_by_role("heading", name="Vehicles")).to_be_visible()


def test_a_refused_entry_is_shown_with_its_reason(phone: Device, account: Direct) -> None:
    def refuse_wren(route: Route) -> None:
        request = route.request.post_data_json
        for one in request["mutations"]:
            if one["body"].get("name") == "Wren":
                one["body"]["body_form"] = "boat"
        route.continue_(post_data=request)

    phone.sync_route(refuse_wren)
    phone.open("/new")
    phone.type("What do you call it?", "Wren")
    phone.touch("Make this vehicle")
    phone.says("1 entry needs attention")
    expect(phone.page.get_by_role("heading", name="Nothing here")).to_be_visible()
    phone.new_vehicle("Kestrel")
    phone.says("1 entry needs attention")  # and nothing is waiting
    phone.open("/device")
    expect(phone.page.get_by_text("boat")).to_be_visible()
    assert names(account(phone)) == ["Kestrel"]
    with phone.page.expect_download() as saved:
        phone.touch("Save what was not sent as a file")
    assert '"Wren"' in saved.value.path().read_text()


def test_a_server_that_is_killed_and_comes_back(
    built: Path, new_device: Callable[..., Device], tmp_path_factory: pytest.TempPathFactory
) -> None:
    site = Site(tmp_path_factory.mktemp("killed"), built).start()
    try:
        phone = new_device(site)
        phone.sign_up()
        phone.ready_offline()
        site.stop()
        phone.new_vehicle("Wren")
        phone.says(WAITING)
        site.start()
        phone.synced()
        assert names(Account(site, phone.name)) == ["Wren"]
    finally:
        site.stop()


def test_two_tabs_send_each_entry_once(phone: Device, account: Direct) -> None:
    book = phone.new_vehicle("Wren")
    other = phone.context.new_page()
    phone.open("/", other)
    expect(other.get_by_role("link", name="Wren")).to_be_visible()
    phone.offline()
    add_item(phone, phone.page, book, "Fridge")
    add_item(phone, other, book, "Drawers")
    expect(phone.page.locator(".frame-status")).to_have_text(re.compile("2 waiting$"))
    expect(other.locator(".frame-status")).to_have_text(re.compile("2 waiting$"))
    phone.offline(False)
    phone.synced()
    items = account(phone).versions("item")
    assert sorted(one["body"]["name"] for one in items) == ["Drawers", "Fridge"]
    assert len({one["device_seq"] for one in items}) == 2


def add_item(phone: Device, page: Page, book: str, name: str) -> None:
    """Save an item past its form: what is under test is the way to the server."""
    page.evaluate(
        "(path) => { history.pushState(null, '', path); dispatchEvent(new PopStateEvent('popstate')) }",
        f"/b/{book}/plan/item/new",
    )
    page.get_by_label("Name", exact=True).fill(name)
    page.get_by_role("radio", name=re.compile("part", re.I)).first.click()
    page.get_by_role("button", name="Save on this phone").click()
    expect(page).to_have_url(phone.site.url + f"/b/{book}/plan")


def test_no_id_is_used_twice_after_the_storage_was_cleared(phone: Device, account: Direct) -> None:
    phone.new_vehicle("Wren")
    phone.synced()
    phone.open("/icon.svg")
    phone.page.evaluate(
        """async () => {
            const deleted = (name) => new Promise((done, failed) =>
                Object.assign(indexedDB.deleteDatabase(name), { onsuccess: done, onerror: failed }));
            for (const { name } of await indexedDB.databases()) await deleted(name);
        }"""
    )
    phone.sign_in(phone.name)
    phone.new_vehicle(f"Robin {uuid4().hex[:4]}")
    phone.synced()
    versions = account(phone).versions("vehicle")
    assert len({one["device"] for one in versions}) == 2
