"""A weighing as recorded, read as numbers: bridge, readings, and which loads the readings alone fix."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

from .agreement import FixedSums
from .axles import SINGLES, WHEELS
from .book import Body, Book, Row, body_of_day
from .bridge import Bridge, below_min, bridge_of
from .day import revisions_of, state_of
from .deck import ENDS, Deck, below_zero, read_deck
from .parts import seat_part
from .plan import geometry_of, towed_trailer
from .slips import Typed, repeats_apart
from .state import State
from .statics import Loads, Part
from .weighing import Reading, SplitSetup, merge_repeats

INTERVAL_KG, MAX_KG = 20.0, 60_000.0  # the common public truck bridge (common practice, no source)
CG_HEIGHT_M = 0.8  # laden mid-size four-wheel drive (from memory); only the deck's tilt rests on it
SHORT_WHEELBASE_M = 2.6  # where the wheelbase is not known: short makes the tilt rather too great (assumed)
VEHICLE_AXLES = (*ENDS, *SINGLES, *WHEELS)


@dataclass(frozen=True, slots=True)
class Measured:
    """A load that the readings fix without any plan."""

    row: str
    value_kg: float
    u_kg: float


@dataclass(frozen=True, slots=True)
class Visit:
    """Readings, the loads they fix, and whether they agree; p is None where there is nothing to test.

    `trailer_id` is the trailer that was coupled in the state of the visit. `taken` are the readings
    as they came, `readings` with repeats merged; `light` are those below the scale's Min, where no limit holds.
    """

    id: str
    at: str
    bridge: Bridge
    state: State
    trailer_id: str | None
    deck: Deck
    taken: tuple[Reading, ...]
    typed: Mapping[str, Typed]
    readings: tuple[Reading, ...]
    setup: SplitSetup
    measured: tuple[Measured, ...]
    loads: Loads
    chi2: float
    p: float | None
    agree: bool
    light: tuple[str, ...]

    def of(self, row: str) -> Measured | None:
        """The measured load of one row, if the readings fix it."""
        return next((one for one in self.measured if one.row == row), None)


def read_visit(*, book: Book, weighing: Row) -> Visit:
    """One weighing as numbers; readings that a person set aside do not count, repeats are merged.

    Blank figures of the bridge take the common public bridge: class III, e = d = 20 kg, Max 60 t. A reading may differ
    from the state of the visit: somebody out, the trailer uncoupled.
    """
    body = weighing.body
    state = state_of(book=book, weighing=weighing)
    bridge = bridge_of(key=weighing.id, body=body["bridge"])
    trailer = towed_trailer(book=book, state=state)
    deck = _deck(book, weighing, state, trailer is not None)
    taken = tuple(_readings(body, state, deck.towed))
    readings = merge_repeats(readings=taken)
    setup = _setup(readings, book.vehicle.body if book.vehicle else {})
    found = read_deck(readings=readings, bridge=bridge, setup=setup, deck=deck)
    loads = Loads(found.rows, found.mean_kg, found.cov_kg2) if found else Loads((), (), ())
    return Visit(
        weighing.id,
        body["at"],
        bridge,
        state,
        trailer.id if trailer else None,
        deck,
        taken,
        dict(_typed(body)),
        readings,
        setup,
        _measured(loads),
        loads,
        found.chi2 if found else 0.0,
        found.p if found else None,
        _agree(found) and not repeats_apart(readings=taken, bridge=bridge),
        tuple(one.id for one in readings if below_min(bridge=bridge, value_kg=one.value_kg)),
    )


def _deck(book: Book, weighing: Row, state: State, towed: bool) -> Deck:
    """How the loads of the visit hang together; without a length that is not known."""
    vehicle = book.vehicle.body if book.vehicle else {}
    geometry = geometry_of(book=book, state=state) if vehicle.get("wheelbase_m") is not None else None
    return Deck(geometry, towed, tuple(_occupants(book, state, revisions_of(weighing=weighing))))


def _occupants(book: Book, state: State, revisions: dict[str, str] | None) -> Iterator[Part]:
    seats = {seat.id: seat for seat in (*book.seats, *book.gone)}
    for load in state.seats:
        seat = seats.get(load.seat_id)
        if seat is None:
            continue
        body = body_of_day(book, seat, revisions.get(seat.id) if revisions else None)
        if body.get("x_m") is not None:
            yield seat_part(load, body)


def _readings(body: Body, state: State, towed: bool) -> Iterator[Reading]:
    single = (body["bridge"].get("form") or "single_deck") == "single_deck"
    seated = {load.seat_id for load in state.seats}
    for one in body["readings"]:
        if one.get("struck_out"):
            continue
        differs = one.get("differs") or {}
        uncoupled = bool(differs.get("uncoupled")) or not towed
        rear = "trailer" if uncoupled else "trailer_axles"
        axles = tuple(sorted({rear if axle == "trailer" else axle for axle in one["on_deck"]}))
        split = one["split"] if one.get("split") is not None else single and beside(axles=axles)
        yield Reading(
            one["id"],
            axles,
            float(one["value_kg"]),
            bool(split),
            deck=one.get("deck") or "",
            approach=one.get("approach") or "",
            without=tuple(f"{seat}:occupant" for seat in differs.get("seats_empty") or () if seat in seated),
            uncoupled=bool(differs.get("uncoupled")) and towed,
        )


def _agree(found: FixedSums | None) -> bool:
    return found is None or (found.agree and not below_zero(found=found))


def _typed(body: Body) -> Iterator[tuple[str, Typed]]:
    """What was typed: digits, and how many kg one of them is."""
    for one in body["readings"]:
        digits, _ = (one.get("as_typed") or {}).get("value_kg") or (f"{one['value_kg']:g}", "kg")
        typed = float(digits)
        yield one["id"], Typed(digits, float(one["value_kg"]) / typed if typed else 1.0)


def beside(*, axles: Sequence[str]) -> bool:
    """Whether a part of what hangs together stood beside the deck: some axles of the vehicle, or a coupled
    trailer's alone. The whole vehicle before its trailer counts as whole: the coupling passes hardly any tilt."""
    own = [axle for axle in axles if axle in VEHICLE_AXLES]
    return not _covers(own) if own else "trailer_axles" in axles


def _covers(axles: Sequence[str]) -> bool:
    front = "front" in axles or {"front_left", "front_right"} <= set(axles)
    rear = any(set(whole) <= set(axles) for whole in (("rear",), SINGLES, ("rear_left", "rear_right")))
    return front and rear


def _setup(readings: Sequence[Reading], vehicle: Body) -> SplitSetup:
    whole = [one.value_kg for one in readings if one.axles == ENDS]
    ends = {end: [one.value_kg for one in readings if one.axles == (end,)] for end in ENDS}
    singles = [values[0] for values in ends.values() if values]
    alone = [one.value_kg for one in readings if len(one.axles) == 1]
    if whole:
        total_kg = whole[0]
    elif len(singles) == 2:
        total_kg = sum(singles)
    else:
        total_kg = 2.0 * sum(singles or alone[:1])
    return SplitSetup(
        total_kg=total_kg,
        wheelbase_m=float(vehicle.get("wheelbase_m") or SHORT_WHEELBASE_M),
        cg_height_m=float(vehicle.get("cg_height_m") or CG_HEIGHT_M),
    )


def _measured(loads: Loads) -> tuple[Measured, ...]:
    return tuple(
        Measured(row, mean_kg, sqrt(max(loads.cov_kg2[k][k], 0.0)))
        for k, (row, mean_kg) in enumerate(zip(loads.rows, loads.mean_kg, strict=True))
    )
