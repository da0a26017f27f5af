from collections.abc import Iterator

from parity.pieces import Piece, Rng, number


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(60):
        far = {"start": _spot(rng, 80), "end": _spot(rng, 80)}
        yield {"function": "between_km", "in": far}
        first = _spot(rng, 60)
        spots = [first]
        for _ in range(12):
            last = spots[-1]
            spots.append({name: value + number(rng, -0.05, 0.2) for name, value in last.items()})
        spots = [one for one in spots if abs(one["longitude_deg"]) <= 180]
        yield {"function": "track_km", "in": {"spots": spots}}
        near = {name: value + number(rng, -0.2, 0.2) for name, value in spots[len(spots) // 2].items()}
        yield {"function": "beside_track", "in": {"spots": spots, "spot": near}, "abs": 1e-7}


def _spot(rng: Rng, most: float) -> Piece:
    return {"latitude_deg": number(rng, -most, most), "longitude_deg": number(rng, -179, 175)}
