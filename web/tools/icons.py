"""Draws public/icon.svg as the PNG files that the manifest names: `python tools/icons.py`.

The drawing has two colours and no more, so a pixel is a share of white on the blue, or of the blue on nothing: 16
colours in a palette hold them all, in a quarter of the bytes.
"""

import base64
import shutil
import struct
import zlib
from pathlib import Path

import numpy as np
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
GROUND, WHITE = np.array([0x0B, 0x4F, 0x9E]), np.array([0xFF, 0xFF, 0xFF])
STEPS = 8  # of white on the ground; as many of the ground on nothing, less the full one that both share
PIXELS = """async ([drawing, size]) => {
  const image = new Image();
  image.src = "data:image/svg+xml," + encodeURIComponent(drawing);
  await image.decode();
  const canvas = new OffscreenCanvas(size, size).getContext("2d");
  canvas.drawImage(image, 0, 0, size, size);
  const bytes = canvas.getImageData(0, 0, size, size).data;
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text);
}"""


def main() -> None:
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        page = browser.new_page()
        for name, (size, drawing) in FILES.items():
            bytes_ = base64.b64decode(page.evaluate(PIXELS, [drawing, size]))
            pixels = np.frombuffer(bytes_, dtype=np.uint8).reshape(size, size, 4)
            (PUBLIC / name).write_bytes(png(numbered(pixels)))
        browser.close()


def numbered(pixels: np.ndarray) -> np.ndarray:
    """For each pixel its place in the palette."""
    white = np.rint((pixels[..., 0] - float(GROUND[0])) / (255 - GROUND[0]) * (STEPS - 1))
    ground = np.rint(pixels[..., 3] / 255.0 * (STEPS - 1))
    return np.where(ground < STEPS - 1, STEPS + ground, np.clip(white, 0, STEPS - 1)).astype(np.uint8)


def png(numbers: np.ndarray) -> bytes:
    """A PNG of four bits a pixel (ISO/IEC 15948, colour type 3)."""
    height, width = numbers.shape
    shares = np.arange(STEPS)[:, None] / (STEPS - 1)
    colours = np.vstack([np.rint(GROUND + shares * (WHITE - GROUND)), np.tile(GROUND, (STEPS - 1, 1))])
    alphas = np.concatenate([np.full(STEPS, 255.0), np.rint(shares[:-1, 0] * 255)])
    rows = np.hstack([np.zeros((height, 1)), numbers[:, 0::2] << 4 | numbers[:, 1::2]])  # each row unfiltered
    parts = {
        b"IHDR": struct.pack(">IIBBBBB", width, height, 4, 3, 0, 0, 0),
        b"PLTE": colours.astype(np.uint8).tobytes(),
        b"tRNS": alphas.astype(np.uint8).tobytes(),
        b"IDAT": zlib.compress(rows.astype(np.uint8).tobytes(), 9),
        b"IEND": b"",
    }
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        for kind, body in parts.items()
    )


if __name__ == "__main__":
    main()
