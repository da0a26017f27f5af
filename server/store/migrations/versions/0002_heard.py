"""When each device of a book's members was last heard"""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:

    op.create_table(
        "heard",
        sa.Column("book_id", sa.String(length=36), nullable=False),
        sa.Column("user_id", sa.String(length=36), nullable=False),
        sa.Column("device", sa.String(length=36), nullable=False),
        sa.Column("at", sa.String(length=24), nullable=False),
        sa.Column("unsent", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["book_id"], ["book.id"], ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["user_id"], ["user.id"], ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("book_id", "user_id", "device"),
        sqlite_with_rowid=False,
    )
