"""Where on a route a place of known coordinates is."""

from itertools import pairwise

from .book import Body
from .geo import Beside, Spot, beside_track, track_km
from .itinerary import supplies_of


def along_route(*, route: Body, spot: Spot) -> Beside | None:
    """About how far along a route a place is, and how far beside it, by the supplies whose coordinates are known.

    The way between two of them is taken as straight, and as long as the route says: good to say between which of them
    one is, not to the kilometre. One alone tells where it is itself. None without any.
    """
    placed = [one for one in supplies_of(route=route) if _is_placed(one)]
    placed.sort(key=lambda one: float(one["at_km"]))
    if not placed:
        return None
    spots = [Spot(float(one["latitude_deg"]), float(one["longitude_deg"])) for one in placed]
    found = beside_track(spots=spots, spot=spot)
    kms, places = track_km(spots=spots), [float(one["at_km"]) for one in placed]
    for (a, b), (low, high) in zip(pairwise(kms), pairwise(places), strict=True):
        if found.at_km <= b:
            share = (found.at_km - a) / (b - a) if b > a else 0.0
            return Beside(low + share * (high - low), found.off_km)
    return Beside(places[-1], found.off_km)


def _is_placed(supply: Body) -> bool:
    return supply.get("latitude_deg") is not None and supply.get("longitude_deg") is not None
