"""A fuel log of thousands of fills: opened, and read on after one more, in the browser as it is and four times slower.

A ratio is the share of the time allowed: 100 ms to open a book with 5,000 fills and answer how far, 50 ms to answer
again after one more fill on a slowed processor. "first" is a page's first reading of any log, before the browser has
compiled what it runs often; "kept" is the same with the answer that the device kept of the last time. The growth shows
whether one more fill costs what came before it.
"""

import os
import random
import shutil
import subprocess
import tempfile
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from tests.bench.comparison import BUNDLE, WEB, record
from tests.bench.frame import Row

SIZES, SLOWER = (500, 1_000, 2_000, 5_000), 4
MORE, LATE = 30, 8
OPEN_MS, MORE_MS = 100.0, 50.0
CAPACITY_L = 80.0
KEEP = """
async ([rows, more]) => {
  const book = domain.openBook({ rows: rows.slice(0, rows.length - more) });
  await domain.readSlowly(book, async () => true);
  return domain.toKeep(book, null, "");
}
"""
KEPT = """
([rows, more, kept]) => {
  const began = performance.now();
  const book = domain.openBook({ rows: rows.slice(0, rows.length - more) });
  domain.recall(book, kept, "");
  const answer = domain.fuel(book);
  const took = performance.now() - began;
  if (JSON.stringify(answer) !== JSON.stringify(kept.answer)) throw new Error("what was kept is not used");
  return took;
}
"""
MEASURE = """
([rows, more, late]) => {
  const open = (count) => domain.openBook({ rows: rows.slice(0, count) });
  const timed = (task) => {
    const began = performance.now();
    const made = task();
    return [performance.now() - began, made];
  };
  const answer = (log) => domain.fuelAnswer({ log, mix: { sealed: 1 } });
  const read = (book, previous) => {
    const log = domain.fuelLogOf({ book, previous });
    answer(log);
    return log;
  };
  const median = (times) => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)];
  const start = rows.length - more;
  const anew = () => timed(() => read(open(start), null));
  let [first, log] = anew();
  const again = Array.from({ length: 5 }, () => anew()[0]);
  const on = [];
  for (let count = start + 1; count <= rows.length; count++) {
    const [took, next] = timed(() => read(open(count), log));
    on.push(took);
    log = next;
  }
  const whole = open(rows.length);
  const before = [];
  for (let n = 0; n < 5; n++) {
    const gone = whole.fills.length - late - n;
    const without = read({ ...whole, fills: whole.fills.filter((_, at) => at !== gone) }, null);
    before.push(timed(() => read(whole, without))[0]);
  }
  return { first, anew: median(again), more: median(on), late: median(before) };
}
"""


def rows_of(fills: int) -> list[dict[str, Any]]:
    """A book with one tank and so many fills, most of them full, on three surfaces, a level read now and then."""
    chance = random.Random(1)
    rows = [record("v", "vehicle", name="Vehicle"), record("t", "tank", name="Main", holds="fuel")]
    rows[1]["body"] |= {"capacity_l": CAPACITY_L, "drain_order": 1}
    at, odometer_km, level_l = datetime(2010, 1, 1, tzinfo=UTC), 1_000, CAPACITY_L
    for n in range(fills):
        way_km = chance.randint(150, 450)
        odometer_km += way_km
        at += timedelta(hours=way_km / 60)
        surface, rate = chance.choice((("sealed", 10.0), ("sealed", 10.0), ("gravel", 12.5), ("sand", 16.0)))
        level_l = max(level_l - way_km * rate / 100 * chance.gauss(1, 0.04), 2.0)
        told = {"zone": "UTC", "odometer_km": odometer_km, "surface": {surface: 1.0}}
        if chance.random() < 0.1:
            gauge = {"tank_id": "t", "how": "gauge", "level": round(level_l / CAPACITY_L, 2)}
            rows.append(record(f"d{n}", "dip", at=_utc(at - timedelta(minutes=5)), **told, **gauge))
        full = chance.random() < 0.8
        litres_l = round((CAPACITY_L - level_l) * (1.0 if full else 0.5), 2)
        level_l += litres_l
        line = {"tank_id": "t", "litres_l": litres_l, "full": full}
        rows.append(record(f"f{n}", "fill", at=_utc(at), **told, lines=[line]))
    return [{**row, "order": n} for n, row in enumerate(rows)]


