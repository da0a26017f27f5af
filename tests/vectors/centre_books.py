"""A book with heights and tracks: vectors of what the plan says of its centre, its wheels and its worst tank states.

`books` writes them. Expected values are moments summed line by line here, and for the lowest centre the quadratic of
one tank whose surface is level with the common centre; nothing is taken from the implementation.
"""

from math import sqrt
from typing import Any

from server.domain.book import Row, open_book
from tests.vectors.decode import plain

Json = Any
BY_HAND = "Sums of moments, and the tank's quadratic, worked out in the maker"


def row(id: str, kind: str, order: int = 0, **body: Any) -> Json:
    return {"id": id, "kind": kind, "rev": f"{id}-1", "body": body, "order": order, "author": "a"}


VEHICLE = {
    "name": "V", "wheelbase_m": 3.0, "base_front_kg": 1200.0, "base_front_u_kg": 6.0, "base_rear_kg": 800.0,
    "base_rear_u_kg": 5.0, "cg_height_m": 0.7, "cg_height_u_m": 0.03, "track_front_m": 1.6, "track_rear_m": 1.5,
}  # fmt: skip
BOX = {"name": "Box", "nature": "part", "mass_kg": 90.0, "mass_u_kg": 4.0, "x_m": 2.0, "x_u_m": 0.1,
       "y_m": 0.3, "y_u_m": 0.02, "z_m": 1.1, "z_u_m": 0.05}  # fmt: skip
TAIL = {"name": "Tail", "holds": "stores", "capacity_l": 120.0, "x_m": 3.6, "x_u_m": 0.0,
        "z_bottom_m": 0.3, "height_m": 0.8}  # fmt: skip
PLATE = {"of": "vehicle", "gross_kg": 2300.0, "front_axle_kg": 1300.0, "rear_axle_kg": 1050.0}
EVERY = {"day": "2026-05-01", "confidence": 0.95}


def opened(vehicle: Json = None, box: Json = None, tail: Json = None) -> Json:
    rows = [
        row("v", "vehicle", **{**VEHICLE, **(vehicle or {})}),
        row("p", "plate", 1, **PLATE),
        row("box", "item", 1, **{**BOX, **(box or {})}),
        row("tail", "tank", 1, **{**TAIL, **(tail or {})}),
    ]
    return plain(open_book(rows=[Row(**one) for one in rows]))


def state(level: float = 1.0) -> Json:
    tanks = [{"tank_id": "tail", "level": level, "level_u": 0.0, "known_from": "typed"}]
    return {"tanks": tanks, "seats": [], "items_away": [], "trailers_on": []}


def case(name: str, given: Json, out: Json) -> Json:
    return {"name": name, "in": given, "out": out, "abs": 1e-9}


# id: mass, its u, x and its u, y and its u, z and its u
PARTS = {
    "front": (1200.0, 6.0, 0.0, 0.0, 0.0, 0.0, 0.7, 0.0),
    "rear": (800.0, 5.0, 3.0, 0.0, 0.0, 0.0, 0.7, 0.0),
    "box": (90.0, 4.0, 2.0, 0.1, 0.3, 0.02, 1.1, 0.05),
    "tail": (120.0, 0.0, 3.6, 0.0, 0.0, 0.0, 0.3 + 0.8 / 2, 0.15),  # a height told in words: 0.15 m
}


def centre() -> Json:
    """Example by sums: u^2 = sum ((q - c)/M)^2 u_m^2 + (m/M)^2 u_q^2, the base's height counted once."""
    total = sum(one[0] for one in PARTS.values())
    out: Json = {"mass_kg": total}
    for k, axis in ((2, "x"), (4, "y"), (6, "z")):
        middle = sum(one[0] * one[k] for one in PARTS.values()) / total
        square = sum((one[1] * (one[k] - middle)) ** 2 + (one[0] * one[k + 1]) ** 2 for one in PARTS.values())
        if axis == "z":
            square += (2000.0 * 0.03) ** 2
        out |= {f"{axis}_m": middle, f"{axis}_u_m": sqrt(square) / total}
    return out


