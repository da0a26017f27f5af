"""A real server process on loopback for the browser tests: data folder, port, and other built files if any."""

import sys
from pathlib import Path

from server.cli import serve
from server.config import Rates, Settings, sqlite_url

# many people sign up from one address within a test run
GENEROUS = Rates(
    sign_in_per_account=1_000,
    sign_in_per_address=1_000,
    sign_up_per_address=1_000,
    members_per_user=1_000,
    requests_per_user=100_000,
)


def main(data: Path, port: int, static: Path | None) -> int:
    """Serve until killed."""
    settings = Settings(data=data, database_url=sqlite_url(data), rates=GENEROUS)
    if static:
        settings = Settings(data=data, database_url=sqlite_url(data), rates=GENEROUS, static=static)
    return serve(settings, host="127.0.0.1", port=port)


if __name__ == "__main__":
    folder, number, *built = sys.argv[1:]
    sys.exit(main(Path(folder), int(number), Path(built[0]) if built else None))
