"""Routes that the owners have planned: one that gets tight where a stop is shut, one along which the front axle rises.

Distances, surfaces and supplies are invented, and named as the diaries name their stops.
"""

from dataclasses import dataclass
from datetime import date
from typing import Any

from .chance import Chance
from .clock import moment
from .enter import Entered
from .figures import typed
from .journal import Journal


@dataclass(frozen=True, slots=True)
class Leg:
    """A stretch with what it is called and its surface; what is neither gravel nor sand is sealed."""

    label: str
    km: str
    gravel: float = 0.0
    sand: float = 0.0
    towing: bool | None = None
    days: float | None = None


@dataclass(frozen=True, slots=True)
class Supply:
    """A place along the route; `has` names what can be had."""

    name: str
    at: str
    has: str
    certain: bool = True
    note: str | None = None


@dataclass(frozen=True, slots=True)
class Load:
    """Something taken on at one place and gone at another."""

    name: str
    at: str
    until: str
    mass: str
    place: str


@dataclass(frozen=True, slots=True)
class Route:
    """A route as its owner types it on the last evening."""

    name: str
    legs: tuple[Leg, ...]
    supplies: tuple[Supply, ...]
    loads: tuple[Load, ...] = ()
    day: str | None = None


ROUTES: dict[str, Route] = {
    "utility": Route(
        "Salt track to Marl Siding",
        (
            Leg("Sealed to Dray Flat", "150 km", gravel=0.2),
            Leg("Over the salt", "170 km", gravel=0.6, sand=0.4),
            Leg("Camp Nine, a day's rest", "0 km", days=1.0),
            Leg("Down to the railway", "185 km", gravel=0.9),
        ),
        (
            Supply("Quillabar", "0 km", "both"),
            Supply("Dray Flat", "150 km", "both", note="Closed on the first day of the week."),
            Supply("Camp Nine", "320 km", "water", certain=False, note="A hand pump, often dry."),
            Supply("Marl Siding", "505 km", "both"),
        ),
        (Load("Firewood for the camp", "150 km", "320 km", "35 kg", "3.9 m"),),
        day="250 km",
    ),
    "wagon": Route(
        "Round by Tansell",
        (
            Leg("Out on the sealed road", "240 km", towing=False),
            Leg("Station tracks", "210 km", gravel=0.9, sand=0.1, towing=False),
            Leg("Back to the junction", "260 km", gravel=0.2, towing=False),
        ),
        (
            Supply("Ombarra Junction", "0 km", "both"),
            Supply("Kettle Rise", "240 km", "water"),
            Supply("Tansell Roadhouse", "450 km", "both"),
            Supply("Yarrowick", "560 km", "fuel", certain=False, note="Card only, sometimes no diesel."),
            Supply("Ombarra Junction", "710 km", "both"),
        ),
        day="300 km",
    ),
}


def enter_route(
    key: str, *, owner: str, entered: Entered, today: date, journal: Journal, chance: Chance
) -> None:
    """Write a vehicle's route, if its owner has planned one."""
    route = ROUTES.get(key)
    if route is None:
        return
    body: dict[str, Any] = {
        "name": route.name,
        "legs": [_leg(leg) for leg in route.legs],
        "supplies": [_supply(one) for one in route.supplies],
        "changes": [_load(one) for one in route.loads],
        **typed(day_km=route.day),
    }
    with journal.drawing(chance):
        journal.add(book=entered.book, kind="route", body=body, when=moment(today, 1, "20:40"), by=owner)


def _leg(leg: Leg) -> dict[str, Any]:
    sealed = round(1.0 - leg.gravel - leg.sand, 3)
    body: dict[str, Any] = {"label": leg.label, **typed(distance_km=leg.km)}
    body["surface"] = {"sealed": sealed, "gravel": leg.gravel, "sand": leg.sand}
    body |= {} if leg.days is None else {"days": leg.days}
    return body if leg.towing is None else {**body, "towing": leg.towing}


def _supply(one: Supply) -> dict[str, Any]:
    body: dict[str, Any] = {"name": one.name, **typed(at_km=one.at)}
    body |= {"fuel": one.has != "water", "water": one.has != "fuel", "certain": one.certain}
    return {**body, "note": one.note} if one.note else body


def _load(one: Load) -> dict[str, Any]:
    figures = typed(at_km=one.at, until_km=one.until, mass_kg=one.mass, x_m=one.place)
    return {"what": "load", "name": one.name, **figures}
