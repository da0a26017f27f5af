"""Settings: one frozen dataclass, filled from the environment. There is no secret: sessions are random tokens."""

import os
import sys
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")


class SettingError(ValueError):
    """A setting that cannot be used; the sentence names it and the way out."""


def data_folder(environ: Mapping[str, str]) -> Path:
    """The folder in which this user's programs keep their data."""
    if "TAREWAY_DATA" in environ:
        return Path(environ["TAREWAY_DATA"])
    if sys.platform == "win32":
        return Path(environ.get("LOCALAPPDATA", str(Path.home()))) / "tareway"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "tareway"
    return Path(environ.get("XDG_DATA_HOME", str(Path.home() / ".local" / "share"))) / "tareway"


def sqlite_url(folder: Path) -> str:
    """The address of the database file in a data folder."""
    return f"sqlite:///{folder / 'tareway.sqlite3'}"


@dataclass(frozen=True, kw_only=True)
class Rates:
    """How often in a minute; what a person or a phone needs stays far below."""

    sign_in_per_account: int = 10
    sign_in_per_address: int = 30
    sign_up_per_address: int = 10
    members_per_user: int = 30
    requests_per_user: int = 600


@dataclass(frozen=True, kw_only=True)
class Settings:
    """All that can be set, with what holds when nothing is."""

    data: Path
    database_url: str
    hosts: tuple[str, ...] = LOOPBACK
    proxy_hops: int = 0
    cookie: str = "__Host-tareway"
    session_idle_days: int = 90
    session_days: int = 365
    static: Path = Path(__file__).parent / "static"
    rates: Rates = field(default_factory=Rates)

    @classmethod
    def from_environment(cls, environ: Mapping[str, str] = os.environ) -> "Settings":
        """Settings of TAREWAY_DATA, DATABASE_URL, TAREWAY_HOSTS and TAREWAY_PROXY_HOPS."""
        data = data_folder(environ)
        hosts = tuple(word.strip() for word in environ.get("TAREWAY_HOSTS", "").split(",") if word.strip())
        return cls(
            data=data,
            database_url=_database_url(environ.get("DATABASE_URL") or sqlite_url(data)),
            hosts=hosts or LOOPBACK,
            proxy_hops=_whole(environ, "TAREWAY_PROXY_HOPS", 0, 0, 5),
        )


def port(environ: Mapping[str, str] = os.environ) -> int:
    """The port of TAREWAY_PORT, 8000 when it is not set."""
    return _whole(environ, "TAREWAY_PORT", 8000, 0, 65_535)


def _database_url(url: str) -> str:
    scheme, _, rest = url.partition("://")
    if scheme in ("postgres", "postgresql", "postgresql+psycopg"):
        return f"postgresql+psycopg://{rest}"
    if scheme == "sqlite":
        return url
    raise SettingError("DATABASE_URL must begin with sqlite:// or postgresql://.")


def _whole(environ: Mapping[str, str], name: str, default: int, low: int, high: int) -> int:
    text = environ.get(name, "").strip()
    if not text:
        return default
    if not text.isascii() or not text.isdigit() or not low <= int(text) <= high:
        raise SettingError(f"{name} is {text!r}: it must be a whole number from {low} to {high}.")
    return int(text)
