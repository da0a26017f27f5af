"""Vectors of what a distance costs, by hand."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.logs import BY_HAND, SETUP, STEADY, called

Json = Any
IDS = ["f1", "f2", "f3", "f4", "f5"]


def functions(rng: np.random.Generator) -> list[Json]:
    log = called("fuel_log", "read_fuel_log", setup=SETUP, entries=STEADY)

    def paid(**prices: tuple[float, str]) -> Json:
        return {name: {"amount": amount, "currency": currency} for name, (amount, currency) in prices.items()}

    every = paid(f1=(99.0, "XTS"), f2=(100.0, "XTS"), f3=(50.0, "XTS"), f4=(60.0, "XTS"), f5=(90.0, "XTS"))
    whole = [{"currency": "XTS", "amount": 300.0, "distance_km": 1400.0, "per_100km": 300 / 14}]
    mixed = {**every, "f3": {"amount": 80.0, "currency": "XUA"}, "f5": {"amount": 40.0, "currency": "XUA"}}
    apart = [
        {"currency": "XTS", "amount": 100.0, "distance_km": 500.0, "per_100km": 20.0},
        {"currency": "XUA", "amount": 40.0, "distance_km": 420.0},
    ]
    fewer = {name: price for name, price in every.items() if name != "f3"}
    given = {"log": log, "fill_ids": IDS}
    return [
        function(
            "cost_per_distance",
            BY_HAND,
            case("all paid; the first full tank was burnt before", whole, **given, paid=every),
            case("a part fill without a price voids its segment", [{"amount": 190.0, "distance_km": 920.0}],
                 **given, paid=fewer),
            case("two currencies", apart, **given, paid=mixed),
            case("nothing paid", [], **given, paid={}),
            case("a fill that is not in the log", whole, log=log, fill_ids=[*IDS, "f9"], paid=every),
            refused("less than nothing", "OutOfRange", "amount", **given, paid=paid(f2=(-1.0, "XTS"))),
        )
    ]  # fmt: skip
