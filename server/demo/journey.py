"""One vehicle on the road as it truly is: litres in every tank, kilometres, who and what is aboard."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any

from .bridges import Bridge
from .chance import Chance
from .clock import moment
from .diary import Board, Drive, Moment, Stand
from .enter import Entered, entered_by
from .journal import Journal
from .tables import Sheet, TankRow
from .tow import Tow, Towed
from .truth import Loads, TrueTank, TrueVehicle, standing

_UNSTEADY = 0.07  # sd of a leg's consumption per 100 km of road: wind, load, foot; assumed
_EVENING = 0.15  # sd of a day's water use; assumed


class ScenarioError(ValueError):
    """A diary that asks for what cannot be, such as fuel that is not there."""


@dataclass(frozen=True, slots=True)
class Point:
    """What the tanks truly held and the odometer showed at an instant."""

    when: datetime
    odometer_km: int
    litres: Mapping[str, float]


@dataclass(slots=True)
class Journey:
    """The moving part of the truth, and all that is needed to write about it."""

    sheet: Sheet
    truth: TrueVehicle
    today: date
    journal: Journal
    entered: Entered
    chance: Chance
    bridges: Mapping[str, Bridge]
    litres: dict[str, float] = field(default_factory=dict)
    odometer_from_km: float = 0.0
    driven_km: float = 0.0
    surface_km: dict[str, float] = field(default_factory=dict)
    seated: dict[str, str] = field(default_factory=dict)
    away: set[str] = field(default_factory=set)
    points: list[Point] = field(default_factory=list)
    true_loads: dict[str, Loads] = field(default_factory=dict)
    tow: Tow | None = None
    towed_km: float = 0.0
    towing: bool = False
    true_towed: dict[str, Towed] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.seated = {row.key: row.seat for row in self.sheet.people}
        self.surface_km = {"sealed": 0.0, "gravel": 0.0, "sand": 0.0}

    @property
    def odometer_km(self) -> int:
        """What the odometer shows: it counts turns of the wheels, and drops what is less than a kilometre."""
        return int(self.odometer_from_km + self.driven_km / self.truth.nature.odometer_factor)

    def when(self, row: Moment) -> datetime:
        """The instant of a diary row."""
        return moment(self.today, row.day, row.at)

    def writer(self, row: Moment) -> str:
        """Who enters it."""
        return row.by or self.sheet.owner

    def mark(self, row: Moment) -> None:
        """Remember the truth at this row."""
        self.points.append(Point(self.when(row), self.odometer_km, dict(self.litres)))

    @property
    def line_names(self) -> list[str]:
        """The names of all lines, the trailer's last."""
        return [line.name for line in self.sheet.lines] + self.trailer_items

    @property
    def trailer_items(self) -> list[str]:
        """The lines of the trailer: whatever is on it stays on it."""
        return [line.name for line in self.tow.sheet.lines] if self.tow else []

    def items_aboard(self, day: int) -> list[str]:
        """The lines that are truly aboard the vehicle on a day."""
        return [
            line.name for line in self.sheet.lines if entered_by(line, day) and line.name not in self.away
        ]

    def loads(self, day: int, *, but: str | None = None) -> Loads:
        """True axle loads now."""
        seated = {person: seat for person, seat in self.seated.items() if person != but}
        return standing(
            self.truth, items=self.items_aboard(day), seated=seated, litres=self.litres, chance=self.chance
        )

    @property
    def coupled(self) -> Tow | None:
        """The trailer, while it is coupled."""
        return self.tow if self.tow and self.tow.coupled else None

    @property
    def tank_rows(self) -> tuple[TankRow, ...]:
        """The rows of all tanks, the trailer's last."""
        return self.sheet.tanks + (self.tow.sheet.tanks if self.tow else ())

    def holding(self, key: str) -> tuple[TrueTank, dict[str, float]]:
        """A tank of the vehicle or of its trailer, and the litres among which its own are kept."""
        if self.tow and key in self.tow.litres:
            return self.tow.truth.tanks[key], self.tow.litres
        return self.truth.tanks[key], self.litres

    @contextmanager
    def drawing(self, chance: Chance) -> Iterator[None]:
        """Noise and ids from another stream for a while, so that those of the first stay as they are."""
        kept, self.chance = self.chance, chance
        try:
            with self.journal.drawing(chance):
                yield
        finally:
            self.chance = kept

    def road(self) -> dict[str, Any]:
        """The road since the last entry: its surfaces, and whether most of it was towed; without road, as before."""
        if total := sum(self.surface_km.values()):
            self.towing = self.towed_km > total / 2
        self.towed_km = 0.0
        return {"surface": self._surfaces(), "towing": self.towing}

    def _surfaces(self) -> dict[str, float] | None:
        """Shares of the road since the last entry as a person tells them, to the nearest twentieth."""
        total = sum(self.surface_km.values())
        told = {name: round(20 * km / total) / 20 for name, km in self.surface_km.items()} if total else None
        self.surface_km = dict.fromkeys(self.surface_km, 0.0)
        if told:
            told["sealed"] = round(1 - told["gravel"] - told["sand"], 2)
        return told


