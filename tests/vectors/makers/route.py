"""Vectors of a way with supplies: driven by the slow filter, roots by Brent's method."""

from typing import Any

import numpy as np
from scipy.optimize import brentq
from vectors.frame import case, function, refused
from vectors.slow_route import Ride, place, pooled
from vectors.tanks import CAMP, ROUND, TWO, WATERING, bank, slow_bank

Json = Any
SOURCE = "tests/vectors/slow_route.py: matrix exponential, scipy's normal distribution, Brent's method"
COUNTING = {"factor": 1.034, "factor_u": 0.005, "reserve_l": 12.0}
PLAIN = {"factor": 1.0, "factor_u": 0.0, "reserve_l": 8.0}
FIRST, SECOND, THIRD = {"sealed": 300.0}, {"gravel": 150.0, "sand": 150.0}, {"gravel": 350.0}
LEGS = [
    {"distance_km": 300.0, "way": FIRST, "points": 2},
    {"distance_km": 300.0, "way": SECOND},
    {"distance_km": 350.0, "way": THIRD},
]
WIDE = {**TWO, "full_u_l": [6.0, 8.0]}
CLOSE = {"rel": 1e-7, "abs": 1e-5}


def functions(rng: np.random.Generator) -> list[Json]:
    given = {"bank": bank(TWO, slow_bank(TWO, ROUND)), "stretches": LEGS, "counting": COUNTING}
    stops = [{"at_km": 600.0, "counted": True}, {"at_km": 300.0, "counted": False}]
    return [
        function(
            "route_answer",
            SOURCE,
            case("an uncertain stop, then a certain one", _filled(), stops=stops, **given, **CLOSE),
            case("tanks whose shut-offs scatter by 6 and 8 L", _filled(WIDE), stops=stops,
                 **{**given, "bank": bank(WIDE, slow_bank(WIDE, ROUND))}, **CLOSE),
            case("some litres taken", _poured(), stops=[{"at_km": 600.0, "counted": True, "take_l": 40.0}], **given,
                 **CLOSE),
            case("from half way", _midway(), stops=[{"at_km": 100.0, "counted": True}], from_km=200.0, **given,
                 **CLOSE),
            case("a supply at the end, and a leg of nothing after it", {"sections": [{"from_km": 0.0, "to_km": 950.0}]},
                 **{**given, "stretches": [*LEGS, {"distance_km": 0.0, "way": {"sand": 0.0}}]},
                 stops=[{"at_km": 950.0, "counted": True}]),
            case("water, with a stay", _watered(), **_camp(), **CLOSE),
            refused("a stop beyond the end", "OutOfRange", "at_km", stops=[{"at_km": 951.0, "counted": True}], **given),
            refused("from beyond the end", "OutOfRange", "from_km", from_km=951.0, **given),
            refused("p 1", "OutOfRange", "p", p=1.0, **given),
            refused("p 0", "OutOfRange", "p", p=0.0, **given),
        ),
        function("takes_on", "by hand", *_taking()),
    ]  # fmt: skip


def _taking() -> list[Json]:
    def stop(name: str, out: bool, at_km: float, **more: Any) -> Json:
        given = {"at_km": at_km, "counted": True, **more}
        return case(name, out, stop=given, from_km=100.0, to_km=400.0)

    return [
        stop("half way", True, 250.0),
        stop("nothing wanted", False, 250.0, take_l=0.0),
        stop("not counted", False, 250.0, counted=False),
        stop("where it begins", False, 100.0000004),
        stop("where it begins, litres named", True, 100.0, take_l=20.0),
        stop("where it ends", False, 400.0),
        stop("behind", False, 50.0, take_l=20.0),
    ]


def _ride(model: Json = TWO) -> Ride:
    return Ride(pooled(slow_bank(model, ROUND)), COUNTING)


def _point(ride: Ride, at_km: float, taken: bool = False) -> Json:
    given = {"left": ride.left(), "likely_l": ride.litres(0.5), "count_on_l": ride.litres(0.95)}
    return {"at_km": at_km, **given, "probability": ride.probability(), "taken": taken}


def _stop(arrival: Ride, at_km: float, onward: list[Json] | None) -> Json:
    shares, means, _ = arrival.parts()
    capacity = arrival.slow[0].model["capacity_l"][0]
    out = {
        "at_km": at_km,
        "counted": onward is not None,
        "likely_l": arrival.litres(0.5),
        "count_on_l": arrival.litres(0.95),
        "probability": arrival.probability(),
        "room_l": float(max(capacity - shares @ means, 0.0)),
    }
    if onward is None:
        return {**out, "least_l": None, "full_probability": None}

    def reached(litres: float) -> float:
        ride = arrival.copy().pour_in(litres)
        for way in onward:
            ride.drive(way)
        return ride.probability()

    full = arrival.copy().fill_up()
    for way in onward:
        full.drive(way)
    least = float(brentq(lambda x: reached(x) - 0.95, 0, 900, xtol=1e-9)) if reached(0) < 0.95 else 0.0
    return {**out, "least_l": least, "full_probability": full.probability()}


