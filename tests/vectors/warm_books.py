"""Fuel that is warm, in the plan of `books`, by the arithmetic of the table; `books` writes it."""

from math import exp, prod, sqrt
from typing import Any

from server.domain.book import Row, open_book
from tests.vectors.decode import plain

Json = Any
LITRES, DENSITY, DENSITY_U = 40.0, 0.8325, 0.0072  # half of 80 L; EN 590 at 15 C


def _at_40_c(u_c: float) -> tuple[float, float]:
    """Table 54B by hand for 832.5 kg/m3, which is on its jet side, at 40 C."""
    a = 594.5418 / 832.5**2
    factor = exp(-a * 25 * (1 + 0.8 * a * 25))
    return factor, factor * a * (1 + 1.6 * a * 25) * u_c


def _case(name: str, book: Json, state: Json, **out: Json) -> Json:
    return {"name": name, "in": {"book": book, "state": state}, "out": out}


def warm_cases(plan: list[Json], state: Json) -> list[Json]:
    """The tank is the second of the contents; what the empty vehicle held, 10 L, the third lasting part of six."""
    book = plain(open_book(rows=[Row(**one) for one in plan]))
    vehicle = {**plan[0]["body"], "fuel_temperature_c": 40.0, "fuel_temperature_u_c": 0.0}
    usual = plain(open_book(rows=[Row(**one) for one in ({**plan[0], "body": vehicle}, *plan[1:])]))
    warm = {**state, "fuel_temperature_c": 40.0, "fuel_temperature_u_c": 5.0}
    cool = {**state, "fuel_temperature_c": 15.0, "fuel_temperature_u_c": 5.0}
    factor, u = _at_40_c(5.0)
    shares = (DENSITY_U / DENSITY, 0.05 / 0.5, u / factor)
    mass = LITRES * DENSITY * factor
    held = {"mass_kg": mass, "mass_u_kg": mass * sqrt(prod(1 + one**2 for one in shares) - 1)}

    def passing(**content: Json) -> list[Json]:
        return [{}, {"id": "tank:content", **content}, {}, {}]

    return [
        _case("warm fuel is lighter", book, warm, passing=passing(**held)),
        _case(
            "as warm as usual, also what the empty vehicle held",
            usual,
            state,
            lasting=[{}, {}, {"id": "base_fuel", "mass_kg": 10 * DENSITY * factor}, {}, {}, {}],
            passing=passing(mass_kg=mass),
        ),
        _case("the day's own before the usual", usual, cool, passing=passing(mass_kg=LITRES * DENSITY)),
    ]
