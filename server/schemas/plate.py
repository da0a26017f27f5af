"""A plate: a dated set of ratings of one thing; a blank rating is not known, never no limit."""

from marshmallow import fields

from .base import PlanRecord
from .fields import Choice, Day, Id, Quantity, Text, Whole


def _rating() -> Quantity:
    return Quantity(1, 60_000, unit="kg")


class Plate(PlanRecord):
    """The ratings that one plate, paper or marking states."""

    of = Choice("vehicle", "towbar", "coupling", "trailer", "rack", "tyres", required=True)
    trailer_id = Id(allow_none=True)
    date_from = Day(allow_none=True)
    standing = Choice("in_force", "planned")
    issuer = Text(80)
    conditions = Text(500)
    gross_kg = _rating()
    front_axle_kg = _rating()
    rear_axle_kg = _rating()
    combination_kg = _rating()
    trailer_kg = _rating()
    trailer_axles_kg = _rating()
    coupling_kg = _rating()
    roof_kg = _rating()
    tyre_size = Text(24)
    tyre_load_index = Quantity(0, 279)
    tyre_axle = Choice("front", "rear", "both", "trailer")
    tyres_per_axle = Whole(2, 4)
    photos = fields.List(Id())
