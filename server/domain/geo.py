"""Distances on the WGS 84 ellipsoid, and where along a track a place lies."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan, atan2, cos, hypot, pi, radians, sin, sqrt, tan

from .errors import NotKnown, check_range

# WGS 84: semi-major axis and flattening (NIMA TR8350.2, from memory)
AXIS_KM, FLATTENING = 6378.137, 1 / 298.257223563


@dataclass(frozen=True, slots=True)
class Spot:
    """A place by its geodetic latitude and longitude, degrees."""

    latitude_deg: float
    longitude_deg: float


@dataclass(frozen=True, slots=True)
class Beside:
    """Where along a track a place lies, and how far from it."""

    at_km: float
    off_km: float


def between_km(*, start: Spot, end: Spot) -> float:
    """Length of the geodesic between two places, km: Lambert's formula for long lines.

    With reduced latitudes tan b = (1 - f) tan phi, the central angle s between them on the sphere, P and Q half their
    sum and difference: d = a (s - f/2 (X + Y)), X = (s - sin s) sin^2 P cos^2 Q / cos^2(s/2),
    Y = (s + sin s) cos^2 P sin^2 Q / sin^2(s/2). Good to 1e-5 of the length, some 20 m over
    5000 km; not for nearly opposite places. Lambert 1942, J. Wash. Acad. Sci. 32:125 (from memory). Latitude -90 to 90,
    longitude -180 to 180.
    """
    for spot in (start, end):
        check_range("latitude_deg", spot.latitude_deg, low=-90.0, high=90.0, unit="deg")
        check_range("longitude_deg", spot.longitude_deg, low=-180.0, high=180.0, unit="deg")
    b1, b2 = _reduced(start.latitude_deg), _reduced(end.latitude_deg)
    across = radians(end.longitude_deg - start.longitude_deg) / 2
    half = sin((b2 - b1) / 2) ** 2 + cos(b1) * cos(b2) * sin(across) ** 2
    if half == 0.0:
        return 0.0
    s = 2 * atan2(sqrt(half), sqrt(max(1.0 - half, 0.0)))
    p, q = (b1 + b2) / 2, (b2 - b1) / 2
    x = (s - sin(s)) * (sin(p) * cos(q)) ** 2 / max(1.0 - half, 1e-300)
    y = (s + sin(s)) * (cos(p) * sin(q)) ** 2 / half
    return AXIS_KM * (s - FLATTENING / 2 * (x + y))


def track_km(*, spots: Sequence[Spot]) -> tuple[float, ...]:
    """Kilometres along a track at each of its points, 0 at the first; none of an empty one."""
    out = [0.0] if spots else []
    for start, end in pairwise(spots):
        out.append(out[-1] + between_km(start=start, end=end))
    return tuple(out)


def beside_track(*, spots: Sequence[Spot], spot: Spot) -> Beside:
    """The point of a track that is nearest to a place: how far along it is, and how far off the place lies.

    Between two points the track is taken as straight on a plane with the scale of the place's latitude, good for
    points up to some tens of km apart. Needs at least one point.
    """
    if not spots:
        raise NotKnown("spots", "a track")
    kms = track_km(spots=spots)
    scale = cos(radians(spot.latitude_deg))

    def plane(one: Spot) -> tuple[float, float]:
        turned = (one.longitude_deg - spot.longitude_deg + 540.0) % 360.0 - 180.0
        return turned * scale, one.latitude_deg - spot.latitude_deg

    best, least = (0, 0.0), hypot(*plane(spots[0]))
    for n, (start, end) in enumerate(pairwise(spots)):
        (x, y), (u, v) = plane(start), plane(end)
        square = (u - x) ** 2 + (v - y) ** 2
        share = min(max(-(x * (u - x) + y * (v - y)) / square, 0.0), 1.0) if square > 0.0 else 0.0
        off = hypot(x + share * (u - x), y + share * (v - y))
        if off < least:
            best, least = (n, share), off
    n, share = best
    at_km = kms[n] if share == 0.0 else kms[n] + share * (kms[n + 1] - kms[n])
    return Beside(at_km, AXIS_KM * least * pi / 180)


def _reduced(latitude_deg: float) -> float:
    """Reduced latitude; at a pole the pole."""
    if abs(latitude_deg) == 90.0:
        return radians(latitude_deg)
    return atan((1.0 - FLATTENING) * tan(radians(latitude_deg)))
