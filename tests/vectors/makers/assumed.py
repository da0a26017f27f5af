"""Vectors of what a plan takes for granted: facts of the records, each default by its source."""

from typing import Any

from vectors.centre_books import row
from vectors.frame import case, function

from server.domain.book import Row, open_book
from tests.vectors.decode import plain

Json = Any
SOURCE = (
    "Facts of the records. Shares and u of a place: assumed. Diesel EN 590 0.820-0.845 kg/L and petrol EN 228 "
    "0.720-0.775 kg/L, uniform; gas from memory"
)
BASE: Json = {"name": "V", "wheelbase_m": 3.0, "base_front_kg": 1200.0, "base_rear_kg": 800.0}
EVERYTHING: Json = {
    **BASE, "base_front_u_kg": 5.0, "base_rear_u_kg": 5.0, "base_correlation": 0.2, "rear_axles": "single",
    "confidence": 0.9, "forgotten_share": 0.05,
}  # fmt: skip


def opened(*rows: Json) -> Json:
    return plain(open_book(rows=[Row(**one) for one in rows]))


def blank(record_id: str, kind: str, field: str) -> Json:
    return {"record_id": record_id, "kind": kind, "field": field}


def told(code: str, value: float | None, *blanks: Json, u: float | None = None) -> Json:
    return {"code": code, "value": value, "u": u, "blanks": list(blanks)}


def of_vehicle(*fields: str) -> list[Json]:
    return [blank("v", "vehicle", field) for field in fields]


def bare() -> Json:
    out = [
        told("known_by", None, *of_vehicle("base_known_by")),
        told("mass_estimate", 0.15, *of_vehicle("base_front_u_kg", "base_rear_u_kg")),
        told("confidence", 0.95, *of_vehicle("confidence")),
        told("rear_axles", None, *of_vehicle("rear_axles")),
        told("base_correlation", 0.0, *of_vehicle("base_correlation")),
    ]
    return case("a bare vehicle", out, book=opened(row("v", "vehicle", **BASE)))


def items() -> Json:
    load = {"name": "L", "nature": "load", "x_m": 2.0, "y_m": 0.0}
    rows = [
        row("v", "vehicle", **EVERYTHING),
        row("a", "item", 1, **load, mass_kg=20.0, known_by="similar", position_by="measured"),
        row("b", "item", 2, **load, mass_kg=20.0, count=2, position_by="described", stage="on_order"),
        row("c", "item", 3, **load, mass_kg=20.0, mass_u_kg=1.0, x_u_m=0.1),
        row("d", "item", 4, **load, mass_kg=20.0, stage="removed"),
        row("e", "item", 5, **load, mass_kg=None),
        row("f", "item", 6, **{**load, "y_m": None}, mass_kg=9.0, mass_u_kg=1.0, trailer_id="t"),
    ]
    out = [
        told("forgotten_kinds", 7.0, *of_vehicle("forgotten_share")),
        told("mass_similar", 0.1, blank("a", "item", "mass_u_kg")),
        told("place_measured", 0.02, blank("a", "item", "x_u_m")),
        told("known_by", None, blank("b", "item", "known_by")),
        told("mass_estimate", 0.15, blank("b", "item", "mass_u_kg")),
        told("weighed_singly", None, blank("b", "item", "weighed_singly")),
        told("place_described", 0.15, blank("b", "item", "x_u_m"), blank("f", "item", "x_u_m")),
        told("position_by", None, blank("f", "item", "position_by")),
    ]
    return case("items, each in its own way", out, book=opened(*rows))


