"""Vectors of a stretch: tanks put together, and several surfaces at once by the slow filter's matrix exponential."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.slow_filter import Slow
from vectors.slow_route import pooled
from vectors.tanks import CAMP, ROUND, TWO, VAN_LOAN, WATERING, bank, slow_bank

Json = Any
MIXED = {"sealed": 120.0, "gravel": 60.0, "sand": 45.5}


def functions(rng: np.random.Generator) -> list[Json]:
    two = slow_bank(TWO, ROUND)
    together = pooled(two)
    camp = pooled(slow_bank(CAMP, WATERING, (0.1, 0.4, 1.6)))
    given = whole(together)
    return [
        function(
            "one_tank",
            "J m and J P J' by numpy, J = (1 1 0 0 0) over the rates as they are",
            case("two tanks", given, rel=1e-8, bank=bank(TWO, two)),
            case(
                "shut-offs of their own: u 3 and 4 are 5 together",
                {"model": {"settings": {"full_u_l": 5.0}, "full_u_l": None}},
                bank=bank({**TWO, "full_u_l": [3.0, 4.0]}, two),
            ),
            case(
                "one tank", whole(camp), rel=1e-9, bank=bank(CAMP, slow_bank(CAMP, WATERING, (0.1, 0.4, 1.6)))
            ),
        ),
        function(
            "even_use",
            VAN_LOAN,
            _used("three surfaces at once", together, MIXED),
            _used("one surface", together, {"gravel": 310.0}),
            _used("a long way", together, {"sealed": 900.0, "sand": 900.0}),
            _used("person-days", camp, {"all": 6.5}),
            _used("nothing", together, {}),
            refused("an amount below 0", "OutOfRange", "amount", bank=given, way={"sand": -1.0}),
            refused("an unknown class", "Unknown", "class_id", bank=given, way={"mud": 1.0}),
            refused("two tanks", "DomainError", "tank_ids", bank=bank(TWO, two), way=MIXED),
        ),
    ]


def whole(slow: list[Slow]) -> Json:
    return bank(slow[0].model, slow)


def _used(name: str, slow: list[Slow], way: Json) -> Json:
    after = [Slow(one.model, one.kappa, one.mean, one.cov, one.log_likelihood, one.scale) for one in slow]
    for one in after:
        one.apply({"kind": "even", "way": way})
    return case(name, whole(after), rel=1e-8, abs=1e-8, bank=whole(slow), way=way)
