"""What stood on the deck: each reading as a sum of the visit's unknown loads.

The unknowns are the loads in the state of the visit: front, rear, trailer axles and coupling, an axle split where
single axles or wheels of it were read. With the trailer uncoupled the vehicle stands without its coupling load,
and the trailer with it; who was out of the vehicle is an unknown mass that the state knows.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import sqrt

import numpy as np

from .agreement import FixedSums, fixed_sums
from .axles import SINGLES, WHEELS, Geometry, coefficient, line
from .bridge import Bridge
from .statics import Part, as_tuples
from .weighing import Reading, SplitSetup, reading_covariance

ENDS = ("front", "rear")
IMPOSSIBLE_SD = 3.0  # below zero by so many u is no chance of the scale (our choice)


@dataclass(frozen=True, slots=True)
class Deck:
    """How the loads of a visit hang together. `geometry` is None where the wheelbase is not known; `towed`
    says that a trailer was coupled in the state of the visit; `occupants` are the parts that may be out."""

    geometry: Geometry | None = None
    towed: bool = False
    occupants: tuple[Part, ...] = ()


@dataclass(frozen=True, slots=True)
class Sums:
    """Readings as sums: `rows` over `names`, what a reading has beyond them, and which readings can be used.

    The last rows, one per mass that was out, say what the state knows of it.
    """

    names: tuple[str, ...]
    rows: tuple[tuple[float, ...], ...]
    values_kg: tuple[float, ...]
    extra_kg2: tuple[float, ...]
    used: tuple[str, ...]
    wanted: Mapping[str, tuple[float, ...]]


def deck_sums(*, readings: Sequence[Reading], deck: Deck) -> Sums:
    """The readings of one visit as sums of its loads.

    A reading whose sum needs a length that is not known is left out: it still counts through the plan. Uncoupled,
    front = F - (1 - x_b/L) B - tau/L and rear = R - x_b/L B + tau/L, with tau the moment of a levelling hitch.
    """
    split = _split_ends(readings)
    used: list[Reading] = []
    terms: list[dict[str, float]] = []
    offsets: list[float] = []
    for reading in readings:
        found = _terms(reading, deck, split)
        if found is not None:
            used.append(reading)
            terms.append(found[0])
            offsets.append(found[1])
    out = tuple(dict.fromkeys(name for reading in used for name in reading.without))
    masses = [part for part in deck.occupants if part.id in out]
    names = tuple(dict.fromkeys(name for one in terms for name in one))
    rows = [tuple(one.get(name, 0.0) for name in names) for one in terms]
    rows += [tuple(float(name == part.id) for name in names) for part in masses]
    return Sums(
        names,
        tuple(rows),
        (
            *(one.value_kg - offset for one, offset in zip(used, offsets, strict=True)),
            *(part.mass_kg for part in masses),
        ),
        (*(_place_kg2(one, deck) for one in used), *(part.mass_u_kg**2 for part in masses)),
        tuple(one.id for one in used),
        dict(_wanted(names, split, deck.towed)),
    )


def read_deck(
    *, readings: Sequence[Reading], bridge: Bridge, setup: SplitSetup | None, deck: Deck
) -> FixedSums | None:
    """The loads that the readings fix without any plan, and whether they agree; None without a usable reading."""
    sums = deck_sums(readings=readings, deck=deck)
    used = [reading for reading in readings if reading.id in sums.used]
    if not used:
        return None
    cov = np.diag(np.array(sums.extra_kg2, dtype=float))
    n = len(used)
    cov[:n, :n] += np.array(reading_covariance(readings=used, bridge=bridge, setup=setup))
    return fixed_sums(sums=sums.rows, values_kg=sums.values_kg, covariance=as_tuples(cov), wanted=sums.wanted)


def below_zero(*, found: FixedSums) -> tuple[str, ...]:
    """Rows that stand on wheels and came out below zero by more than three u: no readings of one vehicle give that.

    The coupling may be lifted, an axle on a level deck cannot be.
    """
    return tuple(
        row
        for k, row in enumerate(found.rows)
        if row != "coupling" and found.mean_kg[k] < -IMPOSSIBLE_SD * sqrt(found.cov_kg2[k][k])
    )


def _split_ends(readings: Sequence[Reading]) -> dict[str, tuple[str, ...]]:
    """Each end of the vehicle and the loads that it is made of on this visit."""
    read = {axle for reading in readings for axle in reading.axles}
    out: dict[str, tuple[str, ...]] = {}
    for end in ENDS:
        wheels = tuple(wheel for wheel in WHEELS if wheel.startswith(end))
        singles = SINGLES if end == "rear" else ()
        out[end] = wheels if read & set(wheels) else singles if read & set(singles) else (end,)
    return out


def _terms(
    reading: Reading, deck: Deck, split: Mapping[str, tuple[str, ...]]
) -> tuple[dict[str, float], float] | None:
    """Coefficients of one reading and what it has beyond them, kg."""
    terms: dict[str, float] = {}
    offset = 0.0
    for axle in reading.axles:
        for name in split.get(axle, (axle,)):
            if name != "trailer" or not deck.towed:
                terms[name] = terms.get(name, 0.0) + 1.0
    if not set(reading.without) <= {part.id for part in deck.occupants}:
        return None
    if reading.uncoupled and deck.towed:
        apart = _uncoupled(reading, deck.geometry, split)
        if apart is None:
            return None
        share, offset = apart
        if "trailer" in reading.axles:
            terms["trailer_axles"] = 1.0
        if share:
            terms["coupling"] = share
    for part in deck.occupants:
        if part.id in reading.without:
            felt = _felt(reading, part, deck.geometry, split)
            if felt is None:
                return None
            terms[part.id] = -felt
    return terms, offset


def _uncoupled(
    reading: Reading, geometry: Geometry | None, split: Mapping[str, tuple[str, ...]]
) -> tuple[float, float] | None:
    """Share of the coupling load in a reading taken uncoupled, and what a levelling hitch's moment adds."""
    share, offset = (1.0 if "trailer" in reading.axles else 0.0), 0.0
    ends = _vehicle_axles(reading)
    if not ends or _whole(ends, split):
        return (share - 1.0 if ends else share), 0.0
    if geometry is None or geometry.coupling_x_m is None or not set(ends) <= {*ENDS, *SINGLES}:
        return None
    if not all(_known(end, geometry) for end in ends):
        return None
    tau = geometry.trailer.hitch_moment_kgm if geometry.trailer else 0.0
    for end in ends:
        c0, c1 = line(row=end, geometry=geometry)
        share -= c0 + c1 * geometry.coupling_x_m
        offset += c1 * tau
    return share, offset


