"""Sign in, who am I, sign out."""

from http import HTTPStatus
from typing import Any

from flask import Response, jsonify, request

from server.schemas.account import Credentials, Session
from server.services import accounts
from server.services.accounts import SignedIn, name_key, normal_name

from .bodies import Routes
from .door import here, now, signed_in, token

routes = Routes("session", __name__, url_prefix="/api", description="The signed-in browser")


@routes.serve("POST", "/session", takes=Credentials, gives=Session, status=HTTPStatus.CREATED)
def sign_in(credentials: dict[str, Any]) -> Response:
    """Sign in; a session that this browser had ends."""
    door = here()
    door.limit(f"sign-in/{request.remote_addr}", door.settings.rates.sign_in_per_address)
    key = name_key(normal_name(credentials["name"]))
    door.limit(f"sign-in-as/{key}", door.settings.rates.sign_in_per_account)
    made = accounts.sign_in(
        **credentials, passwords=door.passwords, lifetime=door.lifetime, agent=agent(), now=now()
    )
    return begun(made)


@routes.serve("GET", "/session", gives=Session)
def who() -> SignedIn:
    """Who is signed in here."""
    return signed_in()


@routes.serve("DELETE", "/session", gives=None, status=HTTPStatus.NO_CONTENT)
def sign_out() -> Response:
    """End the session at the server."""
    accounts.sign_out(token())
    response = Response(status=HTTPStatus.NO_CONTENT)
    response.delete_cookie(here().settings.cookie, path="/", secure=True, httponly=True, samesite="Lax")
    return response


def agent() -> str:
    """What the browser calls itself, so that its owner knows the session again."""
    return request.headers.get("User-Agent", "")


def begun(made: SignedIn) -> Response:
    """The answer to a new session: its cookie, and no longer the one before."""
    if token():
        accounts.sign_out(token())
    response = jsonify(Session().dump(made))
    response.status_code = HTTPStatus.CREATED
    settings = here().settings
    response.set_cookie(
        settings.cookie,
        made.token,
        max_age=settings.session_days * 86_400,
        path="/",
        secure=True,
        httponly=True,
        samesite="Lax",
    )
    return response
