"""A database of an older version becomes one of this version, and keeps what is in it."""

from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import create_engine, inspect, text

from server.extensions import Base
from server.store.migrate import upgrade


def test_a_database_from_before_last_heard_gets_its_table(database: str) -> None:
    engine = create_engine(database)
    upgrade(engine, "0001")
    assert "heard" not in inspect(engine).get_table_names()
    with engine.begin() as connection:
        connection.execute(text("INSERT INTO book (id, seq, created_at) VALUES ('b', 7, 'then')"))
    upgrade(engine)
    with engine.connect() as connection:
        assert connection.scalar(text("SELECT seq FROM book WHERE id = 'b'")) == 7
        assert connection.scalar(text("SELECT count(*) FROM heard")) == 0
        context = MigrationContext.configure(connection, opts={"compare_type": False})
        assert compare_metadata(context, Base.metadata) == []
    engine.dispose()
