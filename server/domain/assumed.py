"""Everything that a plan takes for granted because no record says it: what, how much, and which blank replaces it.

Each default is applied elsewhere (`parts`, `plan`, `state`, `forgotten`); here they are only told.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from .axles import FRONT_ROLL_SHARE, REARMOST_SHARE, STIFFNESS
from .book import Body, Book, Row
from .forgotten import KINDS, NOTHING
from .limits import CONFIDENCE
from .parts import (
    CAPACITY_U_L,
    DESCRIBED_U_M,
    FUEL_C,
    FUEL_U_C,
    MASS_SHARE,
    MEASURED_U_M,
    MIDDLE_M,
    MIDDLE_U_M,
    STATED_DENSITY_U,
    UNUSABLE_L,
    content_of,
    stated_density,
)
from .plan import BASE_CORRELATION, Missing
from .state import PERSON_U_KG


@dataclass(frozen=True, slots=True)
class Assumed:
    """One default with the blanks that it stands for; `value` is None where it is a word, in `code`.

    `u` is one standard uncertainty where the default is itself a figure with one: the usual, or that of the record.
    """

    code: str
    value: float | None
    u: float | None
    blanks: tuple[Missing, ...]


_Told = tuple[str, float | None, float | None, Missing]
_BASE = {"vehicle": ("base_front", "base_rear"), "trailer": ("base_coupling", "base_axles")}
_REAR = {
    "load_sharing_pair": {"rear_share": REARMOST_SHARE},
    "independent_pair": dict.fromkeys(("stiffness_front", "stiffness_rear_1", "stiffness_rear_2"), STIFFNESS),
}


def assumed(*, book: Book) -> tuple[Assumed, ...]:
    """The defaults that the plan of a book rests on, each once, with every blank that it fills.

    Of the items those that are fitted or on order; what a plan cannot count at all (no mass, no place) is not assumed,
    but missing. Shares of a mass and u of a place: assumed; densities: EN 590, EN 228, from memory for gas (`parts`).
    """
    found: dict[tuple[str, float | None], list[_Told]] = {}
    told = [*_of_vehicle(book), *_of_trailers(book), *_of_items(book), *_of_tanks(book), *_of_people(book)]
    for one in told:
        found.setdefault((one[0], one[2]), []).append(one)
    return tuple(
        Assumed(code, of[0][1], u, tuple(blank for *_, blank in of)) for (code, u), of in found.items()
    )


def _of_vehicle(book: Book) -> Iterator[_Told]:
    if book.vehicle is None:
        return
    row, body = book.vehicle, book.vehicle.body
    yield from _base_masses(row)
    axles = body.get("rear_axles")
    defaults: dict[str, float | None] = {"confidence": CONFIDENCE}
    if axles is None:
        defaults["rear_axles"] = None
    defaults |= _REAR.get(axles or "", {})
    if body.get("base_front_kg") is not None and body.get("base_rear_kg") is not None:
        defaults["base_correlation"] = BASE_CORRELATION
    if body.get("cg_height_m") is not None:
        defaults["cg_height_u_m"] = DESCRIBED_U_M
    if body.get("track_front_m") is not None and body.get("track_rear_m") is not None:
        defaults |= (
            {"front_roll_share": FRONT_ROLL_SHARE} if body.get("frame") == "rigid" else {"frame": None}
        )
    if any(_needs_fuel_kind(tank.body) for tank in book.tanks):
        defaults["fuel_kind"] = None
    for field, value in defaults.items():
        yield from _blank(row, field, field, value)
    if any(tank.body["holds"] == "fuel" for tank in book.tanks):
        yield from _fuel_temperature(row)
    if book.items:
        yield from _forgotten(row)


def _fuel_temperature(vehicle: Row) -> Iterator[_Told]:
    """How warm fuel is where no weighing says so."""
    body, u = vehicle.body, vehicle.body.get("fuel_temperature_u_c")
    if body.get("fuel_temperature_c") is None:
        here = Missing(vehicle.id, "vehicle", "fuel_temperature_c")
        yield "fuel_temperature_c", FUEL_C, FUEL_U_C if u is None else float(u), here
    elif u is None:
        yield from _blank(vehicle, "fuel_temperature_u_c", "fuel_temperature_u_c", FUEL_U_C)


def _forgotten(vehicle: Row) -> Iterator[_Told]:
    """Nothing is forgotten; or where a share is counted, of how many kinds of things it is."""
    here = Missing(vehicle.id, "vehicle", "forgotten_share")
    if vehicle.body.get("forgotten_share"):
        yield "forgotten_kinds", float(KINDS), None, here
    else:
        yield "forgotten_share", NOTHING, None, here


def _of_trailers(book: Book) -> Iterator[_Told]:
    for row in book.trailers:
        yield from _base_masses(row)


def _base_masses(row: Row) -> Iterator[_Told]:
    blanks = [
        f"{end}_u_kg"
        for end in _BASE[row.kind]
        if row.body.get(f"{end}_kg") is not None and row.body.get(f"{end}_u_kg") is None
    ]
    if blanks:
        yield from _blank(row, "known_by", "base_known_by", None)
    known_by = row.body.get("base_known_by") or "estimate"
    for field in blanks:
        yield f"mass_{known_by}", MASS_SHARE[known_by], None, Missing(row.id, row.kind, field)


def _of_items(book: Book) -> Iterator[_Told]:
    for row in book.items:
        body = row.body
        if body.get("stage") == "removed" or body.get("mass_kg") is None or body.get("x_m") is None:
            continue
        if body.get("mass_u_kg") is None:
            yield from _blank(row, "known_by", "known_by", None)
            known_by = body.get("known_by") or "estimate"
            yield f"mass_{known_by}", MASS_SHARE[known_by], None, Missing(row.id, "item", "mass_u_kg")
        if (body.get("count") or 1) > 1:
            yield from _blank(row, "weighed_singly", "weighed_singly", None)
        yield from _place(row)


def _of_tanks(book: Book) -> Iterator[_Told]:
    fuel_kind = book.vehicle.body.get("fuel_kind") if book.vehicle else None
    for row in book.tanks:
        body = row.body
        if body.get("capacity_l") is None or body.get("x_m") is None:
            continue
        content = content_of(body, fuel_kind)
        if body.get("density_kg_per_l") is None:
            density, u = stated_density(body, fuel_kind)
            yield f"density_{content}", density, u, Missing(row.id, "tank", "density_kg_per_l")
        else:
            yield from _blank(row, "density_u_kg_per_l", "density_u_kg_per_l", STATED_DENSITY_U)
        yield from _blank(row, "capacity_u_l", "capacity_u_l", CAPACITY_U_L)
        if body["holds"] in ("fuel", "water"):
            yield from _blank(row, "unusable_l", "unusable_l", UNUSABLE_L)
        if body.get("empty_mass_kg"):
            share = MASS_SHARE["data_sheet"]
            yield from _blank(row, "mass_data_sheet", "empty_mass_u_kg", share)
        yield from _place(row)


def _of_people(book: Book) -> Iterator[_Told]:
    for row in book.seats:
        if row.body.get("x_m") is not None:
            yield from _place(row)
    for row in book.people:
        if row.body.get("mass_kg") is not None:
            yield from _blank(row, "occupant", "mass_u_kg", PERSON_U_KG)


def _place(row: Row) -> Iterator[_Told]:
    body = row.body
    if body.get("x_u_m") is None:
        yield from _blank(row, "position_by", "position_by", None)
        by = "measured" if body.get("position_by") == "measured" else "described"
        u_m = MEASURED_U_M if by == "measured" else DESCRIBED_U_M
        yield f"place_{by}", u_m, None, Missing(row.id, row.kind, "x_u_m")
    if not body.get("trailer_id") and body.get("y_m") is None:  # in the middle, and exactly there
        yield "y_m", MIDDLE_M, MIDDLE_U_M, Missing(row.id, row.kind, "y_m")


def _blank(row: Row, code: str, field: str, value: float | None) -> Iterator[_Told]:
    if row.body.get(field) is None:
        yield code, value, None, Missing(row.id, row.kind, field)


def _needs_fuel_kind(tank: Body) -> bool:
    return tank["holds"] == "fuel" and tank.get("density_kg_per_l") is None
