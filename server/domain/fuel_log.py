"""From the entries of a fuel log to its journal, its segments, and what is the matter with which entry.

An entry that is refused or held is left out with its litres; its way counts, and the level is open until it is
read again. No entry is an exception for the whole log.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import hypot

from .entries import ChangeEntry, DipEntry, FillEntry, TooMuch, TransferEntry
from .events import Change, Event, Fill, Missed, Rescale
from .filter import MOST_STATES, Model, Settings
from .fuel import (
    BASE_RATE,
    FUEL,
    FUEL_KAPPAS,
    WITH_TRAILER,
    TankSpec,
    all_classes,
    drawn_tanks,
    fuel_model,
    mix_of,
    shut_offs,
)
from .fullfull import FACTOR, FACTOR_U, STEP_KM, Accuracy, Segment, Stop, segments
from .journal import Journal, Part, Step, run_journal
from .placing import Finding, Placed, place
from .tank_reader import Apart, Row, TankReader

NEAR_KM = 1.0  # two readings of one level within this way are one reading (the odometer's step)
FuelEntry = FillEntry | DipEntry | TransferEntry | ChangeEntry


@dataclass(frozen=True, slots=True)
class FuelSetup:
    """A vehicle as its fuel log needs it; rates are per 100 true km.

    `factor` is k = true / indicated km now. `ahead`: classes that will be asked about though they do not
    occur yet. `reserve_l`: litres never counted on, where they are not the usual. `step_km`: what the odometer counts
    in. `confirmed`: entries that somebody has looked at; they are never held. `alike`: entries that may be others
    over again, with the other's id: held until somebody answers.
    """

    tanks: tuple[TankSpec, ...]
    base_rate: float = BASE_RATE
    rates: Mapping[str, float] = field(default_factory=dict)
    factor: float = FACTOR
    factor_u: float = FACTOR_U
    settings: Settings = FUEL
    kappas: tuple[float, ...] = FUEL_KAPPAS
    ahead: tuple[str, ...] = ("sealed",)
    reserve_l: float | None = None
    step_km: float = STEP_KM
    confirmed: tuple[str, ...] = ()
    alike: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class FuelLog:
    """A fuel log that has been read. `ways_km` and `full_tanks` say what the rates rest on, by class."""

    setup: FuelSetup
    model: Model
    journal: Journal
    findings: tuple[Finding, ...]
    segments: tuple[Segment, ...]
    apart: tuple[Apart, ...]
    odometer_km: float | None
    mix: Mapping[str, float]
    ways_km: Mapping[str, float]
    full_tanks: Mapping[str, int]


def read_fuel_log(
    *, setup: FuelSetup, entries: Sequence[FuelEntry], previous: FuelLog | None = None
) -> FuelLog:
    """Read a whole log; with `previous` only what is new or changed is run through the filter again.

    Order: by odometer (`place`). A leg of several surfaces is run as one after the other. Without any entry
    the answer is the prior's. Raises only for a setup that cannot be (no tank, capacity 0, factor 0).
    """
    reader = _FuelReader(setup)
    reader.read(entries)
    model = fuel_model(
        tanks=setup.tanks,
        class_ids=_classes(setup, reader),
        base_rate=setup.base_rate,
        rates=setup.rates,
        factor=setup.factor * reader.first_weight,
        settings=setup.settings,
    )
    steps = [row.step for row in reader.rows]
    before = previous.journal if previous else None
    journal = run_journal(model=model, kappas=setup.kappas, steps=steps, previous=before)
    reader.judge(journal)
    closed = segments(stops=_stops(reader.rows, journal), accuracy=accuracy_of(setup=setup))
    return FuelLog(
        setup,
        model,
        journal,
        tuple(reader.findings),
        closed,
        tuple(Apart(tank_id, litres) for tank_id, litres in reader.apart.items()),
        reader.odometer_km,
        reader.mix,
        dict(reader.ways),
        _full_tanks(reader.rows, closed),
    )


def accuracy_of(*, setup: FuelSetup) -> Accuracy:
    """How exact the segments of a log are: pump, the shut-offs of all drawn tanks together, odometer and its factor."""
    each = shut_offs(tanks=drawn_tanks(tanks=setup.tanks), settings=setup.settings)
    return Accuracy(setup.settings.fill_u, hypot(*each), setup.step_km, setup.factor, setup.factor_u)


class _FuelReader(TankReader):
    """Walks the placed entries once; the way since the entry before belongs to each."""

    def __init__(self, setup: FuelSetup) -> None:
        super().__init__(
            tanks=setup.tanks,
            settings=setup.settings,
            near=NEAR_KM,
            confirmed=setup.confirmed,
            alike=setup.alike,
        )
        self.setup = setup
        self.odometer_km: float | None = None
        self.at = 0.0
        self.surface: Mapping[str, float] = {"sealed": 1.0}
        self.towing = False
        self.mix: Mapping[str, float] = {"sealed": 1.0}
        self.ways: dict[str, float] = {}
        # indicated km of then times this are indicated km of today
        self.first_weight = self.weight = 1.0
        self.full_at: dict[str, float] = {}

    def read(self, entries: Sequence[FuelEntry]) -> None:
        placeable, refused = self.check(entries)
        ordered = self._in_order(placeable, refused)
        for entry in ordered:
            if isinstance(entry, ChangeEntry) and entry.id not in refused:
                self.first_weight /= entry.ratio
        self.weight = self.first_weight
        known = [n for n, entry in enumerate(ordered) if entry.odometer_km is not None]
        last = known[-1] if known else -1
        for n, entry in enumerate(ordered):
            if entry.id in refused:
                self._left_out(entry)
            elif not self._twice_full(entry):
                self._counts(entry, trailing=n > last)

    def _in_order(self, placeable: Sequence[FuelEntry], refused: set[str]) -> list[FuelEntry]:
        """In their places; one whose odometer cannot be is refused, and stands where its time puts it.

        Its litres are in a tank all the same: dropped without a trace, the next full fill would look wrong.
        """
        places = place(entries=_places(placeable))
        self.findings += places.findings
        wrong = {one.entry_id for one in places.findings if one.standing == "refused"}
        refused |= wrong
        told = [replace(one, odometer_km=None) if one.id in wrong else one for one in placeable]
        ids = place(entries=_places(told)).ids if wrong else places.ids
        by_id = {entry.id: entry for entry in told}
        return [by_id[id] for id in ids]

    def _left_out(self, entry: FuelEntry) -> None:
        row = self._row(entry)
        row.missed = isinstance(entry, FillEntry)
        row.step = replace(row.step, refused=True, tank_ids=self.touched(entry))
        self.rows.append(row)

    def _counts(self, entry: FuelEntry, *, trailing: bool) -> None:
        self.surface = self.surface if entry.surface is None else entry.surface
        self.towing = self.towing if entry.towing is None else entry.towing
        row = self._row(entry)
        if not row.located and not isinstance(entry, ChangeEntry):
            self.findings.append(Finding(entry.id, "no_odometer", "noted", "odometer_km", unit="km"))
        try:
            events = self._events(entry, row, trailing=trailing)
        except TooMuch as error:
            self.refuse(row, entry, error)
            self.rows.append(row)
            return
        filled = tuple(dict.fromkeys(event.tank_id for event in events if isinstance(event, Fill)))
        # before its way is known, a fill seems more than the tank holds
        confirmed = entry.id in self.setup.confirmed or not row.located
        row.step = replace(row.step, events=events, tank_ids=filled, confirmed=confirmed)
        self.add(row)

    def _row(self, entry: FuelEntry) -> Row:
        way = self._way(entry.odometer_km)
        located = entry.odometer_km is not None
        return Row(Step(entry.id, way), self.at, located, ways=dict(self.ways))

    def _way(self, odometer_km: float | None) -> tuple[Part, ...]:
        self.mix = mix_of(surface=self.surface, towing=self.towing)
        if odometer_km is None:
            return ()
        amount = 0.0 if self.odometer_km is None else odometer_km - self.odometer_km
        self.odometer_km = odometer_km
        self.at += amount * self.weight
        if amount == 0:
            return ()
        for name, share in self.mix.items():
            true_km = share * amount * self.weight * self.setup.factor
            self.ways[name] = self.ways.get(name, 0.0) + true_km
        return tuple(Part(name, share * amount) for name, share in self.mix.items())

    def _twice_full(self, entry: FuelEntry) -> bool:
        """Two full fills of one tank at one odometer value: the second is left out until somebody says otherwise."""
        if not isinstance(entry, FillEntry) or entry.odometer_km is None:
            return False
        at = entry.odometer_km
        full = [line.tank_id for line in entry.lines if line.full]
        asked = entry.id in self.confirmed or entry.id in self.alike
        if not asked and any(self.full_at.get(tank_id) == at for tank_id in full):
            self.findings.append(Finding(entry.id, "twice_full", "refused", "odometer_km", at, unit="km"))
            return True
        self.full_at |= dict.fromkeys(full, at)
        return False

    def _events(self, entry: FuelEntry, row: Row, *, trailing: bool) -> tuple[Event, ...]:
        if isinstance(entry, DipEntry):
            return self.dip(row, entry, trailing=trailing)
        if isinstance(entry, TransferEntry):
            return self.transfer(row, entry)
        if isinstance(entry, ChangeEntry):
            self.weight *= entry.ratio
            change = (Change(entry.rate_u),) if entry.rate_u > 0 else ()
            return (*change, *((Rescale(entry.ratio),) if entry.ratio != 1.0 else ()))
        row.missed = entry.missed_before
        row.full = all(self.full_at.get(tank_id) == entry.odometer_km for tank_id in self.drawn)
        missed = [Missed(tank_id) for tank_id in self.drawn] if entry.missed_before else []
        return (*missed, *self.fill(row, entry.lines, trailing=trailing))


def _places(entries: Sequence[FuelEntry]) -> list[Placed]:
    return [Placed(one.id, one.at_s, one.sequence, one.odometer_km) for one in entries]


def _classes(setup: FuelSetup, reader: _FuelReader) -> list[str]:
    """Classes that occur, then those asked about as far as the filter has room.

    The last entry's occur even where its way is not known: what lies ahead is taken to be the same. Where one of them
    tows, each surface ahead may be towed on, too.
    """
    occur = {part.class_id for row in reader.rows for part in row.step.way} | set(reader.mix)
    room = MOST_STATES - len(reader.drawn)
    tows = any(name.endswith(WITH_TRAILER) for name in occur)
    towed = [name.removesuffix(WITH_TRAILER) + WITH_TRAILER for name in setup.ahead] if tows else []
    wanted = list(dict.fromkeys([*sorted(occur), *setup.ahead, *towed]))
    return wanted[: max(room, len(occur))]


def _stops(rows: Sequence[Row], journal: Journal) -> list[Stop]:
    """What the segments are made of; litres of an entry without odometer belong to the next one with it."""
    stops: list[Stop] = []
    litres = variance = taken = 0.0
    missed = False
    for row, outcome in zip(rows, journal.outcomes, strict=True):
        unused = outcome.held is not None or row.step.refused
        missed = missed or row.missed or (unused and bool(row.step.tank_ids))
        if not unused:
            litres, variance, taken = litres + row.litres, variance + row.variance, taken + row.taken
        if not row.located:
            continue
        full = row.full and not unused
        stops.append(Stop(row.step.entry_id, row.at, litres, full, missed, variance**0.5, taken))
        litres = variance = taken = 0.0
        missed = False
    return stops


def _full_tanks(rows: Sequence[Row], closed: Sequence[Segment]) -> dict[str, int]:
    """Segments by the class that has most of their way."""
    ways = {row.step.entry_id: row.ways for row in rows}
    counts: dict[str, int] = {}
    for one in closed:
        before, after = ways[one.from_id], ways[one.to_id]
        most = max(all_classes(), key=lambda name: after.get(name, 0.0) - before.get(name, 0.0))
        counts[most] = counts.get(most, 0) + 1
    return counts
