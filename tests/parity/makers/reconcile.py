from collections.abc import Iterator

from parity.pieces import Piece, Rng, bridge, chance, geometry, number, part, parts, readings, setup, spread


def calls(rng: Rng) -> Iterator[Piece]:
    """Full updates, and books of a few weighings asked for loads and masses."""
    for _ in range(25):
        n, r = int(rng.integers(1, 9)), int(rng.integers(1, 5))
        given = {
            "mean": rng.normal(size=n).tolist(),
            "cov": spread(rng, n),
            "design": rng.normal(size=(r, n)).tolist(),
        }
        given |= {"readings": rng.normal(size=r).tolist(), "noise": spread(rng, r)}
        yield {"function": "update", "in": given}
    for _ in range(25):
        yield from _book(rng)


def book(rng: Rng, *, least: int = 0) -> Piece:
    """A vehicle with a few weighings."""
    where = geometry(rng)
    lasting = parts(rng, where)
    count = int(rng.integers(least, 4))
    sessions = [_session(rng, f"s{i}", where, lasting) for i in range(count)]
    return {"lasting": lasting, "geometry": where, "sessions": sessions}


def _book(rng: Rng) -> Iterator[Piece]:
    whole = book(rng)
    given = {"function": "reconcile", "in": whole}
    yield {**given, "then": [{"call": "learnt", "args": ["base_rear"]}]}
    dog = part(rng, "dog", whole["geometry"])
    asked = {"lasting": whole["lasting"], "passing": [dog], "rows": ["front", "rear", "gross"]}
    yield {**given, "then": [{"call": "loads", "in": asked}]}
    if whole["sessions"]:
        first = len(whole["sessions"][0]["readings"])
        yield {**given, "then": [{"call": "upto", "in": {"count": first}}, {"call": "loads", "in": asked}]}
        day = {"passing": whole["sessions"][0]["passing"], "session": "s0"}
        yield {**given, "then": [{"call": "loads", "in": {**asked, **day}}]}


def _session(rng: Rng, name: str, where: Piece, lasting: list[Piece]) -> Piece:
    axles = ("front", "rear", "trailer_axles") if "trailer" in where else ("front", "rear")
    taken = readings(rng, axles)
    if chance(rng, 0.3):
        taken[0]["without"] = ["driver"]
    if "trailer" in where and chance(rng, 0.3):
        taken.append({"id": "apart", "axles": ["rear"], "value_kg": 1400.0, "uncoupled": True})
    aboard = [one for one in lasting if chance(rng, 0.9) or one["id"].startswith("base")]
    lasting = [
        {**one, "x_m": number(rng, 0, 4)} if chance(rng, 0.1) and "axle" not in one else one for one in aboard
    ]
    return {
        "id": name,
        "lasting": [{**one, "copies": 2} if chance(rng, 0.1) else one for one in lasting],
        "passing": [{**part(rng, "driver", where), "mass_kg": 80.0}, part(rng, "water", where)],
        "readings": taken,
        "bridge": bridge(rng),
        "setup": setup(rng, where["wheelbase_m"]),
    }
