"""A seat: a place for a person or an animal."""

from .base import PlanRecord
from .fields import Choice, Id, Quantity, Text


class Seat(PlanRecord):
    """A seat with nobody in it weighs nothing."""

    name = Text(80, shortest=1, required=True)
    x_m = Quantity(-3, 20, unit="m")
    x_u_m = Quantity(0, 5, unit="m")
    y_m = Quantity(-2, 2, unit="m")
    z_m = Quantity(0, 5, unit="m")
    position_by = Choice("measured", "described")
    usual_person_id = Id(allow_none=True)
