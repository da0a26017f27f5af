"""A trailer's sheet entered by the fitter, on the day when it came to the workshop."""

from datetime import date
from typing import Any

from .chance import Chance
from .clock import moment
from .enter import Clerk, Entered, item_body, plate_body, tank_body
from .figures import typed
from .journal import Journal
from .tables import PlateRow, TrailerSheet


def enter_trailer(
    sheet: TrailerSheet, *, entered: Entered, today: date, journal: Journal, chance: Chance, fitter: str
) -> None:
    """Write the trailer, what is on it, and its plates."""
    desk = Clerk(journal, chance, entered, moment(today, sheet.day, "09:40"), fitter)
    desk.type_in("trailer", sheet.key, {**sheet.trailer, **typed(**sheet.figures)})
    own = {"trailer_id": entered.of("trailer", sheet.key)}
    for line in sheet.lines:
        desk.type_in("item", line.name, {**item_body(line, today), **own})
    for tank in sheet.tanks:
        desk.type_in("tank", tank.key, {**tank_body(tank, entered), **own})
    for plate in sheet.plates:
        desk.type_in("plate", f"{plate.of}/{plate.day}", {**plate_body(plate, today), **_whose(plate, own)})


def _whose(plate: PlateRow, own: dict[str, Any]) -> dict[str, Any]:
    """A ball or hook belongs to the vehicle, whatever hangs on it."""
    return own if plate.of == "trailer" else {}
