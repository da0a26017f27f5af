"""Which ratings are in force: plates of several things over time, the least of what binds.

A later plate of the same thing replaces only the values that it states. Plates of several things (vehicle,
towbar, coupling, trailer, rack, tyres) may bind one rating: the least counts. A blank rating is not known,
never no limit.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from .book import Row

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


@dataclass(frozen=True, slots=True)
class Rating:
    """One limit in force: `limit_kg` is None where no plate states it."""

    rating: str
    limit_kg: float | None
    plate_id: str | None


def ratings_on(
    *, plates: Sequence[Row], day: str, planned: Sequence[str] = (), trailer_id: str | None = None
) -> tuple[Rating, ...]:
    """The ratings in force on a day (`YYYY-MM-DD`), one for each row that can be rated.

    A plate of one trailer counts only where that trailer is `trailer_id`.
    A plate without a date counts from the beginning. Plates that are only planned are left out unless their
    id is in `planned` (the what-if). A plate dated after `day` does not count yet.
    """
    stated: dict[tuple[str, str | None, str], tuple[float, str]] = {}
    for plate in sorted(plates, key=lambda row: (row.body.get("date_from") or "", row.order, row.id)):
        body = plate.body
        if (body.get("date_from") or "") > day:
            continue
        if body.get("trailer_id") not in (None, trailer_id):
            continue
        if body.get("standing") == "planned" and plate.id not in planned:
            continue
        for rating, name in FIELDS.items():
            if body.get(name) is not None:
                stated[(body["of"], body.get("trailer_id"), rating)] = (float(body[name]), plate.id)
    return tuple(_least(rating, stated) for rating in FIELDS)


def _least(rating: str, stated: dict[tuple[str, str | None, str], tuple[float, str]]) -> Rating:
    binding = [value for (_, _, row), value in stated.items() if row == rating]
    if not binding:
        return Rating(rating, None, None)
    limit_kg, plate_id = min(binding)
    return Rating(rating, limit_kg, plate_id)
