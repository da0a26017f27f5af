"""A fuel log of thousands of fills on a phone: opened, and answered again after one more fill, four times slower.

Each page is new: it has compiled nothing and read nothing; of several the one in the middle counts. "opened" answers
how far and what is in the tanks with what the device kept of the last time; "one more, new page" is the first answer
after one more fill in a page that has just been opened, and has read on from the place kept while somebody typed;
"page open" in one that has answered before; "nothing kept" reads the whole log. Each is told without what the database
takes, which stands beside it. A ratio is the share of the time allowed: 100 ms to open the log, 50 ms after a fill. The
growth is the time for the most fills over that for the fewest, as a share of the growth of the log. Logs whose entries
contradict each other are read whole, piece by piece as the page does it. Of water no place is kept: a new page reads
the whole log. Run: `python -m tests.bench fills`, with a Chromium on the path or named by `CHROMIUM`.
"""

import os
import random
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from statistics import median
from typing import Any
from uuid import UUID

from tests.bench.comparison import BUNDLE, WEB, record
from tests.bench.frame import Row

SIZES, CONTRARY, SLOWER = (500, 1_000, 2_500, 5_000), (7_500, 15_000), 4
MORE, PAGES = 12, 3
OPEN_MS, MORE_MS = 100.0, 50.0
CAPACITY_L = 80.0
ADDRESS = "http://localhost/"
EXPORTS = {
    "store/index": "openUserStore",
    "store/rows": "metaOf, setMeta",
    "services/books": "openedBook",
    "store/held": "heldRecordsOf",
    "services/consumption": "fuel, levelsAt, placeToKeep, readSlowly, recall, toKeep",
    "services/water": "water",
    "domain/book": "openBook",
}

# What every task below begins with: the device's database, and rows as it holds them.
DEVICE = """
const store = domain.openUserStore({ indexedDB, IDBKeyRange }, "bench");
const none = { answer: null, place: null };
const on = async () => true;
const held = (row) => ({ ...row, book: "v", seq: row.order, base_rev: null, standing: "applied", device: "d",
  device_seq: row.order, made_at: "2020-01-01T00:00:00Z", utc_offset_min: 0, received_at: "2020-01-01T00:00:00Z",
  pending: false });
const put = (rows) => store.change((tables) => tables.records.bulkPut(rows.map(held)));
const open = () => store.read((tables) => domain.openedBook(tables, "v"));
const timed = async (task) => {
  const began = performance.now();
  const made = await task();
  return [performance.now() - began, made];
};
"""
KEEP = """
await put(rows);
const { book } = await open();
await domain.readSlowly(book, on);
const place = domain.placeToKeep(book, null, "1");
const answer = domain.toKeep(book, { answer: null, place }, "1");
await store.change((tables) => domain.setMeta(tables, "kept", { answer, place }));
return place.rest.count;
"""
MEASURE = """
const [records] = await timed(() => store.read((tables) => domain.heldRecordsOf(tables, "v")));
const [place, kept] = await timed(() => store.read((tables) => domain.metaOf(tables, "kept", none)));
const answer = async () => {
  const [database, opened] = await timed(open);
  const [reckoned, figure] = await timed(async () => {
    domain.recall(opened.book, kept, "1");
    const figure = domain.fuel(opened.book);
    if (domain.levelsAt(opened.book, "2100-01-01T00:00:00Z").length !== 1) throw new Error("no level");
    return figure;
  });
  if (!Number.isFinite(figure.count_on_km)) throw new Error("no answer");
  return { database, reckoned, figure, book: opened.book };
};
const opened = await answer();
if (JSON.stringify(opened.figure) !== JSON.stringify(kept.answer.answer)) throw new Error("what was kept is not used");
await domain.readSlowly(opened.book, on); // what a page does while somebody types
domain.toKeep(opened.book, kept, "1");
const more = [];
for (const row of rows) {
  await put([row]);
  more.push(await answer());
}
await store.change((tables) => tables.records.bulkDelete(rows.map((row) => ["v", row.id])));
const middle = (of) => more.slice(1).map(of).sort((a, b) => a - b)[(more.length - 1) >> 1];
return {
  opened: opened.reckoned,
  opened_database: records + place + opened.database,
  first: more[0].reckoned,
  first_database: more[0].database,
  again: middle((one) => one.reckoned),
  again_database: middle((one) => one.database),
};
"""
NOTHING_KEPT = """
const { book } = await open();
const [whole] = await timed(async () => domain.fuel(book));
return whole;
"""
CONTRADICTING = """
const book = domain.openBook({ rows });
const [whole] = await timed(async () => {
  await domain.readSlowly(book, on);
  domain.fuel(book);
});
return whole;
"""


