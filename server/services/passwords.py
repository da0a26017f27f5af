"""Password hashing, and which passwords are taken."""

import unicodedata
from pathlib import Path
from threading import BoundedSemaphore

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

SHORTEST, LONGEST = 8, 128
_COMMON = Path(__file__).with_name("common_passwords.txt")


class Passwords:
    """Argon2id with the parameters of the OWASP password storage cheat sheet: 19 MiB, t = 2, p = 1."""

    def __init__(self, *, time_cost: int = 2, memory_kib: int = 19_456, at_once: int = 2) -> None:
        self._hasher = PasswordHasher(time_cost=time_cost, memory_cost=memory_kib, parallelism=1)
        self._turn = BoundedSemaphore(at_once)
        self._nobody = self._hasher.hash("a password that nobody has")
        # our own short list of what anybody tries first, not one of the published lists of thousands
        self._common = frozenset(_COMMON.read_text(encoding="ascii").split())

    def hash(self, password: str) -> str:
        """The hash to store."""
        with self._turn:
            return self._hasher.hash(_normal(password))

    def verify(self, stored: str | None, password: str) -> bool:
        """Whether a password belongs to a stored hash; takes as long when there is none."""
        with self._turn:
            try:
                self._hasher.verify(stored or self._nobody, _normal(password)[: LONGEST + 1])
            except (VerificationError, InvalidHashError):
                return False
            return stored is not None

    def outdated(self, stored: str) -> bool:
        """Whether a hash was made with other parameters than today's."""
        return self._hasher.check_needs_rehash(stored)

    def complaint(self, password: str, name: str) -> str | None:
        """What is wrong with a new password, or None."""
        if not encodable(password):
            return "The password has a broken character."
        if not SHORTEST <= len(_normal(password)) <= LONGEST:
            return f"The password must have {SHORTEST} to {LONGEST} characters."
        plain = password.casefold().strip()
        if plain in self._common or plain == name.casefold() or len(set(password.casefold())) == 1:
            return "This password is among the first that anybody tries: choose another."
        return None


def encodable(password: str) -> bool:
    """Whether a password is text at all; half a surrogate pair is not."""
    return not any("\ud800" <= letter <= "\udfff" for letter in password)


def _normal(password: str) -> str:
    return unicodedata.normalize("NFC", password)
