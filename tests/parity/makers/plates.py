from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number

FIELDS = ("front_axle_kg", "rear_axle_kg", "gross_kg", "trailer_kg", "trailer_axles_kg", "coupling_kg")
SIZES = ("265/70R17 121/118S", "225/75R16 112T", "7.50R16", "round")


def calls(rng: Rng) -> Iterator[Piece]:
    """Sets of plates of several things and days, some planned, some of a trailer."""
    for _ in range(120):
        plates = [plate(rng, f"p{k}", k) for k in range(int(rng.integers(1, 7)))]
        shared = {"plates": plates, "axles": {"rear": int(rng.integers(1, 3))}}
        if chance(rng, 0.5):
            shared["trailer_id"] = str(rng.choice(["t1", "t2"]))
        planned = [one["id"] for one in plates if chance(rng, 0.3)]
        yield {"function": "ratings_on", "in": {**shared, "day": day(rng), "planned": planned}}
        given = {**shared, "plate_id": f"p{int(rng.integers(0, len(plates)))}"}
        yield {"function": "changes_by", "in": {**given, **({"day": day(rng)} if chance(rng, 0.5) else {})}}
        yield {"function": "stated_by", "in": {"plate": plates[0]["body"], "axles": shared["axles"]}}


def day(rng: Rng) -> str:
    return f"2026-0{int(rng.integers(1, 4))}-1{int(rng.integers(0, 3))}"


def plate(rng: Rng, name: str, order: int) -> Piece:
    kinds = ["vehicle", "vehicle", "towbar", "coupling", "trailer", "tyres", "tyres"]
    body: Piece = {"of": str(rng.choice(kinds))}
    body |= {one: number(rng, 100, 4000) for one in FIELDS if chance(rng, 0.4)}
    if chance(rng, 0.7):
        body["date_from"] = day(rng)
    if chance(rng, 0.3):
        body["standing"] = str(rng.choice(["planned", "in_force"]))
    if chance(rng, 0.3):
        body["trailer_id"] = "t1"
    if body["of"] == "tyres":
        body["tyre_size"] = str(rng.choice(SIZES))
        if chance(rng, 0.5):
            body["tyre_load_index"] = int(rng.integers(58, 133))
        if chance(rng, 0.6):
            body["tyre_axle"] = str(rng.choice(["front", "rear", "both", "trailer"]))
        if chance(rng, 0.5):
            body["tyres_per_axle"] = int(rng.integers(2, 5))
    return {"id": name, "kind": "plate", "rev": name, "body": body, "order": order}
