"""The rows of a book's log as the entries that the estimators read, and the tanks that they are about."""

from collections.abc import Sequence
from datetime import datetime

from .book import Body, Book, Row
from .entries import ChangeEntry, DipEntry, FillEntry, FillLine, TransferEntry, WaterEntry
from .events import CHANGE_U
from .fuel import TankSpec
from .fuel_log import FuelEntry
from .water import WATER_CHANGE_U
from .water_log import WaterLogEntry

ABOUT_U = 0.05  # u of litres that no meter showed, as a share of them (assumed)
# Events of the fuel log, and of the water log; the others are in neither.
FUEL_CHANGES = ("tyres", "roof_load", "other", "surface")
WATER_CHANGES = ("heat", "company", "washing")


def seconds(at: str) -> float:
    """A UTC instant of the contract as seconds since 1970."""
    return datetime.fromisoformat(at).timestamp()


def tanks_of(*, book: Book, holds: str, trailers_on: Sequence[str] = ()) -> tuple[TankSpec, ...]:
    """Tanks and cans that hold fuel or water and whose capacity is known; a trailer's only where it is on."""
    return tuple(
        TankSpec(
            tank.id,
            float(tank.body["capacity_l"]),
            drain_order=int(tank.body.get("drain_order") or 99),
            drawn=not (tank.body.get("can") or tank.body.get("emergency_reserve")),
            full_u_l=tank.body.get("full_u_l"),
            gauge_u=tank.body.get("gauge_u"),
        )
        for tank in book.tanks
        if tank.body["holds"] == holds
        and tank.body.get("capacity_l")
        and (not tank.body.get("trailer_id") or tank.body["trailer_id"] in trailers_on)
    )


def fuel_entries(*, book: Book, until: str | None = None) -> tuple[FuelEntry, ...]:
    """Fills, levels read, transfers and changes of the fuel log, up to an instant, in order of time."""
    ids = {tank.id for tank in tanks_of(book=book, holds="fuel")}
    rows = rows_until(rows=(*book.fills, *book.dips, *book.transfers, *book.events), until=until)
    return tuple(entry for entry in (_fuel_entry(row, ids) for row in rows) if entry is not None)


def water_entries(
    *, book: Book, until: str | None = None, trailers_on: Sequence[str] = ()
) -> tuple[WaterLogEntry, ...]:
    """Fills, draws, levels read, transfers and changes of the water log, up to an instant, in order of time."""
    ids = {tank.id for tank in tanks_of(book=book, holds="water", trailers_on=trailers_on)}
    rows = rows_until(rows=(*book.waters, *book.dips, *book.transfers, *book.events), until=until)
    return tuple(entry for entry in (_water_entry(row, ids) for row in rows) if entry is not None)


def rows_until(*, rows: Sequence[Row], until: str | None) -> list[Row]:
    """Rows up to an instant, in order of time."""
    kept = [row for row in rows if until is None or row.body["at"] <= until]
    return sorted(kept, key=lambda row: (row.body["at"], row.order, row.id))


def _fuel_entry(row: Row, ids: set[str]) -> FuelEntry | None:
    body = row.body
    if row.kind == "event":
        return _change(row) if body["what"] in FUEL_CHANGES else None
    if row.kind != "fill":
        return _moved_or_read(row, ids)
    lines = tuple(
        FillLine(line["tank_id"], float(line["litres_l"]), bool(line["full"]), _litres_u(line))
        for line in body["lines"]
        if line["tank_id"] in ids
    )
    if not lines:
        return None
    return FillEntry(
        row.id,
        seconds(body["at"]),
        row.order,
        body.get("odometer_km"),
        lines,
        missed_before=bool(body.get("missed_before")),
        surface=body.get("surface"),
        towing=body.get("towing"),
    )


def _change(row: Row) -> ChangeEntry:
    body, rate_u = row.body, row.body.get("rate_u")
    usual = 0.0 if body["what"] == "surface" else CHANGE_U
    before, after = body.get("factor_before"), body.get("factor_after")
    return ChangeEntry(
        row.id,
        seconds(body["at"]),
        row.order,
        body.get("odometer_km"),
        rate_u=usual if rate_u is None else float(rate_u),
        ratio=float(after) / float(before) if before and after else 1.0,
        surface=body.get("surface"),
        towing=body.get("towing"),
    )


def _water_change(row: Row) -> ChangeEntry | None:
    if row.body["what"] not in WATER_CHANGES:
        return None
    stated = row.body.get("water_rate_u")
    rate_u = WATER_CHANGE_U if stated is None else float(stated)
    return ChangeEntry(row.id, seconds(row.body["at"]), row.order, None, rate_u=rate_u)


def _moved_or_read(row: Row, ids: set[str]) -> DipEntry | TransferEntry | None:
    body = row.body
    about = (row.id, seconds(body["at"]), row.order, body.get("odometer_km"))
    if row.kind == "dip" and body["tank_id"] in ids:
        return DipEntry(
            *about,
            body["tank_id"],
            how=body["how"],
            level=body.get("level"),
            level_u=body.get("level_u"),
            litres_l=body.get("litres_l"),
            litres_u_l=body.get("litres_u_l"),
            surface=body.get("surface"),
            towing=body.get("towing"),
        )
    if row.kind == "transfer" and body["from_tank_id"] in ids:
        into = body.get("to_tank_id")
        return TransferEntry(
            *about,
            body["from_tank_id"],
            into if into in ids else None,
            body.get("litres_l"),
            body.get("litres_u_l"),
            everything=bool(body.get("everything")),
        )
    return None


def _water_entry(row: Row, ids: set[str]) -> WaterLogEntry | None:
    body = row.body
    if row.kind == "event":
        return _water_change(row)
    if row.kind != "water":
        return _moved_or_read(row, ids)
    if body["tank_id"] not in ids:
        return None
    return WaterEntry(
        row.id,
        seconds(body["at"]),
        row.order,
        body["tank_id"],
        body["action"],
        float(body["litres_l"]),
        _litres_u(body),
        full=bool(body.get("full")),
        drinkable=body["drinkable"],
        everything=bool(body.get("everything")),
    )


def _litres_u(body: Body) -> float | None:
    """The u of litres put in; where no meter showed them and nobody said, 5 % of them."""
    stated = body.get("litres_u_l")
    if stated is None and body.get("measured") is False:
        return ABOUT_U * float(body["litres_l"])
    return None if stated is None else float(stated)
