"""What must hold along a way for loads, whatever the tanks and the events."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import number, vehicles

from server.domain.along import LoadsAlong, loads_along
from server.domain.axles import Geometry
from server.domain.errors import OnTheWay
from server.domain.happenings import Empty, Happening, Take, Vessel, Way
from server.domain.limits import chance_over
from server.domain.statics import Loads, Part, loads, tank_content

ROWS = ("front", "rear", "gross")
Vehicle = tuple[Geometry, list[Part]]


@st.composite
def vessels(draw: st.DrawFn) -> list[Vessel]:
    """Two fuel tanks anywhere, water and grey water, all with doubt."""

    def tank(name: str, holds: str, least: float = 0.3, **more: object) -> Vessel:
        capacity = draw(number(30, 120, 0))
        litres = draw(number(least, 1)) * capacity if holds != "grey" else 0.0
        return Vessel(
            name, holds, capacity, litres, draw(number(-1, 5)), draw(number(0, 4)), 0.9, 0.01, 0.05, **more
        )  # type: ignore[arg-type]

    return [
        tank("main", "fuel", drain_order=draw(st.integers(1, 3))),
        tank("sub", "fuel", drain_order=2),
        tank("fresh", "water", grey_id="grey", grey_fraction=draw(number(0, 1))),
        tank("grey", "grey"),
    ]


def used(draw: st.DrawFn, held: list[Vessel]) -> Way:
    """A way on which not more is used than there is, and not more grey water made than goes in."""
    fuel = draw(number(0, 1)) * sum(one.litres_l for one in held if one.holds == "fuel")
    water = draw(number(0, 1)) * min(held[2].litres_l, held[3].capacity_l)
    return Way(draw(number(0, 900, 0)), {"fuel": fuel, "water": water}, {"fuel": draw(number(0, 9))})


@st.composite
def trips(draw: st.DrawFn) -> tuple[Loads, Geometry, list[Vessel], list[Happening]]:
    geometry, parts = draw(vehicles())
    held = draw(vessels())
    full = [Take(holds, None, 1.0) for holds in ("fuel", "water")]
    brim = [replace(one, litres_l=0.0 if one.holds == "grey" else one.capacity_l) for one in held]
    fixed = loads(parts=parts, geometry=geometry, rows=ROWS)
    return fixed, geometry, held, [used(draw, held), *full, Empty("grey"), used(draw, brim)]


def answer(trip: tuple[Loads, Geometry, list[Vessel], list[Happening]], **more: float) -> LoadsAlong:
    fixed, geometry, held, events = trip
    return loads_along(fixed=fixed, vessels=held, events=events, geometry=geometry, limits=more)


def cut(way: Way, before: float, pieces: int) -> list[Way]:
    """A way in equal pieces, with the variance of what is left growing evenly."""
    out = []
    for n in range(1, pieces + 1):
        left = {
            name: ((pieces - n) / pieces * before + n / pieces * u**2) ** 0.5
            for name, u in way.left_u_l.items()
        }
        litres = {name: amount / pieces for name, amount in way.used_l.items()}
        out.append(Way(way.distance_km / pieces, litres, left))
    return out


@given(trips(), st.integers(2, 9))
def test_fine_steps_give_the_same_extremes(
    trip: tuple[Loads, Geometry, list[Vessel], list[Happening]], pieces: int
) -> None:
    fixed, geometry, held, events = trip
    before = sum(one.litres_u_l**2 for one in held if one.holds == "fuel")
    fine: list[Happening] = []
    for n, event in enumerate(events):
        fine += cut(event, before if n == 0 else 2.0, pieces) if isinstance(event, Way) else [event]
    one, other = answer(trip), answer((fixed, geometry, held, fine))
    for k in range(len(ROWS)):
        for name in ("least_at", "greatest_at"):
            a = one.marks[getattr(one.ranges[k], name)]
            b = other.marks[getattr(other.ranges[k], name)]
            assert b.value_kg[k] == pytest.approx(a.value_kg[k], rel=1e-9, abs=1e-7)
    assert other.marks[-1].u_kg == pytest.approx(one.marks[-1].u_kg, rel=1e-9, abs=1e-7)
    assert other.marks[-1].value_kg == pytest.approx(one.marks[-1].value_kg, rel=1e-9, abs=1e-7)


@given(vehicles(), vessels())
def test_the_beginning_is_the_plan_s_loads(vehicle: Vehicle, held: list[Vessel]) -> None:
    """A tank's content as `statics` has it, and nothing else."""
    geometry, parts = vehicle
    contents = [
        tank_content(
            id=one.id,
            density_kg_per_l=one.density_kg_per_l,
            density_u_kg_per_l=one.density_u_kg_per_l,
            capacity_l=one.capacity_l,
            level=one.litres_l / one.capacity_l,
            level_u=one.litres_u_l / one.capacity_l,
            x_m=one.x_m,
            x_u_m=one.x_u_m,
        )
        for one in held
    ]
    whole = loads(parts=[*parts, *contents], geometry=geometry, rows=ROWS)
    fixed = loads(parts=parts, geometry=geometry, rows=ROWS)
    (start,) = loads_along(fixed=fixed, vessels=held, events=[], geometry=geometry).marks
    assert start.value_kg == pytest.approx(whole.mean_kg, rel=1e-9, abs=1e-7)
    assert start.u_kg == pytest.approx([whole.u_kg(row) for row in ROWS], rel=1e-9, abs=1e-7)


