"""What a role is not shown: a fitter weighs people and finds places roughly, and needs to know no more."""

from typing import Any

from .mutation import Body, Role

_OF_A_PERSON = {"nature", "mass_kg", "mass_u_kg", "usual_seat_id", "deleted"}
_KINDS_WITH_PLACE = {"weighing", "fill", "water"}
_COORDINATES = ("latitude_deg", "longitude_deg")


def redacts(*, kind: str, role: Role) -> bool:
    """Whether a record of this kind may look different to this role."""
    return role == "fitter" and (kind == "person" or kind in _KINDS_WITH_PLACE)


def redact(*, kind: str, body: Body, role: Role) -> Body:
    """The body as a role may see it.

    A fitter's copy of a person has mass and seat, and an empty name; his copy of a place has coordinates rounded
    to 0.01 degrees, about 1 km.
    """
    if role != "fitter":
        return body
    if kind == "person":
        return _person(body)
    place = body.get("place")
    return {**body, "place": _rough(place)} if kind in _KINDS_WITH_PLACE and place else body


def _person(body: Body) -> dict[str, Any]:
    shown = {name: value for name, value in body.items() if name in _OF_A_PERSON}
    typed = {name: pair for name, pair in (body.get("as_typed") or {}).items() if name in shown}
    return {"name": "", **shown, **({"as_typed": typed} if typed else {})}


def _rough(place: Body) -> dict[str, Any]:
    return {
        name: round(value, 2) if name in _COORDINATES and value is not None else value
        for name, value in place.items()
    }
