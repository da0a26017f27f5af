"""Accounts and their sessions."""

from dataclasses import asdict, dataclass

from sqlalchemy import Connection, bindparam, delete, insert, select, update

from .models import session as sessions
from .models import user as users


@dataclass(frozen=True, slots=True)
class User:
    """An account; `name_key` is its name without regard to case."""

    id: str
    name: str
    name_key: str
    password_hash: str
    created_at: str


@dataclass(frozen=True, slots=True)
class Session:
    """A signed-in browser, known by the hash of its token."""

    token_hash: str
    user_id: str
    created_at: str
    seen_at: str
    agent: str


@dataclass(frozen=True, slots=True)
class Found:
    """A session's times, and whose it is."""

    created_at: str
    seen_at: str
    user_id: str
    name: str


_WHOSE = (
    select(sessions.c.created_at, sessions.c.seen_at, users.c.id, users.c.name)
    .join(users, users.c.id == sessions.c.user_id)
    .where(sessions.c.token_hash == bindparam("token_hash"))
)


def add_user(connection: Connection, user: User) -> None:
    """Insert a user; TakenError when the name is taken."""
    connection.execute(insert(users), asdict(user))


def user_by_key(connection: Connection, name_key: str) -> User | None:
    """The user whose name, without regard to case, is this."""
    columns = (users.c.id, users.c.name, users.c.name_key, users.c.password_hash, users.c.created_at)
    row = connection.execute(select(*columns).where(users.c.name_key == name_key)).first()
    return None if row is None else User(*row)


def set_password_hash(connection: Connection, user_id: str, password_hash: str) -> None:
    """Replace a password's hash."""
    connection.execute(update(users).where(users.c.id == user_id).values(password_hash=password_hash))


def add_session(connection: Connection, session: Session) -> None:
    """Insert a session."""
    connection.execute(insert(sessions), asdict(session))


def session_by_hash(connection: Connection, token_hash: str) -> Found | None:
    """A session and whose it is."""
    row = connection.execute(_WHOSE, {"token_hash": token_hash}).first()
    return None if row is None else Found(*row)


def touch_session(connection: Connection, token_hash: str, seen_at: str) -> None:
    """Note that a session was used."""
    connection.execute(update(sessions).where(sessions.c.token_hash == token_hash).values(seen_at=seen_at))


def end_session(connection: Connection, token_hash: str) -> None:
    """Delete a session."""
    connection.execute(delete(sessions).where(sessions.c.token_hash == token_hash))


def end_old_sessions(connection: Connection, *, created_before: str, seen_before: str) -> None:
    """Delete sessions that are past their time."""
    old = (sessions.c.created_at < created_before) | (sessions.c.seen_at < seen_before)
    connection.execute(delete(sessions).where(old))
