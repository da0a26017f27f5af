"""Transactions: a writing one holds SQLite's write lock from its start, a reading one never waits for it."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, Engine, event
from sqlalchemy.exc import DBAPIError, IntegrityError

from server.extensions import db

__all__ = ["Connection", "DatabaseError", "TakenError", "engine_options", "prepare", "reading", "writing"]

BUSY_TIMEOUT_S = 5
DatabaseError = DBAPIError  # busy, gone, or a key that somebody else wrote
TakenError = IntegrityError  # somebody else wrote the same key meanwhile


def engine_options(url: str) -> dict[str, Any]:
    """What the engine of this address needs."""
    if url.startswith("sqlite"):
        return {"connect_args": {"timeout": BUSY_TIMEOUT_S}}
    return {"pool_pre_ping": True}


def prepare(engine: Engine) -> None:
    """Set up the connections of an engine that has none yet."""
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", _configure_sqlite)
        event.listen(engine, "begin", _begin_sqlite)


@contextmanager
def writing() -> Iterator[Connection]:
    """A transaction that commits when the block ends well."""
    with db.engine.begin() as connection:
        yield connection


@contextmanager
def reading() -> Iterator[Connection]:
    """A transaction that only reads."""
    with db.engine.connect() as connection:
        yield connection.execution_options(read_only=True)


def _configure_sqlite(connection: Any, _: Any) -> None:
    connection.isolation_level = None  # the driver would begin transactions too late, and deferred
    cursor = connection.cursor()
    # FULL: an acknowledgement survives a power cut. WAL: readers do not wait for the writer.
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON"):
        cursor.execute(f"PRAGMA {pragma}")
    cursor.close()


def _begin_sqlite(connection: Connection) -> None:
    # A deferred transaction that reads and then writes fails at once when another has written in between.
    read_only = connection.get_execution_options().get("read_only", False)
    connection.exec_driver_sql("BEGIN" if read_only else "BEGIN IMMEDIATE")
