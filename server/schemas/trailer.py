"""A trailer that the vehicle tows: a lever between the coupling and its axles."""

from .base import PlanRecord
from .fields import Choice, Flag, Quantity, Text, Whole


class Trailer(PlanRecord):
    """Places on it count rearwards from the coupling; blank is not known."""

    name = Text(80, shortest=1, required=True)
    body_form = Choice("box", "open")
    coupling_to_axle_m = Quantity(0.3, 15, unit="m")
    axles = Whole(1, 3)
    rear_overhang_m = Quantity(0, 8, unit="m")
    base_coupling_kg = Quantity(0, 5_000, unit="kg")
    base_coupling_u_kg = Quantity(0, 1_000, unit="kg")
    base_axles_kg = Quantity(0, 20_000, unit="kg")
    base_axles_u_kg = Quantity(0, 5_000, unit="kg")
    least_coupling_kg = Quantity(0, 5_000, unit="kg")
    base_known_by = Choice("weighed", "data_sheet", "similar", "estimate")
    levelling_hitch = Flag()
    hitch_moment_kgm = Quantity(0, 2_000, unit="kg m")
