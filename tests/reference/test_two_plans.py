"""What moving a load does to the centre of gravity, against published worked examples of weight shifting."""

import pytest

from server.domain.book import Edit, Row, open_book
from server.domain.two_plans import Version, two_plans

L = 120.0  # any base: the centre does not depend on it

# FAA-H-8083-25, weight shifting (read in reproduction): total, centre, load, from, to -> centre
SHIFTS = {
    "cargo aft, 1.7": (8000.0, 77.0, 100.0, 30.0, 150.0, 78.5),
    "cargo forward, 1.8": (7800.0, 81.5, 65.0, 150.0, 30.0, 80.5),
}


@pytest.mark.parametrize("name", SHIFTS)
def test_a_load_moved(name: str) -> None:
    total, centre, load, was, now, expected = SHIFTS[name]
    rear = (total * centre - load * was) / L
    vehicle = {"wheelbase_m": L, "base_front_kg": total - load - rear, "base_rear_kg": rear}
    bodies = [{"name": "Load", "mass_kg": load, "x_m": x_m} for x_m in (was, now)]
    edits = [
        Edit("v", "vehicle", "v-1", "a", "2026-03-01T08:00:00Z", vehicle),
        *(
            Edit("load", "item", f"load-{n}", "a", f"2026-03-0{n + 1}T09:00:00Z", one)
            for n, one in enumerate(bodies)
        ),
    ]
    rows = [Row("v", "vehicle", "v-1", vehicle), Row("load", "item", "load-1", bodies[1])]
    found = two_plans(
        book=open_book(rows=rows, edits=edits),
        first=Version("2026-03-01"),
        second=Version(),
        today="2026-03-05",
    )
    assert found.first.centre and found.second.centre
    assert found.first.centre.x_m == pytest.approx(centre, abs=1e-9)
    assert found.second.centre.x_m == pytest.approx(expected, abs=0.05)
    moved = load * (now - was) / L  # the moment that moved, over the base
    assert found.total_kg == pytest.approx((-moved, moved, 0.0), abs=1e-9)
    assert [one.how for one in found.differences] == [("moved",)]
