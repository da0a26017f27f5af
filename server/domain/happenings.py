"""What happens to tanks along a way: litres used, put in and let out, and the rest of the load changed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from .errors import DomainError, Duplicate, Unknown, check_finite, check_range
from .linalg import finite
from .statics import Loads

NOTHING_L = 1e-9  # less than this is no litre too many


@dataclass(frozen=True, slots=True)
class Vessel:
    """A tank whose content changes. Tanks of one `holds` are drawn in their order, each until it is empty.

    `grey_fraction` of what is drawn from it goes to the tank `grey_id`. A tank that nothing is drawn from has a `holds`
    of its own. x counts as that of a part. `full_u_l` is the u of its shut-off where it is not that of what fills it.
    """

    id: str
    holds: str
    capacity_l: float
    litres_l: float
    x_m: float
    litres_u_l: float = 0.0
    density_kg_per_l: float = 1.0
    density_u_kg_per_l: float = 0.0
    x_u_m: float = 0.0
    on: str = "vehicle"
    drain_order: int = 99
    grey_id: str | None = None
    grey_fraction: float = 0.0
    full_u_l: float | None = None


@dataclass(frozen=True, slots=True)
class Way:
    """A distance on which litres are used, by what is held; `left_u_l` is the u of what is left at its end.

    Without `left_u_l` the litres used are exact.
    """

    distance_km: float
    used_l: Mapping[str, float]
    left_u_l: Mapping[str, float] = field(default_factory=dict)
    kind: str = "way"


@dataclass(frozen=True, slots=True)
class Take:
    """Litres taken on into the tanks of one content, those drawn last first, each until it is full (assumed).

    None fills all of them up, whatever was in them; `litres_u_l` is then the u of the shut-off of each tank that has
    none of its own.
    """

    holds: str
    litres_l: float | None = None
    litres_u_l: float = 0.0
    kind: str = "take"


@dataclass(frozen=True, slots=True)
class Empty:
    """A tank is emptied out: grey water let go."""

    tank_id: str
    kind: str = "empty"


@dataclass(frozen=True, slots=True)
class Rest:
    """From here on everything but the tanks weighs this: people or loads came or went."""

    loads: Loads
    kind: str = "rest"


Happening = Way | Take | Empty | Rest


def check_vessels(*, vessels: Sequence[Vessel]) -> None:
    """Refuse one id twice, a level beyond the capacity, a grey tank that is not there, figures out of range."""
    ids = [one.id for one in vessels]
    for one in vessels:
        if ids.count(one.id) > 1:
            raise Duplicate("id", one.id)
        check_range("capacity_l", one.capacity_l, above=0.0, unit="L")
        check_range("litres_l", one.litres_l, low=0.0, high=one.capacity_l + NOTHING_L, unit="L")
        check_range("density_kg_per_l", one.density_kg_per_l, above=0.0, unit="kg/L")
        check_finite("x_m", one.x_m)
        check_finite("drain_order", one.drain_order)
        for name in ("litres_u_l", "density_u_kg_per_l", "x_u_m"):
            check_range(name, getattr(one, name), low=0.0)
        check_range("full_u_l", one.full_u_l or 0.0, low=0.0, unit="L")
        check_range("grey_fraction", one.grey_fraction, low=0.0, high=1.0)
        if one.grey_id is not None and one.grey_id not in ids:
            raise Unknown("grey_id", one.grey_id, ids)


def check_happenings(*, vessels: Sequence[Vessel], events: Sequence[Happening], rows: Sequence[str]) -> None:
    """Refuse litres and distances below 0, a tank or content that is not there, loads of other rows."""
    ids, held = [one.id for one in vessels], {one.holds for one in vessels}
    for event in events:
        if isinstance(event, Way):
            check_range("distance_km", event.distance_km, low=0.0, unit="km")
            for name, given in (("used_l", event.used_l), ("left_u_l", event.left_u_l)):
                for holds, litres in given.items():
                    check_range(name, litres, low=0.0, unit="L")
                    if holds not in held:
                        raise Unknown("holds", holds, sorted(held))
        elif isinstance(event, Rest):
            if event.loads.rows != tuple(rows):
                raise DomainError("rows", list(event.loads.rows), "the rows of the way's beginning")
            finite("mean_kg", event.loads.mean_kg)
            finite("cov_kg2", event.loads.cov_kg2)
        elif isinstance(event, Take):
            if event.holds not in held:
                raise Unknown("holds", event.holds, sorted(held))
            check_range("litres_l", event.litres_l or 0.0, low=0.0, unit="L")
            check_range("litres_u_l", event.litres_u_l, low=0.0, unit="L")
        elif event.tank_id not in ids:
            raise Unknown("tank_id", event.tank_id, ids)
