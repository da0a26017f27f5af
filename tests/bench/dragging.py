"""Dragging a thing along the plan's drawing: script time per frame, with the processor four times slower.

The whole page is there, built and served, with its drawing, its verdicts and its lists. A ratio is the share of 16 ms,
one frame at sixty a second. Beside script time stands what the browser itself does in a frame (layout and style), which
has no bar. The growth goes from 5 to 200 items, on a phone and on a wide screen.
"""

import os
import shutil
import tempfile
from pathlib import Path
from typing import Any

from tests.bench.frame import Row
from tests.e2e.host import PASSWORD, Account, Site
from tests.e2e.planned import item, many, seed

SLOWER, FRAME_MS, FRAMES = 4, 16.0, 90
SIZES = (5, 20, 50, 100, 200)
SCREENS = {"phone": (390, 844), "wide": (1280, 800)}
ALONE_M, FROM_M = -0.6, 0.1
FRAME = "new Promise((done) => requestAnimationFrame(() => setTimeout(done)))"
WATER = {"name": "Water", "holds": "water", "capacity_l": 60.0, "x_m": 2.2}


def measured(page: Any, cdp: Any) -> tuple[float, float]:
    """Milliseconds of script and of layout and style per frame, while the lone thing is dragged to and fro."""
    box = page.locator(".beam-band").bounding_box()
    reach_m = 5.69  # of this drawing: from the nose to the tail, with its margin
    x = box["x"] + box["width"] * (1.02 + ALONE_M) / reach_m
    y, per_m = box["y"] + box["height"] / 2, box["width"] / reach_m
    page.mouse.move(x, y)
    page.mouse.down()
    for step in range(10):
        page.mouse.move(x + step, y)
        page.evaluate(FRAME)
    assert page.locator(".beam-block").count() == 1
    cdp.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    before = spent(cdp)
    for frame in range(FRAMES):
        page.mouse.move(x + per_m * 2.0 * (1 - abs(1 - frame / (FRAMES / 2))), y)
        page.evaluate(FRAME)
    after = spent(cdp)
    cdp.send("Emulation.setCPUThrottlingRate", {"rate": 1})
    page.keyboard.press("Escape")
    page.mouse.up()
    script, own = (1000 * (b - a) / FRAMES for a, b in zip(before, after, strict=True))
    return script, own


def spent(cdp: Any) -> tuple[float, float]:
    """Seconds of script, and of layout and style, since the page was opened."""
    found = {one["name"]: one["value"] for one in cdp.send("Performance.getMetrics")["metrics"]}
    return found["ScriptDuration"], found["LayoutDuration"] + found["RecalcStyleDuration"]


def sign_up(page: Any, site: Site, name: str) -> None:
    page.goto(site.url + "/sign-in")
    page.get_by_role("radio", name="I am new here").click()
    page.get_by_label("Sign-in name").fill(name)
    page.get_by_role("button", name="Next").click()
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Make this account").click()
    page.get_by_role("heading", name="Vehicles").wait_for()


def each(browser: Any, site: Site) -> list[Row]:
    """Every size on every screen."""
    context = browser.new_context(locale="en-GB")
    page = context.new_page()
    sign_up(page, site, "bench")
    ask = Account(site, "bench").ask
    rows = []
    books = {
        size: seed(ask, [item("Lone", 30.0, ALONE_M), *behind(size - 1)], tank=[WATER]) for size in SIZES
    }
    for screen, (width, height) in SCREENS.items():
        page.set_viewport_size({"width": width, "height": height})
        for size, book in books.items():
            page.goto(f"{site.url}/b/{book}/plan")
            page.locator(".beam-band").wait_for()
            page.locator(".verdict").nth(2).wait_for()
            cdp = context.new_cdp_session(page)
            cdp.send("Performance.enable")
            script, own = measured(page, cdp)
            name = f"{screen}, {size} items, browser {SLOWER} x slower"
            rows.append(Row(f"{name}: script", script, "ms/frame", script / FRAME_MS, bar=1.0))
            rows.append(Row(f"{name}: layout and style", own, "ms/frame", own / FRAME_MS))
    context.close()
    return rows


def behind(count: int) -> list[dict[str, Any]]:
    """Things that stand clear of the lone one."""
    return [{**one, "x_m": max(FROM_M, one["x_m"])} for one in many(count)]


def measure() -> list[Row]:
    """The built application, served, in a real browser."""
    from playwright.sync_api import sync_playwright

    from server import build_web

    if build_web.stale():
        build_web.build()
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        site = Site(Path(folder)).start()
        path = os.environ.get("CHROMIUM") or shutil.which("chromium")
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        try:
            return each(browser, site)
        finally:
            browser.close()
            site.stop()
