"""The door: what a request must be before any route sees it, and who is asking."""

from collections.abc import Callable
from datetime import datetime, timedelta
from http import HTTPStatus
from typing import cast
from urllib.parse import urlsplit

from flask import Flask, current_app, g, request
from werkzeug.routing import BaseConverter

from server.config import Settings
from server.schemas.fields import UUID
from server.services import accounts
from server.services.accounts import Account, Lifetime, SignedIn
from server.services.errors import SignInError
from server.services.passwords import Passwords
from server.services.throttle import Throttle

from .bodies import CHANGING
from .errors import RefusedError

MOST_BYTES = 1_000_000
_OPEN = {"accounts.sign_up", "session.sign_in", "health.health", "api-docs.openapi_json"}


class IdConverter(BaseConverter):
    """An id in an address; anything else is an address that is not there."""

    regex = UUID
    part_isolating = True


class Door:
    """What the routes share: settings, clock, hashing, counting."""

    def __init__(self, settings: Settings, clock: Callable[[], datetime], passwords: Passwords) -> None:
        self.settings = settings
        self.clock = clock
        self.passwords = passwords
        self.throttle = Throttle()
        self.lifetime = Lifetime(
            idle=timedelta(days=settings.session_idle_days), total=timedelta(days=settings.session_days)
        )

    def limit(self, key: str, often: int) -> None:
        """Count one try of this key in this minute, or refuse it."""
        self.throttle.hit(key, limit=often, now=self.clock())


def register(app: Flask, door: Door) -> None:
    """Put the door before all routes of an application."""
    app.extensions["tareway"] = door
    app.url_map.converters["id"] = IdConverter
    app.config["MAX_CONTENT_LENGTH"] = MOST_BYTES
    app.config["MAX_FORM_MEMORY_SIZE"] = 0
    app.before_request(_check)


def here() -> Door:
    """The running application's door."""
    return cast(Door, current_app.extensions["tareway"])


def now() -> datetime:
    """The server's time."""
    return here().clock()


def signed_in() -> SignedIn:
    """The session of this request."""
    return cast(SignedIn, g.signed_in)


def user() -> Account:
    """Whose request this is."""
    return signed_in().user


def token() -> str:
    """The session's token as it came, or nothing."""
    return request.cookies.get(here().settings.cookie, "")


def _check() -> None:
    _host_is_ours()
    if request.routing_exception is not None or not request.path.startswith("/api/"):
        return
    if request.method in CHANGING:
        _made_by_our_pages()
        _is_json()
    if request.endpoint not in _OPEN:
        _somebody()


def _host_is_ours() -> None:
    host = urlsplit(f"//{request.host}").hostname or ""
    ours = {urlsplit(f"//{name}").hostname for name in here().settings.hosts}
    if host not in ours:
        message = "This server does not answer to this host name: TAREWAY_HOSTS lists those it has."
        raise RefusedError(HTTPStatus.BAD_REQUEST, "unknown_host", message)


def _made_by_our_pages() -> None:
    """Another site's page can neither set the header unasked nor hide where it comes from."""
    origin, site = request.headers.get("Origin"), request.headers.get("Sec-Fetch-Site")
    foreign = origin is not None and urlsplit(origin).netloc != request.host
    if request.headers.get("X-Tareway") != "1" or foreign or site not in (None, "same-origin", "none"):
        message = (
            "Requests that change something come from this app's own pages, with the header X-Tareway: 1."
        )
        raise RefusedError(HTTPStatus.FORBIDDEN, "foreign_request", message)


def _is_json() -> None:
    encoded = request.headers.get("Content-Encoding", "identity") != "identity"
    has_body = request.content_length or request.method != "DELETE"
    if encoded or (has_body and request.mimetype != "application/json"):
        message = "Send JSON, uncompressed, with the type application/json."
        raise RefusedError(HTTPStatus.UNSUPPORTED_MEDIA_TYPE, "not_json_type", message)


def _somebody() -> None:
    door = here()
    found = accounts.who(token=token(), lifetime=door.lifetime, now=door.clock()) if token() else None
    if found is None:
        raise SignInError("sign_in_required", "Sign in first; what is on the device stays there.")
    g.signed_in = found
    door.limit(f"requests/{found.user.id}", door.settings.rates.requests_per_user)
