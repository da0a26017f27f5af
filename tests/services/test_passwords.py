"""Hashing, and how many at once."""

import threading
from concurrent.futures import ThreadPoolExecutor

import pytest

from server.services.passwords import Passwords

CHEAP = {"time_cost": 1, "memory_kib": 8}


@pytest.fixture(scope="module")
def passwords() -> Passwords:
    return Passwords(**CHEAP)


def test_a_hash_knows_its_password_and_no_other(passwords: Passwords) -> None:
    stored = passwords.hash("the river at dawn")
    assert passwords.verify(stored, "the river at dawn")
    assert not passwords.verify(stored, "the river at dusk")
    assert passwords.hash("the river at dawn") != stored


def test_composed_and_decomposed_letters_are_the_same_password(passwords: Passwords) -> None:
    assert passwords.verify(passwords.hash("caf\u00e9 by the sea"), "cafe\u0301 by the sea")


def test_nobody_s_password_is_never_right(passwords: Passwords) -> None:
    assert not passwords.verify(None, "a password that nobody has")


def test_a_broken_hash_is_no_match(passwords: Passwords) -> None:
    assert not passwords.verify("$argon2id$broken", "anything at all")


def test_a_password_is_never_cut_short(passwords: Passwords) -> None:
    stored = passwords.hash("x1" * 64)
    assert passwords.verify(stored, "x1" * 64)
    assert not passwords.verify(stored, "x1" * 64 + "y")
    assert not passwords.verify(stored, "x1" * 63 + "x2")


def test_two_at_once_and_no_more(monkeypatch: pytest.MonkeyPatch) -> None:
    passwords = Passwords(**CHEAP)
    running, most, lock = 0, 0, threading.Lock()
    both_in = threading.Barrier(2, timeout=10)

    class Slow:
        def hash(self, _: str) -> str:
            nonlocal running, most
            with lock:
                running += 1
                most = max(most, running)
            both_in.wait()
            with lock:
                running -= 1
            return "hash"

    monkeypatch.setattr(passwords, "_hasher", Slow())
    with ThreadPoolExecutor(6) as pool:
        assert list(pool.map(passwords.hash, ["x"] * 6)) == ["hash"] * 6
    assert most == 2