def _no_return(start: Ride, ways: list[tuple[float, float, Json]], back_km: float) -> float | None:
    """From where the way back to `back_km`, within the same ways, is no longer reached."""

    def spare(at_km: float) -> float:
        ride, back = start.copy(), []
        for low, high, way in ways:
            share = min(max((at_km - low) / (high - low), 0.0), 1.0)
            part = {name: share * amount for name, amount in way.items()}
            ride.drive(part)
            back.append(part)
        for part in reversed(back):
            ride.drive(part)
        return ride.probability() - 0.95

    low, high = back_km, ways[-1][1]
    return None if spare(high) >= 0 else float(brentq(spare, low, high, xtol=1e-10))


def _section(start: Ride, ways: list[tuple[float, float, Json]], back_km: float | None) -> Json:
    end = start.copy()
    for _, _, way in ways:
        end.drive(way)
    return {
        "from_km": ways[0][0],
        "to_km": ways[-1][1],
        "probability": end.probability(),
        "count_on_km": place(start, ways, 0.95),
        "likely_km": place(start, ways, 0.5),
        "no_return_km": None if back_km is None else _no_return(start, ways, back_km),
    }


def _two_sections(start: Ride, departure: Ride, arrival: Ride, stops: list[Json]) -> Json:
    half = {name: amount / 2 for name, amount in FIRST.items()}
    points = [
        _point(start, 0.0),
        _point(start.copy().drive(half), 150.0),
        _point(start.copy().drive(FIRST), 300.0),
        _point(arrival, 600.0),
        _point(departure, 600.0, True),
        _point(departure.copy().drive(THIRD), 950.0),
    ]
    one = _section(start, [(0.0, 300.0, FIRST), (300.0, 600.0, SECOND)], None)
    two = _section(departure, [(600.0, 950.0, THIRD)], 600.0)
    out = {"points": points, "sections": [one, two], "stops": stops, "capacity_l": 145.0, "reserve_l": 12.0}
    return {**out, "tight": 0 if one["probability"] <= two["probability"] else 1}


def _filled(model: Json = TWO) -> Json:
    arrival = _ride(model).drive(FIRST).drive(SECOND)
    stops = [_stop(_ride(model).drive(FIRST), 300.0, None), _stop(arrival, 600.0, [THIRD])]
    return _two_sections(_ride(model), arrival.copy().fill_up(), arrival, stops)


def _poured() -> Json:
    arrival = _ride().drive(FIRST).drive(SECOND)
    return _two_sections(_ride(), arrival.copy().pour_in(40.0), arrival, [_stop(arrival, 600.0, [THIRD])])


def _midway() -> Json:
    """Set out at 200 km with a certain stop 100 km behind; there is no other ahead."""
    third = {name: amount / 3 for name, amount in FIRST.items()}
    ways = [(200.0, 300.0, third), (300.0, 600.0, SECOND), (600.0, 950.0, THIRD)]
    found = _section(_ride(), ways, None)

    def spare(at_km: float) -> float:
        """Out to a place in the first stretch, back past where it set out."""
        out = {"sealed": at_km - 200.0}
        ride = _ride().drive(out).drive({"sealed": at_km - 100.0})
        return ride.probability() - 0.95

    assert spare(300.0) > 0
    return {"sections": [{**found, "no_return_km": _return_in_second(third)}], "stops": [], "tight": 0}


def _return_in_second(third: Json) -> float | None:
    def spare(at_km: float) -> float:
        share = (at_km - 300.0) / 300.0
        part = {name: share * amount for name, amount in SECOND.items()}
        ride = _ride().drive(third).drive(part).drive(part).drive({"sealed": 200.0})
        return ride.probability() - 0.95

    return float(brentq(spare, 300.0, 600.0, xtol=1e-10)) if spare(600.0) < 0 else None


CAMP_KAPPAS = (0.1, 0.4, 1.6)
STAY = [
    {"distance_km": 200.0, "way": {"all": 2.0}},
    {"distance_km": 0.0, "way": {"all": 4.5}},
    {"distance_km": 100.0, "way": {"all": 1.5}},
]


def _camp() -> Json:
    slow = slow_bank(CAMP, WATERING, CAMP_KAPPAS)
    return {"bank": bank(CAMP, slow), "stretches": STAY, "counting": PLAIN, "stops": [
        {"at_km": 200.0, "counted": True, "take_l": 10.0}]}  # fmt: skip


def _watered() -> Json:
    ride = Ride(pooled(slow_bank(CAMP, WATERING, CAMP_KAPPAS)), PLAIN)
    arrival = ride.copy().drive({"all": 2.0})
    points = [_point(ride, 0.0), _point(arrival, 200.0)]
    full = arrival.copy().pour_in(10.0)
    points += [_point(full, 200.0, True), _point(full.copy().drive({"all": 4.5}), 200.0)]
    points.append(_point(full.copy().drive({"all": 4.5}).drive({"all": 1.5}), 300.0))
    return {"points": points, "stops": [_stop(arrival, 200.0, [{"all": 4.5}, {"all": 1.5}])]}
