"""Comparing a plan of items with weighings: Python, Node, and the browser as it is and four times slower.

A ratio is the share of the time allowed: 10 ms for one weighing of three readings and 200 items, and 50 ms on a slowed
processor for the verdicts after a reading on the deck, with nineteen weighings before it: those have been read by
themselves when the page opened. Python has no bar; it stands beside for the sake of the server. Then the growth, over
items and weighings.
"""

import json
import os
import random
import shutil
import subprocess
import tempfile
from pathlib import Path
from typing import Any

from server.domain.book import Row as Record
from server.domain.book import open_book
from server.domain.comparison import compare
from tests.bench.frame import Row, median_s

Book = list[dict[str, Any]]
WEB = Path(__file__).parent.parent.parent / "web"
ITEMS, SLOWER = 200, 4
ONE_MS, TWENTY_MS = 10.0, 50.0
ROUNDS = 30

BUNDLE = """
import { build } from "vite";
const [entry, outDir] = process.argv.slice(1);
const alias = { "@": `${process.cwd()}/src` };
const output = { outDir, emptyOutDir: false, target: "es2022" };
await build({ configFile: false, logLevel: "error", resolve: { alias }, build: { ...output,
  lib: { entry, formats: ["iife"], name: "domain", fileName: () => "domain.js" } } });
"""
# The same text runs in Node and in the browser.
MEASURE = """
((domain, rows, weighing_id, rounds, on_deck) => {
  const book = domain.openBook({ rows });
  const known = on_deck ? domain.weighedDays({ book }).slice(0, -1) : [];
  const times = [];
  for (let i = 0; i < rounds + 5; i++) {
    const began = performance.now();
    domain.compare({ book, weighing_id, known });
    times.push(performance.now() - began);
  }
  return times.slice(5).sort((a, b) => a - b)[Math.floor(rounds / 2)];
})
"""


def record(id: str, kind: str, **body: Any) -> dict[str, Any]:
    """A row in the shape that both languages read."""
    return {"id": id, "kind": kind, "rev": f"{id}-1", "body": body, "order": 0, "author": "a"}


def plan(chance: random.Random, items: int) -> list[dict[str, Any]]:
    """An invented vehicle with many small items."""
    vehicle = record(
        "v",
        "vehicle",
        name="Vehicle",
        wheelbase_m=3.2,
        base_front_kg=1200.0,
        base_rear_kg=900.0,
        fuel_kind="diesel",
    )
    plate = record("p", "plate", of="vehicle", gross_kg=3500.0, front_axle_kg=1550.0, rear_axle_kg=2000.0)
    parts = [
        record(
            f"i{n}",
            "item",
            name=f"Item {n}",
            nature="part",
            mass_kg=chance.uniform(1, 6),
            x_m=chance.uniform(-1, 5),
        )
        for n in range(items)
    ]
    return [vehicle, plate, *parts]


def weighing(n: int, plan_rows: list[dict[str, Any]], chance: random.Random) -> dict[str, Any]:
    """A visit with three readings; all of one bridge."""
    front, rear = 1350 + chance.gauss(0, 8), 1520 + chance.gauss(0, 8)
    decks = ((["front"], front), (["rear"], rear), (["front", "rear"], front + rear))
    state = {"settled_by": "confirmed", "tanks": [], "seats": [], "items": [], "trailers": []}
    return record(
        f"w{n:02d}",
        "weighing",
        at=f"2026-05-{n + 1:02d}T08:00:00Z",
        bridge={"key": "one", "interval_kg": 10.0, "max_kg": 40_000.0},
        readings=[
            {"id": f"{n}-{i}", "on_deck": deck, "value_kg": round(kg, -1)}
            for i, (deck, kg) in enumerate(decks)
        ],
        state={**state, "plan": [{"id": row["id"], "rev": row["rev"]} for row in plan_rows]},
    )


def rows_of(weighings: int, items: int = ITEMS) -> list[dict[str, Any]]:
    """The records of a book with so many weighings."""
    chance = random.Random(1)
    planned = plan(chance, items)
    return [*planned, *(weighing(n, planned, chance) for n in range(weighings))]


