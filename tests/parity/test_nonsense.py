"""What is no number is refused wherever it stands, by the same name in both languages, and never computed with.

The calls are those of the makers. In each, one figure after the other is replaced by a NaN, an infinity, text and a
truth value. A figure that a function has no use for may be anything.
"""

import copy
import zlib
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from parity.bundle import ask
from parity.test_parity import answer, calls_of
from vectors.decode import differences

# What takes figures from outside: the other functions are given what these have let through
DOORS = {
    "agreement": ("axle_loads", "fixed_sums"),
    "advice": ("advise",),
    "along": ("loads_along",),
    "bridge": ("permissible_error", "gain_u", "zero_u", "own_variance", "below_min", "can_weigh", "reach_kg"),
    "entries": ("check_entry", "check_place"),
    "envelope": ("envelope", "worst_chance", "height_span"),
    "events": ("check_event",),
    "fieller": ("fieller",),
    "filter": ("prior",),
    "fuel": ("fuel_model", "reserve_floors", "usual_reserve", "own_rates", "rate_guess"),
    "fullfull": ("segments",),
    "gross": ("suspects",),
    "happenings": ("check_vessels", "check_happenings"),
    "limits": ("verdict", "chance_over", "any_over", "extremes"),
    "next_reading": ("settle_chance",),
    "normal": ("pdf", "cdf", "quantile", "z_at", "chi2_upper"),
    "odometer": ("measured_factor",),
    "reconcile": ("update", "reconcile"),
    "remain": ("left_after", "reach", "range_at", "litres_at", "check_counting", "check_mix"),
    "room": ("headroom_kg", "most_kg", "room_at"),
    "stability": ("centre_of_gravity", "static_stability"),
    "statics": ("loads", "tank_content", "copies_u"),
    "tyres": ("load_capacity_kg", "axle_capacity_kg"),
    "unplanned": ("unplanned_mass", "unplanned_total"),
    "volume": ("volume_factor", "fuel_factor", "water_density"),
    "water": ("person_days", "people_at", "days_at", "floor_days"),
    "weighing": ("reading_error", "reading_covariance", "merge_repeats"),
}
NONSENSE = ("NaN", "Infinity", "-Infinity", "12", True)
CALLS = 4
PLACES = 40


def figures(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Where numbers stand; not in what another call gives."""
    if isinstance(value, dict) and "$call" not in value:
        for name, one in value.items():
            yield from figures(one, (*path, name))
    elif isinstance(value, list):
        for i, one in enumerate(value):
            yield from figures(one, (*path, i))
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield path


def with_nonsense(call: dict[str, Any], path: tuple[Any, ...], what: Any) -> dict[str, Any]:
    made = copy.deepcopy(call)
    at = made["in"]
    for step in path[:-1]:
        at = at[step]
    at[path[-1]] = what
    return made


def made_of(module: str) -> list[tuple[dict[str, Any], str, dict[str, Any], dict[str, Any]]]:
    """Each call as Python and as the browser is asked it, with what was replaced."""
    rng, out = np.random.default_rng(zlib.crc32(b"nonsense " + module.encode())), []
    calls = [one for one in calls_of(module) if "in" in one]
    for function in DOORS[module]:
        for call in [one for one in calls if one["function"] == function][:CALLS]:
            alone = {**{name: one for name, one in call.items() if name != "then"}}
            paths = list(figures(alone["in"]))
            for n in rng.permutation(len(paths))[:PLACES]:
                for what in NONSENSE:
                    number = isinstance(what, str) and what != "12"
                    mine = with_nonsense(alone, paths[n], float(what) if number else what)
                    theirs = with_nonsense(alone, paths[n], {"$number": what} if number else what)
                    out.append((alone, f"{function} {paths[n]} = {what}", mine, theirs))
    return out


def outcome(call: dict[str, Any]) -> dict[str, Any]:
    try:
        return answer(call)
    except Exception as error:  # named below among what went wrong
        return {"crash": repr(error)}


def unheeded(alone: dict[str, Any], mine: dict[str, Any], other: dict[str, Any]) -> bool:
    """Whether nobody looked at the figure: both say what they say of the sound call."""
    sound = answer(alone)
    if isinstance(sound.get("out"), dict):
        sound["out"] = {name: one for name, one in sound["out"].items() if not name.startswith("_")}
        mine = {"out": {name: mine["out"].get(name) for name in sound["out"]}} if "out" in mine else mine
    return mine == sound and "out" in other and not differences(sound, other, rel=1e-9, abs_=1e-12, near=True)


@pytest.mark.parametrize("module", list(DOORS))
def test_nonsense_is_refused_by_the_same_name(module: str) -> None:
    made = made_of(module)
    assert made
    ours, theirs = [outcome(mine) for _, _, mine, _ in made], ask([one for _, _, _, one in made])
    wrong = [
        f"{what}: {mine} here, {other} there"
        for (alone, what, _, _), mine, other in zip(made, ours, theirs, strict=True)
        if (mine != other or "error" not in mine) and not unheeded(alone, mine, other)
    ]
    assert not wrong, f"{len(wrong)} of {len(made)}\n" + "\n".join(wrong[:12])
