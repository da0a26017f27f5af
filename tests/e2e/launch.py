"""How the tests start their browser."""

import os
import shutil


def launching() -> dict[str, object]:
    """How to start the browser here: the one named, the one on the path, or the library's own."""
    found = shutil.which(os.environ.get("CHROMIUM", "chromium"))
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    return {"args": ["--no-sandbox"] if root else [], **({"executable_path": found} if found else {})}
