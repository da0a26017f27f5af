"""How often in a minute."""

from datetime import UTC, datetime, timedelta

import pytest

from server.services import throttle
from server.services.errors import TooOftenError
from server.services.throttle import Throttle

START = datetime(2026, 3, 4, tzinfo=UTC)


def hits(counter: Throttle, key: str, seconds: float, limit: int = 2) -> int:
    """0 when it was let through, else how long to wait."""
    try:
        counter.hit(key, limit=limit, now=START + timedelta(seconds=seconds))
    except TooOftenError as error:
        return error.retry_after_s
    return 0


def test_a_minute_slides() -> None:
    counter = Throttle()
    assert [hits(counter, "a", second) for second in (0, 30, 31, 59.5, 60, 61, 90)] == [0, 0, 29, 1, 0, 29, 0]


def test_refused_tries_do_not_lengthen_the_wait() -> None:
    counter = Throttle()
    assert [
        hits(counter, "a", 0, limit=1),
        *(hits(counter, "a", second, limit=1) for second in range(1, 60)),
    ][-1] == 1
    assert hits(counter, "a", 60, limit=1) == 0


def test_keys_do_not_touch_each_other() -> None:
    counter = Throttle()
    assert [hits(counter, key, 0, limit=1) for key in ("a", "b", "a")] == [0, 0, 60]


def test_old_keys_are_forgotten(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(throttle, "_SWEEP_AT", 100)
    counter = Throttle()
    for number in range(100):
        hits(counter, str(number), 0)
    hits(counter, "later", 61)
    assert list(counter._tries) == ["later"]
