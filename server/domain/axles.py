"""Which share of a kilogram at (x, y) each row carries: the rigid vehicle on its axles, and its trailer.

Every row of the towing vehicle is linear in the force on it and in that force's moment about the front axle,
row = c0 P + c1 (P x). A part is P = 1 at its x; a trailer comes in through the coupling. Nothing is clipped:
what sits behind the rear axle lifts the front, what sits behind the trailer's axle lifts the coupling.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from .errors import NotKnown, Unknown, check_finite, check_range

ROWS = ("front", "rear", "gross")
SINGLES = ("rear_1", "rear_2")  # the two axles of a rear group
VEHICLE_ROWS = (*ROWS, *SINGLES)
TRAILER_ROWS = ("coupling", "trailer_axles", "trailer", "combination")
WHEELS = ("front_left", "front_right", "rear_left", "rear_right")

REARMOST_SHARE = 0.5  # of a pair that shares its load (assumed)
STIFFNESS = 1.0  # of each axle's springs beside the others (assumed)
FRONT_ROLL_SHARE = 0.5  # of a rigid frame (assumed)


@dataclass(frozen=True, slots=True)
class Trailer:
    """A coupled trailer: x of its parts counts rearwards from the coupling.

    `hitch_moment_kgm` is the pitch moment that the bars of a levelling hitch carry, N m / g.
    """

    id: str
    coupling_to_axle_m: float
    hitch_moment_kgm: float = 0.0


@dataclass(frozen=True, slots=True)
class Geometry:
    """Where the supports are. With `spread_m` the rear has two axles, the first at the wheelbase.

    `second_axle` names the model: "pair" shares the load, `rearmost_share` on the rearmost axle; "springs"
    carries each axle on its own, with the relative `stiffness` of front, first and second rear axle. `frame`
    names the model of the single wheels: "flexible", or "rigid" with `front_roll_share` of the roll
    stiffness at the front.
    """

    wheelbase_m: float
    spread_m: float | None = None
    second_axle: str = "pair"
    rearmost_share: float = REARMOST_SHARE
    stiffness: tuple[float, float, float] = (STIFFNESS,) * 3
    front_track_m: float | None = None
    rear_track_m: float | None = None
    frame: str = "flexible"
    front_roll_share: float = FRONT_ROLL_SHARE
    coupling_x_m: float | None = None
    trailer: Trailer | None = None


@dataclass(frozen=True, slots=True)
class Coefficient:
    """Load on a row per kg, and its change per metre rearwards and per metre to the right."""

    share: float
    per_m: float
    per_m_right: float = 0.0


def check_geometry(geometry: Geometry) -> None:
    """Refuse a geometry that cannot be: lengths not above zero, shares outside [0, 1], unknown models."""
    check_range("wheelbase_m", geometry.wheelbase_m, above=0.0, unit="m")
    for name in ("spread_m", "front_track_m", "rear_track_m"):
        if getattr(geometry, name) is not None:
            check_range(name, getattr(geometry, name), above=0.0, unit="m")
    for name in ("rearmost_share", "front_roll_share"):
        check_range(name, getattr(geometry, name), low=0.0, high=1.0)
    for stiffness in geometry.stiffness:
        check_range("stiffness", stiffness, above=0.0)
    _check_word("second_axle", geometry.second_axle, ("pair", "springs"))
    _check_word("frame", geometry.frame, ("flexible", "rigid"))
    if geometry.trailer is not None:
        check_range("coupling_to_axle_m", geometry.trailer.coupling_to_axle_m, above=0.0, unit="m")
        check_range("hitch_moment_kgm", geometry.trailer.hitch_moment_kgm, unit="kg m")
        if geometry.coupling_x_m is None:
            raise NotKnown("coupling_x_m", "a coupled trailer")
        check_range("coupling_x_m", geometry.coupling_x_m, unit="m")


def rear_x_m(geometry: Geometry) -> float:
    """Effective position of the rear axle or load-sharing pair, m: L_e = L + share * spread."""
    if geometry.spread_m is None or geometry.second_axle == "springs":
        return geometry.wheelbase_m
    return geometry.wheelbase_m + geometry.rearmost_share * geometry.spread_m


def rows_of(geometry: Geometry) -> tuple[str, ...]:
    """The rows that a geometry has: axles and gross, the trailer's, the single rear axles, the wheels."""
    rows: tuple[str, ...] = ROWS
    if geometry.spread_m is not None:
        rows += SINGLES
    if geometry.trailer is not None:
        rows += TRAILER_ROWS
    if geometry.front_track_m is not None and geometry.rear_track_m is not None:
        rows += WHEELS
    return rows


