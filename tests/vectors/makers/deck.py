"""Vectors of the deck: the order of stops of a weighing, solo and towing, with the loads known beforehand.

True loads, by the lever: front 1300, rear 1900, coupling 160, trailer axles 940 kg; wheelbase 3.2 m, coupling at 4.4 m.
Uncoupled the vehicle carries 160 less: front + 60, rear - 220.
"""

from typing import Any

import numpy as np
from vectors.exact import column, floats, inverse, matrix, times, turned
from vectors.frame import case, function

TOW = {
    "geometry": {
        "wheelbase_m": 3.2,
        "coupling_x_m": 4.4,
        "trailer": {"id": "t", "coupling_to_axle_m": 3.0, "hitch_moment_kgm": 0.0},
    },
    "towed": True,
}
BARS = {
    **TOW,
    "geometry": {
        **TOW["geometry"],
        "trailer": {"id": "t", "coupling_to_axle_m": 3.0, "hitch_moment_kgm": 96.0},
    },
}
SOLO = {"geometry": {"wheelbase_m": 3.2, "front_track_m": 1.6, "rear_track_m": 1.5}}
MARA = {"id": "s1:occupant", "mass_kg": 80.0, "mass_u_kg": 3.0, "x_m": 1.2, "x_u_m": 0.1}
BRIDGE = {"key": "b", "interval_kg": 10.0, "displayed_kg": 10.0, "accuracy_class": "III", "max_kg": 40_000.0}
SETUP = {"total_kg": 3200.0, "wheelbase_m": 3.2, "cg_height_m": 0.8}


def read(name: str, axles: str, value_kg: float, **more: Any) -> dict[str, Any]:
    return {"id": name, "axles": axles.split("+"), "value_kg": value_kg, **more}


COUPLED = [
    read("1", "front", 1300.0),
    read("2", "front+rear", 3200.0),
    read("3", "front+rear+trailer_axles", 4140.0),
]
ALONE = read("5", "front+rear", 3040.0, uncoupled=True)
STANDING = read("6", "trailer", 1100.0, uncoupled=True)
WANTED = ("front", "rear", "gross", "trailer_axles", "coupling", "trailer", "combination")


def sums() -> list[dict[str, Any]]:
    def out(names: str, rows: list[list[float]], used: str = "", **more: Any) -> dict[str, Any]:
        return {"names": names.split(), "rows": rows, **({"used": used.split()} if used else {}), **more}

    uncoupled = out(
        "front rear trailer_axles coupling",
        [[1, 0, 0, 0], [1, 1, 0, 0], [1, 1, 1, 0], [1, 1, 0, -1], [0, 0, 1, 1]],
        "1 2 3 5 6",
    )
    rear = read("4", "rear", 1680.0, uncoupled=True)
    front = read("4", "front", 1360.0, uncoupled=True)
    mara = {**TOW, "occupants": [MARA]}
    out_of_car = read("9", "front", 1250.0, without=["s1:occupant"])
    wheels = [
        read("a", "front_left", 650.0),
        read("b", "front_right", 640.0),
        read("c", "front+rear", 3000.0),
    ]
    place = (80.0**2 + 9.0) * (0.1 / 3.2) ** 2
    return [
        case("three coupled stops and two apart", uncoupled, readings=[*COUPLED, ALONE, STANDING], deck=TOW),
        case(
            "the rear axle alone, uncoupled",
            out("rear coupling", [[1, -4.4 / 3.2]], "4", values_kg=[1680.0]),
            readings=[rear],
            deck=TOW,
        ),
        case(
            "with the bars of a levelling hitch",
            out("front coupling", [[1, 1.2 / 3.2]], "4", values_kg=[1360.0 + 96.0 / 3.2]),
            readings=[front],
            deck=BARS,
        ),
        case(
            "somebody out, one axle",
            out(
                "front s1:occupant",
                [[1, -(1 - 1.2 / 3.2)], [0, 1]],
                "9",
                values_kg=[1250.0, 80.0],
                extra_kg2=[place, 9.0],
            ),
            readings=[out_of_car],
            deck=mara,
        ),
        case(
            "somebody out, all of the vehicle, no wheelbase",
            out("front rear s1:occupant", [[1, 1, -1], [0, 0, 1]], extra_kg2=[0.0, 9.0]),
            readings=[read("9", "front+rear", 3100.0, without=["s1:occupant"])],
            deck={"occupants": [MARA]},
        ),
        case(
            "without a wheelbase an axle cannot be freed of him",
            {"names": [], "rows": [], "used": []},
            readings=[out_of_car],
            deck={"occupants": [MARA]},
        ),
        case(
            "one of two rear axles, uncoupled, where the vehicle has one",
            {"used": []},
            readings=[read("4", "rear_1", 900.0, uncoupled=True)],
            deck=TOW,
        ),
        case("nor of somebody unknown", {"used": []}, readings=[out_of_car], deck=TOW),
        case(
            "wheels make up their axle",
            out(
                "front_left front_right rear",
                [[1, 0, 0], [0, 1, 0], [1, 1, 1]],
                wanted={
                    "front": [1, 1, 0],
                    "rear": [0, 0, 1],
                    "gross": [1, 1, 1],
                    "front_left": [1, 0, 0],
                    "front_right": [0, 1, 0],
                },
            ),
            readings=wheels,
            deck=SOLO,
        ),
        case(
            "a trailer that was never on",
            out("trailer", [[1]], wanted={"trailer": [1]}),
            readings=[read("6", "trailer", 1100.0)],
            deck=SOLO,
        ),
    ]


