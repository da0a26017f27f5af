"""The shell: how big it is, what it keeps, that it can be installed, and what stands guard over it."""

import gzip
from pathlib import Path

import pytest
from e2e.device import Device
from e2e.host import Site
from playwright.sync_api import expect

FIRST_JS_BYTES = 90_000
SHELL_BYTES = 250_000
PACKED = {".js", ".css", ".html", ".svg", ".webmanifest"}


def size(file: Path) -> int:
    """Bytes on the way to a phone."""
    content = file.read_bytes()
    return len(gzip.compress(content, 9)) if file.suffix in PACKED else len(content)


def test_the_first_page_is_small(phone: Device, built: Path) -> None:
    phone.context.clear_cookies()
    asked = phone.page.evaluate(
        "performance.getEntriesByType('resource').map((one) => new URL(one.name).pathname)"
    )
    scripts = {path for path in asked if path.startswith("/assets/") and path.endswith(".js")}
    total = sum(size(built / path[1:]) for path in scripts)
    print(f"\nscripts of the first pages: {total} of {FIRST_JS_BYTES} bytes in {len(scripts)} files")
    assert scripts
    assert total <= FIRST_JS_BYTES


def test_the_whole_shell_is_small(built: Path) -> None:
    """All that must be there before the phone can go offline; the desk's pages are fetched after it."""
    files = {one for one in built.rglob("*") if one.is_file() and one.suffix not in (".br", ".gz", ".map")}
    after = set(built.glob("assets/desk-*.js"))
    assert len(after) == 1
    total = sum(size(one) for one in files - after)
    print(f"\nwhole shell: {total} of {SHELL_BYTES} bytes in {len(files - after)} files")
    assert total <= SHELL_BYTES


def test_it_can_be_installed(phone: Device) -> None:
    phone.ready_offline()
    asked = phone.context.new_cdp_session(phone.page)
    errors = asked.send("Page.getInstallabilityErrors")["installabilityErrors"]
    # a profile of a test counts as private, in which nothing can be installed
    assert [one["errorId"] for one in errors if one["errorId"] != "in-incognito"] == []
    manifest = phone.page.evaluate("fetch('/manifest.webmanifest').then((answer) => answer.json())")
    assert [one["url"] for one in manifest["shortcuts"]] == ["/weigh", "/fuel"]
    for icon in manifest["icons"]:
        assert phone.page.evaluate("(src) => fetch(src).then((answer) => answer.status)", icon["src"]) == 200


def test_the_worker_keeps_the_shell_and_no_data(phone: Device) -> None:
    phone.new_vehicle("Wren")
    phone.synced()
    phone.ready_offline()
    phone.open("/")
    phone.synced()
    kept = phone.page.evaluate(
        """async () => (await Promise.all((await caches.keys()).map(async (name) =>
            (await (await caches.open(name)).keys()).map((one) => new URL(one.url).pathname)))).flat()"""
    )
    assert "/index.html" in kept
    assert [path for path in kept if path.startswith("/api")] == []


@pytest.mark.parametrize("path", ["/", "/b/none/weigh", "/sw.js", "/api/session", "/manifest.webmanifest"])
def test_every_answer_carries_the_policy(site: Site, phone: Device, path: str) -> None:
    answer = phone.context.request.get(site.url + path)
    policy = answer.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "require-trusted-types-for 'script'" in policy
    assert "unsafe" not in policy


def test_the_policy_holds_against_script_from_text(phone: Device) -> None:
    blocked = phone.page.evaluate(
        """() => {
            try { document.body.insertAdjacentHTML('beforeend', '<b>x</b>'); return false; }
            catch (error) { return error instanceof TypeError; }
        }"""
    )
    assert blocked
    phone.complaints.clear()  # the browser says what it has blocked


def test_text_is_never_markup(phone: Device) -> None:
    name = "<img src=x onerror=alert(1)>{{7*7}}\"'&lt;"
    phone.page.on("dialog", lambda dialog: phone.complaints.append(f"dialog: {dialog.message}"))
    book = phone.new_vehicle(name)
    for path in ("/", f"/b/{book}", f"/b/{book}/plan", f"/b/{book}/members"):
        phone.open(path)
        expect(phone.page.get_by_text(name).first).to_be_visible()
