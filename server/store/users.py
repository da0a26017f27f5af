"""Accounts and their sessions."""

from sqlalchemy import delete, select, update
from sqlalchemy.orm import Session

from .models import SessionRow, UserRow


def add_user(session: Session, user: UserRow) -> None:
    """Insert a user; TakenError when the name is taken."""
    session.add(user)
    session.flush()


def user_by_key(session: Session, name_key: str) -> UserRow | None:
    """The user whose name, without regard to case, is this."""
    return session.scalar(select(UserRow).where(UserRow.name_key == name_key))


def set_password_hash(session: Session, user_id: str, password_hash: str) -> None:
    """Replace a password's hash."""
    session.execute(update(UserRow).where(UserRow.id == user_id).values(password_hash=password_hash))


def add_session(session: Session, row: SessionRow) -> None:
    """Insert a session."""
    session.add(row)
    session.flush()


def session_by_hash(session: Session, token_hash: str) -> tuple[SessionRow, UserRow] | None:
    """A session and whose it is."""
    query = select(SessionRow, UserRow).join(UserRow, UserRow.id == SessionRow.user_id)
    found = session.execute(query.where(SessionRow.token_hash == token_hash)).first()
    return None if found is None else (found[0], found[1])


def touch_session(session: Session, token_hash: str, seen_at: str) -> None:
    """Note that a session was used."""
    session.execute(update(SessionRow).where(SessionRow.token_hash == token_hash).values(seen_at=seen_at))


def end_session(session: Session, token_hash: str) -> None:
    """Delete a session."""
    session.execute(delete(SessionRow).where(SessionRow.token_hash == token_hash))


def end_old_sessions(session: Session, *, created_before: str, seen_before: str) -> None:
    """Delete sessions that are past their time."""
    old = (SessionRow.created_at < created_before) | (SessionRow.seen_at < seen_before)
    session.execute(delete(SessionRow).where(old))
