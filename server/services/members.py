"""Who shares a book: owners give and take roles, and a book always keeps one."""

from datetime import datetime

from server.store import books, users
from server.store.books import MemberOf
from server.store.engine import Connection, reading, writing
from server.sync.mutation import Role
from server.sync.roles import may_share

from .accounts import Account, name_key, normal_name
from .clock import stamp
from .errors import ClashError, ForbiddenError, InvalidError, NotThereError


def role_in(connection: Connection, *, book: str, user: Account, lock: bool = False) -> Role:
    """The user's role; a book that he may not see is answered like one that is not there."""
    role = books.standing(connection, book=book, user=user.id, lock=lock).role
    if role is None:
        raise NotThereError("no_such_book", "There is no such book.")
    return role


def list_members(*, book: str, user: Account) -> list[MemberOf]:
    """Everybody who shares a book with the user."""
    with reading() as connection:
        role_in(connection, book=book, user=user)
        return books.members(connection, book)


def give_role(*, book: str, user: Account, name: str, role: Role, now: datetime) -> list[MemberOf]:
    """Let a person share a book, or change his role; acts on that person's next request."""
    with writing() as connection:
        _must_share(role_in(connection, book=book, user=user, lock=True))
        whom = users.user_by_key(connection, name_key(normal_name(name)))
        if whom is None:
            raise InvalidError(
                "invalid", "Nobody has this name.", {"name": ["Nobody signs in with this name."]}
            )
        held = books.standing(connection, book=book, user=whom.id).role
        if held == "owner" and role != "owner":
            _must_leave_an_owner(connection, book)
        if held != role:
            books.put_member(connection, book=book, user=whom.id, role=role, at=stamp(now))
            books.count_up(connection, book)
        return books.members(connection, book)


def take_role(*, book: str, user: Account, whom: str, now: datetime) -> None:
    """Let a person share a book no longer; anybody may leave by himself."""
    with writing() as connection:
        role = role_in(connection, book=book, user=user, lock=True)
        if whom != user.id:
            _must_share(role)
        held = books.standing(connection, book=book, user=whom).role
        if held is None:
            raise NotThereError("no_such_member", "This person does not share the book.")
        if held == "owner":
            _must_leave_an_owner(connection, book)
        books.take_member(connection, book=book, user=whom, at=stamp(now))
        books.count_up(connection, book)


def _must_share(role: Role) -> None:
    if not may_share(role=role):
        raise ForbiddenError("owners_only", "Only an owner gives and takes roles.")


def _must_leave_an_owner(connection: Connection, book: str) -> None:
    if books.owners(connection, book) < 2:
        raise ClashError("last_owner", "A book keeps an owner: make somebody else one first.")
