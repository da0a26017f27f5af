"""Writes the OpenAPI document: python -m server.api.contract | node web/tools/contract.mjs > web/src/contract.ts"""

import json
import sys
import tempfile
from pathlib import Path

from server.app import create_app
from server.config import Settings, sqlite_url

from .spec import document


def text() -> str:
    """The document of this version of the application as JSON."""
    with tempfile.TemporaryDirectory() as folder:
        data = Path(folder)
        app = create_app(Settings(data=data, database_url=sqlite_url(data)), migrate=False)
        return json.dumps(document(app), indent=1, ensure_ascii=False)


if __name__ == "__main__":
    sys.stdout.write(text() + "\n")