WATER = """
const opened = (count) => domain.openBook({ rows: rows.slice(0, count) });
const first = rows.length - MORE;
const answered = async (book) => (await timed(async () => domain.water(book, "2100-01-01T00:00:00Z")))[0];
const whole = await answered(opened(first));
const more = [];
for (let count = first + 1; count <= rows.length; count++) more.push(await answered(opened(count)));
return { whole, more: more.sort((a, b) => a - b)[more.length >> 1] };
""".replace("MORE", str(MORE))


def rows_of(fills: int) -> list[dict[str, Any]]:
    """A book with one tank and so many fills, most of them full, on three surfaces, a level read now and then."""
    chance = random.Random(1)
    rows = [record("v", "vehicle", name="Vehicle"), record("t", "tank", name="Main", holds="fuel")]
    rows[1]["body"] |= {"capacity_l": CAPACITY_L, "drain_order": 1}
    at, odometer_km, level_l = datetime(2010, 1, 1, tzinfo=UTC), 1_000, CAPACITY_L
    for _ in range(fills):
        way_km = chance.randint(150, 450)
        odometer_km += way_km
        at += timedelta(hours=way_km / 60)
        surface, rate = chance.choice((("sealed", 10.0), ("sealed", 10.0), ("gravel", 12.5), ("sand", 16.0)))
        level_l = max(level_l - way_km * rate / 100 * chance.gauss(1, 0.04), 2.0)
        told = {"zone": "UTC", "odometer_km": odometer_km, "surface": {surface: 1.0}}
        if chance.random() < 0.1:
            gauge = {"tank_id": "t", "how": "gauge", "level": round(level_l / CAPACITY_L, 2)}
            rows.append(record("d", "dip", at=_utc(at - timedelta(minutes=5)), **told, **gauge))
        full = chance.random() < 0.8
        litres_l = round((CAPACITY_L - level_l) * (1.0 if full else 0.5), 2)
        level_l += litres_l
        typed = {"litres_l": [str(litres_l), "L"]}
        line = {"tank_id": "t", "litres_l": litres_l, "full": full, "measured": True, "as_typed": typed}
        said = {
            "as_typed": {"odometer_km": [str(odometer_km), "km"]},
            "missed_before": False,
            "towing": False,
        }
        rows.append(record("f", "fill", at=_utc(at), **told, **said, lines=[line]))
    return [_named(row, n) for n, row in enumerate(rows)]


def _named(row: dict[str, Any], n: int) -> dict[str, Any]:
    """With an order of recording, and names as long as those of a phone."""
    names = {} if n < 2 else {"id": str(UUID(int=n)), "rev": str(UUID(int=n << 64))}
    return {**row, **names, "order": n}


def contradicting(fills: int) -> list[dict[str, Any]]:
    """The same with odometer readings in no order."""
    chance, rows = random.Random(2), rows_of(fills)
    for row in rows:
        if "odometer_km" in row["body"]:
            row["body"]["odometer_km"] = chance.randint(1_000, 900_000)
    return rows


def _utc(at: datetime) -> str:
    return at.strftime("%Y-%m-%dT%H:%M:%SZ")


def water_rows(entries: int) -> list[dict[str, Any]]:
    """A book with one water tank, filled when it is low, drawn from and read now and then, and two who drink."""
    chance, level_l = random.Random(3), 60.0
    rows = [record("v", "vehicle", name="Vehicle"), record("t", "tank", name="Water", holds="water")]
    rows[1]["body"] |= {"capacity_l": 60.0, "drain_order": 1}
    rows += [record(f"s{n}", "seat", name="Seat") for n in range(2)]
    rows += [record(f"p{n}", "person", name="Person", usual_seat_id=f"s{n}") for n in range(2)]
    at = datetime(2012, 1, 1, tzinfo=UTC)
    for n in range(entries):
        hours = chance.uniform(4, 24)
        at += timedelta(hours=hours)
        level_l = max(level_l - 6 * hours / 24, 0.0)
        told = {"at": _utc(at), "zone": "UTC", "tank_id": "t"}
        if chance.random() < 0.3:
            rows.append(record(f"w{n}", "dip", how="tube", level=round(level_l / 60, 2), **told))
            continue
        litres_l = round((60 - level_l) * chance.uniform(0.3, 1), 1)
        level_l += litres_l
        rows.append(record(f"w{n}", "water", action="fill", litres_l=litres_l, drinkable="yes", **told))
    return [{**row, "order": n} for n, row in enumerate(rows)]


