"""The OpenAPI description: the same schemas that stand at the door, every record kind among them."""

from typing import Any

import flask_smorest
from flask import Flask

from server.schemas.error import ErrorBody
from server.schemas.register import KINDS, PLAN_KINDS
from server.schemas.sync import Mutation, change_name

VERSION = "1"


class Api(flask_smorest.Api):  # type: ignore[misc]  # the library has no types
    """flask-smorest's description of the routes with this application's error body."""

    ERROR_SCHEMA = ErrorBody

    def _register_error_handlers(self) -> None:
        """Left out: server/api/errors.py answers for every route, described or not."""


def describe(app: Flask, cookie: str) -> Api:
    """An Api bound to `app`, with all record kinds registered and no route yet."""
    app.config.update(
        API_TITLE="Tareway",
        API_VERSION=VERSION,
        OPENAPI_VERSION="3.1.0",
        OPENAPI_URL_PREFIX="/api",
        OPENAPI_JSON_PATH="openapi.json",
    )
    api = Api(app)
    for kind, schema in KINDS.items():
        api.spec.components.schema(schema.__name__, schema=schema)
        if kind in PLAN_KINDS:
            api.spec.components.schema(change_name(kind), schema=schema(partial=True))
    api.spec.components.schema("Mutation", schema=Mutation)
    api.spec.components.security_scheme("session", {"type": "apiKey", "in": "cookie", "name": cookie})
    return api


def document(app: Flask) -> dict[str, Any]:
    """The OpenAPI document of an application."""
    api: Api = app.extensions["flask-smorest"]["apis"][""]["ext_obj"]
    return {**api.spec.to_dict(), "x-kinds": {kind: schema.__name__ for kind, schema in KINDS.items()}}