def exact(
    rows: list[list[float]], values: list[float], cov: list[list[float]], wanted: list[list[float]]
) -> dict[str, Any]:
    """Generalised least squares by its normal equations, in rational arithmetic."""
    b, y, inv, want = matrix(rows), column(values), inverse(matrix(cov)), matrix(wanted)
    spread = inverse(times(turned(b), inv, b))
    mean = times(want, spread, turned(b), inv, y)
    return {
        "mean_kg": [float(one[0]) for one in mean],
        "cov_kg2": floats(times(want, spread, turned(want))),
    }


def plain_covariance(values: list[float]) -> list[list[float]]:
    """No split reading: gain 0.00075/sqrt 3 (10 e at 20 t in service, Max 40 t), zero 2.5/sqrt 3, MPE 10 or 20 kg."""
    gain2, zero2 = 0.00075**2 / 3, 2.5**2 / 3
    out = [[gain2 * a * b + zero2 for b in values] for a in values]
    for i, value in enumerate(values):
        mpe2 = 100.0 if value <= 5_000 else 400.0
        out[i][i] += 100 / 12 + mpe2 / 3 - gain2 * value**2 - zero2
    return out


def reads() -> list[dict[str, Any]]:
    """Readings that are off by a few kilograms, against the exact solution of the same equations."""
    taken = [*COUPLED, {**ALONE, "value_kg": 3050.0}, {**STANDING, "value_kg": 1110.0}]
    rows = [[1, 0, 0, 0], [1, 1, 0, 0], [1, 1, 1, 0], [1, 1, 0, -1], [0, 0, 1, 1]]
    values = [one["value_kg"] for one in taken]
    wanted = [
        [1, 0, 0, 0],
        [0, 1, 0, 0],
        [1, 1, 0, 0],
        [0, 0, 1, 0],
        [0, 0, 0, 1],
        [0, 0, 1, 1],
        [1, 1, 1, 0],
    ]
    three = [row[:3] for row in rows[:3]]
    given = {"bridge": BRIDGE, "setup": SETUP, "deck": TOW}
    return [
        case(
            "three coupled stops give front, rear, gross, trailer axles and combination",
            {
                "rows": ["front", "rear", "gross", "trailer_axles", "combination"],
                "mean_kg": [1300.0, 1900.0, 3200.0, 940.0, 4140.0],
                "dof": 0,
                "p": None,
                "cov_kg2": exact(
                    three,
                    values[:3],
                    plain_covariance(values[:3]),
                    [[1, 0, 0], [0, 1, 0], [1, 1, 0], [0, 0, 1], [1, 1, 1]],
                )["cov_kg2"],
            },
            readings=COUPLED,
            **given,
            abs=1e-6,
        ),
        case(
            "a fourth uncoupled gives the coupling load and the trailer",
            {
                "rows": list(WANTED),
                "dof": 0,
                **exact(
                    rows[:4],
                    [*values[:3], 3040.0],
                    plain_covariance([*values[:3], 3040.0]),
                    wanted,
                ),
            },
            readings=[*COUPLED, ALONE],
            **given,
            abs=1e-6,
        ),
        case(
            "a fifth tests them",
            {"rows": list(WANTED), "dof": 1, **exact(rows, values, plain_covariance(values), wanted)},
            readings=taken,
            **given,
            abs=1e-6,
        ),
        case("nothing to be used", None, readings=[read("9", "front", 1250.0, without=["x"])], **given),
    ]


def below() -> list[dict[str, Any]]:
    def found(**loads: tuple[float, float]) -> dict[str, Any]:
        size = len(loads)
        cov = [[one[1] ** 2 if i == j else 0.0 for j in range(size)] for i, one in enumerate(loads.values())]
        test = {"chi2": 0.0, "dof": 0, "p": None, "agree": True, "z": []}
        return {"rows": list(loads), "mean_kg": [one[0] for one in loads.values()], "cov_kg2": cov, **test}

    return [
        case(
            "the whole beside less than the vehicle",
            ["trailer_axles"],
            found=found(front=(900.0, 8.0), trailer_axles=(-510.0, 15.0)),
        ),
        case("within the scale's doubt", [], found=found(trailer_axles=(-20.0, 15.0))),
        case("a coupling may be lifted", [], found=found(coupling=(-190.0, 7.0))),
    ]


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    return [
        function("deck_sums", "the order of stops written out by hand, with the lever", *sums()),
        function("below_zero", "the rule by hand", *below()),
        function("read_deck", "normal equations in rational arithmetic", *reads()),
    ]
