from collections.abc import Iterator

from parity.pieces import Piece, Rng, chance, number
from parity.tanks import SURFACES, settings


def calls(rng: Rng) -> Iterator[Piece]:
    yield {"function": "all_classes", "in": {}}
    for _ in range(30):
        surface, towing = str(rng.choice([*SURFACES, "mud"])), chance(rng, 0.5)
        name = f"{rng.choice(SURFACES)}{'+trailer' if towing else ''}"
        tanks = [
            {
                "id": f"t{n}",
                "capacity_l": number(rng, 20, 120),
                "drain_order": int(rng.integers(9)),
                "drawn": chance(rng, 0.7),
                "full_u_l": number(rng, 0, 5) if chance(rng, 0.4) else None,
            }
            for n in range(4)
        ]
        classes = {
            "class_ids": [name, "sealed"],
            "base_rate": number(rng, 5, 20),
            "factor": number(rng, 0.9, 1.1),
        }
        yield {"function": "class_of", "in": {"surface": surface, "towing": towing}}
        some = rng.dirichlet([1.0] * 3) * (1 + float(rng.choice([0.0, 9e-7, 2e-6])))
        given = {"surface": dict(zip(SURFACES, some.tolist(), strict=True)), "towing": towing}
        yield {"function": "mix_of", "in": given}
        yield {"function": "rate_guess", "in": {"class_id": name, "base_rate": number(rng, 5, 20)}}
        said = {one: number(rng, 5, 20) for one in ("sealed", "gravel", "sand") if rng.random() < 0.5}
        yield {"function": "own_rates", "in": {"surfaces": said, "towing": number(rng, 1, 2)}}
        yield {
            "function": "fuel_model",
            "in": {"tanks": tanks, **classes, "rates": {"sealed": number(rng, 5, 20)}},
        }
        yield {"function": "shut_offs", "in": {"tanks": tanks, "settings": settings(rng)}}
        yield {"function": "reserve_floors", "in": {"tanks": tanks, "reserve_l": number(rng, 0, 250)}}
        yield {"function": "drawn_tanks", "in": {"tanks": tanks}}
        yield {"function": "usual_reserve", "in": {"tanks": tanks}}