def python_ms(rows: list[dict[str, Any]]) -> float:
    """The server's own time."""
    book = open_book(rows=[Record(**row) for row in rows])
    return 1000 * median_s(lambda: compare(book=book, weighing_id=rows[-1]["id"]), rounds=ROUNDS)


def bundle(folder: Path) -> str:
    """The browser's domain as one script that sets `domain`."""
    entry = folder / "entry.ts"
    source = WEB / "src/domain"
    entry.write_text(
        f'export {{ openBook }} from "{source}/book";\nexport {{ compare }} from "{source}/comparison";\n'
        f'export {{ weighedDays }} from "{source}/learning";\n'
    )
    command = ["node", "--input-type=module", "-e", BUNDLE, str(entry), str(folder)]
    subprocess.run(command, cwd=WEB, check=True)
    return (folder / "domain.js").read_text()


def node_ms(script: str, rows: list[dict[str, Any]], folder: Path) -> float:
    """Node's time, measured inside the process."""
    program = folder / "measure.cjs"
    asked = f"{json.dumps(rows)}, {json.dumps(rows[-1]['id'])}, {ROUNDS}, false"
    program.write_text(f"{script}\nconsole.log({MEASURE.strip()}(domain, {asked}));\n")
    return float(subprocess.run(["node", str(program)], capture_output=True, text=True, check=True).stdout)


def browser_ms(script: str, books: list[Book], slower: int, *, on_deck: bool) -> list[float]:
    """The browser's times, with its processor slowed so many times."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        path = os.environ.get("CHROMIUM") or shutil.which("chromium")
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        page = browser.new_page()
        page.add_script_tag(content=script)
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slower})
        call = f"([rows, id, rounds, on_deck]) => {MEASURE.strip()}(domain, rows, id, rounds, on_deck)"
        times = [float(page.evaluate(call, [rows, rows[-1]["id"], ROUNDS, on_deck])) for rows in books]
        browser.close()
    return times


def measure() -> list[Row]:
    """One weighing and twenty, in each place where the comparison runs; then the growth on the deck."""
    one, twenty = rows_of(1), rows_of(20)
    sizes = [(items, weighings) for weighings in (1, 5, 20) for items in (50, 200, 400)]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        script = bundle(folder)
        node = [node_ms(script, rows, folder) for rows in (one, twenty)]
    plain = browser_ms(script, [one, twenty], 1, on_deck=False)
    slow = browser_ms(script, [one, twenty], SLOWER, on_deck=False)
    deck = browser_ms(script, [one, twenty], SLOWER, on_deck=True)
    grown = browser_ms(
        script, [rows_of(weighings, items) for items, weighings in sizes], SLOWER, on_deck=True
    )
    python = [python_ms(rows) for rows in (one, twenty)]
    growth = [
        Row(f"on the deck: {items} items, {weighings} weighings", ms, "ms", ms / TWENTY_MS)
        for (items, weighings), ms in zip(sizes, grown, strict=True)
    ]
    return [
        Row("Python, 1 weighing", python[0], "ms", python[0] / ONE_MS),
        Row("Python, 20 weighings", python[1], "ms", python[1] / TWENTY_MS),
        Row("Node, 1 weighing", node[0], "ms", node[0] / ONE_MS, bar=1.0),
        Row("Node, 20 weighings", node[1], "ms", node[1] / TWENTY_MS),
        Row("browser, 1 weighing", plain[0], "ms", plain[0] / ONE_MS, bar=1.0),
        Row("browser, 20 weighings", plain[1], "ms", plain[1] / TWENTY_MS),
        Row(f"browser {SLOWER} x slower, 20 weighings, all read anew", slow[1], "ms", slow[1] / TWENTY_MS),
        Row(
            f"browser {SLOWER} x slower, on the deck, 1 weighing", deck[0], "ms", deck[0] / TWENTY_MS, bar=1.0
        ),
        Row(
            f"browser {SLOWER} x slower, on the deck, 20 weighings",
            deck[1],
            "ms",
            deck[1] / TWENTY_MS,
            bar=1.0,
        ),
        *growth,
    ]
