"""Every failure of the API in one body: a code for programs, a sentence for people, fields for forms, the status."""

import logging
from collections.abc import Iterator, Mapping
from http import HTTPStatus
from typing import Any

from flask import Flask, Response, jsonify
from werkzeug.exceptions import HTTPException

from server.services import errors

STATUS: dict[type[errors.ServiceError], HTTPStatus] = {
    errors.InvalidError: HTTPStatus.UNPROCESSABLE_ENTITY,
    errors.SignInError: HTTPStatus.UNAUTHORIZED,
    errors.ForbiddenError: HTTPStatus.FORBIDDEN,
    errors.NotThereError: HTTPStatus.NOT_FOUND,
    errors.ClashError: HTTPStatus.CONFLICT,
    errors.BusyError: HTTPStatus.SERVICE_UNAVAILABLE,
    errors.TooOftenError: HTTPStatus.TOO_MANY_REQUESTS,
}

# What the web framework refuses by itself.
_OF_HTTP: dict[int, tuple[str, str]] = {
    400: ("bad_request", "The request could not be understood."),
    404: ("not_found", "There is nothing at this address."),
    405: ("method_not_allowed", "This address does not answer to this method."),
    408: ("too_slow", "The request took too long to arrive."),
    411: ("length_required", "The request does not say how long it is."),
    413: ("too_large", "The request is larger than 1 MB: send it in parts."),
    415: ("not_json_type", "Send JSON, uncompressed, with the type application/json."),
    422: ("invalid", "Something in the request cannot be taken; the fields say what."),
    500: ("server_fault", "The server failed on this request. It was not your doing; try again later."),
}
RETRY_AFTER_S = 2
_LONGEST_SENTENCE = 300  # a sentence repeats what came, and anything may have come
_log = logging.getLogger(__name__)


class RefusedError(HTTPException):
    """A refusal at the door, before any use case."""

    def __init__(self, status: HTTPStatus, code: str, message: str) -> None:
        super().__init__(message)
        self.code = int(status)
        self.word = code
        self.message = message


def register(app: Flask) -> None:
    """Let an application answer every failure with the one body."""
    app.register_error_handler(RefusedError, _refused)
    app.register_error_handler(HTTPException, _http)
    app.register_error_handler(errors.ServiceError, _service)
    app.register_error_handler(Exception, _fault)


def answer(
    status: int, code: str, message: str, fields: Mapping[str, list[str]] | None = None
) -> tuple[Response, int]:
    """The one error body."""
    return jsonify(code=code, message=message, status=int(status), fields=dict(fields or {})), int(status)


def flat(messages: Any, path: str = "") -> dict[str, list[str]]:
    """marshmallow's nested messages as dotted path -> sentences; what is wrong with a whole has the whole's path."""
    found: dict[str, list[str]] = {}
    for where, sentence in _sentences(messages, path):
        found.setdefault(where or "_", []).append(sentence)
    return found


def _sentences(messages: Any, path: str) -> Iterator[tuple[str, str]]:
    if isinstance(messages, Mapping):
        for name, inner in messages.items():
            below = path if name == "_schema" else f"{path}.{name}" if path else str(name)
            yield from _sentences(inner, below)
    elif isinstance(messages, list):
        for inner in messages:
            yield from _sentences(inner, path)
    else:
        yield path, str(messages)[:_LONGEST_SENTENCE]


def _service(error: errors.ServiceError) -> tuple[Response, int]:
    response, status = answer(STATUS[type(error)], error.code, error.message, error.fields)
    if isinstance(error, errors.TooOftenError):
        response.headers["Retry-After"] = str(error.retry_after_s)
    if isinstance(error, errors.BusyError):
        response.headers["Retry-After"] = str(RETRY_AFTER_S)
    return response, status


def _refused(error: RefusedError) -> tuple[Response, int]:
    return answer(error.code or 400, error.word, error.message)


def _http(error: HTTPException) -> tuple[Response, int]:
    status = error.code or 500
    code, message = _OF_HTTP.get(status, ("refused", error.name))
    messages = getattr(error, "data", {}).get("messages", {})  # webargs: location -> messages
    fields = {path: said for inner in messages.values() for path, said in flat(inner).items()}
    response, status = answer(status, code, message, fields)
    if status == 405:
        response.headers["Allow"] = ", ".join(sorted(getattr(error, "valid_methods", None) or ()))
    return response, status


def _fault(error: Exception) -> tuple[Response, int]:
    _log.error("unexpected failure", exc_info=error)
    return answer(500, *_OF_HTTP[500])
