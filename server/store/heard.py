"""When each device of a book's members was last heard, and what it then still held."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from sqlalchemy import Connection, bindparam, delete, insert, or_, select, update

from .models import heard
from .models import member as members

DEVICES_AT_MOST = 20  # of one member in one book (assumed); the longest silent is forgotten first


@dataclass(frozen=True, slots=True)
class HeardOf:
    """One device: `at` as a stamp, `unsent` as it told, None if it did not."""

    book: str
    user: str
    device: str
    at: str
    unsent: int | None


_theirs = members.alias("theirs")
_OWN = (
    select(members.c.book_id, heard.c.at, heard.c.unsent)
    .outerjoin(
        heard,
        (heard.c.book_id == members.c.book_id)
        & (heard.c.user_id == members.c.user_id)
        & (heard.c.device == bindparam("device")),
    )
    .where(members.c.user_id == bindparam("user"), members.c.left_at.is_(None))
)
_OTHERS = (
    select(heard.c.book_id, heard.c.user_id, heard.c.device, heard.c.at, heard.c.unsent)
    .join(members, members.c.book_id == heard.c.book_id)
    .join(_theirs, (_theirs.c.book_id == heard.c.book_id) & (_theirs.c.user_id == heard.c.user_id))
    .where(
        members.c.user_id == bindparam("user"),
        members.c.left_at.is_(None),
        _theirs.c.left_at.is_(None),
        or_(heard.c.user_id != bindparam("user"), heard.c.device != bindparam("device")),
    )
    .order_by(heard.c.book_id, heard.c.user_id, heard.c.device)
)


def own(connection: Connection, *, user: str, device: str) -> dict[str, tuple[str, int | None] | None]:
    """Every book that the user may see -> instant and `unsent` of this device of his, None if never heard."""
    rows = connection.execute(_OWN, {"user": user, "device": device})
    return {book: None if at is None else (at, unsent) for book, at, unsent in rows}


def put(connection: Connection, *, user: str, device: str, at: str, unsent: Mapping[str, int | None]) -> None:
    """Book -> what the device still holds of it, at an instant."""
    for book, count in unsent.items():
        mine = (heard.c.book_id == book, heard.c.user_id == user)
        said = {"at": at, "unsent": count}
        if connection.execute(update(heard).where(*mine, heard.c.device == device).values(**said)).rowcount:
            continue
        known = select(heard.c.device).where(*mine).order_by(heard.c.at.desc())
        forgotten = list(connection.scalars(known))[DEVICES_AT_MOST - 1 :]
        if forgotten:
            connection.execute(delete(heard).where(*mine, heard.c.device.in_(forgotten)))
        connection.execute(insert(heard), {"book_id": book, "user_id": user, "device": device, **said})


def others(
    connection: Connection, *, user: str, device: str, since: str, known: Collection[str]
) -> list[HeardOf]:
    """Other devices of the user's books: all of them, but of `known` books only those heard since."""
    told = (HeardOf(*row) for row in connection.execute(_OTHERS, {"user": user, "device": device}))
    return [one for one in told if one.book not in known or one.at >= since]