def _felt(
    reading: Reading, part: Part, geometry: Geometry | None, split: Mapping[str, tuple[str, ...]]
) -> float | None:
    """Which share of somebody's mass the axles on the deck would feel."""
    ends = _vehicle_axles(reading)
    if not ends or _whole(ends, split):
        return 1.0 if ends else 0.0
    if geometry is None or not all(_known(axle, geometry) for axle in ends):
        return None
    return sum(coefficient(row=axle, geometry=geometry, x_m=part.x_m, y_m=part.y_m).share for axle in ends)


def _vehicle_axles(reading: Reading) -> list[str]:
    return [axle for axle in reading.axles if axle not in ("trailer", "trailer_axles")]


def _whole(axles: Sequence[str], split: Mapping[str, tuple[str, ...]]) -> bool:
    """Whether all of the vehicle stands on them."""
    return all(end in axles or set(parts) <= set(axles) for end, parts in split.items())


def _known(axle: str, geometry: Geometry) -> bool:
    if axle in SINGLES:
        return geometry.spread_m is not None
    return axle not in WHEELS or (geometry.front_track_m is not None and geometry.rear_track_m is not None)


def _place_kg2(reading: Reading, deck: Deck) -> float:
    """Variance from where the people sit who were out, (m^2 + u^2) (c1 u_x)^2."""
    ends = [axle for axle in reading.axles if axle in ENDS]
    if deck.geometry is None or len(ends) != 1:
        return 0.0
    _, c1 = line(row=ends[0], geometry=deck.geometry)
    return sum(
        (part.mass_kg**2 + part.mass_u_kg**2) * (c1 * part.x_u_m) ** 2
        for part in deck.occupants
        if part.id in reading.without
    )


def _wanted(
    names: Sequence[str], split: Mapping[str, tuple[str, ...]], towed: bool
) -> Iterator[tuple[str, tuple[float, ...]]]:
    """Every row that the unknown loads add up to."""
    gross = (*split["front"], *split["rear"])
    rows: dict[str, tuple[str, ...]] = {"front": split["front"], "rear": split["rear"], "gross": gross}
    rows |= {name: (name,) for end in ENDS for name in split[end] if name != end}
    if not towed:
        rows["trailer"] = ("trailer",)
    else:
        rows["trailer_axles"] = ("trailer_axles",)
        rows["coupling"] = ("coupling",)
        rows["trailer"] = ("trailer_axles", "coupling")
        rows["combination"] = (*gross, "trailer_axles")
    for row, parts in rows.items():
        if set(parts) <= set(names):
            yield row, tuple(float(name in parts) for name in names)
