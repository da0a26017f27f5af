"""Brings a database to the tables of this version; two servers that start together take turns."""

from pathlib import Path
from uuid import uuid4

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, Engine, insert, select, text

from .models import installation

GENERATION = "generation"
_LOCK = 7_235_019  # any number, as long as it is always this one


def upgrade(engine: Engine, revision: str = "head") -> None:
    """Run the migrations that are missing, all or none."""
    with engine.begin() as connection:
        if engine.dialect.name == "postgresql":
            connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": _LOCK})
        command.upgrade(config(connection), revision)
        known = connection.scalar(select(installation.c.value).where(installation.c.name == GENERATION))
        if known is None:
            connection.execute(insert(installation).values(name=GENERATION, value=str(uuid4())))


def config(connection: Connection) -> Config:
    """Alembic's configuration for an open connection."""
    settings = Config()
    settings.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    settings.attributes["connection"] = connection
    return settings
