"""`tareway demo` as somebody types it: it says where and as whom, and keeps its data from one run to the next."""

import os
import re
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from sqlite3 import connect

from server.demo.people import CAUTION, USERS


@contextmanager
def demo(data: Path, *words: str) -> Iterator[str]:
    """What the command says until it has said all; it runs meanwhile."""
    command = [sys.executable, "-m", "server.cli", "demo", "--port", "0", *words]
    environ = {**os.environ, "TAREWAY_DATA": str(data)}
    with subprocess.Popen(command, env=environ, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout
        told = ""
        try:
            for line in process.stdout:
                told += line
                if "--fresh" in line:
                    break
            yield told
        finally:
            process.terminate()


def versions(data: Path) -> set[str]:
    with closing(connect(data / "demo" / "tareway.sqlite3")) as connection:
        return {rev for (rev,) in connection.execute("SELECT rev FROM version")}


def drop_one_version(data: Path) -> str:
    with closing(connect(data / "demo" / "tareway.sqlite3")) as connection, connection:
        (rev,) = connection.execute("SELECT max(rev) FROM version").fetchone()
        connection.execute("DELETE FROM version WHERE rev = ?", (rev,))
    return str(rev)


def test_it_says_where_and_as_whom_and_that_all_is_invented(tmp_path):
    with demo(tmp_path) as told:
        address = re.search(r"http://127\.0\.0\.1:\d+", told)
        assert address
        with urllib.request.urlopen(f"{address.group()}/api/health", timeout=10) as answer:
            assert answer.status == 200
    assert all(user.name in told and user.password in told for user in USERS)
    assert CAUTION in told
    assert [path.name for path in tmp_path.iterdir()] == ["demo"]


def test_its_data_stay_until_a_fresh_start_is_asked_for(tmp_path):
    with demo(tmp_path):
        first = versions(tmp_path)
    (tmp_path / "tareway.sqlite3").write_text("real data")
    lost = drop_one_version(tmp_path)
    with demo(tmp_path):
        assert versions(tmp_path) == first - {lost}
    with demo(tmp_path, "--fresh"):
        assert len(versions(tmp_path)) == len(first)
    assert (tmp_path / "tareway.sqlite3").read_text() == "real data"
