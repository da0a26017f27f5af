"""Books, their counters and their members."""

from collections.abc import Collection
from dataclasses import dataclass

from sqlalchemy import Connection, bindparam, func, insert, select, update

from server.sync.mutation import Role

from .models import book as books
from .models import installation
from .models import member as members_
from .models import user as users


@dataclass(frozen=True, slots=True)
class Standing:
    """What a user is to a book: `seq` is None when there is no such book, `role` when he may not see it."""

    seq: int | None
    role: Role | None
    former: bool


@dataclass(frozen=True, slots=True)
class Shared:
    """A book of a user, with his role and its counter."""

    book: str
    role: Role
    seq: int


@dataclass(frozen=True, slots=True)
class MemberOf:
    """A person's role in a book."""

    user: str
    name: str
    role: Role


# Asked in every sync: built once, for building costs as much as running.
_GENERATION = select(installation.c.value).where(installation.c.name == "generation")
_STANDING = (
    select(books.c.seq, members_.c.role, members_.c.left_at)
    .outerjoin(members_, (members_.c.book_id == books.c.id) & (members_.c.user_id == bindparam("user")))
    .where(books.c.id == bindparam("book"))
)
_LOCKED = _STANDING.with_for_update(of=books)
_COUNTER = select(books.c.seq).where(books.c.id == bindparam("book"))
_ADVANCE = (
    update(books)
    .where(books.c.id == bindparam("book"), books.c.seq == bindparam("seen"))
    .values(seq=books.c.seq + bindparam("by"))
    .returning(books.c.seq)
)
_SHARED = (
    select(books.c.id, members_.c.role, books.c.seq)
    .join(members_, members_.c.book_id == books.c.id)
    .where(members_.c.user_id == bindparam("user"), members_.c.left_at.is_(None))
    .order_by(books.c.id)
)


def generation(connection: Connection) -> str:
    """The id of this database's history; a restore gives it another."""
    return str(connection.execute(_GENERATION).scalar_one())


def standing(connection: Connection, *, book: str, user: str, lock: bool = False) -> Standing:
    """What a user is to a book; `lock` keeps others from its counter until the transaction ends."""
    found = connection.execute(_LOCKED if lock else _STANDING, {"book": book, "user": user}).first()
    if found is None:
        return Standing(None, None, False)
    seq, role, left_at = found
    return Standing(seq, role if left_at is None else None, left_at is not None)


def counter(connection: Connection, book: str) -> int | None:
    """A book's counter as it stands now, None when there is no such book."""
    return connection.scalar(_COUNTER, {"book": book})


def add_book(connection: Connection, *, book: str, owner: str, at: str) -> None:
    """A new book with its owner; TakenError when there is one of this id."""
    connection.execute(insert(books), {"id": book, "seq": 0, "created_at": at})
    put_member(connection, book=book, user=owner, role="owner", at=at)


def advance(connection: Connection, *, book: str, seen: int, by: int) -> int | None:
    """Count up if nobody else has since `seen`: the new number, or None.

    The row stays locked to the end of the transaction, so it is asked last: whoever reads a number can also read
    everything that was numbered before it.
    """
    reached: int | None = connection.scalar(_ADVANCE, {"book": book, "seen": seen, "by": by})
    return reached


def books_of(connection: Connection, user: str) -> list[Shared]:
    """All books that a user may see, in the order of their ids."""
    return [Shared(*row) for row in connection.execute(_SHARED, {"user": user})]


def left_books(connection: Connection, *, user: str, among: Collection[str]) -> list[str]:
    """Those of some books that a user could see once and cannot now."""
    query = select(members_.c.book_id).where(
        members_.c.user_id == user, members_.c.left_at.is_not(None), members_.c.book_id.in_(among)
    )
    return sorted(connection.scalars(query)) if among else []


def members(connection: Connection, book: str) -> list[MemberOf]:
    """Who shares a book, owners first, then by name."""
    query = (
        select(members_.c.user_id, users.c.name, members_.c.role)
        .join(users, users.c.id == members_.c.user_id)
        .where(members_.c.book_id == book, members_.c.left_at.is_(None))
        .order_by(members_.c.role != "owner", users.c.name_key)
    )
    return [MemberOf(*row) for row in connection.execute(query)]


def put_member(connection: Connection, *, book: str, user: str, role: Role, at: str) -> None:
    """Give a user a role, also to one who had left."""
    place = {"book_id": book, "user_id": user}
    said = {"role": role, "since": at, "left_at": None}
    where = (members_.c.book_id == book, members_.c.user_id == user)
    if connection.execute(update(members_).where(*where).values(**said)).rowcount == 0:
        connection.execute(insert(members_), {**place, **said})


def take_member(connection: Connection, *, book: str, user: str, at: str) -> None:
    """Take a user's role away; the row stays, so that his devices are told."""
    where = (members_.c.book_id == book, members_.c.user_id == user)
    connection.execute(update(members_).where(*where).values(left_at=at))


def owners(connection: Connection, book: str) -> int:
    """How many owners a book has."""
    where = (members_.c.book_id == book, members_.c.role == "owner", members_.c.left_at.is_(None))
    return connection.scalar(select(func.count()).select_from(members_).where(*where)) or 0


def count_up(connection: Connection, book: str) -> None:
    """Let a book's counter tell that its members have changed; holds the book until the transaction ends."""
    connection.execute(update(books).where(books.c.id == book).values(seq=books.c.seq + 1))
