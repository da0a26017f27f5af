"""Fuel: what the filter assumes of it, its classes, and the rates that a log begins with.

Rates are stored per 100 *indicated* km; shown and typed ones are per 100 true km: indicated = true rate x k.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from .errors import OutOfRange, Unknown, check_finite, check_range
from .filter import Model, Settings
from .fullfull import FULL_U_L, PUMP_U

GAUGE_U = 0.05  # u of a gauge as a share of the capacity (assumed)
# u_common, u_class, walk, walk_class, ell and the kappas: assumed (simulated in tests/calibration)
FUEL = Settings(
    per=100.0,
    u_common=0.25,
    u_class=0.15,
    walk=0.05,
    walk_class=0.02,
    walk_ref=1000.0,
    ell=100.0,
    fill_u=PUMP_U,
    full_u_l=FULL_U_L,
    gauge_u=GAUGE_U,
)
FUEL_KAPPAS = (0.04, 0.07, 0.12, 0.20)
# u of a level as a share of the capacity, by how it was read (assumed)
DIP_U = {"gauge": GAUGE_U, "stick": 0.03, "tube": 0.03, "lamps": 0.10}
BASE_RATE = 12.0  # L/100 km of a loaded mid-size diesel on sealed roads: 10 to 13, from memory
SURFACES: Mapping[str, float] = {"sealed": 1.0, "gravel": 1.15, "sand": 1.6}  # times the base rate (assumed)
SHARES_TO = 1e-6  # shares of a way whose sum is as near to 1 as this are as typed (assumed)
TOWING = 1.4  # times the rate of the same surface alone (assumed)
WITH_TRAILER = "+trailer"
RESERVE_L, RESERVE_SHARE = 8.0, 0.10  # the greater of the two (common practice, no source)


@dataclass(frozen=True, slots=True)
class TankSpec:
    """A tank of a log: what fits from empty to the shut-off, and its turn when the draw goes on.

    What is not `drawn` (a can, an emergency store) is counted apart: nothing is used from it. `full_u_l` is the u of
    its shut-off, `gauge_u` that of its gauge as a share of the capacity, where they are not the usual ones.
    """

    id: str
    capacity_l: float
    drain_order: int = 99
    drawn: bool = True
    full_u_l: float | None = None
    gauge_u: float | None = None


def class_of(*, surface: str, towing: bool = False) -> str:
    """Name of a class: a surface, alone or with a trailer; an unknown surface is refused."""
    if surface not in SURFACES:
        raise Unknown("surface", surface, list(SURFACES))
    return surface + WITH_TRAILER if towing else surface


def mix_of(*, surface: Mapping[str, float], towing: bool = False) -> Mapping[str, float]:
    """The classes of a way with their shares of it, which then add up to 1; a surface without any is left out.

    `surface`: shares from 0 to 1 whose sum is 1 to 1e-6, else refused, as is a surface that is not known.
    """
    for name, share in surface.items():
        if name not in SURFACES:
            raise Unknown("surface", name, list(SURFACES))
        check_range("surface", share, low=0.0, high=1.0)
    total = sum(surface.values())
    if abs(total - 1.0) > SHARES_TO:
        raise OutOfRange("surface", total, 1.0, 1.0)
    return {
        class_of(surface=name, towing=towing): share / total for name, share in surface.items() if share > 0
    }


def rate_guess(*, class_id: str, base_rate: float = BASE_RATE) -> float:
    """Prior rate of a class, L per 100 true km: base > 0 times the surface's and the trailer's multiplier."""
    check_range("base_rate", base_rate, above=0.0, unit="L/100 km")
    surface = class_id.removesuffix(WITH_TRAILER)
    if surface not in SURFACES:
        raise Unknown("class_id", class_id, list(SURFACES))
    return base_rate * SURFACES[surface] * (TOWING if class_id.endswith(WITH_TRAILER) else 1.0)


def own_rates(*, surfaces: Mapping[str, float], towing: float | None = None) -> Mapping[str, float]:
    """Prior rates that replace those of `rate_guess`, L per 100 true km by class, from what a user says of some.

    `surfaces`: L/100 km alone, by surface; a surface of which nothing is said stands in its usual proportion to
    the sealed road. `towing` >= 1: times the same surface alone; without it 1.4. Nothing said: nothing replaced.
    """
    for surface, rate in surfaces.items():
        if surface not in SURFACES:
            raise Unknown("surface", surface, list(SURFACES))
        check_range("surfaces", rate, above=0.0, unit="L/100 km")
    if towing is not None:
        check_range("towing", towing, low=1.0)
    base = surfaces.get("sealed", BASE_RATE)
    alone = {name: surfaces.get(name, base * share) for name, share in SURFACES.items()}
    ratio = TOWING if towing is None else towing
    both = {**alone, **{name + WITH_TRAILER: ratio * rate for name, rate in alone.items()}}
    return both if surfaces or towing is not None else {}


def fuel_model(
    *,
    tanks: Sequence[TankSpec],
    class_ids: Sequence[str],
    base_rate: float = BASE_RATE,
    rates: Mapping[str, float] | None = None,
    factor: float = 1.0,
    settings: Settings = FUEL,
) -> Model:
    """The filter's model of a vehicle: its drawn tanks in their turn, its classes in a fixed order.

    `rates` are the user's own guesses per 100 true km and replace those of `rate_guess`; `factor` is
    k = true / indicated km, > 0.
    """
    check_range("factor", factor, above=0.0)
    drawn = drawn_tanks(tanks=tanks)
    ordered = tuple(name for name in all_classes() if name in set(class_ids))
    for name in class_ids:
        if name not in ordered:
            raise Unknown("class_id", name, all_classes())
    own = rates or {}
    rate0 = tuple(
        factor
        * check_range(
            "rates",
            own[name] if name in own else rate_guess(class_id=name, base_rate=base_rate),
            above=0.0,
            unit="L/100 km",
        )
        for name in ordered
    )
    return Model(
        tuple(tank.id for tank in drawn),
        tuple(tank.capacity_l for tank in drawn),
        ordered,
        rate0,
        settings,
        shut_offs(tanks=drawn, settings=settings),
    )


def drawn_tanks(*, tanks: Sequence[TankSpec]) -> tuple[TankSpec, ...]:
    """The tanks that are drawn from, in their turn; equal turns in the order given. Capacities > 0 L, u >= 0."""
    for tank in tanks:
        check_range("capacity_l", tank.capacity_l, above=0.0, unit="L")
        check_range("full_u_l", tank.full_u_l or 0.0, low=0.0, unit="L")
        check_finite("drain_order", tank.drain_order)
    return tuple(sorted((tank for tank in tanks if tank.drawn), key=lambda tank: tank.drain_order))


def shut_offs(*, tanks: Sequence[TankSpec], settings: Settings) -> tuple[float, ...]:
    """u of each tank's shut-off, L: its own, or the usual one of the settings."""
    return tuple(settings.full_u_l if tank.full_u_l is None else tank.full_u_l for tank in tanks)


def reserve_floors(*, tanks: Sequence[TankSpec], reserve_l: float) -> Mapping[str, float]:
    """Litres of a reserve >= 0 that stand in each drawn tank: the last litres are in those that are drawn last."""
    left = check_range("reserve_l", reserve_l, low=0.0, unit="L")
    floors: dict[str, float] = {}
    for tank in reversed(drawn_tanks(tanks=tanks)):
        floors[tank.id] = min(left, tank.capacity_l)
        left -= floors[tank.id]
    return floors


def all_classes() -> tuple[str, ...]:
    """Every class there can be: the surfaces alone, then with a trailer."""
    return (*SURFACES, *(surface + WITH_TRAILER for surface in SURFACES))


def usual_reserve(*, tanks: Sequence[TankSpec]) -> float:
    """Litres not to be counted on: 8 L or 10 % of the drawn tanks, the greater (common practice, no source)."""
    return max(RESERVE_L, RESERVE_SHARE * sum(tank.capacity_l for tank in drawn_tanks(tanks=tanks)))