def lowest() -> tuple[float, float]:
    """Level and height where the surface is at the common centre: (M h/2) f^2 + m h f + m (a - z) = 0."""
    mass = 1200.0 + 800.0 + 90.0
    z = (2000.0 * 0.7 + 90.0 * 1.1) / mass
    a, b, c = 120.0 * 0.8 / 2, mass * 0.8, mass * (0.3 - z)
    level = (-b + sqrt(b * b - 4 * a * c)) / (2 * a)
    return level, 0.3 + level * 0.8


def centre_cases() -> list[Json]:
    whole = centre()
    level, least_m = lowest()
    fixed_m = (2000.0 * 0.7 + 90.0 * 1.1) / 2090.0
    stability = {
        "factor": 1.55 / (2 * whole["z_m"]),
        "u": 1.55 / (2 * whole["z_m"]) * whole["z_u_m"] / whole["z_m"],
    }
    heights = {
        "least_m": least_m,
        "greatest_m": max(fixed_m, whole["z_m"]),
        "least_at": [level],
        "greatest_at": [float(whole["z_m"] > fixed_m)],
    }
    full = {"centre": whole, "track_m": 1.55, "stability": stability, "tanks": ["tail"], "heights": heights}
    across = {name: whole[name] for name in ("x_m", "y_m", "mass_kg")}
    blank = {"stability": None, "heights": None, "centre": {**across, "z_m": None}}

    def waits(id: str, kind: str, field: str) -> Json:
        return {"record_id": id, "kind": kind, "field": field}

    nothing = {"cg_height_m": None}
    return [
        case("full", {"book": opened(), "state": state()}, {**full, "no_height": []}),
        case("an item without height", {"book": opened(box={"z_m": None}), "state": state()},
             {**blank, "no_height": [waits("box", "item", "z_m")]}),
        case("a tank whose own height is blank", {"book": opened(tail={"height_m": None}), "state": state()},
             {**blank, "no_height": [waits("tail", "tank", "height_m")]}),
        case("neither the vehicle's nor the tank's", {"book": opened(nothing, tail={"z_bottom_m": None}),
             "state": state()}, {**blank, "no_height": [waits("v", "vehicle", "cg_height_m"),
                                                        waits("tail", "tank", "z_bottom_m")]}),
        case("one track alone", {"book": opened({"track_rear_m": None}), "state": state()},
             {**full, "track_m": None, "stability": None}),
        refused(),
    ]  # fmt: skip


def track_cases() -> list[Json]:
    tracks = {"front_track_m": 1.6, "rear_track_m": 1.5}
    one = {**tracks, "rear_track_m": None}
    return [
        case("both", {"geometry": {"wheelbase_m": 3.0, **tracks}}, 1.55),
        case("one is not known", {"geometry": {"wheelbase_m": 3.0, **one}}, None),
    ]


NOWHERE = {"name": "NotKnown", "field": "wheelbase_m"}


def refused(**more: Any) -> Json:
    """No wheelbase, no axles."""
    given = {"book": opened({"wheelbase_m": None}), "state": state(), **more}
    return {"name": "no wheelbase", "in": given, "error": NOWHERE}


def split_cases() -> list[Json]:
    """Flexible: m a(x) (1/2 + y/t) wheel by wheel. Rigid with kappa: F/2 + kappa sum(m y)/t."""
    front, rear = 1200.0 + 90.0 / 3 - 120.0 * 0.2, 800.0 + 60.0 + 120.0 * 1.2
    lean = 90.0 * 0.3
    shares = {
        "front_left": (front / 2 - lean / 3 / 1.6, front / 2 - 0.5 * lean / 1.6),
        "front_right": (front / 2 + lean / 3 / 1.6, front / 2 + 0.5 * lean / 1.6),
        "rear_left": (rear / 2 - lean * 2 / 3 / 1.5, rear / 2 - 0.5 * lean / 1.5),
        "rear_right": (rear / 2 + lean * 2 / 3 / 1.5, rear / 2 + 0.5 * lean / 1.5),
    }
    wheels = [{"row": name, "value_kg": own, "other_kg": other} for name, (own, other) in shares.items()]
    turned = [{"row": name, "value_kg": other, "other_kg": own} for name, (own, other) in shares.items()]
    bare = {"track_front_m": None}
    pair = {"rear_axles": "load_sharing_pair", "rear_spread_m": 1.0, "rear_share": 0.4, **bare}
    sprung = {**pair, "rear_axles": "independent_pair", "stiffness_rear_1": 2.0}
    even, own = pair_kg(), springs_kg()
    alike, unlike = sprung_kg((1.0, 1.0, 1.0)), own
    singles = ("rear_1", "rear_2")

    def rows(values: Json, others: Json) -> list[Json]:
        return [
            {"row": name, "value_kg": a, "other_kg": b}
            for name, a, b in zip(singles, values, others, strict=True)
        ]

    return [
        case("a frame that bends", {"book": opened(), "state": state()},
             {"frame": "flexible", "wheels": wheels, "singles": []}),
        case("a stiff frame", {"book": opened({"frame": "rigid"}), "state": state()},
             {"frame": "rigid", "front_roll_share": 0.5, "wheels": turned}),
        case("no track, one rear axle", {"book": opened(bare), "state": state()}, {"wheels": [], "singles": []}),
        case("a pair that shares its load", {"book": opened(pair), "state": state()},
             {"second_axle": "pair", "singles": rows(even, alike)}),
        case("each on springs of its own", {"book": opened(sprung), "state": state()},
             {"second_axle": "springs", "singles": rows(unlike, even)}),
        refused(),
    ]  # fmt: skip


