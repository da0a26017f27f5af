"""Draws public/icon.svg as the PNG files that the manifest names: `python tools/icons.py`."""

import shutil
from pathlib import Path

from playwright.sync_api import sync_playwright

PUBLIC = Path(__file__).resolve().parent.parent / "public"
DRAWING = (PUBLIC / "icon.svg").read_text(encoding="utf-8")
# A maskable icon may be cut to a circle of 80 % of its width: full ground, and the mark drawn smaller.
MASKABLE = DRAWING.replace('rx="96" ', "").replace("<g ", '<g transform="translate(64 64) scale(0.75)" ')
FILES = {
    "icon-192.png": (192, DRAWING),
    "icon-512.png": (512, DRAWING),
    "icon-maskable-512.png": (512, MASKABLE),
}


def main() -> None:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        for name, (size, drawing) in FILES.items():
            page = browser.new_page(viewport={"width": size, "height": size})
            page.set_content(f"<style>body {{ margin: 0 }} svg {{ display: block }}</style>{drawing}")
            page.screenshot(path=PUBLIC / name, omit_background=True)
        browser.close()


if __name__ == "__main__":
    main()
