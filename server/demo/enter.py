"""A sheet entered as plan records: the owner makes the book and the people, the fitter the build."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from typing import Any

from .chance import Chance
from .clock import day_of, moment
from .figures import typed
from .journal import Journal
from .tables import Edit, Line, PersonRow, Place, PlateRow, SeatRow, Sheet, TankRow
from .truth import TrueVehicle


@dataclass(slots=True)
class Entered:
    """The ids that a book's rows got: (kind, key) -> id."""

    book: str
    ids: dict[tuple[str, str], str] = field(default_factory=dict)

    def of(self, kind: str, key: str) -> str:
        """The id of one row."""
        return self.ids[(kind, key)]


@dataclass(slots=True)
class Clerk:
    """Types one record after the other."""

    journal: Journal
    chance: Chance
    entered: Entered
    when: datetime
    by: str

    def type_in(self, kind: str, key: str, body: dict[str, Any]) -> None:
        """One more plan record, half a minute to three minutes after the last."""
        self.when += timedelta(seconds=self.chance.randint(30, 180))
        self.entered.ids[(kind, key)] = self.journal.add(
            book=self.entered.book, kind=kind, body=body, when=self.when, by=self.by
        )


def enter_sheet(
    sheet: Sheet, *, truth: TrueVehicle, today: date, journal: Journal, chance: Chance, fitter: str
) -> Entered:
    """Write all plan records of a sheet at the times when they were made."""
    begun = moment(today, sheet.begun_day, "09:12")
    book = journal.new_id(begun)
    body = {**sheet.vehicle, **typed(**sheet.figures)}
    journal.add(book=book, kind="vehicle", body=body, when=begun, by=sheet.owner, id=book)
    entered = Entered(book)
    build_from = moment(today, sheet.begun_day - 1, "08:05")
    desk = Clerk(journal, chance, entered, build_from, fitter)
    for seat in sheet.seats:
        desk.type_in("seat", seat.key, _seat(seat))
    for tank in _grey_first(sheet.tanks):
        desk.type_in("tank", tank.key, tank_body(tank, entered))
    _enter_by_day(sheet, desk, today)
    phone = Clerk(journal, chance, entered, moment(today, sheet.begun_day - 1, "19:30"), sheet.owner)
    for person in sheet.people:
        phone.type_in("person", person.key, _person(person, day_of(today, sheet.begun_day - 1), entered))
    for edit in sheet.edits:
        _weigh_loose(edit, truth.items[edit.line].kg, desk, moment(today, edit.day, edit.at))
    return entered


def entered_by(line: Line, day: int) -> bool:
    """Whether a line was on the sheet, and on the vehicle, on that day."""
    return not line.on_order and (line.fitted_day is None or line.fitted_day > day)


def _grey_first(tanks: Iterable[TankRow]) -> list[TankRow]:
    # a tank that drains into a grey tank names its id, which must be there
    return sorted(tanks, key=lambda row: row.holds != "grey")


def _enter_by_day(sheet: Sheet, desk: Clerk, today: date) -> None:
    """Items and plates: those from the first, then those that came later, in the order of their days."""
    first = desk.when
    plates = [(row.day, row) for row in sheet.plates]
    lines = [(sheet.begun_day if row.fitted_day is None else row.fitted_day, row) for row in sheet.lines]
    rows: list[tuple[int, Line | PlateRow]] = sorted([*lines, *plates], key=lambda one: -one[0])
    for day, row in rows:
        at = moment(today, day, "14:20")
        desk.when = max(desk.when, first if day >= sheet.begun_day else at)
        if isinstance(row, Line):
            desk.type_in("item", row.name, item_body(row, today))
        else:
            desk.type_in("plate", f"{row.of}/{row.day}", plate_body(row, today))


def _weigh_loose(edit: Edit, true_kg: float, desk: Clerk, when: datetime) -> None:
    """The workshop's scale shows half kilograms; the stated ± of the old figure no longer holds."""
    mass = typed(mass_kg=f"{round(2 * true_kg) / 2} kg")
    body = {**mass, "mass_u_kg": None, "known_by": "weighed", "note": edit.note}
    item = desk.entered.of("item", edit.line)
    desk.journal.edit(book=desk.entered.book, kind="item", id=item, body=body, when=when, by=desk.by)


def _place(at: Place) -> dict[str, str]:
    return {name: f"{value} mm" for name, value in zip(("x_m", "y_m", "z_m"), at, strict=True)}


def item_body(row: Line, today: date) -> dict[str, Any]:
    """A line as an item."""
    body: dict[str, Any] = {
        "name": row.name,
        "nature": "load" if row.load else "part",
        "known_by": row.known_by,
        "count": row.count,
        "roof": row.roof,
        "position_by": "described" if row.told else "measured",
        "stage": "on_order" if row.on_order else "fitted",
    }
    flags = {
        "weighed_singly": row.weighed_singly,
        "taken_off": row.taken_off,
        "may_stay_behind": row.stays,
        "keep_aboard": row.keep,
    }
    body |= {name: True for name, given in flags.items() if given}
    if row.comes:
        body["may_stay_behind"] = False
    if row.slots:
        body["may_move_to"] = [slot_body(label, at) for label, at in row.slots]
    if row.fitted_day is not None:
        body["fitted_on"] = day_of(today, row.fitted_day).isoformat()
    return body | typed(mass_kg=row.mass, mass_u_kg=row.u, x_u_m=row.x_u, **_place(row.at))


def slot_body(label: str, at: Place) -> dict[str, Any]:
    """A place that an item may move to."""
    figures = typed(**_place(at))
    figures.pop("as_typed")  # a slot is picked on the drawing
    return {"label": label, **figures}


def tank_body(row: TankRow, entered: Entered) -> dict[str, Any]:
    """A row as a tank."""
    x, y, z = row.at
    body: dict[str, Any] = {"name": row.name, "holds": row.holds, "can": row.empty is not None}
    if row.order is not None:
        body["drain_order"] = row.order
    if row.grey is not None:
        body |= {"grey_tank_id": entered.of("tank", row.grey), "grey_fraction": 0.8}
    if row.reserve:
        body["emergency_reserve"] = True
    return body | typed(
        capacity_l=row.capacity,
        capacity_u_l=row.capacity_u,
        unusable_l=row.unusable,
        empty_mass_kg=row.empty,
        x_m=f"{x} mm",
        x_u_m="20 mm",
        y_m=f"{y} mm",
        z_bottom_m=f"{z} mm",
        height_m=row.height,
        breadth_m=row.breadth,
    )


def _seat(row: SeatRow) -> dict[str, Any]:
    return {"name": row.name} | typed(x_u_m="50 mm", **_place(row.at))


def _person(row: PersonRow, on: date, entered: Entered) -> dict[str, Any]:
    body: dict[str, Any] = {
        "name": row.name,
        "nature": "animal" if row.animal else "person",
        "child": row.child,
        "mass_on": on.isoformat(),
        "usual_seat_id": entered.of("seat", row.seat),
    }
    return body | typed(mass_kg=row.mass, mass_u_kg=row.u, water_share=row.water_share)


def plate_body(row: PlateRow, today: date) -> dict[str, Any]:
    """A row as a plate."""
    body: dict[str, Any] = {
        "of": row.of,
        "date_from": day_of(today, row.day).isoformat(),
        "standing": "in_force",
        "issuer": row.issuer,
        "conditions": row.conditions,
    }
    if row.tyre_size:
        body |= {"tyre_size": row.tyre_size, "tyre_load_index": row.tyre_load_index}
    return body | typed(**row.ratings)
