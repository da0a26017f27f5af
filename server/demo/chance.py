"""Seeded chance: numbers, bounded noise and ids that are the same for the same seed."""

import random
from datetime import datetime

MOST_SD = 2.0  # noise is cut here, so that one unlucky draw cannot turn the story round


class Chance(random.Random):
    """One named stream of a seed; a draw more in one stream leaves the others as they were."""

    def __init__(self, seed: int, stream: str) -> None:
        super().__init__(f"{seed}/{stream}")

    def noise(self, sd: float) -> float:
        """Normal noise about zero, cut at two standard deviations."""
        return sd * max(-MOST_SD, min(MOST_SD, self.gauss(0.0, 1.0)))

    def uuid7(self, when: datetime) -> str:
        """A version 7 UUID (RFC 9562, section 5.7): milliseconds since 1970, the rest chance."""
        stamp = int(when.timestamp() * 1000)
        bits = stamp << 80 | 0x7 << 76 | self.getrandbits(12) << 64 | 0b10 << 62 | self.getrandbits(62)
        text = f"{bits:032x}"
        return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))