def line(*, row: str, geometry: Geometry) -> tuple[float, float]:
    """(c0, c1) of a row of the towing vehicle: load = c0 force + c1 moment about the front axle.

    Two axles, or a load-sharing pair: front 1 - x/L_e, rear x/L_e. Springs k_j at p_j under a rigid body:
    w_j = k_j [S_2 - S_1 p_j + (S_0 p_j - S_1) x]/(S_0 S_2 - S_1^2), S_n = sum k_j p_j^n; only the ratios of
    the stiffnesses matter.
    """
    if row == "gross":
        return 1.0, 0.0
    if geometry.spread_m is not None and geometry.second_axle == "springs":
        front, first, second = _on_springs(geometry, geometry.spread_m)
        group = (first[0] + second[0], first[1] + second[1])
        return _pick(row, {"front": front, "rear": group, "rear_1": first, "rear_2": second})
    per_m, share = 1.0 / rear_x_m(geometry), geometry.rearmost_share
    rows = {"front": (1.0, -per_m), "rear": (0.0, per_m)}
    if geometry.spread_m is not None:
        rows |= {"rear_1": (0.0, (1 - share) * per_m), "rear_2": (0.0, share * per_m)}
    return _pick(row, rows)


def coefficient(
    *,
    row: str,
    geometry: Geometry,
    x_m: float,
    y_m: float = 0.0,
    on: str = "vehicle",
    axle: str | None = None,
    roof: bool = False,
) -> Coefficient:
    """Load on a row per kg at (x, y), and its slopes; exact but for the bilinear wheels of a flexible frame.

    `on` is "vehicle" or the coupled trailer's id, and x counts from the front axle or from the coupling.
    `axle` says that the mass stands on that axle alone, as a delivered axle load does, wherever its x is.
    """
    if on != "vehicle" and (geometry.trailer is None or geometry.trailer.id != on):
        raise Unknown("on", on, ["vehicle", *([geometry.trailer.id] if geometry.trailer else [])])
    check_finite("x_m", x_m)
    check_finite("y_m", y_m)
    if row == "roof":
        return Coefficient(float(roof and on == "vehicle"), 0.0)
    if row in TRAILER_ROWS:
        return _on_trailer(row, geometry, x_m, on)
    if row in WHEELS:
        return _on_wheel(row, geometry, x_m, y_m, on, axle)
    if axle is not None:
        return Coefficient(_standing_on(row, axle, geometry), 0.0)
    c0, c1 = line(row=row, geometry=geometry)
    if on == "vehicle":
        return Coefficient(c0 + c1 * x_m, c1)
    per_kg = c0 + c1 * _coupling_x(geometry)
    on_coupling = _on_trailer("coupling", geometry, x_m, on)
    return Coefficient(on_coupling.share * per_kg, on_coupling.per_m * per_kg)


