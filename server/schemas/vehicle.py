"""The vehicle: exactly one in a book, with the book's id."""

from marshmallow import fields

from .base import PlanRecord, Strict
from .fields import Choice, Quantity, Text

TERMS = ("au", "eu", "uk", "us", "za", "nz")


class UnitChoice(Strict):
    """The units in which a vehicle's figures are shown unless a viewer chose others."""

    mass = Choice("kg", "lb", "t")
    length = Choice("m", "mm", "in")
    volume = Choice("L", "gal_us", "gal_imp")
    distance = Choice("km", "mi")


class Vehicle(PlanRecord):
    """One towing or solo vehicle with what is measured of it; blank is not known."""

    name = Text(80, shortest=1, required=True)
    body_form = Choice("utility", "wagon", "van", "cab_chassis")
    wheelbase_m = Quantity(1, 10, unit="m")
    rear_axles = Choice("single", "load_sharing_pair", "independent_pair")
    rear_spread_m = Quantity(0.1, 3, unit="m")
    rear_share = Quantity(0, 1)
    stiffness_front = Quantity(0.01, 100)
    stiffness_rear_1 = Quantity(0.01, 100)
    stiffness_rear_2 = Quantity(0.01, 100)
    frame = Choice("flexible", "rigid")
    front_roll_share = Quantity(0, 1)
    track_front_m = Quantity(0.8, 3, unit="m")
    track_rear_m = Quantity(0.8, 3, unit="m")
    front_overhang_m = Quantity(0, 3, unit="m")
    rear_overhang_m = Quantity(0, 6, unit="m")
    coupling_x_m = Quantity(0, 16, unit="m")
    base_front_kg = Quantity(0, 20_000, unit="kg")
    base_front_u_kg = Quantity(0, 5_000, unit="kg")
    base_rear_kg = Quantity(0, 20_000, unit="kg")
    base_rear_u_kg = Quantity(0, 5_000, unit="kg")
    base_correlation = Quantity(-1, 1)
    base_known_by = Choice("weighed", "data_sheet", "similar", "estimate")
    base_fuel_l = Quantity(0, 1_000, unit="L")
    base_driver_kg = Quantity(0, 200, unit="kg")
    cg_height_m = Quantity(0.2, 3, unit="m")
    cg_height_u_m = Quantity(0, 1, unit="m")
    odometer_factor = Quantity(0.5, 2)
    odometer_factor_u = Quantity(0, 0.2)
    fuel_kind = Choice("diesel", "petrol", "other")
    fuel_temperature_c = Quantity(-40, 90, unit="C")
    fuel_temperature_u_c = Quantity(0, 50, unit="C")
    sealed_l_per_100km = Quantity(1, 200)
    gravel_l_per_100km = Quantity(1, 200)
    sand_l_per_100km = Quantity(1, 200)
    towing_ratio = Quantity(1, 5)
    pump_u = Quantity(0, 0.1)
    odometer_step_km = Quantity(0.01, 10, unit="km")
    fuel_guess_u = Quantity(0.01, 2)
    fuel_surface_u = Quantity(0, 2)
    fuel_drift = Quantity(0, 1)
    fuel_surface_drift = Quantity(0, 1)
    fuel_unsteady_km = Quantity(1, 10_000, unit="km")
    fuel_reserve_l = Quantity(0, 1_000, unit="L")
    water_l_per_day = Quantity(0.5, 100)
    water_guess_u = Quantity(0.01, 2)
    water_drift = Quantity(0, 1)
    water_fill_u = Quantity(0, 0.5)
    water_reserve_l = Quantity(0, 1_000, unit="L")
    terms = Choice(*TERMS)
    units = fields.Nested(UnitChoice)
    confidence = Quantity(0.5, 0.9999)
    forgotten_share = Quantity(0, 0.2)
