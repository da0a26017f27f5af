"""Vectors of what the reading of a log takes for granted: facts of the records, each figure written out."""

from math import sqrt
from typing import Any

from vectors.centre_books import row
from vectors.frame import case, function, refused

from server.domain.book import Row, open_book
from tests.vectors.decode import plain

Json = Any
SOURCE = (
    "Facts of the records. Pump class 0.5 +- 0.5 %, uniform: Directive 2014/32/EU Annex VII Table 2; water 6 L a "
    "person and day: South Australian remote-travel advice, second-hand; drink and food 3 L: Sphere Handbook 2011, "
    "second-hand; all else assumed, as the filter's description sets it"
)
NOBODY: Json = {"record_id": None, "kind": None, "field": None}
DIPS = [("dip_stick", 0.03), ("dip_tube", 0.03), ("dip_lamps", 0.1), ("about_u", 0.05)]
ASKED = [("hold", 4.0), ("overfull", 3.0), ("overfill", 1.1)]
NOTICED = [("beyond", 0.5), ("skip", 3.0), ("slack", 0.5), ("alarm", 5.0), ("single", 3.5)]
PUMP_U = 0.005 / sqrt(3)
OWN_FUEL: Json = {
    "sealed_l_per_100km": 10.0, "sand_l_per_100km": 20.0, "towing_ratio": 1.3, "fuel_guess_u": 0.3,
    "fuel_surface_u": 0.1, "fuel_drift": 0.04, "fuel_surface_drift": 0.0, "fuel_unsteady_km": 50.0, "pump_u": 0.002,
    "odometer_factor": 1.02, "odometer_factor_u": 0.003, "odometer_step_km": 0.1,
    "fuel_reserve_l": 15.0, "confidence": 0.9,
}  # fmt: skip
USUAL: Json = {
    "fuel": {"per": 100.0, "u_common": 0.25, "u_class": 0.15, "walk": 0.05, "walk_class": 0.02, "walk_ref": 1000.0,
             "ell": 100.0, "fill_u": PUMP_U, "full_u_l": 1.0, "gauge_u": 0.05},
    "water": {"per": 1.0, "u_common": 0.5, "u_class": 0.0, "walk": 0.05, "walk_class": 0.0, "walk_ref": 20.0,
              "ell": 1.0, "fill_u": 0.02, "full_u_l": 1.0, "gauge_u": 0.05},
}  # fmt: skip
OWN_WATER: Json = {
    "water_l_per_day": 5.0, "water_guess_u": 0.4, "water_drift": 0.1, "water_fill_u": 0.01, "water_reserve_l": 12.0,
}  # fmt: skip


def opened(*rows: Json) -> Json:
    return plain(open_book(rows=[Row(**one) for one in rows]))


def vehicle(**more: Json) -> Json:
    return row("v", "vehicle", name="V", **more)


def said(group: str, code: str, value: float, field: str, record: str = "v", *, own: bool = False) -> Json:
    kind = "vehicle" if record == "v" else "tank"
    return {
        "code": code,
        "value": value,
        "group": group,
        "own": own,
        "record_id": record,
        "kind": kind,
        "field": field,
    }


def fixed(group: str, *told: tuple[str, float]) -> list[Json]:
    return [{"code": code, "value": value, "group": group, "own": False, **NOBODY} for code, value in told]


def fuel(name: str, rates: Json, reserve: float, tanks: list[Json], own: Json, *rows: Json) -> Json:
    def one(group: str, code: str, usual: float, field: str | None = None) -> Json:
        field = field or code
        return said(group, code, own.get(field, usual), field, own=field in own)

    out = [
        *(one("guess", f"{of}_rate", rate, f"{of}_l_per_100km") for of, rate in rates.items()),
        one("guess", "towing_ratio", 1.4),
        one("guess", "fuel_guess_u", 0.25),
        one("guess", "fuel_surface_u", 0.15),
        one("guess", "fuel_drift", 0.05),
        one("guess", "fuel_surface_drift", 0.02),
        one("guess", "fuel_unsteady_km", 100.0),
        *fixed("guess", ("fuel_steadiest", 0.04), ("fuel_unsteadiest", 0.2)),
        one("reading", "pump_u", PUMP_U),
        *tanks,
        *fixed("reading", *DIPS),
        one("reading", "odometer_factor", 1.0),
        one("reading", "odometer_factor_u", 0.0),
        one("reading", "odometer_step_km", 1.0),
        one("guess", "fuel_reserve_l", reserve),
        one("guess", "confidence", 0.95),
        *fixed("asked", *ASKED, ("change_u", 0.15), *NOTICED),
    ]
    return case(name, out, book=opened(vehicle(**own), *rows), holds="fuel")