@given(trips(), number(1000, 3500, 0))
def test_no_place_is_likelier_over_or_nearer(
    trip: tuple[Loads, Geometry, list[Vessel], list[Happening]], limit: float
) -> None:
    found = answer(trip, rear=limit)
    (near,) = found.nearest
    for mark in found.marks:
        chance = chance_over(limit_kg=limit, value_kg=mark.value_kg[1], u_kg=mark.u_kg[1])
        assert chance <= near.chance + 1e-6
        assert limit - mark.value_kg[1] >= near.margin_kg - 1e-9


@given(trips())
def test_gross_falls_by_what_leaves_the_vehicle(
    trip: tuple[Loads, Geometry, list[Vessel], list[Happening]],
) -> None:
    _, _, held, events = trip
    first = events[0]
    assert isinstance(first, Way)
    marks = answer(trip).marks
    end = next(mark for mark in marks if mark.event == 0 and mark.cause == "way")
    gone = 0.9 * (first.used_l["fuel"] + first.used_l["water"] * (1 - held[2].grey_fraction))
    assert marks[0].value_kg[2] - end.value_kg[2] == pytest.approx(gone, abs=1e-6)


@given(trips(), number(0.01, 20))
def test_more_than_there_is_is_refused_where_it_ends(
    trip: tuple[Loads, Geometry, list[Vessel], list[Happening]], more: float
) -> None:
    fixed, geometry, held, _ = trip
    total = sum(one.litres_l for one in held if one.holds == "fuel")
    with pytest.raises(OnTheWay) as caught:
        answer((fixed, geometry, held, [Way(100.0, {"fuel": total + more})]))
    assert (caught.value.what, caught.value.event) == ("dry", 0)
    assert caught.value.at_km == pytest.approx(100 * total / (total + more))
    assert caught.value.litres_l == pytest.approx(more, rel=1e-6)


def test_a_tail_tank_that_empties_raises_the_front_axle() -> None:
    fixed = Loads(("front",), (1000.0,), ((0.0,),))
    tail = Vessel("tail", "fuel", 40.0, 40.0, 4.5)
    found = loads_along(
        fixed=fixed, vessels=[tail], events=[Way(300.0, {"fuel": 40.0})], geometry=Geometry(3.0)
    )
    assert [mark.value_kg[0] for mark in found.marks] == pytest.approx([980.0, 1000.0])
    assert found.ranges[0].greatest_at == 1
