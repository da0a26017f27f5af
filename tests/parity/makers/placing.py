from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number


def calls(rng: Rng) -> Iterator[Piece]:
    """Logs with late, mistyped and blank odometers."""
    for _ in range(80):
        entries, odometer = [], 500.0
        for n in range(int(rng.integers(0, 25))):
            odometer = round(odometer + number(rng, 0, 500))
            known = number(rng, 0, 12_000) if chance(rng, 0.15) else float(odometer)
            at = float(int(rng.integers(0, 30)) if chance(rng, 0.2) else n)
            sequence = int(rng.integers(30)) if chance(rng, 0.2) else n
            value = None if chance(rng, 0.1) else known
            entries.append({"id": f"e{n:02}", "at_s": at, "sequence": sequence, "odometer_km": value})
        yield {"function": "place", "in": {"entries": entries}}
        values = [float(one) for one in rng.integers(0, 20, int(rng.integers(0, 30)))]
        yield {"function": "longest_rise", "in": {"values": values}}
