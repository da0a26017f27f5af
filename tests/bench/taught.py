"""What twenty weighings of a plan of 200 items taught, the account and the change since last time, in Node.

A ratio is the share of the time allowed: 100 ms for the lessons of twenty weighings.
"""

import json
import subprocess
import tempfile
from pathlib import Path

from tests.bench.comparison import BUNDLE, WEB, rows_of
from tests.bench.frame import Row

WEIGHINGS, ALLOWED_MS, ROUNDS = 20, 100.0, 20
FUNCTIONS = {
    "the lessons": ("taught", "{ book }"),
    "one account": ("account", "{ book, weighing_id }"),
    "one change since last time": ("since", "{ book, weighing_id }"),
}
MEASURE = """
const [rows, edits, rounds] = JSON.parse(require("node:fs").readFileSync(0, "utf8"));
const book = domain.openBook({ rows, edits });
const weighing_id = rows.at(-1).id;
const median = (task) => {
  const times = [];
  for (let i = 0; i < rounds + 5; i++) {
    const began = performance.now();
    task();
    times.push(performance.now() - began);
  }
  return times.slice(5).sort((a, b) => a - b)[Math.floor(rounds / 2)];
};
"""


def measure() -> list[Row]:
    """Each of the three, of the last of twenty weighings."""
    rows = rows_of(WEIGHINGS)
    edits = [
        {"record_id": row["id"], "at": "2026-04-01T00:00:00Z"}
        | {name: row[name] for name in ("kind", "rev", "author", "body")}
        for row in rows
        if row["kind"] != "weighing"
    ]
    calls = ", ".join(f"median(() => domain.{name}({given}))" for name, given in FUNCTIONS.values())
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        entry = folder / "entry.ts"
        modules = {"openBook": "book"} | {one: one for one, _ in FUNCTIONS.values()}
        entry.write_text(
            "".join(f'export {{ {one} }} from "{WEB}/src/domain/{file}";\n' for one, file in modules.items())
        )
        command = ["node", "--input-type=module", "-e", BUNDLE, str(entry), str(folder)]
        subprocess.run(command, cwd=WEB, check=True)
        program = folder / "measure.cjs"
        script = (folder / "domain.js").read_text()
        program.write_text(f"{script}\n{MEASURE}\nconsole.log(JSON.stringify([{calls}]));\n")
        given = json.dumps([rows, edits, ROUNDS])
        ran = subprocess.run(["node", str(program)], input=given, capture_output=True, text=True, check=True)
    times = json.loads(ran.stdout)
    return [Row(name, ms, "ms", ms / ALLOWED_MS, bar=1.0) for name, ms in zip(FUNCTIONS, times, strict=True)]
