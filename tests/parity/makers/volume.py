from collections.abc import Iterator

from parity.pieces import Piece, Rng, number


def calls(rng: Rng) -> Iterator[Piece]:
    for _ in range(60):
        rho = number(rng, 653, 1075)
        yield {"function": "expansion", "in": {"density_15_kg_per_m3": rho}}
        yield {
            "function": "volume_factor",
            "in": {"temperature_c": number(rng, -40, 90), "density_15_kg_per_m3": rho},
        }
        warm = {"temperature_c": number(rng, -40, 90), "temperature_u_c": number(rng, 0, 50)}
        yield {"function": "fuel_factor", "in": {**warm, "density_15_kg_per_m3": rho}}
        yield {"function": "water_density", "in": {"temperature_c": number(rng, 0, 40)}}
