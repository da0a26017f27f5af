"""The water log."""

from marshmallow import fields

from .base import LogEntry, Place
from .fields import Choice, Flag, Id, Quantity


class Water(LogEntry):
    """Water put in, drawn off or dumped; a tank is as drinkable as the worst put in since it was empty."""

    tank_id = Id(required=True)
    action = Choice("fill", "draw", "dump", required=True)
    litres_l = Quantity(0, 5_000, unit="L", required=True)
    litres_u_l = Quantity(0, 500, unit="L")
    measured = Flag()
    full = Flag()
    everything = Flag(
        metadata={"description": "drawn or dumped to the last drop; the litres then say nothing"}
    )
    source = Choice("mains", "bore", "rain", "surface", "bought", "unknown")
    drinkable = Choice("yes", "no", "unknown", required=True)
    place = fields.Nested(Place, allow_none=True)
