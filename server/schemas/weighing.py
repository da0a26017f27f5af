"""A weighing: a visit to a bridge with its readings and the state in which it was judged."""

from collections.abc import Mapping
from typing import Any

from marshmallow import fields, validate

from server.domain.bridge import INTERVAL_KG, STEPS

from .base import LogEntry, Place, Strict, Typed, odometer
from .fields import Choice, Flag, Id, Quantity, Text

AXLES = ("front", "rear", "rear_1", "rear_2", "trailer")
WHEELS = ("front_left", "front_right", "rear_left", "rear_right")


class Bridge(Strict):
    """The scale of the visit; an equal key is the same instrument, and shares its gain error."""

    key = Text(120, allow_none=True)
    name = Text(80, allow_none=True)
    site_number = Text(40, allow_none=True)
    form = Choice("single_deck", "multi_deck", "pads")
    interval_kg = Quantity(0.1, 200, unit="kg")
    displayed_interval_kg = Quantity(0.1, 200, unit="kg")
    accuracy_class = Choice("III", "IIII", "percent")
    percent = Quantity(0.01, 20)
    max_kg = Quantity(100, 200_000, unit="kg")
    settled_by = Choice("default", "guessed_from_readings", "confirmed")

    def together(self, data: Mapping[str, Any]) -> dict[str | int, Any]:
        """An error stated in percent of the reading is stated."""
        if data.get("accuracy_class") != "percent" or data.get("percent") is not None:
            return {}
        return {
            "percent": ["This cannot be blank with the class percent: a number from 0.01 to 20 is needed."]
        }


class SeatState(Strict):
    """What sat in a seat."""

    seat_id = Id(required=True)
    person_id = Id(allow_none=True)
    mass_kg = Quantity(0, 500, unit="kg", required=True)
    mass_u_kg = Quantity(0, 100, unit="kg", required=True)


class Difference(Strict):
    """How one reading's load differed from the state of the visit."""

    seats_empty = fields.List(Id(), validate=validate.Length(max=30))
    uncoupled = Flag()
    text = Text(200)


class Reading(Typed):
    """One figure of the deck with the axles or wheels that stood on it."""

    id = Id(required=True)
    on_deck = fields.List(Choice(*AXLES, *WHEELS), required=True, validate=validate.Length(1, 8))
    value_kg = Quantity(0, 200_000, unit="kg", required=True)
    split = Flag(metadata={"description": "part of the vehicle stood beside the deck"})
    repeat_of = Id(allow_none=True)
    deck = Text(40, allow_none=True, metadata={"description": "which deck or pad, where there are several"})
    approach = Text(40, allow_none=True, metadata={"description": "from which side it was driven on"})
    differs = fields.Nested(Difference, allow_none=True)
    struck_out = Text(200, allow_none=True, metadata={"description": "why a person set this reading aside"})


class TankState(Strict):
    """A tank's level on the day, with its standard uncertainty as a fraction of the tank."""

    tank_id = Id(required=True)
    level = Quantity(0, 1, required=True)
    level_u = Quantity(0, 1, required=True)
    known_from = Choice("estimate", "dip", "typed", "prior", required=True)


class TrailerState(Strict):
    """Whether a trailer was coupled."""

    trailer_id = Id(required=True)
    coupled = Flag(required=True)


class ItemState(Strict):
    """Whether an item was aboard."""

    item_id = Id(required=True)
    aboard = Flag(required=True)


class PlanReference(Strict):
    """The revision of a plan record that took part."""

    id = Id(required=True)
    rev = Id(required=True)


class State(Strict):
    """The day's facts that a weighing was judged in; later entries never change this copy."""

    settled_by = Choice("as_logged", "confirmed", required=True)
    tanks = fields.List(fields.Nested(TankState), required=True, validate=validate.Length(max=60))
    seats = fields.List(fields.Nested(SeatState), required=True, validate=validate.Length(max=60))
    items = fields.List(fields.Nested(ItemState), required=True, validate=validate.Length(max=1_000))
    trailers = fields.List(fields.Nested(TrailerState), required=True, validate=validate.Length(max=10))
    fuel_temperature_c = Quantity(-40, 90, unit="C")
    fuel_temperature_u_c = Quantity(0, 50, unit="C")
    plan = fields.List(fields.Nested(PlanReference), required=True, validate=validate.Length(max=2_000))


class Weighing(LogEntry):
    """One visit; a single reading is a valid weighing."""

    bridge = fields.Nested(Bridge, required=True)
    readings = fields.List(fields.Nested(Reading), required=True, validate=validate.Length(1, 40))
    state = fields.Nested(State, allow_none=True)
    place = fields.Nested(Place, allow_none=True)
    odometer_km = odometer()
    ticket_number = Text(60)
    photos = fields.List(Id(), validate=validate.Length(max=20))

    def together(self, data: Mapping[str, Any]) -> dict[str | int, Any]:
        """No reading lies beyond the last step of the class's table of errors, where nothing is known of them."""
        bridge = data["bridge"]
        accuracy_class = bridge.get("accuracy_class") or "III"
        if accuracy_class == "percent":
            return {}
        interval_kg, intervals = bridge.get("interval_kg") or INTERVAL_KG, STEPS[accuracy_class][-1][0]
        reach_kg = intervals * interval_kg
        told = (
            f"it must be 0 to {reach_kg:g} kg, which is {intervals} intervals of {interval_kg:g} kg, as far as "
            f"class {accuracy_class} reaches."
        )
        wrong = {
            place: {"value_kg": [f"{one['value_kg']:g} is not possible: {told}"]}
            for place, one in enumerate(data["readings"])
            if one["value_kg"] > reach_kg and not one.get("struck_out")
        }
        return {"readings": wrong} if wrong else {}
