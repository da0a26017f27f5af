"""Models, logs and answers of the slow filter that the makers of events, filter, bank, remain, ... share."""

from typing import Any

from vectors.slow_filter import Slow, run

Json = Any
VAN_LOAN = "tests/vectors/slow_filter.py: matrix exponential, information form, scipy"
EXAMPLE_E = "the worked example of the project's own specification (one class, 80 L, 10 L/100 km)"

FUEL = {
    "per": 100.0,
    "u_common": 0.25,
    "u_class": 0.15,
    "walk": 0.05,
    "walk_class": 0.02,
    "walk_ref": 1000.0,
    "ell": 100.0,
    "fill_u": 0.005 / 3**0.5,
    "full_u_l": 1.0,
    "gauge_u": 0.05,
}
WATER = {**FUEL, "per": 1.0, "u_common": 0.5, "u_class": 0.0, "walk_class": 0.0, "walk_ref": 20.0, "ell": 1.0,
         "fill_u": 0.02}  # fmt: skip
KAPPAS = (0.04, 0.07, 0.12, 0.2)

ONE: Json = {
    "tank_ids": ["main"],
    "capacity_l": [80.0],
    "class_ids": ["sealed"],
    "rate0": [10.0],
    "settings": FUEL,
}
TWO: Json = {
    "tank_ids": ["main", "sub"],
    "capacity_l": [80.0, 65.0],
    "class_ids": ["sealed", "gravel", "sand"],
    "rate0": [12.0, 13.8, 19.2],
    "settings": FUEL,
}
CAMP: Json = {
    "tank_ids": ["fresh"],
    "capacity_l": [90.0],
    "class_ids": ["all"],
    "rate0": [6.0],
    "settings": WATER,
}


def use(amount: float, class_id: str = "sealed", shares: list[float] | None = None) -> Json:
    return {"kind": "use", "amount": amount, "class_id": class_id, **({"shares": shares} if shares else {})}


def fill(litres: float, tank: str = "main", u: float | None = None) -> Json:
    return {"kind": "fill", "tank_id": tank, "litres_l": litres, "litres_u_l": u}


def full(*tanks: str) -> Json:
    return {"kind": "full", "tank_ids": list(tanks or ("main",))}


def gauge(fraction: float, tank: str = "main", u: float | None = None) -> Json:
    return {"kind": "gauge", "tank_id": tank, "fraction": fraction, "fraction_u": u}


EXAMPLE: list[Json] = [
    {"kind": "start", "tank_id": "main", "litres_l": 80.0, "litres_u_l": 1.0},
    use(500.0),
    fill(54.0),
    full(),
]
ROUND: list[Json] = [
    fill(40.0),
    full("main"),
    fill(30.0, "sub", 0.5),
    full("sub"),
    use(210.0, "sealed", [1.0, 0.0]),
    gauge(0.7),
    use(120.0, "gravel", [0.4, 0.6]),
    {"kind": "transfer", "tank_id": "sub", "into_id": "main", "litres_l": 12.0, "litres_u_l": 0.4},
    use(60.0, "sand", [0.0, 1.0]),
    {"kind": "level", "tank_id": "sub", "litres_l": 34.0, "litres_u_l": 2.0},
    {"kind": "missed", "tank_id": "main"},
    gauge(0.5, "main", 0.1),
    {"kind": "change", "rate_u": 0.15},
    {"kind": "rescale", "ratio": 1.05},
    use(180.0, "sealed", [0.5, 0.5]),
    fill(52.0),
    fill(42.0, "sub"),
    full("main", "sub"),
    {"kind": "pour", "tank_id": "sub", "into_id": "main"},
    {"kind": "transfer", "tank_id": "main", "into_id": None, "litres_l": 3.0, "litres_u_l": 0.0},
]
WATERING: list[Json] = [
    full("fresh"),
    use(6.0, "all"),
    gauge(0.6, "fresh"),
    use(4.5, "all"),
    fill(60.0, "fresh"),
    full("fresh"),
    use(3.0, "all"),
    gauge(0.8, "fresh"),
]


def estimate(slow: Slow) -> Json:
    """A slow filter's numbers in the shape of an `Estimate`."""
    return {
        "mean": slow.mean.tolist(),
        "cov": ((slow.cov + slow.cov.T) / 2).tolist(),
        "log_likelihood": float(slow.log_likelihood),
        "scale": slow.scale,
    }


def slow_bank(model: Json, events: list[Json], kappas: tuple[float, ...] = KAPPAS) -> list[Slow]:
    return [run(model, kappa, events) for kappa in kappas]


def bank(model: Json, slow: list[Slow]) -> Json:
    """The same as a `Bank`."""
    return {
        "model": model,
        "kappas": [one.kappa for one in slow],
        "estimates": [estimate(one) for one in slow],
    }
