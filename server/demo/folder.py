"""What the demo remembers of itself in its folder: the seed and the day that its data were made of."""

import json
from dataclasses import asdict, dataclass, replace
from datetime import date
from pathlib import Path

SEED = 27  # every seed tells the same story; in this one no honest entry looks odd by chance
_NAME = "demo.json"


@dataclass(frozen=True, slots=True)
class Made:
    """Of which seed and day the data are, and whether all of them were written."""

    seed: int
    today: str
    complete: bool = False

    def finished(self) -> "Made":
        """The same, all written."""
        return replace(self, complete=True)


def made(folder: Path, today: date) -> Made:
    """What lies in a folder; where nothing does, what is to be made there today."""
    path = folder / _NAME
    if path.exists():
        return Made(**json.loads(path.read_text(encoding="utf-8")))
    return Made(SEED, today.isoformat())


def remember(folder: Path, what: Made) -> None:
    """Write it down, whole or not at all."""
    folder.mkdir(parents=True, exist_ok=True)
    draft = folder / f"{_NAME}.new"
    draft.write_text(json.dumps(asdict(what)) + "\n", encoding="utf-8")
    draft.replace(folder / _NAME)


def forget(folder: Path) -> None:
    """Remove the demo's own files from its folder, and nothing else that somebody may keep there."""
    for path in (*folder.glob("tareway.sqlite3*"), folder / _NAME):
        path.unlink(missing_ok=True)
