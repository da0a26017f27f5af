"""A tank: a place whose content changes from day to day; a can is a tank with an empty mass."""

from .base import PlanRecord
from .fields import Choice, Flag, Id, Quantity, Text, Whole


class Tank(PlanRecord):
    """Capacity is what fits up to the pump's shut-off, above what the outlet cannot reach."""

    name = Text(80, shortest=1, required=True)
    holds = Choice("fuel", "water", "grey", "waste", "gas", "stores", required=True)
    trailer_id = Id(allow_none=True)
    can = Flag()
    empty_mass_kg = Quantity(0, 500, unit="kg")
    empty_mass_u_kg = Quantity(0, 100, unit="kg")
    capacity_l = Quantity(0.1, 5_000, unit="L")
    capacity_u_l = Quantity(0, 500, unit="L")
    unusable_l = Quantity(0, 500, unit="L")
    full_u_l = Quantity(0, 50, unit="L")
    gauge_u = Quantity(0, 0.5)
    density_kg_per_l = Quantity(0.1, 3, unit="kg/L")
    density_u_kg_per_l = Quantity(0, 0.5, unit="kg/L")
    x_m = Quantity(-3, 20, unit="m")
    x_u_m = Quantity(0, 5, unit="m")
    y_m = Quantity(-2, 2, unit="m")
    position_by = Choice("measured", "described")
    z_bottom_m = Quantity(0, 5, unit="m")
    height_m = Quantity(0.01, 3, unit="m")
    length_m = Quantity(0.01, 5, unit="m", metadata={"description": "along the vehicle"})
    breadth_m = Quantity(0.01, 3, unit="m")
    drain_order = Whole(1, 99, allow_none=True)
    grey_tank_id = Id(allow_none=True)
    grey_fraction = Quantity(0, 1)
    emergency_reserve = Flag()
