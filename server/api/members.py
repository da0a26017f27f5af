"""Who shares a book."""

from http import HTTPStatus
from typing import Any

from flask import Response

from server.schemas.member import Members, NewMember
from server.services import members

from .bodies import Routes
from .door import here, now, user

routes = Routes("members", __name__, url_prefix="/api/books/<id:book>", description="Who shares a book")


@routes.serve("GET", "/members", gives=Members)
def list_members(book: str) -> dict[str, Any]:
    """Everybody who shares the book."""
    return {"members": members.list_members(book=book, user=user())}


@routes.serve("POST", "/members", takes=NewMember, gives=Members)
def give_role(wanted: dict[str, Any], book: str) -> dict[str, Any]:
    """Give a person a role in the book, or another one."""
    here().limit(f"members/{user().id}", here().settings.rates.members_per_user)
    return {"members": members.give_role(book=book, user=user(), now=now(), **wanted)}


@routes.serve("DELETE", "/members/<id:whom>", gives=None, status=HTTPStatus.NO_CONTENT)
def take_role(book: str, whom: str) -> Response:
    """Take a person's role away, or leave the book."""
    members.take_role(book=book, user=user(), whom=whom, now=now())
    return Response(status=HTTPStatus.NO_CONTENT)
