"""Record kind -> schema: one list for the API, for sync and for the browser's generated types."""

from .aboard import Aboard
from .base import LogEntry, PlanRecord
from .correction import Correction
from .event import Event
from .fuel import Dip, Fill, Transfer
from .item import Item
from .person import Person
from .plate import Plate
from .route import Route
from .seat import Seat
from .tank import Tank
from .trailer import Trailer
from .vehicle import Vehicle
from .water import Water
from .weighing import Weighing

KINDS: dict[str, type[PlanRecord] | type[LogEntry]] = {
    "vehicle": Vehicle,
    "trailer": Trailer,
    "plate": Plate,
    "item": Item,
    "tank": Tank,
    "seat": Seat,
    "person": Person,
    "route": Route,
    "aboard": Aboard,
    "weighing": Weighing,
    "fill": Fill,
    "dip": Dip,
    "transfer": Transfer,
    "water": Water,
    "event": Event,
    "correction": Correction,
}

PLAN_KINDS = frozenset(kind for kind, schema in KINDS.items() if issubclass(schema, PlanRecord))
LOG_KINDS = frozenset(KINDS) - PLAN_KINDS
