"""A route: the way ahead in legs, where fuel and water can be had along it, and what changes on the way."""

from marshmallow import fields, validate

from .base import PlanRecord, Typed, odometer
from .fields import Choice, Flag, Id, Quantity, Text
from .fuel import Surface


def _along(*, required: bool = False) -> Quantity:
    """A distance from where the route begins, by map or road posts."""
    return Quantity(0, 50_000, unit="km", required=required)


class RouteLeg(Typed):
    """A stretch of road; without distance, days in one place. Blank days follow from the kilometres of a day."""

    label = Text(80)
    distance_km = _along(required=True)
    surface = fields.Nested(Surface, required=True)
    towing = Flag(allow_none=True, metadata={"description": "null: as it is when the route begins"})
    days = Quantity(0, 365)


class RouteSupply(Typed):
    """A place where fuel or water can be had; what is uncertain or shut is not counted on."""

    name = Text(80, shortest=1, required=True)
    at_km = _along(required=True)
    fuel = Flag(required=True)
    water = Flag(required=True)
    certain = Flag(required=True)
    shut = Flag(metadata={"description": "struck out by somebody"})
    fuel_take_l = Quantity(0, 5_000, unit="L", metadata={"description": "litres to take on; null fills up"})
    water_take_l = Quantity(0, 5_000, unit="L", metadata={"description": "litres to take on; null fills up"})
    latitude_deg = Quantity(-90, 90)
    longitude_deg = Quantity(-180, 180)
    note = Text(200)


class OnTheWay(Typed):
    """Something that comes aboard or goes: a person, an item of the book, a load named here, grey water let out.

    A load comes at `at_km` and goes at `until_km`, where that is given.
    """

    at_km = _along(required=True)
    what = Choice("person", "item", "load", "grey", required=True)
    subject_id = Id(allow_none=True, metadata={"description": "the person, the item or the grey tank"})
    aboard = Flag(allow_none=True)
    name = Text(80)
    mass_kg = Quantity(0, 10_000, unit="kg")
    mass_u_kg = Quantity(0, 5_000, unit="kg")
    x_m = Quantity(-3, 20, unit="m")
    until_km = _along()


class Route(PlanRecord):
    """Who travels is by default whoever is aboard; blank reserves are the usual ones.

    `begun_odometer_km`: where the odometer stood at the beginning; from it the log tells how far the vehicle has come.
    """

    name = Text(80, shortest=1, required=True)
    legs = fields.List(fields.Nested(RouteLeg), required=True, validate=validate.Length(1, 200))
    supplies = fields.List(fields.Nested(RouteSupply), validate=validate.Length(max=200))
    changes = fields.List(fields.Nested(OnTheWay), validate=validate.Length(max=200))
    begun_odometer_km = odometer()
    day_km = Quantity(1, 5_000, unit="km")
    fuel_reserve_l = Quantity(0, 5_000, unit="L")
    water_reserve_l = Quantity(0, 5_000, unit="L")
    people_ids = fields.List(Id(), allow_none=True, validate=validate.Length(max=60))
