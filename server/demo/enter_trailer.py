"""A trailer's sheet entered by the fitter, on the day when it came to the workshop."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import Any

from .chance import Chance
from .clock import moment
from .enter import Clerk, Entered, item_body, plate_body, slot_body, tank_body
from .figures import typed
from .journal import Journal
from .tables import Line, PlateRow, TrailerSheet


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


def open_to_trailer(
    sheet: TrailerSheet,
    lines: Sequence[Line],
    *,
    entered: Entered,
    today: date,
    journal: Journal,
    fitter: str,
) -> None:
    """Write down, the evening that the trailer came, which of the vehicle's lines may move onto it."""
    own = {"trailer_id": entered.of("trailer", sheet.key)}
    when = moment(today, sheet.day, "18:20")
    for line in (one for one in lines if one.trailer_slots):
        when += timedelta(minutes=1)
        places = [slot_body(label, at) for label, at in line.slots]
        places += [slot_body(label, at) | own for label, at in line.trailer_slots]
        item, body = entered.of("item", line.name), {"may_move_to": places}
        journal.edit(book=entered.book, kind="item", id=item, body=body, when=when, by=fitter)


def _whose(plate: PlateRow, own: dict[str, Any]) -> dict[str, Any]:
    """A ball or hook belongs to the vehicle, whatever hangs on it."""
    return own if plate.of == "trailer" else {}