def bundle(folder: Path) -> str:
    """What keeps and reads a fuel log on a phone, as one script that sets `domain`."""
    entry, source = folder / "entry.ts", WEB / "src"
    entry.write_text(
        "".join(f'export {{ {one} }} from "{source}/{file}";\n' for file, one in EXPORTS.items())
    )
    command = ["node", "--input-type=module", "-e", BUNDLE, str(entry), str(folder)]
    subprocess.run(command, cwd=WEB, check=True)
    return (folder / "domain.js").read_text()


class Phone:
    """A browser profile with a database of its own; each task has a new page, with its processor slowed."""

    def __init__(self, browser: Any, script: str) -> None:
        self._context = browser.new_context()
        self._context.route(
            "**/*", lambda route: route.fulfill(body="<!doctype html>", content_type="text/html")
        )
        self._script = script

    def run(self, task: str, rows: list[dict[str, Any]], slower: int = SLOWER) -> Any:
        """What a task gives."""
        page = self._context.new_page()
        page.goto(ADDRESS)
        page.add_script_tag(content=self._script)
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slower})
        answer = page.evaluate(f"async (rows) => {{ {DEVICE} {task} }}", rows)
        page.close()
        return answer

    def close(self) -> None:
        """Nothing of it stays."""
        self._context.close()


@contextmanager
def phones() -> Iterator[Any]:
    """Makes phones."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        script = bundle(Path(name))
        path = os.environ.get("CHROMIUM") or shutil.which("chromium")
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield lambda: Phone(browser, script)
        browser.close()


def measured(phone: Phone, size: int, slower: int) -> dict[str, float]:
    """The times for so many fills."""
    rows = rows_of(size + MORE)
    phone.run(KEEP, rows[:-MORE], 1)
    times = [phone.run(MEASURE, rows[-MORE:], slower) for _ in range(PAGES)]
    nothing = [phone.run(NOTHING_KEPT, [], slower) for _ in range(PAGES)]
    return {name: median(one[name] for one in times) for name in times[0]} | {"nothing": median(nothing)}


def measure() -> list[Row]:
    """Opening and answering for each size, their growth, and the log in which nothing fits."""
    with phones() as new:
        found = {size: _closed(new(), size, SLOWER) for size in SIZES}
        plain = _closed(new(), SIZES[-1], 1)
        drunk = {size: new().run(WATER, water_rows(size + MORE)) for size in SIZES}
        contrary = {size: new().run(CONTRADICTING, contradicting(size), 1) for size in CONTRARY}
    rows: list[Row] = []
    for size, one in found.items():
        rows += _rows(f"{SLOWER} x slower, {size:,} fills", one, 1.0 if size == SIZES[-1] else None)
    few, many = found[SIZES[0]], found[SIZES[-1]]
    longer = SIZES[-1] / SIZES[0]
    for name in ("opened", "first", "again", "nothing"):
        growth = many[name] / few[name]
        rows.append(
            Row(f"growth with {longer:.0f} times the fills, {WORDS[name]}", growth, "times", growth / longer)
        )
    for size, water in drunk.items():
        for name, allowed in (("whole", OPEN_MS), ("more", MORE_MS)):
            told = f"{SLOWER} x slower, {size:,} entries of water, {'one more' if name == 'more' else 'whole log'}"
            rows.append(Row(told, water[name], "ms", water[name] / allowed))
    rows += _rows(f"not slowed, {SIZES[-1]:,} fills", plain, None)
    growth = contrary[CONTRARY[1]] / contrary[CONTRARY[0]]
    for size, whole in contrary.items():
        rows.append(Row(f"not slowed, {size:,} contradicting fills, whole log", whole, "ms", whole / OPEN_MS))
    rows.append(Row("growth with 2 times the contradicting fills", growth, "times", growth / 2, bar=1.5))
    return rows


def _closed(phone: Phone, size: int, slower: int) -> dict[str, float]:
    times = measured(phone, size, slower)
    phone.close()
    return times


WORDS = {
    "opened": "opened",
    "first": "one more, new page",
    "again": "one more, page open",
    "nothing": "nothing kept",
}


def _rows(told: str, one: dict[str, float], bar: float | None) -> list[Row]:
    """Rows of one size; the database's part of each has no bar."""
    rows = []
    for name, allowed in (("opened", OPEN_MS), ("first", MORE_MS), ("again", MORE_MS)):
        rows.append(Row(f"{told}, {WORDS[name]}", one[name], "ms", one[name] / allowed, bar=bar))
        database = one[f"{name}_database"]
        rows.append(Row(f"{told}, {WORDS[name]}, database", database, "ms", database / allowed))
    rows.append(Row(f"{told}, {WORDS['nothing']}", one["nothing"], "ms", one["nothing"] / OPEN_MS))
    return rows
