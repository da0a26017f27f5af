"""What a use case may refuse. Each has a code for programs and a sentence for people."""

from collections.abc import Mapping


class ServiceError(Exception):
    """The base of all that follows."""

    def __init__(self, code: str, message: str, fields: Mapping[str, list[str]] | None = None) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.fields = dict(fields or {})


class InvalidError(ServiceError, ValueError):
    """A value that cannot be taken; `fields` says which and why."""


class SignInError(ServiceError, PermissionError):
    """Nobody is signed in, or the name and password do not belong together."""


class ForbiddenError(ServiceError, PermissionError):
    """The user may see this, but not do that."""


class NotThereError(ServiceError, LookupError):
    """There is none, or none that the user may see: the two are not told apart."""


class ClashError(ServiceError, ValueError):
    """Possible in itself, but not as things stand."""


class BusyError(ServiceError, TimeoutError):
    """Not now: ask again."""


class TooOftenError(ServiceError, TimeoutError):
    """Asked too often; `retry_after_s` says when to come back."""

    def __init__(self, retry_after_s: int) -> None:
        super().__init__("too_often", f"Too many tries: wait {retry_after_s} s and try again.")
        self.retry_after_s = retry_after_s
