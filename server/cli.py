"""The command `tareway`: serve, migrate, contract."""

import argparse
import logging
import os
import sys
from collections.abc import Sequence

# before numpy is loaded: with other processes beside it, BLAS threads cost more than they bring
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from waitress import create_server

from server.api.contract import text
from server.app import create_app
from server.config import LOOPBACK, SettingError, Settings, port

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


def serve(settings: Settings, *, host: str, port: int) -> int:
    """Serve until interrupted, and say where."""
    if host not in LOOPBACK and settings.hosts == LOOPBACK:
        raise SettingError(
            "Name the host names that this server answers to in TAREWAY_HOSTS, with commas between."
        )
    # its note on each waiting request can fill a pipe that nobody reads, and then it stands still
    logging.getLogger("waitress.queue").setLevel(logging.ERROR)
    server = create_server(create_app(settings), host=host, port=port, threads=THREADS, ident=None)
    print(f"Tareway serves http://{host}:{server.effective_port}", flush=True)
    try:
        server.run()
    except KeyboardInterrupt:
        pass
    finally:
        server.close()
    return 0


def _serve(asked: argparse.Namespace) -> int:
    return serve(Settings.from_environment(), host=asked.host, port=asked.port)


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
    one = commands.add_parser("serve", help="serve the application")
    one.add_argument("--host", default="127.0.0.1", help="address to listen at")
    one.add_argument(
        "--port", type=int, default=port(), help="0 takes a free one; TAREWAY_PORT sets the default"
    )
    one.set_defaults(run=_serve)
    one = commands.add_parser("migrate", help="bring the database to the tables of this version")
    one.set_defaults(run=_migrate)
    one = commands.add_parser("contract", help="write the OpenAPI document")
    one.set_defaults(run=_contract)
    return parser


if __name__ == "__main__":
    sys.exit(main())
