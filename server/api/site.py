"""The built web application: its files, and its first page for every address that is the application's own."""

from collections.abc import Callable, Iterable
from http import HTTPStatus
from pathlib import Path
from typing import Any, cast
from wsgiref.headers import Headers

from flask import Flask, Response
from whitenoise import WhiteNoise

from .headers import SECURITY_HEADERS

Environ = dict[str, Any]
Start = Callable[..., Any]
_FIRST_PAGE = "/index.html"
_NOT_BUILT = (
    "The web application is not built: run `python -m server.build_web` and start the server again.\n"
)


class Site:
    """Files first, then the first page, then the API."""

    def __init__(self, api: Callable[[Environ, Start], Iterable[bytes]], folder: Path) -> None:
        self._api = api
        self._files: WhiteNoise | None = None
        if (folder / _FIRST_PAGE[1:]).is_file():
            self._files = WhiteNoise(
                api, root=str(folder), max_age=0, allow_all_origins=False, add_headers_function=_headers
            )

    def __call__(self, environ: Environ, start: Start) -> Iterable[bytes]:
        """Answer one request."""
        path, method = environ.get("PATH_INFO", ""), environ.get("REQUEST_METHOD")
        if method not in ("GET", "HEAD") or path == "/api" or path.startswith("/api/"):
            return self._api(environ, start)
        if self._files is None:
            return _not_built()(environ, start)
        if path not in self._files.files and not path.startswith("/assets/"):
            environ = {**environ, "PATH_INFO": _FIRST_PAGE}
        answer: Iterable[bytes] = self._files(environ, start)
        return answer


def register(app: Flask, folder: Path) -> None:
    """Serve the application's files if they are there, else say how to get them."""
    app.wsgi_app = cast(Any, Site(app.wsgi_app, folder))  # type: ignore[method-assign]


def _not_built() -> Response:
    return Response(_NOT_BUILT, HTTPStatus.SERVICE_UNAVAILABLE, SECURITY_HEADERS, mimetype="text/plain")


def _headers(headers: Headers, path: str, url: str) -> None:
    for name, value in SECURITY_HEADERS.items():
        headers[name] = value
    immutable = url.startswith("/assets/")
    headers["Cache-Control"] = "public, max-age=31536000, immutable" if immutable else "no-cache"
