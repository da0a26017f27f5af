"""Vectors of water: person-days by hand, days by the slow filter."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.logs import BY_HAND, DAY
from vectors.slow_filter import range_at
from vectors.tanks import CAMP, VAN_LOAN, WATER, WATERING, bank, slow_bank

Json = Any
KAPPAS = (0.1, 0.2, 0.4, 0.8, 1.6)
PEOPLE = [
    {"share": 1.0, "from_s": 0.0},
    {"share": 1.0, "from_s": DAY, "until_s": 3 * DAY},
    {"share": 0.5, "from_s": 2 * DAY, "until_s": None},
]


def functions(rng: np.random.Generator) -> list[Json]:
    slow = slow_bank(CAMP, WATERING, KAPPAS)
    given = {"bank": bank(CAMP, slow)}
    count_on = range_at(slow, {"all": 1.0}, 0.95, {"reserve_l": 9.0})
    tanks = [{"id": "fresh", "capacity_l": 90.0}, {"id": "can", "capacity_l": 20.0, "drawn": False}]
    return [
        function(
            "water_model",
            BY_HAND,
            case(
                "a tank and a can",
                {
                    "tank_ids": ["fresh"],
                    "capacity_l": [90.0],
                    "class_ids": ["all"],
                    "rate0": [6.0],
                    "settings": WATER,
                },
                tanks=tanks,
            ),
            case("a shut-off of its own", {"full_u_l": [2.5]}, tanks=[{**tanks[0], "full_u_l": 2.5}]),
            refused("no rate", "OutOfRange", "rate", tanks=tanks, rate=0.0),
        ),
        function(
            "person_days",
            BY_HAND,
            case("nobody", 0.0, presences=[], from_s=0.0, until_s=DAY),
            case("four days", 4.0 + 2.0 + 1.0, presences=PEOPLE, from_s=0.0, until_s=4 * DAY),
            case("half a day", 0.5 + 0.5 + 0.25, presences=PEOPLE, from_s=2 * DAY, until_s=2.5 * DAY),
            refused("backwards", "OutOfRange", "until_s", presences=PEOPLE, from_s=1.0, until_s=0.0),
            refused(
                "a share below 0",
                "OutOfRange",
                "share",
                presences=[{"share": -1.0, "from_s": 0.0}],
                from_s=0.0,
                until_s=1.0,
            ),
        ),
        function(
            "people_at",
            BY_HAND,
            case("all three", 2.5, presences=PEOPLE, at_s=2 * DAY),
            case("one has just left", 1.5, presences=PEOPLE, at_s=3 * DAY),
            case("not yet", 0.0, presences=PEOPLE, at_s=-1.0),
        ),
        function(
            "days_at",
            VAN_LOAN,
            case(
                "two and a child",
                count_on / 2.5,
                rel=0.0,
                abs=1e-6,
                people=2.5,
                p=0.95,
                reserve_l=9.0,
                **given,
            ),
            case("nobody aboard", None, people=0.0, p=0.95, **given),
            refused("people below 0", "OutOfRange", "people", people=-1.0, p=0.95, **given),
        ),
        function(
            "uncounted_water",
            "10 % of what is drawn from (common practice, no source)",
            case(
                "two drawn tanks and an emergency store",
                15.0,
                tanks=[
                    {"id": "a", "capacity_l": 100.0},
                    {"id": "b", "capacity_l": 50.0, "drain_order": 2},
                    {"id": "c", "capacity_l": 20.0, "drawn": False},
                ],
            ),
            case("no tank", 0.0, tanks=[]),
        ),
        function(
            "floor_days",
            "(V - reserve)/(3 L x people); 3 L: Sphere Handbook 2011",
            case("two people", 9.0, litres_l=60.0, people=2.0, reserve_l=6.0),
            case("at 10 L in the heat", 2.7, litres_l=60.0, people=2.0, reserve_l=6.0, rate_l=10.0),
            refused("rate 0", "OutOfRange", "rate_l", litres_l=5.0, people=1.0, rate_l=0.0),
            case("less than the reserve", 0.0, litres_l=5.0, people=2.0, reserve_l=6.0),
            case("nobody aboard", None, litres_l=5.0, people=0.0),
            refused("reserve below 0", "OutOfRange", "reserve_l", litres_l=5.0, people=1.0, reserve_l=-1.0),
        ),
    ]
