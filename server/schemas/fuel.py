"""The fuel log: a fill, a level read off, fuel moved."""

from marshmallow import fields, validate

from .base import LogEntry, Place, Strict, Typed, odometer
from .fields import Choice, Flag, Form, Id, Quantity


class FillLine(Typed):
    """Litres into one tank or can."""

    tank_id = Id(required=True)
    litres_l = Quantity(0, 5_000, unit="L", required=True)
    litres_u_l = Quantity(0, 500, unit="L")
    measured = Flag(metadata={"description": "by a meter; otherwise about"})
    full = Flag(required=True, metadata={"description": "to the pump's shut-off"})


class Surface(Strict):
    """Shares of the distance since the last entry; they add up to 1."""

    sealed = Quantity(0, 1, required=True)
    gravel = Quantity(0, 1, required=True)
    sand = Quantity(0, 1, required=True)


class Price(Strict):
    """Money as a decimal string with its currency."""

    amount = Form(r"[0-9]{1,9}(\.[0-9]{1,4})?", "{input} is not an amount like 123.45.", required=True)
    currency = Form(r"[A-Z]{3}", "{input} is not a currency's three letters.", required=True)


class Fill(LogEntry):
    """One stop, a line for each tank or can."""

    odometer_km = odometer()
    lines = fields.List(fields.Nested(FillLine), required=True, validate=validate.Length(1, 20))
    missed_before = Flag(metadata={"description": "a fill before this one was not entered"})
    surface = fields.Nested(Surface, allow_none=True)
    towing = Flag(allow_none=True)
    price = fields.Nested(Price, allow_none=True)
    place = fields.Nested(Place, allow_none=True)


class Dip(LogEntry):
    """A level read off a gauge, stick or tube, as a fraction or in litres."""

    odometer_km = odometer()
    tank_id = Id(required=True)
    level = Quantity(0, 1)
    level_u = Quantity(0, 1)
    litres_l = Quantity(0, 5_000, unit="L")
    litres_u_l = Quantity(0, 500, unit="L")
    how = Choice("gauge", "stick", "tube", "lamps", required=True)
    surface = fields.Nested(Surface, allow_none=True)
    towing = Flag(allow_none=True)


class Transfer(LogEntry):
    """Fuel or water from one tank or can to another, or out."""

    odometer_km = odometer()
    from_tank_id = Id(required=True)
    to_tank_id = Id(allow_none=True)
    out = Choice("given_away", "spilled", "heater")
    litres_l = Quantity(0, 5_000, unit="L")
    litres_u_l = Quantity(0, 500, unit="L")
    everything = Flag()
