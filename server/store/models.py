"""The tables. Each table of a book's content has a key that begins with the book's id.

Instants are text of one fixed form (UTC, milliseconds), so that both databases order and return them alike. A body
is JSON text, exactly as it will travel. Queries use the tables below the classes: a mapped object for each row would
cost more than reading it.
"""

from typing import Any, cast

from sqlalchemy import BigInteger as Big
from sqlalchemy import ForeignKey, Integer, String, Table, Text, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from server.extensions import Base
from server.sync.mutation import Role

Uuid = String(36)
Stamp = String(24)
Said = String(32)  # an instant as a device wrote it, up to microseconds
# one tree less to write for each row, in a table that is only read by its key
_BY_KEY: tuple[Any, ...] = ({"sqlite_with_rowid": False},)


class Installation(Base):
    """Facts about this database, such as its generation."""

    __tablename__ = "installation"

    name: Mapped[str] = mapped_column(String(40), primary_key=True)
    value: Mapped[str] = mapped_column(Text)


class User(Base):
    """A person with a sign-in name; `name_key` is the name without regard to case."""

    __tablename__ = "user"

    id: Mapped[str] = mapped_column(Uuid, primary_key=True)
    name: Mapped[str] = mapped_column(Text)
    name_key: Mapped[str] = mapped_column(Text, unique=True)
    password_hash: Mapped[str] = mapped_column(Text)
    created_at: Mapped[str] = mapped_column(Stamp)


class Session(Base):
    """A signed-in browser; the token itself is nowhere stored."""

    __tablename__ = "session"

    token_hash: Mapped[str] = mapped_column(String(64), primary_key=True)
    user_id: Mapped[str] = mapped_column(Uuid, ForeignKey("user.id", ondelete="CASCADE"), index=True)
    created_at: Mapped[str] = mapped_column(Stamp)
    seen_at: Mapped[str] = mapped_column(Stamp)
    agent: Mapped[str] = mapped_column(String(200))


class Book(Base):
    """A book and its counter: the number of its last version, or of its last change of members."""

    __tablename__ = "book"

    id: Mapped[str] = mapped_column(Uuid, primary_key=True)
    seq: Mapped[int] = mapped_column(Big)
    created_at: Mapped[str] = mapped_column(Stamp)


class Member(Base):
    """A person's role in a book; `left_at` marks who once had one."""

    __tablename__ = "member"

    book_id: Mapped[str] = mapped_column(Uuid, ForeignKey("book.id", ondelete="CASCADE"), primary_key=True)
    user_id: Mapped[str] = mapped_column(
        Uuid, ForeignKey("user.id", ondelete="CASCADE"), primary_key=True, index=True
    )
    role: Mapped[Role] = mapped_column(String(12))
    since: Mapped[str] = mapped_column(Stamp)
    left_at: Mapped[str | None] = mapped_column(Stamp)


class Version(Base):
    """The change log: every mutation that was kept, with the whole record after it."""

    __tablename__ = "version"
    __table_args__ = (UniqueConstraint("book_id", "rev", name="version_rev"), *_BY_KEY)

    book_id: Mapped[str] = mapped_column(Uuid, ForeignKey("book.id", ondelete="CASCADE"), primary_key=True)
    seq: Mapped[int] = mapped_column(Big, primary_key=True, autoincrement=False)
    rev: Mapped[str] = mapped_column(Uuid)
    kind: Mapped[str] = mapped_column(String(16))
    record_id: Mapped[str] = mapped_column(Uuid)
    base_rev: Mapped[str | None] = mapped_column(Uuid)
    standing: Mapped[str] = mapped_column(String(12))
    body: Mapped[str] = mapped_column(Text)
    author_id: Mapped[str] = mapped_column(Uuid)
    device: Mapped[str] = mapped_column(Uuid)
    device_seq: Mapped[int] = mapped_column(Big)
    made_at: Mapped[str] = mapped_column(Said)
    utc_offset_min: Mapped[int] = mapped_column(Integer)
    received_at: Mapped[str] = mapped_column(Stamp)


class Record(Base):
    """Which version of a record is the current one."""

    __tablename__ = "record"
    __table_args__ = _BY_KEY

    book_id: Mapped[str] = mapped_column(Uuid, ForeignKey("book.id", ondelete="CASCADE"), primary_key=True)
    id: Mapped[str] = mapped_column(Uuid, primary_key=True)
    kind: Mapped[str] = mapped_column(String(16))
    seq: Mapped[int] = mapped_column(Big)


class Heard(Base):
    """When a member's device last asked for news of a book; `unsent` is what it then still held, None if untold."""

    __tablename__ = "heard"
    __table_args__ = _BY_KEY

    book_id: Mapped[str] = mapped_column(Uuid, ForeignKey("book.id", ondelete="CASCADE"), primary_key=True)
    user_id: Mapped[str] = mapped_column(Uuid, ForeignKey("user.id", ondelete="CASCADE"), primary_key=True)
    device: Mapped[str] = mapped_column(Uuid, primary_key=True)
    at: Mapped[str] = mapped_column(Stamp)
    unsent: Mapped[int | None] = mapped_column(Integer)


installation, user, session, book, member, version, record, heard = (
    cast(Table, model.__table__)
    for model in (Installation, User, Session, Book, Member, Version, Record, Heard)
)
