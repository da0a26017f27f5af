"""Load advice in the browser on a processor four times slower: growth with the items, and with those that may move.

A ratio is the share of the 300 ms allowed for 14 movable items, for the median of twenty invented vehicles with a
trailer and nine limits; the slowest stands beside. Weighings tie all masses together, so that every pair has a
covariance. Copies of one thing are one movable item with more choices, and have a bar for the fewest moves. Above 18
movable items it is said within how many moves the answer is proven, of the least certain vehicle.
"""

import json
import os
import random
import shutil
import subprocess
import tempfile
from pathlib import Path
from statistics import median
from typing import Any

from tests.bench.comparison import BUNDLE, WEB
from tests.bench.frame import Row

Json = Any
ALLOWED_MS, SLOWER, VEHICLES = 300.0, 4, 20
SIZES = (8, 11, 14, 18, 25)
LENGTH_M, COUPLING_M, LEVER_M, READINGS, Z = 3.0, 4.1, 3.2, 3, 1.6449
FIXED_KG = {
    "front": 1250,
    "rear": 1800,
    "gross": 3050,
    "coupling": 110,
    "trailer_axles": 900,
    "combination": 4000,
}
LEAST = ("front", "coupling")
MEASURE = """
(([problems, objective]) => {
  domain.advise({ ...problems[0], objective });
  return problems.map((problem) => {
    const began = performance.now();
    const found = domain.advise({ ...problem, objective });
    return [performance.now() - began, found.word, found.moves, found.exact, found.most_moves];
  });
})
"""


def share(row: str, x_m: float, on_trailer: bool) -> float:
    """Load per kilogram, by levers."""
    coupling = 1 - x_m / LEVER_M if on_trailer else 0.0
    if row in ("combination", "coupling"):
        return 1.0 if row == "combination" else coupling
    if row == "trailer_axles":
        return float(on_trailer) - coupling
    force, where = (coupling, COUPLING_M) if on_trailer else (1.0, x_m)
    return force * {"front": 1 - where / LENGTH_M, "rear": where / LENGTH_M, "gross": 1.0}[row]


def vehicle(seed: int, movable: int) -> Json:
    """Loads at the tail that could be in two other places or be left, and limits that a drawn choice just meets."""
    chance = random.Random(seed)
    rows = [*FIXED_KG, *(f"{one} least" for one in LEAST)]
    items = [_item(chance, n, rows) for n in range(movable)]
    limits: list[Json] = [
        {"id": one, "fixed_kg": FIXED_KG[one.split()[0]], "variance_kg2": 200.0, "limit_kg": 0}
        for one in rows
    ]
    for limit in limits:
        limit["least"] = limit["id"].endswith("least")
    moved = chance.sample(range(movable), min(movable, 5))
    for k, limit in enumerate(limits):
        if not limit["least"]:
            now, then = (_needed(limit, items, k, picks) for picks in ((), moved))
            limit["limit_kg"] = then + 5 if now > then else now + 15
    root = [[chance.gauss(0, 0.2) for _ in range(READINGS)] for _ in items]
    errors = [
        [
            float(i == j) - sum(a * b for a, b in zip(root[i], root[j], strict=True)) / 2
            for j in range(movable)
        ]
        for i in range(movable)
    ]
    return {"limits": limits, "items": items, "errors": errors}


def _item(chance: random.Random, n: int, rows: list[str]) -> Json:
    mass = chance.randint(12, 240) / 4
    u = mass * chance.choice([0.005, 0.05, 0.15])

    def option(id: str, x_m: float, on_trailer: bool = False) -> Json:
        shares = [share(row.split()[0], x_m, on_trailer) for row in rows]
        slopes = [
            share(row.split()[0], x_m + 1, on_trailer) - one for row, one in zip(rows, shares, strict=True)
        ]
        return {
            "id": id,
            "loads_kg": [mass * one for one in shares],
            "variances_kg2": [(mass * 0.05 * one) ** 2 for one in slopes],
            "shares": [{"error": n, "per_unit": [u * one for one in shares]}],
        }

    nothing = [0.0] * len(rows)
    places = [option(f"place {s}", chance.uniform(0.5, 4), chance.random() < 0.3) for s in range(2)]
    off = {"id": "off", "loads_kg": nothing, "variances_kg2": nothing, "off_kg": mass}
    return {
        "id": f"item {n}",
        "mass_kg": mass,
        "options": [option("here", chance.uniform(2.6, 4)), *places, off],
    }


