"""Which ratings are in force: plates of several things over time, the least of what binds.

A later plate of the same thing replaces only the values that it states. Plates of several things (vehicle,
towbar, coupling, trailer, rack, tyres) may bind one rating: the least counts. A blank rating is not known,
never no limit.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from .book import Body, Book, Row
from .errors import Unknown
from .tyres import fitted

# the rating's row of `statics` -> the field of a plate that states it
FIELDS = {
    "front": "front_axle_kg",
    "rear": "rear_axle_kg",
    "gross": "gross_kg",
    "combination": "combination_kg",
    "trailer": "trailer_kg",
    "trailer_axles": "trailer_axles_kg",
    "coupling": "coupling_kg",
    "roof": "roof_kg",
}
# where a plate of tyres says that they are -> the ratings that they bind
TYRE_ROWS = {"front": ("front",), "rear": ("rear",), "both": ("front", "rear"), "trailer": ("trailer_axles",)}


@dataclass(frozen=True, slots=True)
class Rating:
    """One limit in force: `limit_kg` is None where no plate states it.

    `also` holds every plate that binds it, the one in force included, with its kg, least first.
    """

    rating: str
    limit_kg: float | None
    plate_id: str | None
    also: tuple[tuple[str, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Change:
    """One rating before and after a plate; `stated_kg` is what the plate itself says of it, None if nothing.

    A plate that states a rating and is not `after.plate_id` changed nothing: another one still binds.
    """

    rating: str
    before: Rating
    after: Rating
    stated_kg: float | None
    changed: bool


def ratings_on(
    *,
    plates: Sequence[Row],
    day: str,
    planned: Sequence[str] = (),
    trailer_id: str | None = None,
    axles: Mapping[str, int] | None = None,
) -> tuple[Rating, ...]:
    """The ratings in force on a day (`YYYY-MM-DD`), one for each row that can be rated.

    A plate without a date counts from the beginning, one dated after `day` not yet. A plate that is only planned
    counts where its id is in `planned` (the what-if), whatever its date, and then as the latest. A trailer's plate
    counts with that trailer alone. `axles` says how many axles share a rating (1 unless said), for tyres bind
    each axle: see `stated_by`.
    """
    counting = [row for row in _in_order(plates, planned) if _counts(row, planned, trailer_id)]
    return _ratings([row for row in counting if row.id in planned or _day(row) <= day], axles or {})


def ratings_of(
    *, book: Book, day: str, planned: Sequence[str] = (), trailer_id: str | None = None
) -> tuple[Rating, ...]:
    """The ratings in force of an opened book on a day, with the axles that its vehicle and trailer have.

    As `ratings_on`, with `axle_counts` of the book.
    """
    axles = axle_counts(book=book, trailer_id=trailer_id)
    return ratings_on(plates=book.plates, day=day, planned=planned, trailer_id=trailer_id, axles=axles)


def changes_by(
    *,
    plates: Sequence[Row],
    plate_id: str,
    day: str | None = None,
    trailer_id: str | None = None,
    axles: Mapping[str, int] | None = None,
) -> tuple[Change, ...]:
    """What one plate changed and what it did not: the ratings without it and with it, one for each row.

    A plate in force is compared with what was there before it, in the order of days and then of entering. One that
    is only planned is laid over what is in force on `day` (blank: over all that is in force), as the what-if of
    `ratings_on`. The trailer is the plate's own unless given. An unknown plate is refused.
    """
    plate = next((row for row in plates if row.id == plate_id), None)
    if plate is None:
        raise Unknown("plate_id", plate_id, [row.id for row in plates])
    planned = (plate_id,) if _is_planned(plate) else ()
    trailer = trailer_id or plate.body.get("trailer_id")
    order = _in_order(plates, planned)
    earlier = [row for row in order[: order.index(plate)] if _counts(row, (), trailer)]
    if planned and day is not None:
        earlier = [row for row in earlier if _day(row) <= day]
    shared = axles or {}
    stated = stated_by(plate=plate.body, axles=shared)
    pairs = zip(_ratings(earlier, shared), _ratings([*earlier, plate], shared), strict=True)
    return tuple(
        Change(old.rating, old, new, stated.get(old.rating), old.limit_kg != new.limit_kg)
        for old, new in pairs
    )


def stated_by(*, plate: Body, axles: Mapping[str, int] | None = None) -> dict[str, float]:
    """What a plate's body states, rating -> kg.

    A plate of tyres states besides its own figures what its tyres carry: the load of one by its index (the field,
    or the one in the size) times the tyres of an axle (2 unless said) times the axles that share the rating (1
    unless said); the least counts. Blank is both axles, of a trailer's plate the trailer's. An index that is not in
    the table states nothing.
    """
    out = {rating: float(plate[name]) for rating, name in FIELDS.items() if plate.get(name) is not None}
    if plate["of"] != "tyres":
        return out
    axle_kg = fitted(
        tyre_size=plate.get("tyre_size"),
        tyre_load_index=plate.get("tyre_load_index"),
        tyres_per_axle=plate.get("tyres_per_axle"),
    ).axle_kg
    where = plate.get("tyre_axle") or ("trailer" if plate.get("trailer_id") else "both")
    if axle_kg is None:
        return out
    for rating in TYRE_ROWS.get(where, ()):
        carried = axle_kg * (axles or {}).get(rating, 1)
        out[rating] = min(out.get(rating, carried), carried)
    return out


def axle_counts(*, book: Book, trailer_id: str | None = None) -> dict[str, int]:
    """How many axles share the rear axle's rating and, of a trailer, the trailer axles'; 1 where not known.

    Blank is 1, the smaller capacity: it can only make a verdict stricter.
    """
    vehicle = book.vehicle.body if book.vehicle else {}
    trailer = next((row.body for row in book.trailers if row.id == trailer_id), {})
    pair = vehicle.get("rear_axles") in ("load_sharing_pair", "independent_pair")
    return {"rear": 2 if pair else 1, "trailer_axles": int(trailer.get("axles") or 1)}


def _in_order(plates: Sequence[Row], planned: Sequence[str]) -> list[Row]:
    """By day and then by entering; what a what-if counts comes last."""
    return sorted(plates, key=lambda row: (row.id in planned, _day(row), row.order, row.id))


def _day(plate: Row) -> str:
    return plate.body.get("date_from") or ""


def _is_planned(plate: Row) -> bool:
    return bool(plate.body.get("standing") == "planned")


def _counts(plate: Row, planned: Sequence[str], trailer_id: str | None) -> bool:
    return (not _is_planned(plate) or plate.id in planned) and plate.body.get("trailer_id") in (
        None,
        trailer_id,
    )


def _ratings(plates: Sequence[Row], axles: Mapping[str, int]) -> tuple[Rating, ...]:
    """The least of what the latest plates of each thing state; `plates` are in order."""
    stated: dict[tuple[str, str | None, str], tuple[float, str]] = {}
    for plate in plates:
        for rating, kg in stated_by(plate=plate.body, axles=axles).items():
            stated[(plate.body["of"], plate.body.get("trailer_id"), rating)] = (kg, plate.id)
    return tuple(_least(rating, stated) for rating in FIELDS)


def _least(rating: str, stated: Mapping[tuple[str, str | None, str], tuple[float, str]]) -> Rating:
    binding = sorted(one for (_, _, row), one in stated.items() if row == rating)
    if not binding:
        return Rating(rating, None, None)
    limit_kg, plate_id = binding[0]
    return Rating(rating, limit_kg, plate_id, tuple((name, kg) for kg, name in binding))
