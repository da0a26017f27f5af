from collections.abc import Iterator

from parity.pieces import Piece, Rng, bridge, number


def calls(rng: Rng) -> Iterator[Piece]:
    """Scales of every kind, loads up to and beyond their range."""
    for _ in range(60):
        scale = bridge(rng)
        load = number(rng, 0, 1100 * scale["interval_kg"])
        table = {"interval_kg": scale["interval_kg"], "accuracy_class": scale["accuracy_class"]}
        yield {"function": "permissible_error", "in": {"load_kg": load, **table}}
        yield {"function": "reach_kg", "in": {"bridge": scale}}
        yield {"function": "can_weigh", "in": {"bridge": scale, "value_kg": load * 5}}
        body = {
            "name": str(rng.choice(["", "Hill", " hill  7"])),
            "site_number": str(rng.choice(["", "HB-7"])),
            "interval_kg": scale["interval_kg"],
            "accuracy_class": str(rng.choice(["III", "IIII", "percent"])),
            "percent": scale.get("percent"),
        }
        yield {"function": "bridge_key", "in": {"bridge": body}}
        yield {"function": "bridge_of", "in": {"key": "w", "body": body}}
        yield {"function": "gain_u", "in": {"bridge": scale}}
        yield {"function": "zero_u", "in": {"bridge": scale}}
        yield {"function": "own_variance", "in": {"bridge": scale, "value_kg": load}}
        yield {
            "function": "below_min",
            "in": {"bridge": scale, "value_kg": number(rng, 0, 30 * scale["interval_kg"])},
        }
