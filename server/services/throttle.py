"""How often in a minute: counted in this process, which is the only one that serves."""

import math
from collections import deque
from datetime import datetime, timedelta
from threading import Lock

from .errors import TooOftenError

_WINDOW = timedelta(minutes=1)
_SWEEP_AT = 10_000  # keys; older ones are dropped when there are more


class Throttle:
    """Remembers the last minute's tries of each key."""

    def __init__(self) -> None:
        self._tries: dict[str, deque[datetime]] = {}
        self._lock = Lock()

    def hit(self, key: str, *, limit: int, now: datetime) -> None:
        """Count one try; TooOftenError when a minute has had `limit` of them already."""
        with self._lock:
            if len(self._tries) >= _SWEEP_AT:
                self._sweep(now)
            tries = self._tries.setdefault(key, deque())
            while tries and tries[0] <= now - _WINDOW:
                tries.popleft()
            if len(tries) >= limit:
                raise TooOftenError(max(1, math.ceil((tries[0] + _WINDOW - now).total_seconds())))
            tries.append(now)

    def _sweep(self, now: datetime) -> None:
        old = [key for key, tries in self._tries.items() if not tries or tries[-1] <= now - _WINDOW]
        for key in old:
            del self._tries[key]
