"""Random plans in a random state: heights, tracks and rear groups now known, now not."""

from typing import Any

from parity.pieces import Rng, chance, number
from parity.weighed_books import warmth

from server.domain.book import Row, open_book
from tests.vectors.decode import plain

Json = Any


def given(rng: Rng, *, heights: float = 0.9) -> Json:
    """A book, opened, and a state; `heights` is the share of records that say how high they are."""
    tanks = [f"t{n}" for n in range(int(rng.integers(0, 5)))]
    items = [f"i{n}" for n in range(int(rng.integers(0, 6)))]
    rows = [
        Row("v", "vehicle", "v-1", _vehicle(rng, heights)),
        Row("p", "plate", "p-1", _plate(rng), 1),
        *(Row(id, "tank", f"{id}-1", _tank(rng, n, heights), n) for n, id in enumerate(tanks)),
        *(Row(id, "item", f"{id}-1", _item(rng, heights), n) for n, id in enumerate(items)),
        Row(
            "s",
            "seat",
            "s-1",
            {"name": "Left", "x_m": 1.4, "y_m": -0.4, "z_m": _known(rng, heights, 0.5, 1)},
            1,
        ),
    ]
    levels = [
        {"tank_id": id, "level": number(rng, 0, 1), "level_u": number(rng, 0, 0.1), "known_from": "dip"}
        for id in tanks
    ]
    seat = {"seat_id": "s", "mass_kg": number(rng, 50, 110), "mass_u_kg": 3.0, "person_id": None}
    state = {
        "tanks": levels,
        "seats": [seat] if chance(rng, 0.7) else [],
        "items_away": [id for id in items if chance(rng, 0.2)],
        "trailers_on": [],
    }
    state |= warmth(rng)
    return {"book": plain(open_book(rows=rows)), "state": state}


def _known(rng: Rng, share: float, low: float, high: float) -> float | None:
    return number(rng, low, high) if chance(rng, share) else None


def _vehicle(rng: Rng, heights: float) -> Json:
    out = {
        "name": "V",
        "wheelbase_m": number(rng, 2.4, 4),
        "base_front_kg": number(rng, 1000, 1400),
        "base_rear_kg": number(rng, 800, 1200),
        "base_known_by": str(rng.choice(["weighed", "data_sheet"])),
        "base_fuel_l": _known(rng, 0.4, 5, 40),
        "base_driver_kg": _known(rng, 0.3, 60, 90),
        "base_correlation": _known(rng, 0.3, -0.5, 0.8),
        "forgotten_share": _known(rng, 0.4, 0, 0.2),
        "cg_height_m": _known(rng, heights, 0.5, 0.9),
        "cg_height_u_m": _known(rng, 0.5, 0.01, 0.1),
        "track_front_m": _known(rng, 0.8, 1.4, 1.8),
        "track_rear_m": _known(rng, 0.8, 1.4, 1.8),
        "fuel_kind": str(rng.choice(["diesel", "petrol"])),
        "fuel_temperature_c": _known(rng, 0.3, 0, 40),
        "fuel_temperature_u_c": _known(rng, 0.3, 0, 15),
        "frame": str(rng.choice(["flexible", "rigid"])),
        "front_roll_share": _known(rng, 0.5, 0, 1),
    }
    if chance(rng, 0.5):
        kind = str(rng.choice(["load_sharing_pair", "independent_pair"]))
        out |= {"rear_axles": kind, "rear_spread_m": number(rng, 0.8, 1.5)}
        out |= {"rear_share": _known(rng, 0.5, 0.3, 0.7), "stiffness_rear_2": _known(rng, 0.5, 0.5, 2)}
    return out


def _plate(rng: Rng) -> Json:
    return {
        "of": "vehicle",
        "gross_kg": number(rng, 2300, 3200),
        "front_axle_kg": _known(rng, 0.8, 1200, 1600),
        "rear_axle_kg": _known(rng, 0.8, 1200, 1800),
        "roof_kg": 75.0,
    }


def _tank(rng: Rng, n: int, heights: float) -> Json:
    return {
        "name": f"Tank {n}",
        "holds": str(rng.choice(["fuel", "water", "grey", "gas", "stores"])),
        "capacity_l": number(rng, 10, 150),
        "x_m": number(rng, -0.5, 5),
        "y_m": _known(rng, 0.5, -0.8, 0.8),
        "z_bottom_m": _known(rng, heights, 0.2, 1.5),
        "height_m": _known(rng, heights, 0.1, 0.8),
        "unusable_l": _known(rng, 0.3, 1, 5),
        "empty_mass_kg": _known(rng, 0.2, 1, 6),
        "position_by": str(rng.choice(["measured", "described"])),
    }


def _item(rng: Rng, heights: float) -> Json:
    return {
        "name": "Item",
        "nature": "load",
        "mass_kg": number(rng, 0, 90),
        "x_m": number(rng, -1, 5),
        "y_m": _known(rng, 0.5, -0.9, 0.9),
        "z_m": _known(rng, heights, 0.2, 2),
        "roof": chance(rng, 0.1),
        "taken_off": chance(rng, 0.1),
        "stage": str(rng.choice(["fitted", "fitted", "on_order", "removed"])),
    }