def _utc(at: datetime) -> str:
    return at.strftime("%Y-%m-%dT%H:%M:%SZ")


def bundle(folder: Path) -> str:
    """What reads a fuel log, as one script that sets `domain`."""
    entry, source = folder / "entry.ts", WEB / "src/domain"
    names = {"book": "openBook", "supplies": "fuelLogOf", "fuel_answer": "fuelAnswer"}
    names |= {"../services/consumption": "fuel, readSlowly, recall, toKeep"}
    entry.write_text("".join(f'export {{ {one} }} from "{source}/{file}";\n' for file, one in names.items()))
    command = ["node", "--input-type=module", "-e", BUNDLE, str(entry), str(folder)]
    subprocess.run(command, cwd=WEB, check=True)
    return (folder / "domain.js").read_text()


def browser_ms(script: str, sizes: tuple[int, ...], slower: int) -> list[dict[str, float]]:
    """The times of each size in a page of its own, with its processor slowed so many times."""
    from playwright.sync_api import sync_playwright

    found = []
    with sync_playwright() as playwright:
        path = os.environ.get("CHROMIUM") or shutil.which("chromium")
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        for size in sizes:
            rows = rows_of(size + MORE)
            kept = _in_new_page(browser, script, slower, KEEP, [rows, MORE])
            times = _in_new_page(browser, script, slower, MEASURE, [rows, MORE, LATE])
            found.append({**times, "kept": _in_new_page(browser, script, slower, KEPT, [rows, MORE, kept])})
        browser.close()
    return found


def _in_new_page(browser: Any, script: str, slower: int, task: str, given: list[Any]) -> Any:
    """What a task gives in a page that has compiled nothing yet."""
    context = browser.new_context()
    page = context.new_page()
    page.add_script_tag(content=script)
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slower})
    answer = page.evaluate(task.strip(), given)
    context.close()
    return answer


def measure() -> list[Row]:
    """Opening and reading on, for each size and at both speeds."""
    with tempfile.TemporaryDirectory() as name:
        script = bundle(Path(name))
    plain = browser_ms(script, SIZES[-1:], 1)[0]
    slow = browser_ms(script, SIZES, SLOWER)
    told, most = f"browser {SLOWER} x slower", f"{SIZES[-1]:,} fills"
    rows = [
        Row(f"browser, {most}, first", plain["first"], "ms", plain["first"] / OPEN_MS),
        Row(f"browser, {most}, kept", plain["kept"], "ms", plain["kept"] / OPEN_MS),
        Row(f"browser, {most}, anew", plain["anew"], "ms", plain["anew"] / OPEN_MS),
        Row(f"browser, {most}, one more", plain["more"], "ms", plain["more"] / MORE_MS),
    ]
    for size, one in zip(SIZES, slow, strict=True):
        bar = 1.0 if size == SIZES[-1] else None
        what = f"{told}, {size:,} fills"
        rows += [
            Row(f"{what}, first", one["first"], "ms", one["first"] / OPEN_MS),
            Row(f"{what}, kept", one["kept"], "ms", one["kept"] / OPEN_MS, bar=bar),
            Row(f"{what}, anew", one["anew"], "ms", one["anew"] / OPEN_MS),
            Row(f"{what}, one more", one["more"], "ms", one["more"] / MORE_MS, bar=bar),
            Row(f"{what}, one {LATE} places before the end", one["late"], "ms", one["late"] / MORE_MS),
        ]
    return rows
