"""Something that changes a rate or a plan: other tyres, a surface, heat, a supply that is shut."""

from collections.abc import Mapping
from typing import Any

from marshmallow import fields

from .base import LogEntry, odometer
from .fields import Choice, Flag, Quantity, Text
from .fuel import Surface

MOVES_FUEL = ("tyres", "roof_load", "other")
NEEDED: Mapping[str, Mapping[str, str]] = {
    "supply": {
        "supply": "This cannot be blank with supply: the place's name, 1 to 80 letters, is needed.",
        "found": "This cannot be blank with supply: open, shut, no_fuel or no_water is needed.",
    },
    "surface": {
        "surface": "This cannot be blank with surface: shares from 0 to 1 that add up to 1 are needed."
    },
}


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
        """What each `what` needs, and that only tyres, a roof load and others move the rates of fuel."""
        what, rate_u = data["what"], data.get("rate_u")
        needed = NEEDED.get(what, {})
        wrong: dict[str | int, Any] = {
            name: [says] for name, says in needed.items() if data.get(name) is None
        }
        if what not in MOVES_FUEL and rate_u:
            wrong["rate_u"] = [f"{rate_u:g} cannot be with {what}: it must be 0, or blank."]
        return wrong
