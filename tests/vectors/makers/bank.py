"""Vectors of the bank."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.slow_filter import Slow, weights
from vectors.tanks import EXAMPLE, EXAMPLE_E, KAPPAS, ONE, ROUND, TWO, VAN_LOAN, bank, full, slow_bank

Json = Any


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    done, halfway = slow_bank(ONE, EXAMPLE), slow_bank(TWO, ROUND[:9])
    before, level = slow_bank(ONE, EXAMPLE[:3]), slow_bank(TWO, ROUND[:10])
    return [
        function(
            "bank_prior",
            VAN_LOAN,
            case(
                "four kappas",
                bank(ONE, [Slow(ONE, kappa) for kappa in KAPPAS]),
                model=ONE,
                kappas=list(KAPPAS),
            ),
            refused("no kappa", "NotKnown", "kappas", model=ONE, kappas=[]),
            refused("a kappa below 0", "OutOfRange", "kappa", model=ONE, kappas=[0.1, -0.1]),
        ),
        function(
            "bank_advance",
            VAN_LOAN,
            case("full", bank(ONE, done), rel=1e-8, abs=1e-8, bank=bank(ONE, before), event=full()),
            case("level", bank(TWO, level), rel=1e-8, abs=1e-8, bank=bank(TWO, halfway), event=ROUND[9]),
        ),
        function(
            "bank_weights",
            EXAMPLE_E,
            case(
                "example", [0.253525, 0.252636, 0.250125, 0.243714], rel=0.0, abs=5.1e-7, bank=bank(ONE, done)
            ),
        ),
        function("bank_weights", VAN_LOAN, case("two tanks", weights(level).tolist(), bank=bank(TWO, level))),
        function(
            "mixture",
            "by hand: mean 0.75 x 2 + 0.25 x 6 = 3; variance 0.75 (1 + 1) + 0.25 (4 + 9) = 4.75",
            case(
                "two",
                {"mean": 3.0, "u": 4.75**0.5},
                means=[2.0, 6.0],
                variances=[1.0, 4.0],
                weights=[0.75, 0.25],
            ),
        ),
        function("bank_innovation", VAN_LOAN, _innovation()),
        function("bank_state", VAN_LOAN, case("two tanks", _state(level), rel=1e-8, bank=bank(TWO, level))),
        function("bank_total", VAN_LOAN, case("two tanks", _total(level), rel=1e-8, bank=bank(TWO, level))),
    ]


def mixed(shares: Any, means: Any, variances: Any) -> Json:
    """Mean and u of a mixture by moments about 0, in long doubles."""
    w, m, v = (np.array(one, dtype=np.longdouble) for one in (shares, means, variances))
    mean = (w * m).sum()
    return {"mean": float(mean), "u": float(((w * (v + m**2)).sum() - mean**2) ** 0.5)}


def _innovation() -> dict[str, Any]:
    slow = slow_bank(TWO, ROUND[:9])
    seen = [one.innovation(ROUND[9]) for one in slow]
    out = mixed(weights(slow), [nu for nu, _ in seen], [s for _, s in seen])
    found = {"nu_l": out["mean"], "s_l2": out["u"] ** 2, "z": out["mean"] / out["u"]}
    return case("level", found, rel=1e-8, bank=bank(TWO, slow), event=ROUND[9])


def _state(slow: list[Slow]) -> Json:
    return [
        mixed(weights(slow), [one.mean[k] for one in slow], [one.cov[k, k] for one in slow])
        for k in range(slow[0].mean.size)
    ]


def _total(slow: list[Slow]) -> Json:
    return mixed(weights(slow), [one.mean[:2].sum() for one in slow], [one.cov[:2, :2].sum() for one in slow])
