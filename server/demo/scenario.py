"""One invented scenario from a seed and a day: what is written down, and what is true."""

from collections.abc import Mapping
from contextlib import nullcontext
from dataclasses import dataclass
from datetime import date
from typing import Any, Literal

from .bridges import Bridge, build_bridges
from .chance import Chance
from .changes import enter_done
from .diary import Board, Dip, Drive, Fill, Moment, Pour, Stand, Visit, Water
from .diary_tow import DIARIES as TOW_DIARIES
from .diary_utility import DIARY as UTILITY_DIARY
from .diary_van import DIARY as VAN_DIARY
from .diary_wagon import DIARY as WAGON_DIARY
from .enter import Entered, enter_sheet
from .enter_trailer import enter_trailer, open_to_trailer
from .figures import base_of
from .journal import Journal, Sent
from .journey import Journey, Point, board, drive, evening, stand
from .log import dip, fill, pour
from .people import FITTER, USERS, User
from .plan_utility import UTILITY
from .plan_van import VAN
from .plan_wagon import WAGON
from .routes import enter_route
from .tables import Sheet
from .tow import Tow, Towed, TrueTrailer, draw_trailer
from .truth import Loads, TrueVehicle, draw_truth
from .water import water
from .weigh import visit

LOG_DAYS = 60
STORIES = ((UTILITY, UTILITY_DIARY), (WAGON, WAGON_DIARY), (VAN, VAN_DIARY))


@dataclass(frozen=True, slots=True)
class Member:
    """A role in a book that the owner gives."""

    book: str
    owner: str
    user: str
    role: Literal["co_driver", "fitter"]


@dataclass(frozen=True, slots=True)
class VehicleTruth:
    """All that is true of one vehicle: `loads` by weighing id, `points` in order of time.

    `towed` is known of the weighings with a trailer on; their `loads` are those of the vehicle that tows.
    """

    sheet: Sheet
    entered: Entered
    vehicle: TrueVehicle
    loads: Mapping[str, Loads]
    points: tuple[Point, ...]
    trailer: TrueTrailer | None
    towed: Mapping[str, Towed]


@dataclass(frozen=True, slots=True)
class Truth:
    """What no record says: vehicles by key, bridges by key."""

    vehicles: Mapping[str, VehicleTruth]
    bridges: Mapping[str, Bridge]


@dataclass(frozen=True, slots=True)
class Scenario:
    """Users, roles and mutations to send in this order, and the truth behind them for tests."""

    seed: int
    today: date
    users: tuple[User, ...]
    members: tuple[Member, ...]
    records: tuple[Sent, ...]
    truth: Truth


def generate(seed: int, today: date) -> Scenario:
    """The scenario of a seed, dated back from `today`; the same two give the same bytes."""
    journal = Journal(Chance(seed, "ids"))
    bridges = build_bridges(seed)
    vehicles = {
        sheet.key: _live(sheet, diary, seed=seed, today=today, journal=journal, bridges=bridges)
        for sheet, diary in STORIES
    }
    return Scenario(
        seed=seed,
        today=today,
        users=USERS,
        members=tuple(one for told in vehicles.values() for one in _members(told)),
        records=journal.sent(),
        truth=Truth(vehicles, bridges),
    )


def _members(told: VehicleTruth) -> list[Member]:
    sheet, book = told.sheet, told.entered.book
    given = [Member(book, sheet.owner, FITTER, "fitter")]
    if sheet.co_driver:
        given.append(Member(book, sheet.owner, sheet.co_driver, "co_driver"))
    return given


def _live(
    sheet: Sheet,
    diary: tuple[Moment, ...],
    *,
    seed: int,
    today: date,
    journal: Journal,
    bridges: Mapping[str, Bridge],
) -> VehicleTruth:
    """One vehicle's sheet entered and its diary lived through."""
    vehicle = draw_truth(sheet, Chance(seed, f"{sheet.key}/truth"))
    desk = Chance(seed, f"{sheet.key}/desk")
    entered = enter_sheet(sheet, truth=vehicle, today=today, journal=journal, chance=desk, fitter=FITTER)
    road = Chance(seed, f"{sheet.key}/road")
    towing = Chance(seed, f"{sheet.key}/tow")
    tow = _enter_tow(sheet, entered, today=today, journal=journal, chance=towing)
    if sheet.trailer:
        with journal.drawing(Chance(seed, f"{sheet.key}/places")):
            open_to_trailer(
                sheet.trailer, sheet.lines, entered=entered, today=today, journal=journal, fitter=FITTER
            )
    journey = Journey(sheet, vehicle, today, journal, entered, road, bridges, tow=tow)
    for row, chance in _rows(sheet, diary, road, towing):
        with journey.drawing(chance) if chance is towing else nullcontext():
            _happen(journey, row)
        if row.day <= LOG_DAYS:
            journey.mark(row)
    shop = Chance(seed, f"{sheet.key}/done")
    enter_done(sheet.key, owner=sheet.owner, entered=entered, today=today, journal=journal, chance=shop)
    way = Chance(seed, f"{sheet.key}/route")
    enter_route(sheet.key, owner=sheet.owner, entered=entered, today=today, journal=journal, chance=way)
    trailer = tow.truth if tow else None
    loads, towed = journey.true_loads, journey.true_towed
    return VehicleTruth(sheet, entered, vehicle, loads, tuple(journey.points), trailer, towed)


def _enter_tow(
    sheet: Sheet, entered: Entered, *, today: date, journal: Journal, chance: Chance
) -> Tow | None:
    """The vehicle's trailer with its sheet entered, if it has one."""
    if sheet.trailer is None:
        return None
    truth = draw_trailer(sheet.trailer, coupling_x_m=base_of(sheet.figures["coupling_x_m"]), chance=chance)
    with journal.drawing(chance):
        enter_trailer(
            sheet.trailer, entered=entered, today=today, journal=journal, chance=chance, fitter=FITTER
        )
    return Tow(sheet.trailer, truth, dict.fromkeys(truth.tanks, 0.0))


def _rows(
    sheet: Sheet, diary: tuple[Moment, ...], road: Chance, towing: Chance
) -> list[tuple[Moment, Chance]]:
    """What happens, in order of time; whatever has to do with the trailer draws from a stream of its own."""
    evenings = (Moment(day=day, at="20:00") for day in range(1, LOG_DAYS + 1))
    rows = [(row, road) for row in (*diary, *evenings)]
    rows += [(row, towing) for row in TOW_DIARIES.get(sheet.key, ())]
    return sorted(rows, key=lambda one: (-one[0].day, one[0].at))


def _happen(journey: Journey, row: Any) -> None:
    match row:
        case Stand():
            stand(journey, row)
        case Drive():
            drive(journey, row)
        case Fill():
            fill(journey, row)
        case Dip():
            dip(journey, row)
        case Pour():
            pour(journey, row)
        case Water():
            water(journey, row)
        case Board():
            board(journey, row)
        case Visit():
            visit(journey, row, in_log=row.day <= LOG_DAYS)
        case _:
            evening(journey, row)