ADDED = ((90.0, 2.0), (120.0, 3.6))  # what is added to the delivered loads: kg, x


def pair_kg() -> list[float]:
    """800 delivered by its share, what is added by the lever to 3.4 m and then by the share, 0.4 rearmost."""
    rear = 800.0 + sum(m * x / 3.4 for m, x in ADDED)
    return [0.6 * rear, 0.4 * rear]


def springs_kg() -> list[float]:
    return sprung_kg((1.0, 2.0, 1.0))


def sprung_kg(k: tuple[float, float, float]) -> list[float]:
    """Maths A.2 (ii): w_j(x) = k_j [S2 - S1 p_j + (S0 p_j - S1) x]/(S0 S2 - S1^2), springs at 0, 3 and 4 m."""
    places = (0.0, 3.0, 4.0)
    s = [sum(one * p**n for one, p in zip(k, places, strict=True)) for n in range(3)]
    out = [800.0 * 0.6, 800.0 * 0.4]
    for j in (1, 2):
        for m, x in ADDED:
            lever = s[2] - s[1] * places[j] + (s[0] * places[j] - s[1]) * x
            out[j - 1] += m * k[j] * lever / (s[0] * s[2] - s[1] ** 2)
    return out


def worst_cases() -> list[Json]:
    """Gross and rear are worst with the tail tank full, the front with it empty: it sits behind the rear axle."""
    u_x = 0.1 * sqrt(90.0**2 + 4.0**2) / 3.0
    front = {"rating": "front", "value_kg": 1230.0, "u_kg": sqrt(36 + (4 / 3) ** 2 + u_x**2), "word": "under"}
    rear = {"rating": "rear", "value_kg": 1004.0, "u_kg": sqrt(25 + (8 / 3) ** 2 + u_x**2), "word": "under"}
    gross = {"rating": "gross", "value_kg": 2210.0, "u_kg": sqrt(36 + 25 + 16), "word": "under"}
    full = [
        {"verdict": front, "full": []},
        {"verdict": rear, "full": ["tail"]},
        {"verdict": gross, "full": ["tail"]},
    ]
    without = [{"verdict": {"value_kg": kg}} for kg in (1200.0, 944.0, 2120.0)]
    return [
        case("whatever the state says", {"book": opened(), "state": state(0.25), **EVERY}, full),
        case("a box left at home", {"book": opened(), "state": {**state(), "items_away": ["box"]}, **EVERY},
             without),
        refused(**EVERY),
    ]  # fmt: skip


def groups() -> dict[str, list[Json]]:
    """Module -> its groups."""
    return {
        "centre": [
            {"function": "plan_centre", "source": BY_HAND, "cases": centre_cases()},
            {"function": "mean_track_m", "source": "Half the sum", "cases": track_cases()},
        ],
        "split": [
            {
                "function": "plan_split",
                "source": "Lever, mean of wheels, maths A.2 (ii)",
                "cases": split_cases(),
            }
        ],
        "worst": [{"function": "plan_worst", "source": BY_HAND, "cases": worst_cases()}],
    }
