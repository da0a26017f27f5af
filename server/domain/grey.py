"""Grey water: what the people's use has run into its tank since it was last emptied or read."""

from math import sqrt

from .bank import Value, bank_state, bank_weights
from .errors import check_range
from .water import person_days
from .water_log import WaterLog

GREY_FRACTION = 0.8  # of the water used, where a record names a grey tank and no share (assumed)


def grey_filled(*, log: WaterLog, from_s: float, until_s: float, fraction: float) -> Value:
    """Litres that ran into a grey tank between two instants: fraction x rate x person-days, with u.

    u^2 = fraction^2 [(n u_rate)^2 + n ell sum_j w_j (kappa_j b0)^2]: the rate's own, and the unsteadiness of n
    person-days (maths E.2, without the small drift). fraction from 0 to 1; an end before its beginning is refused.
    """
    check_range("fraction", fraction, low=0.0, high=1.0)
    amount = person_days(presences=log.setup.presences, from_s=from_s, until_s=until_s)
    bank = log.journal.state.main.bank
    rate, settings = bank_state(bank=bank)[-1], log.model.settings
    weighted = zip(bank_weights(bank=bank), bank.kappas, strict=True)
    unsteady = sum(weight * (kappa * log.model.rate0[0]) ** 2 for weight, kappa in weighted)
    variance = (amount * rate.u) ** 2 + amount * settings.ell * unsteady
    return Value(fraction * amount * rate.mean, fraction * sqrt(variance))
