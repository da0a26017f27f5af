"""Accounts and sessions: sign up, sign in, who is it, sign out."""

import secrets
import unicodedata
from dataclasses import dataclass
from datetime import datetime, timedelta
from hashlib import sha256
from uuid import uuid4

from server.store import users
from server.store.engine import TakenError, reading, writing
from server.store.users import Session, User

from .clock import moment_of, stamp
from .errors import InvalidError, SignInError
from .passwords import Passwords, encodable

LONGEST_NAME = 60
_NOTE_USE_AFTER = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Account:
    """A person with a sign-in name."""

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class Lifetime:
    """How long a session lives unused, and at all. Long, for the app is used offline for weeks."""

    idle: timedelta
    total: timedelta


@dataclass(frozen=True, slots=True)
class SignedIn:
    """A session: its owner and its end; the token only when it has just been made."""

    user: Account
    ends_at: str
    token: str = ""


def normal_name(name: str) -> str:
    """A name as it is kept: NFC, blanks at the ends dropped and within it single."""
    return " ".join(unicodedata.normalize("NFC", name).split())


def name_key(name: str) -> str:
    """A name without regard to case and to how its letters are composed."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())


def sign_up(
    *, name: str, password: str, passwords: Passwords, lifetime: Lifetime, agent: str, now: datetime
) -> SignedIn:
    """A new account, signed in."""
    name = normal_name(name)
    errors = {"name": _name_errors(name), "password": []}
    wrong = passwords.complaint(password, name)
    errors["password"] += [wrong] if wrong else []
    if any(errors.values()):
        _refuse({field: said for field, said in errors.items() if said})
    user = User(
        id=str(uuid4()),
        name=name,
        name_key=name_key(name),
        password_hash=passwords.hash(password),
        created_at=stamp(now),
    )
    try:
        with writing() as connection:
            users.add_user(connection, user)
    except TakenError:
        _refuse({"name": ["This name is taken: choose another."]})
    return _begin(Account(user.id, user.name), lifetime, agent, now)


def sign_in(
    *, name: str, password: str, passwords: Passwords, lifetime: Lifetime, agent: str, now: datetime
) -> SignedIn:
    """A new session; one answer, and one duration, for a wrong password and for a name that nobody has."""
    with reading() as connection:
        user = users.user_by_key(connection, name_key(normal_name(name)))
    stored = user.password_hash if user else None
    if not passwords.verify(stored, password if encodable(password) else "") or user is None:
        raise SignInError("wrong_name_or_password", "The name and the password do not belong together.")
    if passwords.outdated(user.password_hash):
        renewed = passwords.hash(password)
        with writing() as connection:
            users.set_password_hash(connection, user.id, renewed)
    return _begin(Account(user.id, user.name), lifetime, agent, now)


def who(*, token: str, lifetime: Lifetime, now: datetime) -> SignedIn | None:
    """Whose session a token is, if it still lives."""
    hashed = _hash(token)
    with reading() as connection:
        found = users.session_by_hash(connection, hashed)
    if found is None:
        return None
    begun, seen = moment_of(found.created_at), moment_of(found.seen_at)
    if now >= min(begun + lifetime.total, seen + lifetime.idle):
        return None
    if now - seen > _NOTE_USE_AFTER:
        with writing() as connection:
            users.touch_session(connection, hashed, stamp(now))
    return SignedIn(Account(found.user_id, found.name), stamp(begun + lifetime.total))


def sign_out(token: str) -> None:
    """End a session at the server."""
    with writing() as connection:
        users.end_session(connection, _hash(token))


def _begin(user: Account, lifetime: Lifetime, agent: str, now: datetime) -> SignedIn:
    token = secrets.token_urlsafe(32)
    at = stamp(now)
    row = Session(token_hash=_hash(token), user_id=user.id, created_at=at, seen_at=at, agent=agent[:200])
    with writing() as connection:
        users.end_old_sessions(
            connection, created_before=stamp(now - lifetime.total), seen_before=stamp(now - lifetime.idle)
        )
        users.add_session(connection, row)
    return SignedIn(user, stamp(now + lifetime.total), token)


def _name_errors(name: str) -> list[str]:
    return [] if 1 <= len(name) <= LONGEST_NAME else [f"A name has 1 to {LONGEST_NAME} characters."]


def _hash(token: str) -> str:
    return sha256(token.encode("utf-8", "replace")).hexdigest()


def _refuse(fields: dict[str, list[str]]) -> None:
    raise InvalidError("invalid", "The account cannot be made like this.", fields)
