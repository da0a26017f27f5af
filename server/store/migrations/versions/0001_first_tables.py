"""Books, their members and versions; accounts"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:

    op.create_table(
        "book",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("seq", sa.BigInteger(), nullable=False),
        sa.Column("created_at", sa.String(length=24), nullable=False),
        sa.PrimaryKeyConstraint("id"),
    )
    op.create_table(
        "installation",
        sa.Column("name", sa.String(length=40), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("name"),
    )
    op.create_table(
        "user",
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.String(length=60), nullable=False),
        sa.Column("name_key", sa.String(length=240), nullable=False),
        sa.Column("password_hash", sa.Text(), nullable=False),
        sa.Column("created_at", sa.String(length=24), nullable=False),
        sa.PrimaryKeyConstraint("id"),
        sa.UniqueConstraint("name_key"),
    )
    op.create_table(
        "member",
        sa.Column("book_id", sa.String(length=36), nullable=False),
        sa.Column("user_id", sa.String(length=36), nullable=False),
        sa.Column("role", sa.String(length=12), nullable=False),
        sa.Column("since", sa.String(length=24), nullable=False),
        sa.Column("left_at", sa.String(length=24), nullable=True),
        sa.ForeignKeyConstraint(["book_id"], ["book.id"], ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["user_id"], ["user.id"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("book_id", "user_id"),
    )
    op.create_index(op.f("ix_member_user_id"), "member", ["user_id"], unique=False)
    op.create_table(
        "record",
        sa.Column("book_id", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=16), nullable=False),
        sa.Column("seq", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["book_id"], ["book.id"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("book_id", "id"),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "session",
        sa.Column("token_hash", sa.String(length=64), nullable=False),
        sa.Column("user_id", sa.String(length=36), nullable=False),
        sa.Column("created_at", sa.String(length=24), nullable=False),
        sa.Column("seen_at", sa.String(length=24), nullable=False),
        sa.Column("agent", sa.String(length=200), nullable=False),
        sa.ForeignKeyConstraint(["user_id"], ["user.id"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("token_hash"),
    )
    op.create_index(op.f("ix_session_user_id"), "session", ["user_id"], unique=False)
    op.create_table(
        "version",
        sa.Column("book_id", sa.String(length=36), nullable=False),
        sa.Column("seq", sa.BigInteger(), autoincrement=False, nullable=False),
        sa.Column("rev", sa.String(length=36), nullable=False),
        sa.Column("kind", sa.String(length=16), nullable=False),
        sa.Column("record_id", sa.String(length=36), nullable=False),
        sa.Column("base_rev", sa.String(length=36), nullable=True),
        sa.Column("standing", sa.String(length=12), nullable=False),
        sa.Column("body", sa.Text(), nullable=False),
        sa.Column("author_id", sa.String(length=36), nullable=False),
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("device_seq", sa.BigInteger(), nullable=False),
        sa.Column("made_at", sa.String(length=32), nullable=False),
        sa.Column("utc_offset_min", sa.Integer(), nullable=False),
        sa.Column("received_at", sa.String(length=24), nullable=False),
        sa.ForeignKeyConstraint(["book_id"], ["book.id"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("book_id", "seq"),
        sa.UniqueConstraint("book_id", "rev", name="version_rev"),
        sqlite_with_rowid=False,
    )
