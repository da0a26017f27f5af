"""The command `tareway`: serve, demo, migrate, contract."""

import argparse
import logging
import os
import sys
from collections.abc import Sequence
from datetime import UTC, datetime

# before numpy is loaded: with other processes beside it, BLAS threads cost more than they bring
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from flask import Flask
from waitress import create_server

from server.api.contract import text
from server.app import create_app
from server.config import LOOPBACK, SettingError, Settings, data_folder, port, sqlite_url
from server.demo.folder import forget, made
from server.demo.people import CAUTION, USERS
from server.demo.write import fill

THREADS = 8


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; the exit status."""
    try:
        asked = _parser().parse_args(argv)
        status: int = asked.run(asked)
        return status
    except SettingError as error:
        print(error, file=sys.stderr)
        return 2
    except OSError as error:
        print(f"Cannot start: {error}.", file=sys.stderr)
        return 1


def serve(
    settings: Settings, *, host: str, port: int, application: Flask | None = None, told: str = ""
) -> int:
    """Serve until interrupted, and say where."""
    if host not in LOOPBACK and settings.hosts == LOOPBACK:
        raise SettingError(
            "Name the host names that this server answers to in TAREWAY_HOSTS, with commas between."
        )
    # its note on each waiting request can fill a pipe that nobody reads, and then it stands still
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)
    app = application or create_app(settings)
    server = create_server(app, host=host, port=port, threads=THREADS, ident=None)
    print(f"Tareway serves http://{host}:{server.effective_port}{told}", flush=True)
    try:
        server.run()
    except KeyboardInterrupt:
        pass
    finally:
        server.close()
    return 0


def _serve(asked: argparse.Namespace) -> int:
    return serve(Settings.from_environment(), host=asked.host, port=asked.port)


def _demo(asked: argparse.Namespace) -> int:
    folder = data_folder(os.environ) / "demo"
    if asked.fresh:
        forget(folder)
    settings = Settings(data=folder, database_url=sqlite_url(folder))
    app = create_app(settings)
    now = datetime.now(UTC)
    with app.app_context():
        fill(folder, now)
    names = "".join(f"\n  {one.name:10} {one.password:24} {one.role}" for one in USERS)
    dated = f"It is dated back from {made(folder, now.date()).today}; --fresh begins again from today."
    told = f"\n\nSign in as (name, password):{names}\n\n{CAUTION}\n{dated}"
    return serve(settings, host=asked.host, port=asked.port, application=app, told=told)


def _migrate(_: argparse.Namespace) -> int:
    settings = Settings.from_environment()
    create_app(settings)
    print(f"The database in {settings.data} has the tables of this version.")
    return 0


def _contract(_: argparse.Namespace) -> int:
    print(text())
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="tareway", description=__doc__)
    commands = parser.add_subparsers(required=True)
    one = _where(commands.add_parser("serve", help="serve the application"))
    one.set_defaults(run=_serve)
    one = _where(commands.add_parser("demo", help="serve an invented scenario, kept apart from real data"))
    one.add_argument("--fresh", action="store_true", help="begin again, dated back from today")
    one.set_defaults(run=_demo)
    one = commands.add_parser("migrate", help="bring the database to the tables of this version")
    one.set_defaults(run=_migrate)
    one = commands.add_parser("contract", help="write the OpenAPI document")
    one.set_defaults(run=_contract)
    return parser


def _where(parser: argparse.ArgumentParser) -> argparse.ArgumentParser:
    parser.add_argument("--host", default="127.0.0.1", help="address to listen at")
    parser.add_argument(
        "--port", type=int, default=port(), help="0 takes a free one; TAREWAY_PORT sets the default"
    )
    return parser


if __name__ == "__main__":
    sys.exit(main())