def hitch_offset_kg(*, row: str, geometry: Geometry) -> float:
    """What a levelling hitch adds to a row, kg: its bars carry a moment tau between vehicle and trailer.

    Trailer axles + tau/D, coupling - tau/D; the vehicle takes the force -tau/D at the coupling and the moment
    -tau. The sum of all axles does not change. No trailer or no bars: 0.
    """
    trailer = geometry.trailer
    if trailer is None or trailer.hitch_moment_kgm == 0.0 or row in ("roof", "trailer", "combination"):
        return 0.0
    force = trailer.hitch_moment_kgm / trailer.coupling_to_axle_m
    if row in ("trailer_axles", "coupling"):
        return force if row == "trailer_axles" else -force
    if row in WHEELS:
        return hitch_offset_kg(row=row.split("_")[0], geometry=geometry) / 2
    c0, c1 = line(row=row, geometry=geometry)
    return -c0 * force - c1 * (force * _coupling_x(geometry) + trailer.hitch_moment_kgm)


def _on_trailer(row: str, geometry: Geometry, x_m: float, on: str) -> Coefficient:
    if geometry.trailer is None:
        raise NotKnown("trailer", f"the row {row}")
    if row == "combination":
        return Coefficient(1.0, 0.0)
    if on == "vehicle":
        return Coefficient(0.0, 0.0)
    if row == "trailer":
        return Coefficient(1.0, 0.0)
    per_m = 1.0 / geometry.trailer.coupling_to_axle_m
    return Coefficient(x_m * per_m, per_m) if row == "trailer_axles" else Coefficient(1 - x_m * per_m, -per_m)


def _on_wheel(row: str, geometry: Geometry, x_m: float, y_m: float, on: str, axle: str | None) -> Coefficient:
    end, side = row.split("_")
    track = geometry.front_track_m if end == "front" else geometry.rear_track_m
    if track is None:
        raise NotKnown(f"{end}_track_m", "the load of single wheels")
    whole = coefficient(row=end, geometry=geometry, x_m=x_m, on=on, axle=axle)
    if on != "vehicle":  # the coupling is on the centre line
        return Coefficient(whole.share / 2, whole.per_m / 2)
    right = 1.0 if side == "right" else -1.0
    if geometry.frame == "rigid":
        roll = geometry.front_roll_share if end == "front" else 1.0 - geometry.front_roll_share
        lean = right * roll / track
        return Coefficient(whole.share / 2 + lean * y_m, whole.per_m / 2, lean)
    half = 0.5 + right * y_m / track
    return Coefficient(whole.share * half, whole.per_m * half, right * whole.share / track)


def _standing_on(row: str, axle: str, geometry: Geometry) -> float:
    """A delivered load on `axle` is carried there; a rear group's is split by its share."""
    _check_word("axle", axle, ("front", "rear", *(SINGLES if geometry.spread_m is not None else ())))
    end = axle.split("_")[0]
    if row in ("gross", axle):
        return 1.0
    if row == "rear" and end == "rear":
        return 1.0
    if row in SINGLES and axle == "rear":
        return geometry.rearmost_share if row == "rear_2" else 1.0 - geometry.rearmost_share
    line(row=row, geometry=geometry)  # refuses a row that is not there
    return 0.0


def _on_springs(geometry: Geometry, spread_m: float) -> list[tuple[float, float]]:
    """Each axle's (c0, c1), with every difference of sums written as a sum."""
    places = (0.0, geometry.wheelbase_m, geometry.wheelbase_m + spread_m)
    springs = tuple(zip(geometry.stiffness, places, strict=True))
    whole = sum(k * other * (p - q) ** 2 for k, p in springs for other, q in springs) / 2
    return [
        (
            k * sum(other * q * (q - p) for other, q in springs) / whole,
            k * sum(other * (p - q) for other, q in springs) / whole,
        )
        for k, p in springs
    ]


def _pick(row: str, rows: dict[str, tuple[float, float]]) -> tuple[float, float]:
    if row not in rows:
        raise Unknown("row", row, ["gross", *rows])
    return rows[row]


def _coupling_x(geometry: Geometry) -> float:
    if geometry.coupling_x_m is None:
        raise NotKnown("coupling_x_m", "a coupled trailer")
    return geometry.coupling_x_m


def _check_word(field: str, word: str, known: Sequence[str]) -> None:
    if word not in known:
        raise Unknown(field, word, known)
