"""JSON in and out: strict where it comes in, compressed where it is long."""

import gzip
import json
from collections.abc import Callable
from http import HTTPStatus
from typing import Any, TypeVar

from flask import Flask, Request, Response, request
from flask_smorest import Blueprint
from marshmallow import Schema
from webargs.flaskparser import FlaskParser

from .errors import RefusedError
from .headers import SECURITY_HEADERS

View = TypeVar("View", bound=Callable[..., Any])
DEEPEST = 10  # the envelope of a batch takes 4 levels, the deepest record 6
CHANGING = {"POST", "PUT", "PATCH", "DELETE"}
_HEADER = {
    "name": "X-Tareway",
    "in": "header",
    "required": True,
    "schema": {"type": "string", "enum": ["1"]},
    "description": "another site's page cannot set it unasked",
}
_LONGEST_WHOLE = 17
_GZIP_FROM, _GZIP_LEVEL = 1_000, 5


class StrictParser(FlaskParser):  # type: ignore[misc, unused-ignore]
    """Reads JSON as the standard says it."""

    def _raw_load_json(self, req: Request) -> Any:
        return strict_json(req.get_data())


class Routes(Blueprint):  # type: ignore[misc]  # the library has no types
    """A resource's routes, whose bodies come through the strict parser."""

    ARGUMENTS_PARSER = StrictParser()

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._prepare_doc_cbks.append(_say_header)

    def serve(
        self,
        method: str,
        path: str,
        *,
        gives: type[Schema] | None,
        takes: type[Schema] | None = None,
        query: type[Schema] | None = None,
        status: HTTPStatus = HTTPStatus.OK,
    ) -> Callable[[View], View]:
        """A view with what it takes (as body or as query) and gives; its name is the endpoint's."""

        def decorate(view: View) -> View:
            wrapped = self.response(status, gives)(view)
            for schema, location in ((takes, "json"), (query, "query")):
                if schema is not None:
                    wrapped = self.arguments(schema, location=location)(wrapped)
            self.route(path, methods=[method], endpoint=view.__name__)(wrapped)
            return view

        return decorate


def _say_header(doc: dict[str, Any], _: Any, *, method: str, **__: Any) -> dict[str, Any]:
    if method.upper() in CHANGING:
        doc.setdefault("parameters", []).append(_HEADER)
    return doc


def strict_json(raw: bytes) -> Any:
    """A JSON value. Refused: what is not UTF-8, NaN and Infinity, and nesting beyond need."""
    try:
        value = json.loads(
            raw.decode("utf-8"), parse_int=_whole, parse_float=_float, parse_constant=_constant
        )
    except (ValueError, RecursionError):
        raise RefusedError(HTTPStatus.BAD_REQUEST, "not_json", "The body is not JSON.") from None
    if _deeper(value, DEEPEST):
        message = f"The body is nested deeper than {DEEPEST} levels."
        raise RefusedError(HTTPStatus.BAD_REQUEST, "too_deep", message)
    return value


def finish(response: Response) -> Response:
    """What every answer of the application gets."""
    response.headers.update(SECURITY_HEADERS)
    if request.path.startswith("/api/"):
        response.headers["Cache-Control"] = "no-store"
        _compress(response)
    return response


def register(app: Flask) -> None:
    """Finish every answer of an application."""
    app.after_request(finish)


def _whole(digits: str) -> int | float:
    # beyond what a float holds exactly a whole number becomes one; a schema then refuses it by its range
    return int(digits) if len(digits) <= _LONGEST_WHOLE else float(digits)


def _float(digits: str) -> float:
    return float(digits) + 0.0  # turns -0.0 into 0.0


def _constant(word: str) -> Any:
    raise ValueError(word)


def _deeper(value: Any, levels: int) -> bool:
    if not isinstance(value, dict | list):
        return False
    if levels == 0:
        return True
    inner = value.values() if isinstance(value, dict) else value
    return any(_deeper(one, levels - 1) for one in inner if isinstance(one, dict | list))


def _compress(response: Response) -> None:
    response.headers.add("Vary", "Accept-Encoding")
    wanted = request.accept_encodings.quality("gzip") > 0
    if not wanted or response.direct_passthrough or (response.content_length or 0) < _GZIP_FROM:
        return
    response.set_data(gzip.compress(response.get_data(), compresslevel=_GZIP_LEVEL, mtime=0))
    response.headers["Content-Encoding"] = "gzip"
