"""A stretch of road run through the bank as a whole: all tanks as one, and surfaces evenly mixed.

Only the total counts for how far it goes; which tank it comes out of is `along`'s matter.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import hypot

import numpy as np

from .bank import Bank
from .errors import DomainError, check_range
from .filter import Estimate, Model, class_index, shut_off_u
from .linalg import tuples

TOGETHER = "together"  # the one tank that stands for all of them


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of the way: its length on the map, and the amounts of each class on it.

    Amounts are true km for fuel and person-days for water. A stretch of 0 km is a stay. `points` is how many
    points of a picture it is worth.
    """

    distance_km: float
    way: Mapping[str, float]
    points: int = 1


def one_tank(*, bank: Bank) -> Bank:
    """The same bank with all tanks as one, which holds their sum; its shut-off errs as theirs do together.

    The total has the mean and the covariance that it had: with J = (1..1 over the tanks; the rates as they
    are), mean J m and covariance J P J'.
    """
    model = bank.model
    tanks = len(model.tank_ids)
    settings = replace(model.settings, full_u_l=hypot(*shut_off_u(model=model)))
    whole = Model((TOGETHER,), (sum(model.capacity_l),), model.class_ids, model.rate0, settings)
    j = np.zeros((1 + len(model.class_ids), tanks + len(model.class_ids)))
    j[0, :tanks] = 1.0
    j[1:, tanks:] = np.eye(len(model.class_ids))
    return Bank(
        whole,
        bank.kappas,
        tuple(
            replace(one, mean=tuples(j @ np.array(one.mean)), cov=tuples(j @ np.array(one.cov) @ j.T))
            for one in bank.estimates
        ),
    )


def even_use(*, bank: Bank, way: Mapping[str, float]) -> Bank:
    """The bank of one tank after a way whose classes are evenly mixed; amounts as the odometer counts them, >= 0.

    With D_i the amount in class i, D their sum, s_i = D_i/D and b0 the prior rates:
    V -= sum b_i D_i/per; G = (walk^2 b0 b0' + diag(s_i walk_class^2 b0_i^2))/walk_ref, q = sum s_i q_i;
    Q_bb = G D, Q_Vb = -G s D^2/(2 per), Q_VV = s'G s D^3/(3 per^2) + q D: the exact noise of rates in Brownian
    motion (Van Loan 1978, from memory). One class: the filter's `use`. A way cut in two anywhere: the same way.
    Refused: more than one tank, an amount below 0, an unknown class.
    """
    if len(bank.model.tank_ids) != 1:
        raise DomainError("tank_ids", list(bank.model.tank_ids), "one tank")
    parts = np.zeros(len(bank.model.class_ids))
    for class_id, amount in way.items():
        parts[class_index(bank.model, class_id) - 1] += check_range("amount", amount, low=0.0)
    return replace(
        bank,
        estimates=tuple(
            _evenly(bank.model, kappa, one, parts)
            for kappa, one in zip(bank.kappas, bank.estimates, strict=True)
        ),
    )


def _evenly(model: Model, kappa: float, one: Estimate, parts: "np.ndarray") -> Estimate:
    s, total, size = model.settings, float(parts.sum()), len(parts)
    rate0 = one.scale * np.array(model.rate0)
    step = np.eye(1 + size)
    step[0, 1:] = -parts / s.per
    common = s.walk**2 * np.outer(rate0, rate0) / s.walk_ref
    own = (s.walk_class * rate0) ** 2 / s.walk_ref
    cov = step @ np.array(one.cov) @ step.T
    cov[1:, 1:] += common * total + np.diag(own * parts)
    across = (common @ parts * total + own * parts**2) / (2 * s.per)
    cov[0, 1:] -= across
    cov[1:, 0] -= across
    drift = (parts @ common @ parts * total + own @ parts**3) / (3 * s.per**2)
    cov[0, 0] += drift + ((kappa * rate0 / s.per) ** 2 * s.ell) @ parts
    return replace(one, mean=tuples(step @ np.array(one.mean)), cov=tuples((cov + cov.T) / 2))
