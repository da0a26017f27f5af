"""The room left of a plan of 200 items, in a browser four times slower.

A ratio is the share of the time allowed: 100 ms for a change of the state, which reads the plan and the weighings anew,
and 16 ms, one picture of the screen, for a touch that moves the question along the curve.
"""

import json
import os
import shutil
import subprocess
import tempfile
from pathlib import Path

from tests.bench.comparison import BUNDLE, SLOWER, WEB, rows_of
from tests.bench.frame import Row

STATE_MS, TOUCH_MS, ROUNDS = 100.0, 16.0, 30
EXPORTS = {
    "openBook": "book",
    "roomLeft": "room_left",
    "boundsOn": "room_left",
    "stretches": "room",
    "ask": "room",
}
EXPORTS |= {"roomAt": "room", "fullState": "state", "learn": "learning", "weighedDays": "learning"}
MEASURE = """
([rows, rounds]) => {
  const book = domain.openBook({ rows });
  const state = domain.fullState({ book });
  const given = { book, state, day: "2026-06-01" };
  const learning = domain.learn({ book, days: domain.weighedDays({ book }) });
  const room = domain.roomLeft({ ...given, learning });
  const bounds = domain.boundsOn({ room });
  const median = (task) => {
    const times = [];
    for (let i = 0; i < rounds + 5; i++) {
      const began = performance.now();
      for (let n = 0; n < 10; n++) task(i);
      times.push((performance.now() - began) / 10);
    }
    return times.slice(5).sort((a, b) => a - b)[Math.floor(rounds / 2)];
  };
  const touch = (i) => {
    const x_m = -0.9 + 0.1 * i;
    domain.roomAt({ bounds, x_m });
    domain.ask({ bounds, x_m, mass_kg: 40, mass_u_kg: 2, x_u_m: 0.15 });
  };
  return [
    median(() => domain.roomLeft({ ...given, learning, any_level: true })),
    median(() => domain.roomLeft({ ...given, learning: domain.learn({ book, days: domain.weighedDays({ book }) }) })),
    median(() => domain.stretches({ bounds, from_m: -1, to_m: 5 })),
    median(touch),
  ];
}
"""


def measure() -> list[Row]:
    """A state, a state after a new weighing, the whole curve, and a touch; with one weighing."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        entry = folder / "entry.ts"
        lines = (f'export {{ {one} }} from "{WEB}/src/domain/{file}";\n' for one, file in EXPORTS.items())
        entry.write_text("".join(lines))
        command = ["node", "--input-type=module", "-e", BUNDLE, str(entry), str(folder)]
        subprocess.run(command, cwd=WEB, check=True)
        script = (folder / "domain.js").read_text()
    with sync_playwright() as playwright:
        path = os.environ.get("CHROMIUM") or shutil.which("chromium")
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        page = browser.new_page()
        page.add_script_tag(content=script)
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        times = page.evaluate(MEASURE.strip(), json.loads(json.dumps([rows_of(1), ROUNDS])))
        browser.close()
    names = ("another state", "another state after an edit", "the curve cut into its stretches", "a touch")
    allowed = (STATE_MS, STATE_MS, TOUCH_MS, TOUCH_MS)
    return [
        Row(name, ms, "ms", ms / most, bar=1.0) for name, ms, most in zip(names, times, allowed, strict=True)
    ]
