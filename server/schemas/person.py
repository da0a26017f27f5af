"""A person or an animal who travels."""

from .base import PlanRecord
from .fields import Choice, Day, Flag, Id, Quantity, Text


class Person(PlanRecord):
    """A name or initials, a mass and the share of water; a fitter is shown the mass and the seat only."""

    name = Text(80, shortest=1, required=True)
    nature = Choice("person", "animal", required=True)
    child = Flag()
    mass_kg = Quantity(0, 500, unit="kg")
    mass_u_kg = Quantity(0, 100, unit="kg")
    mass_on = Day(allow_none=True)
    water_share = Quantity(0, 5)
    usual_seat_id = Id(allow_none=True)
