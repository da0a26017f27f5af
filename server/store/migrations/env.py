"""Runs the steps on the connection of `migrate.upgrade`, within its transaction."""

from alembic import context

from server.extensions import Base

context.configure(connection=context.config.attributes["connection"], target_metadata=Base.metadata)
context.run_migrations()
