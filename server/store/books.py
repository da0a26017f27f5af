"""Books, their counters and their members."""

from collections.abc import Collection
from dataclasses import dataclass

from sqlalchemy import func, insert, select, update
from sqlalchemy.orm import Session

from server.sync.mutation import Role

from .models import BookRow, Installation, MemberRow, UserRow


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


def generation(session: Session) -> str:
    """The id of this database's history; a restore gives it another."""
    return session.execute(select(Installation.value).where(Installation.name == "generation")).scalar_one()


def standing(session: Session, *, book: str, user: str, lock: bool = False) -> Standing:
    """What a user is to a book; `lock` keeps others from its counter until the transaction ends."""
    query = (
        select(BookRow.seq, MemberRow.role, MemberRow.left_at)
        .outerjoin(MemberRow, (MemberRow.book_id == BookRow.id) & (MemberRow.user_id == user))
        .where(BookRow.id == book)
    )
    found = session.execute(query.with_for_update(of=BookRow) if lock else query).first()
    if found is None:
        return Standing(None, None, False)
    seq, role, left_at = found
    return Standing(seq, role if left_at is None else None, left_at is not None)


def counter(session: Session, book: str) -> int | None:
    """A book's counter as it stands now, None when there is no such book."""
    return session.scalar(select(BookRow.seq).where(BookRow.id == book))


def add_book(session: Session, *, book: str, owner: str, at: str) -> None:
    """A new book with its owner; TakenError when there is one of this id."""
    session.execute(insert(BookRow).values(id=book, seq=0, created_at=at))
    put_member(session, book=book, user=owner, role="owner", at=at)


def advance(session: Session, *, book: str, seen: int, by: int) -> int | None:
    """Count up if nobody else has since `seen`: the new number, or None.

    The row stays locked to the end of the transaction, so it is asked last: whoever reads a number can also read
    everything that was numbered before it.
    """
    stand = update(BookRow).where(BookRow.id == book, BookRow.seq == seen).values(seq=BookRow.seq + by)
    return session.scalar(stand.returning(BookRow.seq))


def books_of(session: Session, user: str) -> list[Shared]:
    """All books that a user may see, in the order of their ids."""
    query = (
        select(BookRow.id, MemberRow.role, BookRow.seq)
        .join(MemberRow, MemberRow.book_id == BookRow.id)
        .where(MemberRow.user_id == user, MemberRow.left_at.is_(None))
        .order_by(BookRow.id)
    )
    return [Shared(*row) for row in session.execute(query)]


def left_books(session: Session, *, user: str, among: Collection[str]) -> list[str]:
    """Those of some books that a user could see once and cannot now."""
    query = select(MemberRow.book_id).where(
        MemberRow.user_id == user, MemberRow.left_at.is_not(None), MemberRow.book_id.in_(among)
    )
    return sorted(session.scalars(query)) if among else []


def members(session: Session, book: str) -> list[MemberOf]:
    """Who shares a book, owners first, then by name."""
    query = (
        select(MemberRow.user_id, UserRow.name, MemberRow.role)
        .join(UserRow, UserRow.id == MemberRow.user_id)
        .where(MemberRow.book_id == book, MemberRow.left_at.is_(None))
        .order_by(MemberRow.role != "owner", UserRow.name_key)
    )
    return [MemberOf(*row) for row in session.execute(query)]


def put_member(session: Session, *, book: str, user: str, role: Role, at: str) -> None:
    """Give a user a role, also to one who had left."""
    row = session.get(MemberRow, (book, user))
    if row is None:
        session.add(MemberRow(book_id=book, user_id=user, role=role, since=at, left_at=None))
    else:
        row.role, row.since, row.left_at = role, at, None
    session.flush()


def take_member(session: Session, *, book: str, user: str, at: str) -> None:
    """Take a user's role away; the row stays, so that his devices are told."""
    where = (MemberRow.book_id == book, MemberRow.user_id == user)
    session.execute(update(MemberRow).where(*where).values(left_at=at))


def owners(session: Session, book: str) -> int:
    """How many owners a book has."""
    where = (MemberRow.book_id == book, MemberRow.role == "owner", MemberRow.left_at.is_(None))
    return session.scalar(select(func.count()).where(*where)) or 0


def count_up(session: Session, book: str) -> None:
    """Let a book's counter tell that its members have changed; holds the book until the transaction ends."""
    session.execute(update(BookRow).where(BookRow.id == book).values(seq=BookRow.seq + 1))
