"""Vectors of what remains: the worked example, the formula term by term, ranges by Brent's method."""

from typing import Any

import numpy as np
from scipy.optimize import brentq
from scipy.stats import norm
from vectors.frame import case, function, refused
from vectors.slow_filter import Slow, left, range_at, reach, run
from vectors.tanks import (
    CAMP,
    EXAMPLE,
    EXAMPLE_E,
    ONE,
    ROUND,
    TWO,
    VAN_LOAN,
    WATERING,
    bank,
    estimate,
    slow_bank,
)

Json = Any
COUNTING = {"factor": 1.0, "factor_u": 0.01, "reserve_l": 8.0}
LONG = {"factor": 1.034, "factor_u": 0.005, "reserve_l": 12.0}
SEALED, MIXED = {"sealed": 1.0}, {"sealed": 0.5, "gravel": 0.3, "sand": 0.2}


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    two = slow_bank(TWO, ROUND)
    return [
        *_checks(),
        function(
            "left_after", EXAMPLE_E, _left(ONE, 0.1, EXAMPLE, [47.68793, 8.422615], 300.0, SEALED, COUNTING)
        ),
        function(
            "left_after",
            VAN_LOAN,
            *(_left_slow(two[1], amount, MIXED, LONG) for amount in (0.0, 1.0, 240.0, 900.0)),
            *_left_refused(),
        ),
        *_example(),
        function("reach", VAN_LOAN, *(_reach(two, amount) for amount in (0.0, 300.0, 500.0, 700.0, 1100.0))),
        function("range_at", VAN_LOAN, *(_range(two, p) for p in (0.3, 0.5, 0.9, 0.95, 0.999)), *_ranges()),
        *_levels(),
    ]


def _levels() -> list[Json]:
    parts, weights = [(40.0, 25.0), (36.0, 64.0), (30.0, 0.0)], [0.5, 0.3, 0.2]

    def chance(litres: float) -> float:
        return 0.5 * norm.cdf((40 - litres) / 5) + 0.3 * norm.cdf((36 - litres) / 8) + 0.2 * (litres <= 30)

    given = {"parts": parts, "weights": weights}
    return [
        function(
            "untouched",
            "scipy's normal distribution",
            *(case(f"{litres} L", chance(litres), reserve_l=litres, **given) for litres in (0.0, 30.0, 41.0)),
        ),
        function(
            "litres_at",
            "scipy's normal distribution and Brent's method",
            *(
                case(
                    f"p {p}",
                    brentq(lambda x, p=p: chance(x) - p, low, high, xtol=1e-12),
                    abs=2e-9,
                    p=p,
                    **given,
                )
                for p, low, high in ((0.5, 30.1, 60.0), (0.95, 0.0, 29.9), (0.99, 0.0, 29.9))
            ),
            case("all at one level", 30.0, abs=2e-9, p=0.5, parts=parts[2:], weights=[1.0]),
            refused("p 0", "OutOfRange", "p", p=0.0, **given),
            refused("p 1", "OutOfRange", "p", p=1.0, **given),
        ),
    ]


def _checks() -> list[Json]:
    source = "the list of refusals of the specification (section I)"
    return [
        function(
            "check_mix",
            source,
            case("three surfaces", mix=MIXED),
            refused("sum 0.9", "OutOfRange", "mix", mix={"sealed": 0.9}),
            refused("one below 0", "OutOfRange", "mix", mix={"sealed": 1.1, "sand": -0.1}),
        ),
        function(
            "check_counting",
            source,
            case("nothing given", counting={}),
            refused("factor 0", "OutOfRange", "factor", counting={"factor": 0.0}),
            refused("u below 0", "OutOfRange", "factor_u", counting={"factor_u": -0.1}),
            refused("reserve below 0", "OutOfRange", "reserve_l", counting={"reserve_l": -1.0}),
        ),
    ]


def _left_refused() -> list[Json]:
    given = {"model": ONE, "kappa": 0.1, "estimate": estimate(run(ONE, 0.1, EXAMPLE))}
    return [
        refused("amount below 0", "OutOfRange", "amount", mix=SEALED, amount=-1.0, **given),
        refused("unknown surface", "Unknown", "class_id", mix={"mud": 1.0}, amount=1.0, **given),
    ]


def _example() -> list[Json]:
    one = {"bank": bank(ONE, slow_bank(ONE, EXAMPLE, (0.1,))), "mix": SEALED, "counting": COUNTING}
    four = {**one, "bank": bank(ONE, slow_bank(ONE, EXAMPLE))}
    return [
        function(
            "reach",
            EXAMPLE_E,
            case("one kappa", 0.935800, rel=0.0, abs=5.1e-7, amount=600.0, **one),
            case("four kappas", 0.924611, rel=0.0, abs=5.1e-7, amount=600.0, **four),
        ),
        function(
            "range_at",
            EXAMPLE_E,
            case("one kappa", 594.928, rel=0.0, abs=5.1e-4, p=0.95, **one),
            case("four kappas", 589.013, rel=0.0, abs=5.1e-4, p=0.95, **four),
        ),
    ]


def _reach(slow: list[Slow], amount: float) -> Json:
    out, given = reach(slow, MIXED, amount, LONG), {"mix": MIXED, "counting": LONG}
    return case(f"{amount} km", out, rel=1e-8, bank=bank(TWO, slow), amount=amount, **given)


def _range(slow: list[Slow], p: float) -> Json:
    out, given = range_at(slow, MIXED, p, LONG), {"mix": MIXED, "counting": LONG}
    return case(f"p {p}", out, rel=0.0, abs=1e-5, bank=bank(TWO, slow), p=p, **given)


def _ranges() -> list[Json]:
    camp, mix, counting = (
        slow_bank(CAMP, WATERING, (0.1, 0.2, 0.4, 0.8, 1.6)),
        {"all": 1.0},
        {"reserve_l": 10.0},
    )
    water = {"bank": bank(CAMP, camp), "mix": mix, "counting": counting}
    start = {"kind": "start", "tank_id": "main", "litres_l": 5.0, "litres_u_l": 1.0}
    empty = {"bank": bank(ONE, [run(ONE, 0.1, [start])]), "mix": SEALED, "counting": COUNTING}
    return [
        case("water", range_at(camp, mix, 0.95, counting), rel=0.0, abs=1e-6, p=0.95, **water),
        case("less than the reserve", 0.0, p=0.95, **empty),
        refused("p 0", "OutOfRange", "p", p=0.0, **empty),
        refused("p 1", "OutOfRange", "p", p=1.0, **empty),
    ]


def _left(
    model: Json, kappa: float, events: list[Json], out: Json, amount: float, mix: Json, counting: Json
) -> Json:
    slow = run(model, kappa, events)
    return case(
        "example",
        out,
        rel=1e-7,
        model=model,
        kappa=kappa,
        estimate=estimate(slow),
        mix=mix,
        amount=amount,
        counting=counting,
    )


def _left_slow(slow: Slow, amount: float, mix: Json, counting: Json) -> Json:
    out = [float(one) for one in left(slow, mix, amount, counting["factor"], counting["factor_u"])]
    return case(
        f"{amount} km",
        out,
        rel=1e-8,
        model=TWO,
        kappa=slow.kappa,
        estimate=estimate(slow),
        mix=mix,
        amount=amount,
        counting=counting,
    )