def tanks() -> Json:
    place = {"x_m": 2.0, "x_u_m": 0.05, "y_m": 0.0}
    rows = [
        row("v", "vehicle", **EVERYTHING),
        row("fuel", "tank", 1, name="F", holds="fuel", capacity_l=80.0, unusable_l=2.0, **place),
        row("can", "tank", 2, name="C", holds="fuel", capacity_l=20.0, capacity_u_l=0.2, empty_mass_kg=4.0,
            density_kg_per_l=0.82, **place),
        row("grey", "tank", 3, name="G", holds="grey", capacity_l=40.0, capacity_u_l=1.0,
            density_u_kg_per_l=0.01, **place),
        row("s", "seat", 4, name="Left", x_m=1.4, position_by="measured"),
        row("p", "person", 5, name="A", nature="person", mass_kg=70.0, usual_seat_id="s"),
        row("q", "person", 6, name="B", nature="person", usual_seat_id="s"),
    ]  # fmt: skip
    out = [
        told("fuel_kind", None, *of_vehicle("fuel_kind")),
        told("fuel_temperature_c", 15.0, *of_vehicle("fuel_temperature_c"), u=10.0),
        told("density_diesel", 0.8325, blank("fuel", "tank", "density_kg_per_l"), u=0.0072),
        told("capacity_u_l", 0.0, blank("fuel", "tank", "capacity_u_l")),
        told("density_u_kg_per_l", 0.0, blank("can", "tank", "density_u_kg_per_l")),
        told("unusable_l", 0.0, blank("can", "tank", "unusable_l")),
        told("mass_data_sheet", 0.05, blank("can", "tank", "empty_mass_u_kg")),
        told("density_water", 1.0, blank("grey", "tank", "density_kg_per_l"), u=0.01),
        told("place_measured", 0.02, blank("s", "seat", "x_u_m")),
        told("y_m", 0.0, blank("s", "seat", "y_m"), u=0.0),
        told("occupant", 3.0, blank("p", "person", "mass_u_kg")),
    ]
    return case("tanks, seats, people", out, book=opened(*rows))


def warm() -> Json:
    """A usual temperature without its u; and a u without one stays with the default."""
    tank = row("fuel", "tank", 1, name="F", holds="fuel")
    said = row("v", "vehicle", **EVERYTHING, fuel_kind="petrol", fuel_temperature_c=30.0)
    out = [told("fuel_temperature_u_c", 10.0, *of_vehicle("fuel_temperature_u_c"))]
    return case("how warm fuel is", out, book=opened(said, tank))


def half_warm() -> Json:
    tank = row("fuel", "tank", 1, name="F", holds="fuel")
    said = row("v", "vehicle", **EVERYTHING, fuel_kind="petrol", fuel_temperature_u_c=4.0)
    out = [told("fuel_temperature_c", 15.0, *of_vehicle("fuel_temperature_c"), u=4.0)]
    return case("its u alone", out, book=opened(said, tank))


def geometry() -> Json:
    tracks = {"track_front_m": 1.6, "track_rear_m": 1.6, "frame": "rigid", "cg_height_m": 0.8}
    springs = {**EVERYTHING, **tracks, "rear_axles": "independent_pair", "stiffness_rear_1": 2.0}
    trailer = {"name": "T", "base_coupling_kg": 90.0, "base_axles_kg": 900.0, "base_known_by": "weighed"}
    out = [
        told("stiffness_front", 1.0, *of_vehicle("stiffness_front")),
        told("stiffness_rear_2", 1.0, *of_vehicle("stiffness_rear_2")),
        told("cg_height_u_m", 0.15, *of_vehicle("cg_height_u_m")),
        told("front_roll_share", 0.5, *of_vehicle("front_roll_share")),
        told(
            "mass_weighed",
            0.005,
            blank("t", "trailer", "base_coupling_u_kg"),
            blank("t", "trailer", "base_axles_u_kg"),
        ),
    ]
    return case(
        "axles, tracks, a trailer",
        out,
        book=opened(row("v", "vehicle", **springs), row("t", "trailer", 1, **trailer)),
    )


def functions(_: Any) -> list[Json]:
    whole = case("nothing at all", [], book=opened(row("v", "vehicle", **EVERYTHING)))
    return [function("assumed", SOURCE, bare(), items(), tanks(), warm(), half_warm(), geometry(), whole)]
