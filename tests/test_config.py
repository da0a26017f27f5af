"""Settings from the environment."""

from pathlib import Path

import pytest

from server.config import LOOPBACK, SettingError, Settings, data_folder, port


def test_with_nothing_set_data_lie_in_the_user_s_folder(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("sys.platform", "linux")
    settings = Settings.from_environment({"XDG_DATA_HOME": "/files/data"})
    assert settings.data == Path("/files/data/tareway")
    assert settings.database_url == "sqlite:////files/data/tareway/tareway.sqlite3"
    assert (settings.hosts, settings.proxy_hops) == (LOOPBACK, 0)


@pytest.mark.parametrize(
    ("platform", "environ", "folder"),
    [
        ("linux", {"TAREWAY_DATA": "/srv/t", "XDG_DATA_HOME": "/x"}, "/srv/t"),
        ("win32", {"LOCALAPPDATA": "/users/x/local"}, "/users/x/local/tareway"),
    ],
)
def test_where_data_lie(
    monkeypatch: pytest.MonkeyPatch, platform: str, environ: dict[str, str], folder: str
) -> None:
    monkeypatch.setattr("sys.platform", platform)
    assert data_folder(environ) == Path(folder)


@pytest.mark.parametrize("scheme", ["postgres", "postgresql", "postgresql+psycopg"])
def test_postgresql_is_reached_through_psycopg(scheme: str) -> None:
    settings = Settings.from_environment({"DATABASE_URL": f"{scheme}://u:p@db/tareway"})
    assert settings.database_url == "postgresql+psycopg://u:p@db/tareway"


def test_host_names_and_proxies() -> None:
    settings = Settings.from_environment(
        {"TAREWAY_HOSTS": " a.example, b.example ,", "TAREWAY_PROXY_HOPS": "2"}
    )
    assert (settings.hosts, settings.proxy_hops) == (("a.example", "b.example"), 2)


@pytest.mark.parametrize(
    "environ",
    [
        {"DATABASE_URL": "mysql://x"},
        {"TAREWAY_PROXY_HOPS": "-1"},
        {"TAREWAY_PROXY_HOPS": "6"},
        {"TAREWAY_PROXY_HOPS": "١"},
        {"TAREWAY_PROXY_HOPS": "one"},
    ],
)
def test_what_cannot_be_used_is_named(environ: dict[str, str]) -> None:
    with pytest.raises(SettingError, match=next(iter(environ))):
        Settings.from_environment(environ)


def test_the_port() -> None:
    assert (port({}), port({"TAREWAY_PORT": "9000"}), port({"TAREWAY_PORT": " "})) == (8000, 9000, 8000)
    with pytest.raises(SettingError, match="TAREWAY_PORT"):
        port({"TAREWAY_PORT": "70000"})
