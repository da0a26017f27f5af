"""Something that changes a rate: other tyres, a load on the roof."""

from .base import LogEntry, odometer
from .fields import Choice, Quantity


class Event(LogEntry):
    """From here on consumption may differ; other tyres also change how far a km of the odometer is."""

    odometer_km = odometer()
    what = Choice("tyres", "roof_load", "other", required=True)
    rate_u = Quantity(0, 1, metadata={"description": "how far it may move the rates, one sd, relative"})
    factor_before = Quantity(0.5, 2, metadata={"description": "true km per km of the odometer until now"})
    factor_after = Quantity(0.5, 2, metadata={"description": "the same from now on"})
