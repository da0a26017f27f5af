"""Vectors of the room left: levers worked out by hand, and scipy's root finder where mass and place are unsure."""

from math import sqrt
from typing import Any

import numpy as np
from scipy import optimize, stats
from vectors.frame import case, function, refused

Json = dict[str, Any]
Z = float(stats.norm.ppf(0.95))
L = 3.0  # wheelbase
BY_HAND = "by hand: (limit - mean - z u) over the lever's share, z of scipy.stats.norm"


def bound(rating: str, side: str = "upper", /, **more: Any) -> Json:
    lines = {"front": (1.0, -1 / L), "rear": (0.0, 1 / L), "gross": (1.0, 0.0), "roof": (0.0, 0.0)}
    share, per_m = lines[rating]
    return {"rating": rating, "side": side, "share": share, "per_m": per_m, **more}


FRONT = bound("front", limit_kg=1300.0, mean_kg=1200.0, u_kg=10.0)
REAR = bound("rear", limit_kg=1500.0, mean_kg=1400.0, u_kg=12.0)
GROSS = bound("gross", limit_kg=2750.0, mean_kg=2600.0, u_kg=14.0)
LIFT = bound("front", "lower", limit_kg=0.0, mean_kg=1200.0, u_kg=10.0)
OVER = {**REAR, "limit_kg": 1410.0}
BLANK = {**GROSS, "limit_kg": None}
ROOF = bound("roof", limit_kg=75.0, mean_kg=30.0, u_kg=0.0) | {"share": 1.0}
THREE = [FRONT, REAR, GROSS]
SPARE = {"front": 100 - 10 * Z, "rear": 100 - 12 * Z, "gross": 150 - 14 * Z}
NOTHING: Json = {"most_kg": None, "binds": None, "already": [], "unknown": []}


def which(rating: str, side: str = "upper") -> Json:
    return {"rating": rating, "side": side}


def unsure(one: Json, x_m: float, mass_share: float, x_u_m: float) -> float:
    """The exact margin's root: load + z u of it at a mass m, brought to the limit by Brent's method."""
    sign = 1.0 if one["side"] == "upper" else -1.0
    share = one["share"] + one["per_m"] * x_m

    def margin(m: float) -> float:
        variance = one["u_kg"] ** 2 + (share * mass_share * m) ** 2
        variance += one["per_m"] ** 2 * m**2 * (1 + mass_share**2) * x_u_m**2
        return float(sign * (one["limit_kg"] - one["mean_kg"] - share * m) - Z * sqrt(variance))

    return float(optimize.brentq(margin, 0.0, 1e6, xtol=1e-11, rtol=1e-14))


def most_cases() -> list[Json]:
    soft = {"mass_share": 0.15, "x_u_m": 0.15}
    return [
        case("over the rear axle", SPARE["rear"], bound=REAR, x_m=3.0),
        case("half way, half of it", 2 * SPARE["rear"], bound=REAR, x_m=1.5),
        case("ahead of the front axle it is lightened", None, bound=REAR, x_m=-0.5),
        case("a tail lifts the front", (1200 - 10 * Z) / 0.25, bound=LIFT, x_m=3.75),
        case("not known is never no limit", None, bound=BLANK, x_m=1.0),
        case("over already bears nothing", 0.0, bound=OVER, x_m=3.0),
        case("over already, and relieved", None, bound=OVER, x_m=-0.5),
        case("even odds need no margin", 100.0, bound=REAR, x_m=3.0, confidence=0.5),
        case("mass and place unsure", unsure(REAR, 3.6, 0.15, 0.15), bound=REAR, x_m=3.6, **soft),
        case("only the place unsure", unsure(REAR, 3.6, 0.0, 0.3), bound=REAR, x_m=3.6, x_u_m=0.3),
        case("over the front axle a doubtful place still counts", unsure(REAR, 0.0, 0.0, 0.3),
             bound=REAR, x_m=0.0, x_u_m=0.3),
        case("relieved, but too doubtful a place", unsure(REAR, -0.1, 0.0, 0.5),
             bound=REAR, x_m=-0.1, x_u_m=0.5),
        case("over already, nothing at an unsure place", 0.0, bound=OVER, x_m=3.0, **soft),
        refused("a side of its own", "Unknown", "side", bound={**REAR, "side": "left"}, x_m=1.0),
        refused("no place", "DomainError", "x_m", bound=REAR, x_m=None),
        refused("a negative share", "OutOfRange", "mass_share", bound=REAR, x_m=1.0, mass_share=-0.1),
        refused("a negative u", "OutOfRange", "u_kg", bound={**REAR, "u_kg": -1.0}, x_m=1.0),
        refused("a limit of nothing", "OutOfRange", "limit_kg", bound={**REAR, "limit_kg": 0.0}, x_m=1.0),
    ]  # fmt: skip


