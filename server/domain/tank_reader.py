"""What the entries of fuel and of water have in common: lines, levels and transfers as events of the filter."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import sqrt
from typing import TypeVar

from .entries import (
    ChangeEntry,
    DipEntry,
    Entry,
    FillEntry,
    FillLine,
    TransferEntry,
    check_entry,
    check_fits,
    check_place,
    tank_of,
)
from .errors import DomainError, Duplicate
from .events import OVERFILL, Change, Event, Fill, Full, Gauge, Level, Pour, Start, Transfer
from .filter import Settings
from .fuel import DIP_U, TankSpec, drawn_tanks
from .journal import HOLD, Journal, Outcome, Step
from .placing import Finding, finding_of

LEAST_U_L = 1e-3  # no level is known better than to a millilitre, whatever is typed (assumed)
E = TypeVar("E", bound=Entry)


@dataclass(frozen=True, slots=True)
class Apart:
    """What a can or a store that is not drawn from holds, by its entries alone."""

    tank_id: str
    litres_l: float


@dataclass
class Row:
    """A step in the making, with what segments and findings need of it.

    `at`: the amount so far; `located`: it is known where on the way the entry belongs; `shown`: field and value
    that a finding names; `dip_of`: the tank whose level was read.
    """

    step: Step
    at: float
    located: bool = True
    litres: float = 0.0
    variance: float = 0.0
    taken: float = 0.0
    full: bool = False
    missed: bool = False
    dip_of: str | None = None
    shown: tuple[str, float | None] = ("", None)
    ways: Mapping[str, float] = field(default_factory=dict)


class TankReader:
    """Turns what entries say into events. `near`: two readings within this amount are one reading.

    `confirmed` entries are right as typed; `alike` are perhaps others over again, by the id of the other.
    """

    def __init__(
        self,
        *,
        tanks: Sequence[TankSpec],
        settings: Settings,
        near: float,
        confirmed: Sequence[str] = (),
        alike: Mapping[str, str] | None = None,
    ) -> None:
        self.tanks, self.settings, self.near = tuple(tanks), settings, near
        self.confirmed, self.alike = frozenset(confirmed), alike or {}
        self.drawn = tuple(tank.id for tank in drawn_tanks(tanks=tanks))
        self.apart = {tank.id: 0.0 for tank in tanks if not tank.drawn}
        self.rows: list[Row] = []
        self.findings: list[Finding] = []

    def check(self, entries: Sequence[E], *, latest_s: float | None = None) -> tuple[list[E], set[str]]:
        """Entries that can be placed, and the ids of those whose figures are refused; an id counts once."""
        placeable: list[E] = []
        refused: set[str] = set()
        seen: set[str] = set()
        for entry in entries:
            try:
                if entry.id in seen:
                    raise Duplicate("id", entry.id)
                check_place(entry=entry, latest_s=latest_s)
                seen.add(entry.id)
                placeable.append(entry)
                check_entry(entry=entry, tanks=self.tanks)
            except DomainError as error:
                self.findings.append(finding_of(entry_id=entry.id, error=error))
                refused.add(entry.id)
        return placeable, refused

    def add(self, row: Row) -> None:
        """The next row. One that may be another over again is held, and opens no level: that one has said it."""
        if row.step.entry_id in self.alike:
            row.step = replace(row.step, doubt="alike", tank_ids=())
        self.rows.append(row)

    def fill(self, row: Row, lines: Sequence[FillLine], *, trailing: bool) -> tuple[Event, ...]:
        """Litres of one stop, each tank filled and then perhaps full.

        Without a place on the way a full tank is not read, since the way before it is unknown. At the end of a log
        such a stop only sets the level of what is full: its other litres wait for the next odometer value. A full tank
        is full whether it was logged once or twice: of an entry that may be a double only the rest counts.
        """
        fills: list[Event] = []
        fulls: list[Event] = []
        row.shown = ("litres_l", sum(line.litres_l for line in lines))
        double = row.step.entry_id in self.alike
        for line in lines:
            if double and (line.full or line.tank_id in self.apart):
                continue
            if line.tank_id in self.apart:
                self.apart[line.tank_id] += line.litres_l
                continue
            put_in = self._put_in(row, line.tank_id, line.litres_l, line.litres_u_l)
            if row.located or not trailing:
                fills.append(put_in)
            if line.full and row.located:
                own = self._tank(line.tank_id).full_u_l
                fulls.append(Full((line.tank_id,), None if own is None else max(own, LEAST_U_L)))
            elif line.full and trailing:
                fulls.append(self._full(self._tank(line.tank_id)))
        return (*fills, *dict.fromkeys(fulls))

    def dip(self, row: Row, entry: DipEntry, *, trailing: bool) -> tuple[Event, ...]:
        """A level read; without a place on the way it sets the level at the end of a log, and else says nothing."""
        capacity, usual = self._capacity(entry.tank_id), self._usual(entry)
        level = entry.level or 0.0
        if entry.tank_id in self.apart:
            self.apart[entry.tank_id] = level * capacity if entry.litres_l is None else entry.litres_l
            return ()
        self._one_reading(row, entry.tank_id)
        event: Level | Gauge
        if entry.litres_l is not None:
            u = max(usual * capacity if entry.litres_u_l is None else entry.litres_u_l, LEAST_U_L)
            row.shown = ("litres_l", entry.litres_l)
            event, set_to = Level(entry.tank_id, entry.litres_l, u), Start(entry.tank_id, entry.litres_l, u)
        else:
            share = max(usual if entry.level_u is None else entry.level_u, LEAST_U_L / capacity)
            row.shown = ("level", level)
            event, set_to = (
                Gauge(entry.tank_id, level, share),
                Start(entry.tank_id, level * capacity, share * capacity),
            )
        if row.located:
            return (event,)
        return (set_to,) if trailing else ()

    def transfer(self, row: Row, entry: TransferEntry) -> tuple[Event, ...]:
        """Between tanks, cans and the outside; what a can holds is counted by its entries.

        Without a u the litres are known as those of a fill. More out of a can than a tank takes is `TooMuch`.
        """
        source, into, litres = entry.from_tank_id, entry.to_tank_id, entry.litres_l
        if entry.id in self.alike and (source in self.apart or into in self.apart):
            return ()
        if source in self.apart:
            return self._from_apart(row, entry)
        if litres is None:
            row.missed = into is None  # how much left the tanks is not known: no segment over it
            return (Pour(source, into),)
        if into in self.apart:
            self.apart[into] += litres
            into = None
        u = self._litres_u(litres, entry.litres_u_l)
        if into is None:
            row.taken, row.variance = litres, row.variance + u**2
        return (Transfer(source, into, litres, u),)

    def touched(self, entry: Entry) -> tuple[str, ...]:
        """Tanks whose level is open after an entry that is refused; a reading or a change opens none.

        A fill whose tanks are not known opens all.
        """
        if isinstance(entry, DipEntry | ChangeEntry):
            return ()
        if isinstance(entry, FillEntry):
            named = {line.tank_id for line in entry.lines}
            return tuple(tank_id for tank_id in self.drawn if tank_id in named) or self.drawn
        both = (
            (entry.from_tank_id, entry.to_tank_id) if isinstance(entry, TransferEntry) else (entry.tank_id,)
        )
        return tuple(tank_id for tank_id in self.drawn if tank_id in both)

    def refuse(self, row: Row, entry: Entry, error: DomainError) -> None:
        """A row whose figures turn out not to be possible once it is known what came before: only its way counts."""
        self.findings.append(finding_of(entry_id=entry.id, error=error))
        row.step = replace(row.step, refused=True, tank_ids=self.touched(entry))

    def judge(self, journal: Journal) -> None:
        """Add what the filter has to say: entries held, and the last change of rate that no `Change` has answered."""
        alarm: Finding | None = None
        for row, outcome in zip(self.rows, journal.outcomes, strict=True):
            if outcome.held:
                self.findings.append(self._held(row, outcome))
            if outcome.alarm and outcome.entry_id not in self.confirmed:
                alarm = Finding(outcome.entry_id, f"uses_{outcome.alarm}", "asked", "rate")
            elif any(isinstance(event, Change) for event in row.step.events):
                alarm = None
        if alarm is not None:
            self.findings.append(alarm)

    def _held(self, row: Row, outcome: Outcome) -> Finding:
        """Why an entry is held, and which value of what was typed would have fitted within 4 of its sd."""
        field, value = row.shown
        entry_id = row.step.entry_id
        if outcome.held == "alike":
            return Finding(entry_id, "alike", "held", "id", self.alike[entry_id])
        if outcome.held == "beyond_tank":
            way = sum(part.amount for part in row.step.way)
            least, u = _missing(outcome)
            return Finding(
                entry_id, "beyond_tank", "held", "odometer_km", way, unit="km", missing_l=least, missing_u_l=u
            )
        if outcome.held == "overfull" or value is None:
            return Finding(entry_id, "overfull", "held", field, value, unit="L")
        off = max(outcome.readings, key=lambda one: abs(one.z))
        per = self._capacity(row.dip_of) if row.dip_of and field == "level" else 1.0
        # a level was read too high by nu; litres were typed too low by nu
        middle = value + (-off.nu_l if row.dip_of else off.nu_l) / per
        reach = HOLD * sqrt(off.s_l2) / per
        full = sum(self._capacity(tank_id) for tank_id in row.step.tank_ids) or self._capacity(
            row.dip_of or ""
        )
        most = 1.0 if field == "level" else OVERFILL * full
        low, high = (min(max(end, 0.0), most) for end in (middle - reach, middle + reach))
        unit = "" if field == "level" else "L"
        missing, u = _missing(outcome) if off.nu_l > 0 else (None, None)
        return Finding(entry_id, "held", "held", field, value, low, high, unit, missing, u)

    def _from_apart(self, row: Row, entry: TransferEntry) -> tuple[Event, ...]:
        have = self.apart[entry.from_tank_id]
        litres = have if entry.litres_l is None else entry.litres_l
        if entry.to_tank_id in self.drawn:
            check_fits(litres_l=litres, tank=self._tank(entry.to_tank_id))
        if litres > have and entry.id not in self.confirmed:
            found = Finding(entry.id, "can_short", "asked", "litres_l", litres, 0.0, have, "L")
            self.findings.append(found)
        self.apart[entry.from_tank_id] = max(have - litres, 0.0)
        if entry.to_tank_id in self.apart:
            self.apart[entry.to_tank_id] += litres
        elif entry.to_tank_id is not None:
            return (self._put_in(row, entry.to_tank_id, litres, entry.litres_u_l),)
        return ()

    def _put_in(self, row: Row, tank_id: str, litres: float, litres_u: float | None) -> Fill:
        row.litres += litres
        row.variance += self._litres_u(litres, litres_u) ** 2
        return Fill(tank_id, litres, litres_u)

    def _litres_u(self, litres: float, stated: float | None) -> float:
        return self.settings.fill_u * litres if stated is None else stated

    def _one_reading(self, row: Row, tank_id: str) -> None:
        """A reading repeated with nothing in between has the same error: only the last one counts."""
        for before in reversed(self.rows):
            if row.at - before.at > self.near or (before.step.events and before.dip_of is None):
                break
            if before.dip_of == tank_id:
                before.step = replace(before.step, events=())
        row.dip_of = tank_id

    def _full(self, tank: TankSpec) -> Start:
        u = self.settings.full_u_l if tank.full_u_l is None else tank.full_u_l
        return Start(tank.id, tank.capacity_l, u)

    def _usual(self, entry: DipEntry) -> float:
        """u of a level by how it was read, as a share of the capacity; a tank's gauge may have its own."""
        own = self._tank(entry.tank_id).gauge_u if entry.how == "gauge" else None
        return DIP_U[entry.how] if own is None else own

    def _tank(self, tank_id: str) -> TankSpec:
        return tank_of(tanks=self.tanks, tank_id=tank_id)

    def _capacity(self, tank_id: str) -> float:
        return self._tank(tank_id).capacity_l


def _missing(outcome: Outcome) -> tuple[float, float | None]:
    """Litres that a fill nobody entered would have to hold: what a reading lacks, with its u, or at least the way's."""
    if outcome.readings:
        lacks = sum(one.nu_l for one in outcome.readings)
        return max(lacks, 0.0), sqrt(sum(one.s_l2 for one in outcome.readings))
    return max(-sum(outcome.levels_l), 0.0), None