def _needed(limit: Json, items: Json, k: int, moved: Any) -> float:
    """Load and z u with these items at their first other place, by the variances alone."""
    options = [item["options"][int(i in moved)] for i, item in enumerate(items)]
    u2 = [one["variances_kg2"][k] + one["shares"][0]["per_unit"][k] ** 2 for one in options]
    load = limit["fixed_kg"] + sum(one["loads_kg"][k] for one in options)
    return float(load + Z * (limit["variance_kg2"] + sum(u2)) ** 0.5)


def bundle(folder: Path) -> str:
    """The solver as one script that sets `domain`."""
    entry = folder / "entry.ts"
    entry.write_text(f'export {{ advise, heldBy }} from "{WEB}/src/domain/advice";\n')
    command = ["node", "--input-type=module", "-e", BUNDLE, str(entry), str(folder)]
    subprocess.run(command, cwd=WEB, check=True)
    return (folder / "domain.js").read_text()


def answers(asked: list[tuple[list[Json], str]]) -> list[list[Json]]:
    """In the slowed browser, for each list of problems: milliseconds and what was found."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        path = os.environ.get("CHROMIUM") or shutil.which("chromium")
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        page = browser.new_page()
        page.add_script_tag(content=bundle(Path(name)))
        page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        found = [page.evaluate(MEASURE.strip(), json.loads(json.dumps(one))) for one in asked]
        browser.close()
    return found


def fixed_items(count: int) -> list[Json]:
    """Fourteen movable items among so many that are not."""
    out = []
    for problem in (vehicle(seed, 14) for seed in range(VEHICLES)):
        chance = random.Random(count)
        still = [_item(chance, 14 + n, [one["id"] for one in problem["limits"]]) for n in range(count - 14)]
        kept = [{**item, "options": [{**item["options"][0], "shares": []}]} for item in still]
        limits = [dict(one) for one in problem["limits"]]
        for k, limit in enumerate(limits):
            load = sum(item["options"][0]["loads_kg"][k] for item in kept)
            limit["fixed_kg"] -= load
        out.append({**problem, "limits": limits, "items": [*problem["items"], *kept]})
    return out


def of_copies(problem: Json, count: int) -> Json:
    """The first four things as so many copies, of which any number may go."""
    items = [_divided(item, count) if n < 4 else item for n, item in enumerate(problem["items"])]
    return {**problem, "items": items}


def _divided(item: Json, count: int) -> Json:
    here, *others = item["options"]
    options = [here]
    for other in others:
        for k in range(1, count + 1):
            s = k / count
            mixed = [_mixed(s, here[name], other[name]) for name in ("loads_kg", "variances_kg2")]
            ties = [
                one["shares"][0]["per_unit"] if one.get("shares") else [0.0] * len(mixed[0])
                for one in (here, other)
            ]
            share = {"error": here["shares"][0]["error"], "per_unit": _mixed(s, *ties)}
            whole = {"off_kg": s * other.get("off_kg", 0.0), "moves": k, "shares": [share]}
            options.append(
                {"id": f"{other['id']}, {k}", "loads_kg": mixed[0], "variances_kg2": mixed[1], **whole}
            )
    return {**item, "options": options}


def _mixed(share: float, here: Json, there: Json) -> Json:
    return [(1 - share) * a + share * b for a, b in zip(here, there, strict=True)]


def measure() -> list[Row]:
    """Both objectives by size; then items that cannot move beside 14 that can."""
    asked: list[tuple[str, int, list[Json], str]] = []
    for movable in SIZES:
        problems = [vehicle(seed, movable) for seed in range(VEHICLES)]
        for objective in ("moves", "off"):
            asked.append((f"{movable} movable, {_WORDS[objective]}", movable, problems, objective))
    for count in (2, 4):
        problems = [of_copies(vehicle(seed, 14), count) for seed in range(VEHICLES)]
        for objective in ("moves", "off"):
            movable = 14 if objective == "moves" else 0
            asked.append(
                (f"14 movable, 4 of {count} copies, {_WORDS[objective]}", movable, problems, objective)
            )
    for count in (50, 200):
        asked.append((f"{count} items, 14 movable, fewest moves", 0, fixed_items(count), "moves"))
    rows = []
    for (name, movable, _, _), found in zip(asked, answers([(one[2], one[3]) for one in asked]), strict=True):
        times = [one[0] for one in found]
        loose = [one[4] for one in found if not one[3]]
        proven = f", proven to {min(loose)} moves" if loose else ", all proven"
        middle = median(times)
        bar = 1.0 if movable == 14 else None
        rows.append(Row(f"{name}{proven}", middle, "ms", middle / ALLOWED_MS, bar=bar))
        rows.append(Row("  the slowest of twenty", max(times), "ms", max(times) / ALLOWED_MS))
    return rows


_WORDS = {"moves": "fewest moves", "off": "least off"}