def room_cases() -> list[Json]:
    def found(most_kg: float | None, binds: Json | None, **more: Any) -> Json:
        return {**NOTHING, "most_kg": most_kg, "binds": binds, **more}

    return [
        case("the rear axle at the tail", found(SPARE["rear"] / 1.2, which("rear")), bounds=THREE, x_m=3.6),
        case("gross in the middle", found(SPARE["gross"], which("gross")), bounds=THREE, x_m=1.5),
        case("the front axle at the bar", found(SPARE["front"] / 1.3, which("front")), bounds=THREE, x_m=-0.9),
        case("a bar while the rear is over", found(SPARE["front"] / 1.3, which("front")),
             bounds=[FRONT, OVER, GROSS], x_m=-0.9),
        case("nothing on an axle that is over", found(0.0, which("rear"), already=[which("rear")]),
             bounds=[FRONT, OVER, GROSS], x_m=1.0),
        case("the roof's own rating", found(45.0, which("roof")), bounds=[*THREE, ROOF], x_m=1.5),
        case("gross not known", found(2 * SPARE["rear"], which("rear"), unknown=["gross"]),
             bounds=[FRONT, REAR, BLANK], x_m=1.5),
        case("nothing known", found(None, None, unknown=["gross"]), bounds=[BLANK], x_m=1.5),
        case("no limits", NOTHING, bounds=[], x_m=1.5),
        refused("less than even", "OutOfRange", "confidence", bounds=THREE, x_m=1.0, confidence=0.4),
    ]  # fmt: skip


def stretch(
    from_m: float, to_m: float, binds: Json | None, from_kg: float | None, to_kg: float | None
) -> Json:
    return {"from_m": from_m, "to_m": to_m, "binds": binds, "from_kg": from_kg, "to_kg": to_kg}


def stretch_cases() -> list[Json]:
    one, two, three = SPARE["front"], SPARE["rear"], SPARE["gross"]
    ahead, behind = L * (1 - one / three), L * two / three  # where front and gross, gross and rear are equal
    along = {"from_m": -0.9, "to_m": 4.2}
    return [
        case(
            "front axle, gross, rear axle",
            [
                stretch(-0.9, ahead, which("front"), one / 1.3, three),
                stretch(ahead, behind, which("gross"), three, three),
                stretch(behind, 4.2, which("rear"), three, two / 1.4),
            ],
            bounds=THREE, **along,
        ),
        case(
            "nothing behind the front axle while the rear is over",
            [
                stretch(-0.9, 0.0, which("front"), one / 1.3, one),
                stretch(0.0, 4.2, which("rear"), 0.0, 0.0),
            ],
            bounds=[FRONT, OVER, GROSS], **along,
        ),
        case(
            "a known rear axle alone says nothing ahead of the front one",
            [stretch(-0.9, 0.0, None, None, None), stretch(0.0, 4.2, which("rear"), None, two / 1.4)],
            bounds=[REAR, BLANK], **along,
        ),
        case(
            "far behind, the front axle lifts first",
            [
                stretch(3.0, 9.0, which("gross"), 2000.0, 2000.0),
                stretch(9.0, 15.0, which("front", "lower"), 2000.0, 1000.0),
            ],
            bounds=[{**GROSS, "limit_kg": 4600.0}, {**LIFT, "mean_kg": 4000.0}],
            from_m=3.0, to_m=15.0, confidence=0.5,
        ),
        case("no limits", [stretch(-0.9, 4.2, None, None, None)], bounds=[], **along),
        refused("ends the wrong way round", "OutOfRange", "to_m", bounds=THREE, from_m=1.0, to_m=1.0),
    ]  # fmt: skip


