"""Sign up."""

from http import HTTPStatus
from typing import Any

from flask import Response, request

from server.schemas.account import Credentials, Session
from server.services import accounts

from .bodies import Routes
from .door import here, now
from .session import agent, begun

routes = Routes("accounts", __name__, url_prefix="/api", description="Accounts")


@routes.serve("POST", "/accounts", takes=Credentials, gives=Session, status=HTTPStatus.CREATED)
def sign_up(credentials: dict[str, Any]) -> Response:
    """Make an account and sign in."""
    door = here()
    door.limit(f"sign-up/{request.remote_addr}", door.settings.rates.sign_up_per_address)
    made = accounts.sign_up(
        **credentials, passwords=door.passwords, lifetime=door.lifetime, agent=agent(), now=now()
    )
    return begun(made)
