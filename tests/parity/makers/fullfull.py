from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number
from parity.tanks import call


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(40):
        stops, odometer = [], number(rng, 0, 9e4)
        for n in range(int(rng.integers(2, 15))):
            odometer += 0 if chance(rng, 0.15) else number(rng, 40, 600)
            one = {
                "id": f"s{n}",
                "odometer_km": odometer,
                "litres_l": number(rng, 0, 90),
                "full": chance(rng, 0.6),
            }
            stops.append({**one, "missed_before": chance(rng, 0.1), "taken_l": number(rng, 0, 3)})
        accuracy = {
            "pump_u": number(rng, 0, 0.01),
            "full_u_l": number(rng, 0.2, 2),
            "factor": number(rng, 0.9, 1.1),
        }
        given = {"stops": stops, "accuracy": {**accuracy, "factor_u": number(rng, 0, 0.02)}}
        found = call("fullfull", "segments", **given)
        yield {"function": "segments", "in": given}
        yield {"function": "pooled", "in": {"segments": found, "accuracy": given["accuracy"]}}
        yield {"function": "segment_covariance", "in": {"segments": found, "accuracy": given["accuracy"]}}
