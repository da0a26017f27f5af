"""A way of stretches cut into pieces at the places that matter, ahead of the vehicle and behind it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from .errors import check_range
from .stretch import Stretch

SAME_KM = 1e-6  # two places nearer than this are one


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of a stretch from one distance to another; of a stay both are the same."""

    from_km: float
    to_km: float
    way: Mapping[str, float]
    points: int = 1


@dataclass(frozen=True, slots=True)
class Road:
    """The pieces behind the vehicle and ahead of it, and the places asked for as they fall on their ends."""

    behind: tuple[Piece, ...]
    ahead: tuple[Piece, ...]
    at_km: tuple[float, ...]


def cut_way(*, stretches: Sequence[Stretch], at_km: Sequence[float], from_km: float = 0.0) -> Road:
    """Cut stretches at each place of `at_km` and at `from_km`, from which on they are ahead.

    Amounts and points of a cut stretch go by its length. A stay at `from_km` is ahead. Places nearer than SAME_KM to
    the way's beginning or end, to a place before them in the order asked, or to the end of a stretch are that one.
    Refused: lengths and amounts below 0, a place before the way or beyond it.
    """
    ends = [0.0]
    for stretch in stretches:
        check_range("distance_km", stretch.distance_km, low=0.0, unit="km")
        for amount in stretch.way.values():
            check_range("amount", amount, low=0.0)
        ends.append(ends[-1] + stretch.distance_km)
    start, *placed = _placed(ends, [("from_km", from_km), *(("at_km", at) for at in at_km)])
    cuts = sorted({start, *placed})
    pieces = [
        piece
        for stretch, (a, b) in zip(stretches, pairwise(ends), strict=True)
        for piece in _cut(stretch, a, b, cuts)
    ]
    behind = [one for one in pieces if one.to_km < start or (one.to_km == start and one.from_km < start)]
    return Road(tuple(behind), tuple(pieces[len(behind) :]), tuple(placed))


def part_of(*, piece: Piece, share: float) -> Piece:
    """The beginning of a piece: a share of it, 0 to 1."""
    check_range("share", share, low=0.0, high=1.0)
    end = piece.to_km if share == 1.0 else piece.from_km + share * (piece.to_km - piece.from_km)
    return Piece(piece.from_km, end, {name: share * amount for name, amount in piece.way.items()})


def way_back(*, pieces: Sequence[Piece], to_km: float) -> tuple[Mapping[str, float], ...]:
    """The ways back from the end of some pieces to a place behind, last first; stays are not repeated."""
    out: list[Mapping[str, float]] = []
    for piece in reversed(pieces):
        if piece.to_km <= to_km:
            break
        length = piece.to_km - piece.from_km
        if length > 0:
            share = min((piece.to_km - to_km) / length, 1.0)
            out.append({name: share * amount for name, amount in piece.way.items()})
    return tuple(out)


def _placed(ends: Sequence[float], asked: Sequence[tuple[str, float]]) -> list[float]:
    """Places as they fall on the way, each with the name of its field."""
    out: list[float] = []
    for name, at_km in asked:
        check_range(name, at_km, low=0.0, high=ends[-1] + SAME_KM, unit="km")
        there = [
            nearest
            for places in ((ends[-1], 0.0), out, ends)
            for nearest in sorted(places, key=lambda one: abs(one - at_km))[:1]
            if abs(nearest - at_km) <= SAME_KM
        ]
        out.append(there[0] if there else at_km)
    return out


def _cut(stretch: Stretch, a: float, b: float, cuts: Sequence[float]) -> list[Piece]:
    inner = [a, *(cut for cut in cuts if a < cut < b), b]
    if len(inner) == 2:
        return [Piece(a, b, stretch.way, stretch.points)]
    return [
        Piece(
            low,
            high,
            {name: (high - low) / (b - a) * amount for name, amount in stretch.way.items()},
            max(1, ceil(stretch.points * (high - low) / (b - a) - SAME_KM)),
        )
        for low, high in pairwise(inner)
    ]
