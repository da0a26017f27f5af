"""The factory: settings, extensions, routes and error handlers, in that order."""

from collections.abc import Callable
from datetime import UTC, datetime

from flask import Flask, Response
from sqlalchemy.exc import OperationalError
from werkzeug.middleware.proxy_fix import ProxyFix

from server import api
from server.api import errors, site
from server.api.door import Door
from server.config import Settings
from server.extensions import db
from server.services.passwords import Passwords
from server.store import engine, models
from server.store.migrate import upgrade

__all__ = ["create_app", "models"]


def create_app(
    settings: Settings, *, clock: Callable[[], datetime] = lambda: datetime.now(UTC), migrate: bool = True
) -> Flask:
    """An application with these settings; `migrate` brings its database to the tables of this version."""
    app = Flask("server", static_folder=None)
    app.config["SQLALCHEMY_DATABASE_URI"] = settings.database_url
    app.config["SQLALCHEMY_ENGINE_OPTIONS"] = engine.engine_options(settings.database_url)
    app.json.sort_keys = False  # type: ignore[attr-defined]  # of the default provider
    if settings.database_url.startswith("sqlite:///"):
        settings.data.mkdir(parents=True, exist_ok=True)
    db.init_app(app)
    with app.app_context():
        engine.prepare(db.engine)
        if migrate:
            upgrade(db.engine)
    app.register_error_handler(OperationalError, _database_trouble)
    api.register(app, Door(settings, clock, Passwords()))
    site.register(app, settings.static)
    if settings.proxy_hops:
        hops = settings.proxy_hops
        app.wsgi_app = ProxyFix(app.wsgi_app, x_for=hops, x_proto=hops, x_host=hops)  # type: ignore[method-assign]
    return app


def _database_trouble(error: OperationalError) -> tuple[Response, int]:
    """A database that is locked, away or full: nothing was kept, and the device tries again."""
    full = "full" in str(error.orig)
    code, message = (
        ("storage_full", "The server's disk is full: nothing was kept.")
        if full
        else ("busy", "The database is busy: nothing was kept, try again.")
    )
    response, status = errors.answer(507 if full else 503, code, message)
    response.headers["Retry-After"] = str(errors.RETRY_AFTER_S)
    return response, status
