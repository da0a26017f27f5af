"""The sheet in the domain's own terms: what the product would be told of the vehicle and of a visit."""

from collections.abc import Sequence

from server.domain.axles import Geometry
from server.domain.bridge import Bridge
from server.domain.reconcile import Session
from server.domain.statics import Part, base_parts, tank_content
from server.domain.weighing import Reading, SplitSetup, reading_covariance
from tests.calibration.sheet import BASE, CG_HEIGHT_M, ITEMS, TANKS, WHEELBASE_M, Day, Stated
from tests.calibration.world import Loads, Scale

GEOMETRY = Geometry(WHEELBASE_M)
ROWS = ("front", "rear", "gross")
AXLES = {"front": ("front",), "rear": ("rear",), "total": ("front", "rear")}
ALL_THREE = ("front", "rear", "total")


def _part(stated: Stated) -> Part:
    return Part(stated.name, stated.mass_kg, stated.mass_u_kg, stated.x_m, stated.x_u_m)


_FRONT, _REAR = BASE
LASTING = (
    *base_parts(
        geometry=GEOMETRY,
        front_kg=_FRONT.mass_kg,
        front_u_kg=_FRONT.mass_u_kg,
        rear_kg=_REAR.mass_kg,
        rear_u_kg=_REAR.mass_u_kg,
    ),
    *(_part(one) for one in ITEMS),
)
PLANNED_KG = sum(part.mass_kg for part in LASTING)


def contents(day: Day) -> tuple[Part, ...]:
    """Tanks and people of a day as parts."""
    held = [
        tank_content(
            id=one.name,
            density_kg_per_l=one.density_kg_per_l,
            density_u_kg_per_l=one.density_u_kg_per_l,
            capacity_l=one.capacity_l,
            capacity_u_l=one.capacity_u_l,
            level=day.levels[one.name].level,
            level_u=day.levels[one.name].u,
            x_m=one.x_m,
        )
        for one in TANKS
    ]
    return (*held, *(_part(one) for one in day.people))


def bridge(scale: Scale) -> Bridge:
    """What the visitor knows of the scale."""
    e = scale.interval_kg
    return Bridge("one", e, e, "III", scale.max_kg, scale.percent)


def readings(scale: Scale, sets: Sequence[str], loads: Loads, cg_height_m: float) -> tuple[Reading, ...]:
    """One visit: the figures that the scale shows, as they are typed in."""
    scale.new_visit()
    return tuple(
        Reading(name, AXLES[name], scale.figure(AXLES[name], loads, cg_height_m), name != "total")
        for name in sets
    )


def setup(passing: Sequence[Part]) -> SplitSetup:
    """What a split reading needs to know of the vehicle: planned mass and stated height."""
    return SplitSetup(PLANNED_KG + sum(one.mass_kg for one in passing), WHEELBASE_M, CG_HEIGHT_M)


def session(name: str, taken: tuple[Reading, ...], scale: Scale, passing: tuple[Part, ...]) -> Session:
    """A visit as the domain takes it."""
    return Session(name, LASTING, passing, taken, bridge(scale), setup(passing))


def covariance(
    taken: Sequence[Reading], scale: Scale, passing: Sequence[Part]
) -> tuple[tuple[float, ...], ...]:
    """Covariance of one visit's readings, for the loads that they fix without a plan."""
    return reading_covariance(readings=taken, bridge=bridge(scale), setup=setup(passing))