def water(
    name: str, reserve: float, tanks: list[Json], grey: list[Json], own: Json, *rows: Json, **more: Json
) -> Json:
    def one(group: str, code: str, usual: float, field: str | None = None) -> Json:
        field = field or code
        return said(group, code, own.get(field, usual), field, own=field in own)

    out = [
        one("guess", "water_rate", 6.0, "water_l_per_day"),
        *fixed("guess", ("drinking_floor", 3.0)),
        one("guess", "water_guess_u", 0.5),
        one("guess", "water_drift", 0.05),
        *fixed("guess", ("water_steadiest", 0.1), ("water_unsteadiest", 1.6), ("early", 3.0)),
        one("reading", "water_fill_u", 0.02),
        *tanks,
        *fixed("reading", *DIPS),
        *grey,
        one("guess", "water_reserve_l", reserve),
        one("guess", "confidence", 0.95),
        *fixed("asked", *ASKED, ("change_u", 0.33)),
    ]
    return case(name, out, book=opened(vehicle(**own), *rows), holds="water", **more)


def fuel_cases() -> list[Json]:
    usual = {"sealed": 12.0, "gravel": 12.0 * 1.15, "sand": 12.0 * 1.6}
    tanks = [
        row("main", "tank", 1, name="M", holds="fuel", capacity_l=90.0, gauge_u=0.08),
        row("sub", "tank", 2, name="S", holds="fuel", capacity_l=60.0, full_u_l=0.5),
        row("can", "tank", 3, name="C", holds="fuel", capacity_l=20.0, can=True),
        row("new", "tank", 4, name="N", holds="fuel"),
        row("fresh", "tank", 5, name="F", holds="water", capacity_l=100.0),
    ]
    told = [
        said("reading", "full_u_l", 1.0, "full_u_l", "main"),
        said("reading", "gauge_u", 0.08, "gauge_u", "main", own=True),
        said("reading", "full_u_l", 0.5, "full_u_l", "sub", own=True),
        said("reading", "gauge_u", 0.05, "gauge_u", "sub"),
    ]
    own = {"sealed": 10.0, "gravel": 11.5, "sand": 20.0}
    return [
        fuel("a vehicle that says nothing", usual, 8.0, [], {}),
        fuel("two tanks, a can, one without capacity", usual, 15.0, told, {}, *tanks),
        fuel("all of it said", own, 15.0, [], OWN_FUEL),
    ]


def water_cases() -> list[Json]:
    tanks = [
        row("fresh", "tank", 1, name="F", holds="water", capacity_l=100.0, grey_tank_id="grey"),
        row(
            "other",
            "tank",
            2,
            name="O",
            holds="water",
            capacity_l=50.0,
            grey_tank_id="grey",
            grey_fraction=0.5,
        ),
        row("apart", "tank", 3, name="A", holds="water", capacity_l=20.0, emergency_reserve=True),
        row("grey", "tank", 4, name="G", holds="grey", capacity_l=60.0),
    ]
    told = [
        said("reading", code, value, code, of)
        for of in ("fresh", "other")
        for code, value in (("full_u_l", 1.0), ("gauge_u", 0.05))
    ]
    camp = row(
        "camp_water", "tank", 5, name="C", holds="water", capacity_l=90.0, trailer_id="camp", gauge_u=0.1
    )
    towed = [
        *told,
        said("reading", "full_u_l", 1.0, "full_u_l", "camp_water"),
        said("reading", "gauge_u", 0.1, "gauge_u", "camp_water", own=True),
    ]
    grey = [
        said("guess", "grey_fraction", 0.8, "grey_fraction", "fresh"),
        said("guess", "grey_fraction", 0.5, "grey_fraction", "other", own=True),
    ]
    return [
        water("no tank", 0.0, [], [], {}),
        water("two tanks, a reserve, a grey tank", 15.0, told, grey, {}, *tanks),
        water("with a trailer's tank", 24.0, towed, grey, {}, *tanks, camp, trailers_on=["camp"]),
        water("all of it said", 12.0, [], [], {**OWN_WATER, "confidence": 0.99}),
    ]


def settings_of(kind: str, fields: Json) -> list[Json]:
    usual = USUAL[kind]
    own = OWN_FUEL if kind == "fuel" else OWN_WATER
    stated = {**usual, **{name: own[field] for name, field in fields.items()}}
    return [
        case("nothing said", usual, vehicle={"name": "V", "pump_u": None, "water_fill_u": None}),
        case("all of it said", stated, vehicle=own),
    ]


def functions(_: Any) -> list[Json]:
    nothing = case("no vehicle", [], book=opened(row("p", "plate", of="vehicle")), holds="fuel")
    wrong = refused("neither fuel nor water", "Unknown", "holds", book=opened(vehicle()), holds="gas")
    fuel_fields = {
        "u_common": "fuel_guess_u", "u_class": "fuel_surface_u", "walk": "fuel_drift",
        "walk_class": "fuel_surface_drift", "ell": "fuel_unsteady_km", "fill_u": "pump_u",
    }  # fmt: skip
    water_fields = {"u_common": "water_guess_u", "walk": "water_drift", "fill_u": "water_fill_u"}
    return [
        function("log_defaults", SOURCE, *fuel_cases(), *water_cases(), nothing, wrong),
        function("fuel_settings", SOURCE, *settings_of("fuel", fuel_fields)),
        function("water_settings", SOURCE, *settings_of("water", water_fields)),
    ]
