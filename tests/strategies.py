"""What hypothesis draws for the domain: vehicles with their parts, tanks, bridges and readings.

Numbers are rounded to what a person would type, so that a counterexample can be read.
"""

from hypothesis import strategies as st

from server.domain.axles import Geometry, Trailer
from server.domain.bridge import Bridge
from server.domain.envelope import Tank
from server.domain.statics import Part, base_parts
from server.domain.weighing import Reading, SplitSetup

TRAILER = "trailer"


def number(low: float, high: float, digits: int = 2) -> st.SearchStrategy[float]:
    """A number with a few decimals."""
    scale = 10**digits
    return st.integers(round(low * scale), round(high * scale)).map(lambda n: n / scale)


@st.composite
def geometries(draw: st.DrawFn, *, trailer: bool | None = None, tracks: bool = False) -> Geometry:
    """Two axles or a rear group of either model, alone or with a trailer."""
    wheelbase = draw(number(2.4, 4.5))
    towing = draw(st.booleans()) if trailer is None else trailer
    bars = draw(st.sampled_from([0.0, 120.0]))
    return Geometry(
        wheelbase,
        spread_m=draw(st.none() | number(0.8, 1.6)),
        second_axle=draw(st.sampled_from(["pair", "springs"])),
        rearmost_share=draw(number(0.2, 0.8)),
        stiffness=tuple(draw(st.lists(number(0.5, 3), min_size=3, max_size=3))),
        front_track_m=draw(number(1.4, 1.8)) if tracks else None,
        rear_track_m=draw(number(1.4, 1.8)) if tracks else None,
        frame=draw(st.sampled_from(["flexible", "rigid"])),
        front_roll_share=draw(number(0, 1)),
        coupling_x_m=wheelbase + 1.1,
        trailer=Trailer(TRAILER, draw(number(2.5, 6)), bars) if towing else None,
    )


@st.composite
def items(draw: st.DrawFn, geometry: Geometry, *, most: int = 8) -> list[Part]:
    """Loose parts anywhere, some copies of one article, some taken off."""
    places = ["vehicle", *([TRAILER] if geometry.trailer else [])]
    return [
        Part(
            f"item {i}",
            draw(number(0, 150)),
            draw(number(0, 25)),
            draw(number(-1, 6)),
            draw(number(0, 0.3)),
            y_m=draw(number(-0.9, 0.9)),
            y_u_m=draw(number(0, 0.2)),
            z_m=draw(number(0.2, 2.2)),
            article=draw(st.sampled_from([None, None, "crate"])),
            taken_off=draw(st.sampled_from([False, False, False, True])),
            on=draw(st.sampled_from(places)),
        )
        for i in range(draw(st.integers(0, most)))
    ]


@st.composite
def vehicles(draw: st.DrawFn, **kind: bool) -> tuple[Geometry, list[Part]]:
    """A delivered vehicle and what was put in or on it."""
    geometry = draw(geometries(**kind))
    base = base_parts(
        geometry=geometry,
        front_kg=draw(number(900, 1700, 0)),
        front_u_kg=draw(number(0, 40)),
        rear_kg=draw(number(900, 1700, 0)),
        rear_u_kg=draw(number(0, 40)),
        z_m=draw(number(0.5, 1.0)),
        z_u_m=draw(number(0, 0.1)),
    )
    return geometry, [*base, *draw(items(geometry))]


@st.composite
def tanks(draw: st.DrawFn, *, most: int = 4) -> list[Tank]:
    """Tanks between two levels, anywhere in height."""
    return [
        Tank(
            f"tank {i}",
            draw(number(5, 150)),
            draw(number(-0.5, 5)),
            least_level=draw(number(0, 0.4)),
            greatest_level=draw(number(0.4, 1)),
            level_u=draw(number(0, 0.2)),
            bottom_m=draw(number(0.3, 1.9)),
            height_m=draw(number(0, 0.6)),
        )
        for i in range(draw(st.integers(0, most)))
    ]


@st.composite
def bridges(draw: st.DrawFn) -> Bridge:
    """Public bridges, small ones and pads."""
    e = float(draw(st.sampled_from([5, 10, 20, 50])))
    key, percent = draw(st.sampled_from(["a", "b"])), draw(st.sampled_from([None, None, None, 1.0]))
    return Bridge(key, e, e, "III", 3000 * e, percent)


@st.composite
def readings(draw: st.DrawFn) -> tuple[Reading, ...]:
    """At least one of front, rear and whole, near what a vehicle weighs."""
    sets = draw(
        st.lists(
            st.sampled_from([("front",), ("rear",), ("front", "rear")]), min_size=1, max_size=3, unique=True
        )
    )
    return tuple(
        Reading(f"r{i}", axles, draw(number(1000, 2000, 0)) * len(axles), len(axles) == 1)
        for i, axles in enumerate(sets)
    )


def setups(geometry: Geometry) -> st.SearchStrategy[SplitSetup]:
    """Decks with any slope that two split readings allow."""
    return st.builds(
        SplitSetup,
        total_kg=number(2000, 5000, 0),
        wheelbase_m=st.just(geometry.wheelbase_m),
        cg_height_m=number(0.4, 1.4),
        level_correlation=number(-1, 1),
    )
