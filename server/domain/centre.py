"""The plan's centre of gravity in a state, and its height over every state of the tanks."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from .axles import Geometry
from .book import Body, Book, Row
from .envelope import Heights, Tank, height_span
from .forgotten import FORGOTTEN
from .parts import Fuel, density_of, fuel_of, height_in_tank_m, position_u_m
from .plan import Missing, Plan, base_correlation_of, geometry_of, main_tank, plan_in
from .stability import Centre, Stability, centre_of_gravity, static_stability
from .state import State
from .statics import Part

TANK_PARTS = ("content", "unusable", "empty")


@dataclass(frozen=True, slots=True)
class PlanCentre:
    """Where the plan's centre of gravity is.

    `no_height` names one blank per record that the height waits for. `track_m` is the mean of the two tracks, None
    until both are known. `heights` are those over every tank state, their levels in the order of `tanks`.
    """

    centre: Centre | None
    no_height: tuple[Missing, ...]
    track_m: float | None
    stability: Stability | None
    tanks: tuple[str, ...]
    heights: Heights | None


def plan_centre(*, book: Book, state: State, ordered: bool = False) -> PlanCentre:
    """Centre of gravity of the vehicle in a state, m, with its u; the trailer and its coupling load have no part in it.

    A height is never guessed: while one part has none there is no height, no stability factor and no span. The span
    lets each tank of the vehicle be anywhere between empty and full, whatever level the state gives it; people and
    items are those of the state, with `ordered` also those on order. Sources: `centre_of_gravity`,
    `static_stability`, `height_span`.
    """
    plan, geometry = plan_in(book, state, ordered=ordered), geometry_of(book=book, state=state)
    centre = centre_of_gravity(parts=plan.parts, base_correlation=base_correlation_of(book=book))
    blank = _no_height(book, plan, plan_in(book, replace(state, items_away=()), ordered=ordered))
    tanks = _tanks(book, state, plan)
    track_m = mean_track_m(geometry=geometry)
    if centre is None or centre.z_m is None or centre.z_u_m is None:
        return PlanCentre(centre, blank, track_m, None, tuple(tank.id for tank in tanks), None)
    stability = None
    if track_m is not None and centre.z_m > 0.0:
        stability = static_stability(track_m=track_m, height_m=centre.z_m, height_u_m=centre.z_u_m)
    dry = [part for part in plan.parts if not part.id.endswith(":content")]
    heights = height_span(parts=dry, tanks=tanks)
    return PlanCentre(centre, blank, track_m, stability, tuple(tank.id for tank in tanks), heights)


def mean_track_m(*, geometry: Geometry) -> float | None:
    """The mean of front and rear track, m; None until both are known."""
    if geometry.front_track_m is None or geometry.rear_track_m is None:
        return None
    return (geometry.front_track_m + geometry.rear_track_m) / 2


def _no_height(book: Book, plan: Plan, whole: Plan) -> tuple[Missing, ...]:
    """One blank for each record whose part on the vehicle has no height, in the order of the parts.

    Forgotten mass is as high as the items that it goes with, also those left behind: they are named, by the plan with
    nothing away (`whole`).
    """
    found: dict[str, Missing] = {}
    lacks = any(part.id == FORGOTTEN and part.z_m is None for part in plan.parts)
    for part in whole.parts if lacks else plan.parts:
        if part.on == "vehicle" and part.z_m is None and part.id != FORGOTTEN:
            blank = _blank(book, part)
            found.setdefault(blank.record_id, blank)
    return tuple(found.values())


def _blank(book: Book, part: Part) -> Missing:
    """The record behind a part and the field that its height needs."""
    if part.id in ("base_front", "base_rear"):
        return Missing(book.vehicle.id if book.vehicle else "", "vehicle", "cg_height_m")
    if part.id == "base_driver":
        return Missing(book.seats[0].id, "seat", "z_m")
    record_id, _, what = part.id.partition(":")
    if what == "occupant":
        return Missing(record_id, "seat", "z_m")
    if what in TANK_PARTS or part.id == "base_fuel":
        tank = main_tank(book=book) if part.id == "base_fuel" else _row(book.tanks, record_id)
        field = "height_m" if tank and tank.body.get("z_bottom_m") is not None else "z_bottom_m"
        return Missing(tank.id if tank else record_id, "tank", field)
    return Missing(record_id, "item", "z_m")


def _tanks(book: Book, state: State, plan: Plan) -> list[Tank]:
    """The vehicle's tanks that the plan counts, from empty to full."""
    fuel = fuel_of(book.vehicle.body if book.vehicle else None, state)
    counted = {part.id for part in plan.passing if part.on == "vehicle"}
    return [_tank(row.id, row.body, fuel) for row in book.tanks if f"{row.id}:content" in counted]


def _tank(tank_id: str, body: Body, fuel: Fuel) -> Tank:
    density, density_u = density_of(body, fuel)
    known = height_in_tank_m(body, 0.0) is not None
    return Tank(
        tank_id,
        float(body["capacity_l"]),
        float(body["x_m"]),
        density_kg_per_l=density,
        density_u_kg_per_l=density_u,
        capacity_u_l=float(body.get("capacity_u_l") or 0.0),
        x_u_m=position_u_m(body),
        y_m=float(body.get("y_m") or 0.0),
        bottom_m=float(body["z_bottom_m"]) if known else None,
        height_m=float(body["height_m"]) if known else 0.0,
    )


def _row(rows: Sequence[Row], record_id: str) -> Row | None:
    return next((row for row in rows if row.id == record_id), None)
