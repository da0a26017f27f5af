"""The factory: settings, extensions, routes and error handlers, in that order."""

from flask import Flask

from server.api.spec import describe
from server.config import Settings


def create_app(settings: Settings, *, migrate: bool = True) -> Flask:
    """An application with these settings."""
    app = Flask("server", static_folder=None)
    describe(app)
    return app
