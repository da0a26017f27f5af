"""How far a km of the odometer is: measured against road posts or a recorded track."""

from math import sqrt

from .errors import Unknown, check_range
from .fullfull import STEP_KM
from .tyres import Factor

# u of a true distance: of two road posts passed, km; of a recorded track, a share of it (both assumed: a track cuts
# the corners of a winding road and reads short, from memory)
POSTS_U_KM = 0.05
TRACK_U = 0.01
HOW = ("posts", "track")


def measured_factor(
    *,
    indicated_km: float,
    true_km: float,
    how: str = "posts",
    true_u_km: float | None = None,
    step_km: float = STEP_KM,
) -> Factor:
    """True km per km on the odometer: k = true / indicated.

    (u_k/k)^2 = (u_true/true)^2 + 2 step^2/12 / indicated^2: the true distance, and the odometer read twice in steps.
    A blank u of the true distance is that of how it was known. Distances above 0, k from 0.5 to 2, else refused; below
    100 km the steps rule (common practice: measure over 100 km or more).
    """
    check_range("indicated_km", indicated_km, above=0.0, unit="km")
    check_range("true_km", true_km, above=0.0, unit="km")
    check_range("step_km", step_km, low=0.0, unit="km")
    if how not in HOW:
        raise Unknown("how", how, HOW)
    usual = POSTS_U_KM if how == "posts" else TRACK_U * true_km
    true_u = usual if true_u_km is None else check_range("true_u_km", true_u_km, low=0.0, unit="km")
    factor = check_range("factor", true_km / indicated_km, low=0.5, high=2.0)
    return Factor(factor, factor * sqrt((true_u / true_km) ** 2 + step_km**2 / 6 / indicated_km**2))
