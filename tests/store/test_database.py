"""The database as the application leaves it."""

import pytest
from flask import Flask
from sqlalchemy import inspect, text

from server.extensions import db
from server.store.migrate import upgrade

OF_A_BOOK = {"member", "version", "record", "heard"}


def test_tables_of_a_book_begin_their_key_with_it(app: Flask) -> None:
    with app.app_context():
        found = inspect(db.engine)
        keys = {
            name: found.get_pk_constraint(name)["constrained_columns"] for name in found.get_table_names()
        }
    there = OF_A_BOOK & set(keys)
    assert there
    assert all(keys[name][0].startswith("book") for name in there), keys


def test_a_second_upgrade_changes_nothing(app: Flask) -> None:
    with app.app_context():
        before = sorted(inspect(db.engine).get_table_names())
        upgrade(db.engine)
        assert sorted(inspect(db.engine).get_table_names()) == before


def test_sqlite_keeps_what_it_acknowledged(app: Flask) -> None:
    with app.app_context(), db.engine.connect() as connection:
        if connection.dialect.name != "sqlite":
            assert connection.execute(text("SHOW synchronous_commit")).scalar() == "on"
            return
        assert connection.execute(text("PRAGMA journal_mode")).scalar() == "wal"
        assert connection.execute(text("PRAGMA synchronous")).scalar() == 2
        assert connection.execute(text("PRAGMA foreign_keys")).scalar() == 1


@pytest.mark.parametrize("table", ["user", "session"])
def test_no_secret_is_kept_plain(app: Flask, table: str) -> None:
    with app.app_context():
        found = inspect(db.engine)
        name = next(one for one in found.get_table_names() if table in one)
        columns = {one["name"] for one in found.get_columns(name)}
    assert not columns & {"password", "token"}
