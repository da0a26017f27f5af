"""From the entries of a water log to its journal, and which water may be drunk.

What people use is person-days; water drawn off for something else or dumped leaves the tank by its litres.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from .entries import DRINKABLE, ChangeEntry, DipEntry, FillLine, TooMuch, TransferEntry, WaterEntry
from .events import Change, Event, Fill, Pour, Transfer
from .filter import Model, Settings
from .fuel import TankSpec
from .journal import Journal, Outcome, Part, Step, run_journal
from .placing import Finding
from .tank_reader import Apart, Row, TankReader
from .water import CLASS, DAY_S, WATER, WATER_KAPPAS, WATER_RATE, Presence, person_days, water_model

NEAR = 0.05  # two readings of one level within so many person-days are one reading (assumed)
EMPTY = 0.02  # a mean level at or below this share of the capacity counts as empty (assumed)
UNKNOWN = "unknown"
WaterLogEntry = WaterEntry | DipEntry | TransferEntry | ChangeEntry


@dataclass(frozen=True, slots=True)
class WaterSetup:
    """Tanks and people as a water log needs them; `reserve_l`, `confirmed` and `alike` as in `FuelSetup`."""

    tanks: tuple[TankSpec, ...]
    presences: tuple[Presence, ...] = ()
    rate: float = WATER_RATE
    settings: Settings = WATER
    kappas: tuple[float, ...] = WATER_KAPPAS
    reserve_l: float | None = None
    confirmed: tuple[str, ...] = ()
    alike: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Quality:
    """Whether the water of a tank may be drunk: yes, no or unknown."""

    tank_id: str
    drinkable: str


@dataclass(frozen=True, slots=True)
class WaterLog:
    """A water log that has been read, up to its last entry."""

    setup: WaterSetup
    model: Model
    journal: Journal
    findings: tuple[Finding, ...]
    apart: tuple[Apart, ...]
    qualities: tuple[Quality, ...]
    until_s: float | None


def read_water_log(
    *,
    setup: WaterSetup,
    entries: Sequence[WaterLogEntry],
    now_s: float | None = None,
    previous: WaterLog | None = None,
) -> WaterLog:
    """Read a whole log in order of time; with `previous` only what is new or changed is run again.

    With `now_s` an entry dated more than a day later is left out: its days have not been.
    Raises only for a setup that cannot be (no tank, capacity 0); one bad entry is a finding.
    """
    model = water_model(tanks=setup.tanks, rate=setup.rate, settings=setup.settings)
    reader = _WaterReader(setup)
    reader.read(entries, latest_s=None if now_s is None else now_s + DAY_S)
    journal = run_journal(
        model=model,
        kappas=setup.kappas,
        steps=[row.step for row in reader.rows],
        previous=previous.journal if previous else None,
    )
    reader.judge(journal)
    return WaterLog(
        setup,
        model,
        journal,
        tuple(reader.findings),
        tuple(Apart(tank_id, litres) for tank_id, litres in reader.apart.items()),
        _qualities(reader, journal),
        reader.until_s,
    )


@dataclass(frozen=True, slots=True)
class _Content:
    """What an entry puts where: water of a quality, or the water of another tank."""

    into: str
    drinkable: str | None = None
    source: str | None = None


class _WaterReader(TankReader):
    """Walks the entries once, in order of time."""

    def __init__(self, setup: WaterSetup) -> None:
        super().__init__(
            tanks=setup.tanks,
            settings=setup.settings,
            near=NEAR,
            confirmed=setup.confirmed,
            alike=setup.alike,
        )
        self.setup = setup
        self.until_s: float | None = None
        self.at = 0.0
        self.contents: list[_Content | None] = []
        self.apart_after: list[dict[str, float]] = []

    def read(self, entries: Sequence[WaterLogEntry], *, latest_s: float | None) -> None:
        placeable, refused = self.check(entries, latest_s=latest_s)
        for entry in sorted(placeable, key=lambda one: (one.at_s, one.sequence, one.id)):
            if isinstance(entry, ChangeEntry) and self.until_s is None:
                continue  # before the log begins there is nothing that it could have changed
            row = Row(Step(entry.id, self._way(entry.at_s)), self.at)
            if entry.id in refused:
                row.step = replace(row.step, refused=True, tank_ids=self.touched(entry))
            else:
                self._said(entry, row)
            self.contents.append(None if row.step.refused else _content(entry))
            self.add(row)
            self.apart_after.append(dict(self.apart))

    def _way(self, at_s: float) -> tuple[Part, ...]:
        since, self.until_s = self.until_s, at_s
        if since is None:
            return ()
        amount = person_days(presences=self.setup.presences, from_s=since, until_s=at_s)
        self.at += amount
        return (Part(CLASS, amount),) if amount > 0 else ()

    def _said(self, entry: WaterLogEntry, row: Row) -> None:
        try:
            events = self._events(entry, row)
        except TooMuch as error:
            self.refuse(row, entry, error)
            return
        filled = tuple(dict.fromkeys(event.tank_id for event in events if isinstance(event, Fill)))
        confirmed = entry.id in self.setup.confirmed
        row.step = replace(row.step, events=events, tank_ids=filled, confirmed=confirmed)

    def _events(self, entry: WaterLogEntry, row: Row) -> tuple[Event, ...]:
        if isinstance(entry, DipEntry):
            return self.dip(row, entry, trailing=True)
        if isinstance(entry, TransferEntry):
            return self.transfer(row, entry)
        if isinstance(entry, ChangeEntry):
            return (Change(entry.rate_u),) if entry.rate_u > 0 else ()
        if entry.action == "fill":
            line = FillLine(entry.tank_id, entry.litres_l, entry.full, entry.litres_u_l)
            return self.fill(row, (line,), trailing=True)
        if entry.tank_id in self.apart:
            if entry.id in self.alike:
                return ()
            left = 0.0 if entry.everything else self.apart[entry.tank_id] - entry.litres_l
            self.apart[entry.tank_id] = max(left, 0.0)
            return ()
        if entry.everything:
            return (Pour(entry.tank_id, None),)
        row.shown = ("litres_l", entry.litres_l)
        u = self.settings.fill_u * entry.litres_l if entry.litres_u_l is None else entry.litres_u_l
        return (Transfer(entry.tank_id, None, entry.litres_l, u),)


def _content(entry: WaterLogEntry) -> _Content | None:
    if isinstance(entry, WaterEntry) and entry.action == "fill" and entry.litres_l > 0:
        return _Content(entry.tank_id, drinkable=entry.drinkable)
    if isinstance(entry, TransferEntry) and entry.to_tank_id is not None:
        return _Content(entry.to_tank_id, source=entry.from_tank_id)
    return None


def _qualities(reader: _WaterReader, journal: Journal) -> tuple[Quality, ...]:
    """A tank is as drinkable as the worst put in since it was empty; before anything was, it is unknown.

    Water of an entry that is held counts: it may well be in the tank.
    """
    quality: dict[str, str | None] = {tank.id: None for tank in reader.tanks}
    empty = {tank.id: True for tank in reader.tanks}
    for content, apart, outcome in zip(reader.contents, reader.apart_after, journal.outcomes, strict=True):
        if content is not None:
            put_in = content.drinkable or quality[content.source or ""] or UNKNOWN
            before = None if empty[content.into] else quality[content.into]
            quality[content.into] = _worse(before, put_in)
        levels = _levels(reader, outcome, apart)
        empty = {tank.id: levels[tank.id] <= EMPTY * tank.capacity_l for tank in reader.tanks}
    return tuple(Quality(tank_id, word or UNKNOWN) for tank_id, word in quality.items())


def _levels(reader: _WaterReader, outcome: Outcome, apart: dict[str, float]) -> dict[str, float]:
    return {**dict(zip(reader.drawn, outcome.levels_l, strict=True)), **apart}


def _worse(one: str | None, other: str) -> str:
    return other if one is None else max(one, other, key=DRINKABLE.index)
