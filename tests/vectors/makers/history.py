from typing import Any

from vectors.decode import plain
from vectors.frame import case, function, refused
from vectors.weighed_days import book, given, weighing

Json = Any
BY_HAND = "by hand from the entries"
WEIGHED = weighing("w", 4, [(["front", "rear"], 2300.0)])


def functions(rng: Any) -> list[dict[str, Any]]:
    whole = plain(book(WEIGHED))
    until = {"book": whole, "until": "2026-04-01T08:00:00Z"}
    early = {"book": whole, "until": "2026-03-06T00:00:00Z"}
    days = [f"2026-03-{day:02d}" for day in (1, 5, 7, 8, 9, 10)]
    return [
        function("plan_days", BY_HAND, case("all", days, **until), case("until a day", days[:2], **early)),
        function(
            "first_day",
            BY_HAND,
            case("the first item", "2026-03-01", **until),
            case("no item yet", "2026-02-01", book=whole, until="2026-02-01T08:00:00Z"),
        ),
        function("history", BY_HAND, *_histories()),
        function("mass_of", BY_HAND, *_masses()),
    ]


def _masses() -> list[Json]:
    part = {"id": "a", "mass_kg": 5.0, "mass_u_kg": 1.0, "x_m": 0.0}
    off = {**part, "id": "b", "mass_kg": 2.0, "taken_off": True}
    return [case("nothing", 0.0, parts=[]), case("what was taken off counts off", 3.0, parts=[part, off])]


def _histories() -> list[Json]:
    weighed = {
        "$call": {"module": "weighed", "function": "planned_day", "in": given(WEIGHED, weighing_id="w")}
    }
    known = {"book": given(WEIGHED)["book"], "weighed": weighed}

    def stood(**masses: float) -> Json:
        return [{"id": id, "mass_kg": kg} for id, kg in masses.items()]

    def change(id: str, author: str, kg: float) -> Json:
        return {"record_id": id, "author": author, "mass_kg": kg}

    base_to_owner = [change("v", "owner", 5.0)]
    first = {
        "parts": stood(base_front=1200.0, base_rear=900.0, bar=60.0, bag=10.0),
        "base": base_to_owner,
        "items": [
            change("bar", "fitter", 6.0),
            change("box", "owner", 20.0),
            change("rack", "fitter", 30.0),
            change("rack", "owner", -30.0),
        ],
    }
    eighth = {
        "parts": stood(base_front=1200.0, base_rear=900.0, bar=66.0, bag=10.0, box=20.0, rack=30.0),
        "base": base_to_owner,
        "items": [change("rack", "owner", -30.0)],
    }
    late = {
        "parts": stood(base_front=1200.0, base_rear=905.0, bar=66.0, bag=10.0, box=20.0),
        "base": [],
        "items": [],
    }
    none = {"parts": [], "base": [change("v", "fitter", 2100.0), change("v", "owner", 5.0)]}
    return [
        case("from the first day", first, **known, day="2026-03-01"),
        case("from a later day", eighth, **known, day="2026-03-08"),
        case("a day after the weighing", late, **known, day="2027-01-01"),
        case("before there was a plan", none, **known, day="2026-02-01"),
        refused("no day", "DomainError", "day", **known, day="soon"),
    ]
