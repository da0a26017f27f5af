"""Alembic's folder: one step a file, run by `migrate.upgrade` on a connection that it is given."""