def stand(journey: Journey, row: Stand) -> None:
    """Set what days without a log have left."""
    tanks = journey.truth.tanks
    journey.litres = {key: row.levels[key] * tank.capacity_l for key, tank in tanks.items()}
    if journey.tow:
        trailers = journey.tow.truth.tanks
        journey.tow.litres |= {
            key: row.levels[key] * trailers[key].capacity_l for key in trailers if key in row.levels
        }
    journey.odometer_from_km, journey.driven_km = float(row.odometer_km), 0.0


def drive(journey: Journey, row: Drive) -> None:
    """Burn what the road takes: a rate for each surface, unsteady from leg to leg."""
    shares = {"sealed": 1 - row.gravel - row.sand, "gravel": row.gravel, "sand": row.sand}
    steadiness = 1 + journey.chance.noise(_UNSTEADY * (100 / row.km) ** 0.5)
    if journey.coupled:
        steadiness *= journey.coupled.truth.towing
        journey.towed_km += row.km
    need = 0.0
    for surface, share in shares.items():
        need += journey.truth.rates_l_per_100km[surface] * share * row.km / 100 * steadiness
        journey.surface_km[surface] += share * row.km
    draw(journey, "fuel", need, row)
    journey.driven_km += row.km


def draw(journey: Journey, holds: str, litres: float, row: Moment) -> None:
    """Take litres out of the plumbed tanks of one content, in the order in which they drain."""
    rows = [one for one in journey.sheet.tanks if one.holds == holds and one.order is not None]
    for tank in sorted(rows, key=lambda one: one.order or 0):
        taken = min(litres, journey.litres[tank.key])
        journey.litres[tank.key] -= taken
        litres -= taken
    if litres > 1e-9:
        raise ScenarioError(f"{journey.sheet.key}: {litres:.1f} L of {holds} short on day {row.day} {row.at}")


def evening(journey: Journey, row: Moment) -> None:
    """A day's water, by heads and by how the day was; what is grey runs into its tank."""
    shares = {one.key: float(one.water_share.split()[0]) for one in journey.sheet.people}
    heads = sum(shares[person] for person in journey.seated)
    wanted = heads * journey.truth.nature.water_l_per_person_day * (1 + journey.chance.noise(_EVENING))
    plumbed = [one.key for one in journey.sheet.tanks if one.holds == "water" and one.order is not None]
    used = min(wanted, sum(journey.litres[key] for key in plumbed))  # a dry tank ends the washing-up
    draw(journey, "water", used, row)
    greys = {one.grey for one in journey.sheet.tanks if one.grey}
    for grey in greys:
        room = journey.truth.tanks[grey].capacity_l - journey.litres[grey]
        journey.litres[grey] += min(0.8 * used, room)


def board(journey: Journey, row: Board) -> None:
    """Somebody or something comes or goes, and somebody says so."""
    if row.subject == "item":
        (journey.away.discard if row.aboard else journey.away.add)(row.key)
        ids = {"subject_id": journey.entered.of("item", row.key)}
    elif row.subject == "trailer":
        _hitch(journey, row)
        ids = {"subject_id": journey.entered.of("trailer", row.key)}
    else:
        ids = {"subject_id": journey.entered.of("person", row.key)}
        if row.aboard:
            seat = row.seat or next(one.seat for one in journey.sheet.people if one.key == row.key)
            journey.seated[row.key] = seat
            ids["seat_id"] = journey.entered.of("seat", seat)
        else:
            journey.seated.pop(row.key)
    body = {"subject": row.subject, "aboard": row.aboard, **ids}
    if row.why:
        body["why"] = row.why
    write(journey, "aboard", body, row)


def _hitch(journey: Journey, row: Board) -> None:
    if journey.tow is None or journey.tow.coupled == row.aboard:
        raise ScenarioError(f"{journey.sheet.key}: no trailer to be coupled or uncoupled on day {row.day}")
    journey.tow.coupled = row.aboard


def write(journey: Journey, kind: str, body: Mapping[str, object], row: Moment) -> str:
    """A log entry of this row, typed in a few minutes after."""
    from_now = journey.chance.randint(40, 420)
    at = journey.when(row)
    made = at.fromtimestamp(at.timestamp() + from_now, tz=at.tzinfo)
    book = journey.entered.book
    return journey.journal.log(book=book, kind=kind, body=body, at=at, made=made, by=journey.writer(row))
