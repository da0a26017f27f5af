"""Something that changes a rate or a plan: other tyres, a surface, heat, a supply that is shut."""

from collections.abc import Mapping
from typing import Any

from marshmallow import fields

from .base import LogEntry, odometer
from .fields import Choice, Flag, Quantity, Text
from .fuel import Surface


class Event(LogEntry):
    """From here on consumption may differ; other tyres also change how far a km of the odometer is.

    `heat`, `company` and `washing` change the use of water. `surface` says what the way since the last entry was;
    `supply` what somebody heard or found of a place by its name. None of these five moves the rates of fuel: they carry
    a `rate_u` of 0, for phones that take every event for a change of those.
    """

    odometer_km = odometer()
    what = Choice(
        "tyres", "roof_load", "other", "surface", "supply", "heat", "company", "washing", required=True
    )
    rate_u = Quantity(0, 1, metadata={"description": "how far it may move the rates, one sd, relative"})
    factor_before = Quantity(0.5, 2, metadata={"description": "true km per km of the odometer until now"})
    factor_after = Quantity(0.5, 2, metadata={"description": "the same from now on"})
    surface = fields.Nested(Surface, allow_none=True)
    towing = Flag(allow_none=True)
    water_rate_u = Quantity(
        0, 2, metadata={"description": "how far it may move the use of water, one sd, relative"}
    )
    supply = Text(80, shortest=1, metadata={"description": "the place, as routes name it"})
    found = Choice("open", "shut", "no_fuel", "no_water", metadata={"description": "what is said of it"})

    def together(self, data: Mapping[str, Any]) -> dict[str | int, Any]:
        needed = {"supply": ("supply", "found"), "surface": ("surface",)}.get(data["what"], ())
        return {name: ["This is needed here."] for name in needed if data.get(name) is None}
