"""Vectors of the mass that a plan forgets: sums of moments in rational arithmetic."""

from fractions import Fraction
from math import sqrt
from typing import Any

from vectors.frame import case, function, refused

Json = Any
PRACTICE = "3 to 6 % of the added mass: common practice, no source; sums of moments in rational arithmetic"
TOLD = Fraction(15, 100)  # a place told in words, m (assumed)
BOX = {"id": "box", "mass_kg": 80.0, "mass_u_kg": 8.0, "x_m": 3.0, "y_m": 0.4, "z_m": 1.2}
BAR = {"id": "bar", "mass_kg": 40.0, "mass_u_kg": 2.0, "x_m": -0.75, "z_m": 0.6}
RACK = {"id": "rack", "mass_kg": 24.0, "mass_u_kg": 1.0, "x_m": 1.75}
OFF = {"id": "tub", "mass_kg": 100.0, "mass_u_kg": 1.0, "x_m": 3.5, "taken_off": True}
TOWED = {"id": "crate", "mass_kg": 50.0, "mass_u_kg": 5.0, "x_m": 2.0, "on": "t"}


def middle(parts: list[Json], place: str) -> tuple[float, float]:
    """Mean and u of a place, weighted by mass."""
    pairs = [(Fraction(one["mass_kg"]), Fraction(one.get(place, 0.0))) for one in parts]
    total = sum(m for m, _ in pairs)
    mean = sum(m * x for m, x in pairs) / total
    return float(mean), sqrt(sum(m * (x - mean) ** 2 for m, x in pairs) / total / 7 + TOLD**2)


def part(parts: list[Json], share: float) -> Json:
    """The range is a third either side of its middle, any value as likely: u = m/(3 sqrt 3)."""
    mass = float(Fraction(share) * sum(Fraction(one["mass_kg"]) for one in parts))
    high = [one for one in parts if "z_m" in one]
    out: Json = {"id": "forgotten", "mass_kg": mass, "mass_u_kg": mass / (3 * sqrt(3))}
    for axis, of in (("x", parts), ("y", parts), ("z", high)):
        if of:
            out[f"{axis}_m"], out[f"{axis}_u_m"] = middle(of, f"{axis}_m")
    return out


def moved(name: str, parts: list[Json], places: dict[str, float], share: float) -> Json:
    after = [{**one, "x_m": places.get(one["id"], one["x_m"])} for one in parts]
    pairs = [(one, other) for one, other in zip(parts, after, strict=True) if one["id"] in places]
    counted = [one for one in after if "on" not in one and "taken_off" not in one]
    before = [one for one in parts if "on" not in one and "taken_off" not in one]
    out = {name: value for name, value in part(counted, share).items() if name[0] not in "yz"}
    given = {"before": [one for one, _ in pairs], "after": [one for _, one in pairs]}
    return case(name, out, part=part(before, share), share=share, **given)


def functions(_: Any) -> list[Json]:
    plan = [BOX, BAR, RACK]
    return [
        function(
            "forgotten_part",
            PRACTICE,
            case("three items", part(plan, 0.045), added=plan, share=0.045),
            case("one item, its place told in words at best", part([BOX], 0.06), added=[BOX], share=0.06),
            case("no heights", part([RACK], 0.03), added=[RACK], share=0.03),
            case("what came off, what is towed", part(plan, 0.2), added=[*plan, OFF, TOWED], share=0.2),
            case("nothing added", None, added=[OFF, TOWED], share=0.045),
            case("nothing forgotten", None, added=plan, share=0.0),
            refused("more than a fifth", "OutOfRange", "share", added=plan, share=0.2001),
            refused("less than nothing", "OutOfRange", "share", added=plan, share=-0.01),
        ),
        function(
            "counts",
            PRACTICE,
            *(
                case(name, out, part=one)
                for name, out, one in (
                    ("an item", True, BOX),
                    ("what came off", False, OFF),
                    ("what is towed", False, TOWED),
                )
            ),
        ),
        function(
            "forgotten_after",
            PRACTICE,
            moved("one item elsewhere", plan, {"box": 1.0}, 0.045),
            moved("two at once", plan, {"box": -1.0, "rack": 4.5}, 0.1),
            moved("to where it was", plan, {"bar": -0.75}, 0.05),
            moved("all in one place", plan, {"box": 2.0, "bar": 2.0, "rack": 2.0}, 0.05),
            moved("what does not count", [*plan, OFF, TOWED], {"tub": 0.0, "crate": 1.0}, 0.045),
            refused(
                "a share of 0", "OutOfRange", "share", part=part(plan, 0.045), share=0.0, before=[], after=[]
            ),
        ),
    ]
