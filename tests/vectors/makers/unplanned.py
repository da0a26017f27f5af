"""Vectors of unplanned: residuals by hand, put through the zone whose own vectors are in fieller."""

from typing import Any

import numpy as np
from vectors.frame import case, function, refused
from vectors.makers.fieller import Z
from vectors.makers.fieller import slow as zone_of

L, ENDS = 3.2, [-1.0, 4.8]
PLANNED = {"rows": ["front", "rear", "gross"], "mean_kg": [1300.0, 1240.0, 2540.0]}
PLANNED["cov_kg2"] = [[130.0, -18.0, 112.0], [-18.0, 199.0, 181.0], [112.0, 181.0, 293.0]]


def weighed(front: float, rear: float) -> dict[str, Any]:
    """Rear first: the order of the rows must not matter."""
    return {
        "rows": ["rear", "front"],
        "mean_kg": [1240.0 + rear, 1300.0 + front],
        "cov_kg2": [[45.0, -29.0], [-29.0, 46.0]],
    }


def by_hand(front: float, rear: float, finding: str) -> dict[str, Any]:
    """W = T Sigma T' with Sigma_FF 176, Sigma_FR -47, Sigma_RR 244."""
    w_aa, w_ab, w_bb = L * L * 244.0, L * (244.0 - 47.0), 176.0 + 244.0 - 2 * 47.0
    zone = zone_of(L * rear, front + rear, w_aa, w_ab, w_bb, Z)
    return {
        "mass_kg": front + rear,
        "u_kg": w_bb**0.5,
        "real": zone["kind"] == "interval",
        "finding": finding,
        "zone": zone,
    }


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    rows = [
        ("a load at the tail", -40.0, 160.0, "placed"),
        ("next to nothing", 6.0, 9.0, "too_small"),
        ("real, but anywhere", 20.0, 25.0, "anywhere"),
        ("far behind the vehicle", -300.0, 420.0, "no_single_mass"),
        ("lighter than planned", -70.0, -90.0, "placed"),
    ]
    given = {"planned": PLANNED, "rear_x_m": L}
    total = {"weighed_kg": 2600.0, "weighed_u_kg": 13.0, "planned_kg": 2540.0, "planned_u_kg": 17.0}
    return [
        function(
            "unplanned_mass",
            "by hand, the zone in fifty digits",
            *(
                case(
                    name,
                    by_hand(f, r, finding),
                    measured=weighed(f, r),
                    **given,
                    ends=[0.8, 3.0] if finding == "anywhere" else ENDS,
                )
                for name, f, r, finding in rows
            ),
            refused(
                "no rear axle",
                "OutOfRange",
                "rear_x_m",
                measured=weighed(1.0, 1.0),
                planned=PLANNED,
                rear_x_m=0.0,
                ends=ENDS,
            ),
        ),
        function(
            "unplanned_total",
            "by hand",
            case(
                "real",
                {
                    "mass_kg": 60.0,
                    "u_kg": (13.0**2 + 17.0**2) ** 0.5,
                    "real": True,
                    "finding": "total_only",
                    "zone": None,
                },
                **total,
            ),
            case("not real", {"mass_kg": 30.0, "real": False}, **{**total, "weighed_kg": 2570.0}),
        ),
    ]
