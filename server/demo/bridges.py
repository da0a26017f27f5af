"""Three fictional public bridges: what they print, and the errors that they truly have.

The errors keep within what a class III scale may be off by in service: twice 0.5 e up to 500 e, 1 e up to
2,000 e and 1.5 e up to 10,000 e (Directive 2014/31/EU, Annex I, Table 3 and 4.2). What an uneven approach and
sticking brakes add when a vehicle stands half beside the deck comes on top, and belongs to no class.
"""

from dataclasses import dataclass

from .chance import MOST_SD, Chance

_BANDS = ((500.0, 0.5), (2_000.0, 1.0), (10_000.0, 1.5))  # load in e up to -> error at verification in e
_STEADY = 0.7  # the share of a deck's own error that it has again at every visit; assumed
_STEP_M = 0.015  # sd of how far the deck stands above its approach; assumed
_FRICTION = 0.002  # sd of what brakes and springs hold back, as a share of the load; assumed


@dataclass(frozen=True, slots=True)
class Bridge:
    """One scale: as it is known, and its true errors (`own` by the axles that stand on it, each -1 to 1)."""

    key: str
    name: str
    site_number: str
    interval_kg: float
    max_kg: float
    gain: float
    step_m: float
    own: dict[tuple[str, ...], float]

    def allowed_kg(self, load_kg: float) -> float:
        """The greatest error that the class allows in service, rounding apart."""
        in_steps = load_kg / self.interval_kg
        return next(2 * share * self.interval_kg for most, share in _BANDS if in_steps <= most)

    def tilt_kg(self, mass_kg: float, cg_height_m: float, wheelbase_m: float) -> float:
        """What a deck that stands proud takes off a reading of one axle: the moment M h step / L, over L."""
        return mass_kg * cg_height_m * self.step_m / wheelbase_m**2


@dataclass(frozen=True, slots=True)
class OnDeck:
    """What stands on the deck: its true load, and what the approach needs to know of the whole vehicle."""

    axles: tuple[str, ...]
    load_kg: float
    split: bool
    mass_kg: float
    cg_height_m: float
    wheelbase_m: float


_AXLES = (("front",), ("rear",), ("front", "rear"))
_TOWED_AXLES = (("trailer",), ("front", "rear", "trailer"))
_TABLE = (
    # key, name, site number, interval kg, Max kg
    ("quillabar", "Quillabar public weighbridge", "QB-014", 20.0, 60_000.0),
    ("ombarra", "Ombarra Junction grain depot", "OJ-203", 10.0, 40_000.0),
    ("dunmeral", "Dunmeral transfer station", "DM-077", 20.0, 60_000.0),
)


def build_bridges(seed: int) -> dict[str, Bridge]:
    """The bridges of a seed with their true errors, by key."""
    chance, towed = Chance(seed, "bridges"), Chance(seed, "bridges/towed")
    return {
        key: Bridge(
            key=key,
            name=name,
            site_number=site,
            interval_kg=interval_kg,
            max_kg=max_kg,
            gain=chance.uniform(-1, 1) * _largest_gain(interval_kg, max_kg),
            step_m=abs(chance.noise(_STEP_M)),
            own={axles: chance.uniform(-1, 1) for axles in _AXLES}
            | {axles: towed.uniform(-1, 1) for axles in _TOWED_AXLES},
        )
        for key, name, site, interval_kg, max_kg in _TABLE
    }


def _largest_gain(interval_kg: float, max_kg: float) -> float:
    """The gain that stays within the class at every load up to Max: the least ratio at the bands' ends."""
    ends = [(min(most * interval_kg, max_kg), 2 * share * interval_kg) for most, share in _BANDS]
    return min(error / load for load, error in ends)


def read(bridge: Bridge, on_deck: OnDeck, chance: Chance) -> float:
    """The figure that the bridge prints."""
    load = on_deck.load_kg
    gain_kg = bridge.gain * load
    room_kg = bridge.allowed_kg(load) - abs(gain_kg)
    own = _STEADY * bridge.own[on_deck.axles] + (1 - _STEADY) * chance.uniform(-1, 1)
    shown = load + gain_kg + own * room_kg
    if on_deck.split:
        shown -= bridge.tilt_kg(on_deck.mass_kg, on_deck.cg_height_m, on_deck.wheelbase_m)
        shown += chance.noise(_FRICTION * load)
    return round(shown / bridge.interval_kg) * bridge.interval_kg


def furthest_kg(bridge: Bridge, on_deck: OnDeck) -> float:
    """How far a printed figure can lie from the true load."""
    off = bridge.allowed_kg(on_deck.load_kg) + bridge.interval_kg / 2
    if on_deck.split:
        off += bridge.tilt_kg(on_deck.mass_kg, on_deck.cg_height_m, on_deck.wheelbase_m)
        off += MOST_SD * _FRICTION * on_deck.load_kg
    return off


_STOPS = {
    "whole": ("front", "rear"),
    "alone": ("front", "rear"),
    "everything": ("front", "rear", "trailer"),
}


def axles_of(stop: str) -> tuple[str, ...]:
    """The axles that stand on the deck at a stop."""
    return _STOPS.get(stop, (stop,))