def ask_cases() -> list[Json]:
    share, x_u = 1.2, 0.1
    u = sqrt(12.0**2 + (share * 6.0) ** 2 + (40.0**2 + 6.0**2) * x_u**2 / 9)
    rear = {"rating": "rear", "value_kg": 1448.0, "u_kg": u, "reach_kg": Z * u, "margin_kg": 52.0}
    rear |= {"over_probability": float(stats.norm.sf(52 / u)), "word": "under"}
    lifted = {"rating": "front", "limit_kg": 0.0, "value_kg": 4.0, "u_kg": 10.0, "reach_kg": 10 * Z}
    lifted |= {"margin_kg": 4.0, "over_probability": float(stats.norm.cdf(-0.4)), "word": "cannot_tell"}
    light = {**LIFT, "mean_kg": 20.0}
    return [
        case("an estimate on the tail",
             {"room": {"most_kg": unsure(REAR, 3.6, 0.15, 0.1), "binds": which("rear")},
              "after": [{"side": "upper", "verdict": rear, "most_kg": unsure(REAR, 3.6, 0.15, 0.1)}]},
             bounds=[REAR], x_m=3.6, mass_kg=40.0, mass_u_kg=6.0, x_u_m=0.1),
        case("the front axle may lift",
             {"after": [{"side": "lower", "verdict": lifted, "most_kg": (20 - 10 * Z) / 0.2}]},
             bounds=[light], x_m=3.6, mass_kg=80.0),
        case("it lifts", {"after": [{"verdict": {"margin_kg": -20.0, "word": "over"}}]},
             bounds=[light], x_m=3.6, mass_kg=200.0),
        case("it stays down", {"after": [{"verdict": {"margin_kg": 1192.0, "word": "under"}}]},
             bounds=[LIFT], x_m=3.6, mass_kg=40.0),
        case("a rating that is not known",
             {"room": NOTHING | {"unknown": ["gross"]},
              "after": [{"verdict": {"word": "not_known", "value_kg": 2640.0}, "most_kg": None}]},
             bounds=[BLANK], x_m=3.6, mass_kg=40.0),
        refused("nothing", "OutOfRange", "mass_kg", bounds=THREE, x_m=1.0, mass_kg=0.0),
        refused("a negative u", "OutOfRange", "mass_u_kg", bounds=THREE, x_m=1.0, mass_kg=1.0, mass_u_kg=-1.0),
        refused("a negative u of the place", "OutOfRange", "x_u_m", bounds=THREE, x_m=1.0, mass_kg=1.0, x_u_m=-1.0),
    ]  # fmt: skip


def functions(rng: np.random.Generator) -> list[dict[str, Any]]:
    root = "by hand; scipy.optimize.brentq on the exact margin where mass or place are unsure"
    return [
        function(
            "headroom_kg",
            BY_HAND,
            case("upper", SPARE["rear"], bound=REAR),
            case("lower", 1200 - 10 * Z, bound=LIFT),
            case("over", 10 - 12 * Z, bound=OVER),
            case("not known", None, bound=BLANK),
            refused("never sure", "OutOfRange", "confidence", bound=REAR, confidence=1.0),
        ),
        function("most_kg", root, *most_cases()),
        function("room_at", BY_HAND, *room_cases()),
        function("stretches", "by hand: where two of (share + per_m x)/headroom cross", *stretch_cases()),
        function("ask", root, *ask_cases()),
    ]
