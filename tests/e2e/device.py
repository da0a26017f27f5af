"""A browser as a person holds it, and what nobody should ever see in its console."""

import re
from collections.abc import Callable
from typing import Any
from uuid import uuid4

from e2e.host import PASSWORD, Site
from playwright.sync_api import BrowserContext, ConsoleMessage, Page, Request, expect

# said by the browser itself when a request fails, which is what many tests are about
FAILED_REQUEST = re.compile(r"^Failed to load resource: ")


# an evaluation has no time limit of its own
WORKER_ANSWERS = """async () => {
  const { serviceWorker } = navigator;
  const late = new Promise((_, fail) => setTimeout(() => fail(new Error("no worker within 60 s")), 60000));
  await Promise.race([serviceWorker.ready, late]);
  const taken = (done) => serviceWorker.addEventListener("controllerchange", done, { once: true });
  if (!serviceWorker.controller) await Promise.race([new Promise(taken), late]);
  const rest = (await (await fetch("/sw.js")).text()).match(/\\/assets\\/desk-[^"'`]+/g) ?? [];
  const pause = () => new Promise((done) => setTimeout(done, 100));
  const arrived = async () => (await Promise.all(rest.map((url) => caches.match(url)))).every(Boolean);
  while (!(await arrived())) await Promise.race([pause(), late]);
}"""


class Device:
    """One browser profile: its tabs share storage, cookie and worker."""

    def __init__(self, site: Site, context: BrowserContext) -> None:
        self.site = site
        self.context = context
        self.complaints: list[str] = []
        self.requests: list[str] = []
        self.name = f"Ada {uuid4().hex[:8]}"
        context.on("console", self._console)
        context.on("weberror", lambda one: self.complaints.append(str(one.error)))
        context.on("request", self._request)
        self.page = context.pages[0] if context.pages else context.new_page()

    def _console(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning") and not FAILED_REQUEST.match(message.text):
            self.complaints.append(f"{message.type}: {message.text}")

    def _request(self, request: Request) -> None:
        self.requests.append(f"{request.method} {request.url}")

    def check(self) -> None:
        """Nothing in the console, and nothing asked of another site."""
        assert not self.complaints, "\n".join(self.complaints)
        assert [one for one in self.requests if self.site.url not in one and " blob:" not in one] == []

    def open(self, path: str = "/", page: Page | None = None) -> None:
        """Load a page anew."""
        (page or self.page).goto(self.site.url + path)

    def touch(self, name: str) -> None:
        """Touch a button."""
        self.page.get_by_role("button", name=name, exact=True).click()

    def type(self, label: str, text: str) -> None:
        self.page.get_by_label(label, exact=True).fill(text)

    def sign_up(self) -> None:
        """Make the account of this device's owner and land on the list of vehicles."""
        self.open("/sign-in")
        self.page.get_by_role("radio", name="I am new here").click()
        self._enter("Make this account")

    def sign_in(self, name: str) -> None:
        self.name = name
        self.open("/sign-in")
        self._enter("Sign in")

    def _enter(self, button: str) -> None:
        self.type("Sign-in name", self.name)
        self.touch("Next")
        self.type("Password", PASSWORD)
        self.touch(button)
        expect(self.page.get_by_role("heading", name="Vehicles")).to_be_visible()

    def new_vehicle(self, name: str, **ratings: str) -> str:
        """Make a vehicle by its form; the id of its book."""
        self.open("/new")
        self.type("What do you call it?", name)
        for label, text in ratings.items():
            self.type(label.replace("_", " ").capitalize(), text)
        self.touch("Make this vehicle")
        expect(self.page.get_by_role("heading", name=name)).to_be_visible()
        return self.page.url.rsplit("/", 1)[1]

    def filled_up_offline(self, name: str) -> str:
        """A new vehicle with a tank of 80 L, full at 50 000 km, on a phone without signal; the id of its book."""
        book = self.new_vehicle(name, gross="3500")
        self.open(f"/b/{book}/fuel")
        self.type("Capacity", "80")
        self.touch("Add this tank")
        self.type("Odometer", "50000")
        self.type("Litres", "60")
        self.page.get_by_role("radio", name="Yes, full").click()
        self.touch("Save this fill")
        self.ready_offline()
        self.offline()
        return book

    def rename(self, book: str, name: str) -> None:
        """Edit the vehicle's name in the plan."""
        self.open(f"/b/{book}/plan/vehicle/{book}")
        self.type("Name", name)
        self.touch("Save on this phone")
        expect(self.page).to_have_url(self.site.url + f"/b/{book}/plan")

    def says(self, text: str | re.Pattern[str]) -> None:
        """The status line says so, at the latest when the longest wait for a second try is over."""
        expect(self.page.locator(".frame-status")).to_have_text(text, timeout=15_000)

    def synced(self) -> None:
        self.says(re.compile(r"^synced \d\d:\d\d$"))

    def offline(self, is_so: bool = True) -> None:
        self.context.set_offline(is_so)

    def ready_offline(self) -> None:
        """Wait until the worker has the whole shell and answers this page's requests."""
        self.page.evaluate(WORKER_ANSWERS)

    def sync_route(self, handler: Callable[[Any], None]) -> None:
        """Let a function handle what is sent to the server for syncing."""
        self.context.route("**/api/sync", handler)
