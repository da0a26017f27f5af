"""Random problems of load advice: a vehicle, now and then with its trailer, and loads that could be elsewhere.

Limits lie so that some choice, drawn first, just meets them; now and then one is beyond what any choice can do.
"""

from typing import Any

import numpy as np
from parity.pieces import Rng, chance, number

Json = Any
LENGTH_M, COUPLING_M, LEVER_M = 3.0, 4.1, 3.2
SOLO = ("front", "rear", "gross", "roof", "front at least")
TOWING = (*SOLO, "coupling", "trailer axles", "combination", "coupling at least")
Z = 1.6448536269514722


def problem(
    rng: Rng,
    *,
    count: int | None = None,
    shared: bool | None = None,
    confidence: float = 0.95,
    copies: bool = False,
) -> Json:
    """One call's input; `shared` gives errors that several items and the fixed load have in common.

    With `copies` the first two things are several alike, of which so many may go.
    """
    ids = TOWING if chance(rng, 0.5) else SOLO
    items = int(rng.integers(3, 8)) if count is None else count
    ties = (chance(rng, 0.4) if shared is None else shared) and items > 1
    errors = _spread(rng, min(items, 4)) if ties else []
    slots = [{"id": "tray", "capacity_kg": number(rng, 20, 90)}] if chance(rng, 0.5) else []
    made = [_item(rng, n, ids, slots, len(errors)) for n in range(items)]
    if copies:
        made[:2] = [_of_copies(one, int(rng.integers(2, 4))) for one in made[:2]]
    limits = [_limit(rng, one, len(errors)) for one in ids]
    _set_bounds(rng, limits, made, errors)
    objective = str(rng.choice(["moves", "off"]))
    given = {"limits": limits, "items": made, "objective": objective, "confidence": confidence}
    return {**given, "slots": slots, "errors": errors}


def arrays(given: Json, picks: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Mean and variance of each limit for rows of picks, by plain sums over the options."""
    limits, items = given["limits"], given["items"]
    c = covariance(given)
    h = np.array([one.get("linked") or [0.0] * len(c) for one in limits])
    mean = np.tile([one["fixed_kg"] for one in limits], (len(picks), 1))
    variance = np.tile([one["variance_kg2"] for one in limits], (len(picks), 1))
    put = np.zeros((len(picks), len(limits), len(c)))
    for i, item in enumerate(items):
        options = item["options"]
        mean += np.array([one["loads_kg"] for one in options])[picks[:, i]]
        variance += np.array([one["variances_kg2"] for one in options])[picks[:, i]]
        shares = np.zeros((len(options), len(limits), len(c)))
        for s, option in enumerate(options):
            for share in option.get("shares", ()):
                shares[s, :, share["error"]] += share["per_unit"]
        put += shares[picks[:, i]]
    variance += 2 * np.einsum("nke,ke->nk", put, h) if len(c) else 0.0
    return mean, variance + np.einsum("nke,ef,nkf->nk", put, c, put)


def covariance(given: Json) -> np.ndarray:
    """That of the shared errors, also where there are none."""
    size = len(given["errors"])
    return np.array(given["errors"], dtype=float).reshape(size, size)


def _item(rng: Rng, n: int, ids: tuple[str, ...], slots: Json, errors: int) -> Json:
    mass = float(rng.integers(4, 260)) / 4
    u = mass * float(rng.choice([0.005, 0.05, 0.15]))
    error = int(rng.integers(0, errors)) if errors and chance(rng, 0.7) else None
    towing = "coupling" in ids

    def at(name: str, *, off: bool = False, behind: bool = False) -> Json:
        x_m, on_trailer = (
            number(rng, 2.4, 4.0) if behind else number(rng, -0.5, 4.2),
            towing and chance(rng, 0.25),
        )
        roof, u_m = chance(rng, 0.15), float(rng.choice([0.0, 0.02, 0.15]))
        share = np.array([0.0 if off else _share(one, x_m, on_trailer, roof) for one in ids])
        slope = np.array([0.0 if off else _slope(one, on_trailer) for one in ids])
        own = np.zeros(len(ids)) if error is not None else (share * u) ** 2
        own = own + (mass**2 + u**2) * slope**2 * u_m**2
        shares = [] if error is None or off else [{"error": error, "per_unit": (share * u).tolist()}]
        slot = "tray" if slots and name != "here" and not off and chance(rng, 0.4) else None
        loads = {"loads_kg": (share * mass).tolist(), "variances_kg2": own.tolist(), "shares": shares}
        return {
            "id": name,
            **loads,
            "off_kg": mass if off else 0.0,
            "slot": slot,
            "slot_kg": mass if slot else 0.0,
        }

    places = [at("here", behind=True), *(at(f"place {s}") for s in range(int(rng.integers(0, 3))))]
    if chance(rng, 0.6) or len(places) == 1:
        places.append(at("off", off=True))
    return {"id": f"item {n}", "mass_kg": mass, "options": places}


def _of_copies(item: Json, count: int) -> Json:
    """The same as so many copies of one unknown mass: each number of them at each other place is an option."""
    here, *others = item["options"]
    options = [here]
    for other in others:
        for k in range(1, count + 1):
            s = k / count
            loads = [(1 - s) * a + s * b for a, b in zip(here["loads_kg"], other["loads_kg"], strict=True)]
            own = [(1 - s) ** 2 * a + s**2 * b for a, b in
                   zip(here["variances_kg2"], other["variances_kg2"], strict=True)]  # fmt: skip
            ties = [np.array(one["shares"][0]["per_unit"]) if one["shares"] else 0.0 for one in (here, other)]
            error = [one["shares"][0]["error"] for one in (here, other) if one["shares"]][:1]
            shares = [{"error": e, "per_unit": ((1 - s) * ties[0] + s * ties[1]).tolist()} for e in error]
            whole = {"off_kg": s * other["off_kg"], "slot_kg": s * other["slot_kg"], "slot": other["slot"]}
            options.append(
                {
                    "id": f"{other['id']}, {k}",
                    "loads_kg": loads,
                    "variances_kg2": own,
                    "shares": shares,
                    **whole,
                    "moves": k,
                }
            )
    return {**item, "options": options}


def _share(row: str, x_m: float, on_trailer: bool, roof: bool) -> float:
    """Load on a row per kilogram, by levers."""
    if row.endswith(" at least"):
        return _share(row.removesuffix(" at least"), x_m, on_trailer, roof)
    if row == "combination":
        return 1.0
    coupling = 1 - x_m / LEVER_M if on_trailer else 0.0
    if row in ("coupling", "trailer axles"):
        return coupling if row == "coupling" else float(on_trailer) - coupling
    if row == "roof":
        return float(roof and not on_trailer)
    force, where = (coupling, COUPLING_M) if on_trailer else (1.0, x_m)
    return force * {"front": 1 - where / LENGTH_M, "rear": where / LENGTH_M, "gross": 1.0}[row]


def _slope(row: str, on_trailer: bool) -> float:
    """Its change per metre."""
    return _share(row, 1.0, on_trailer, False) - _share(row, 0.0, on_trailer, False)


def _limit(rng: Rng, name: str, errors: int) -> Json:
    fixed = {"front": 1250, "rear": 1800, "gross": 3050, "roof": 40, "coupling": 110, "trailer axles": 900}
    row = name.removesuffix(" at least")
    kg = float(fixed.get(row, 4000) + rng.integers(-30, 30))
    linked = [number(rng, -3, 3) for _ in range(errors)]
    variance = number(rng, 40, 500)
    return {
        "id": name, "fixed_kg": kg, "variance_kg2": variance, "least": name != row, "linked": linked, "limit_kg": 0.0,
    }  # fmt: skip


def _set_bounds(rng: Rng, limits: Json, items: Json, errors: Json) -> None:
    """Bounds that a drawn choice meets with a little to spare; the present plan often does not."""
    here = np.zeros(len(items), dtype=int)
    there = np.array([int(rng.integers(0, len(one["options"]))) for one in items])
    there[rng.random(len(items)) < 0.5] = 0
    given = {"limits": limits, "items": items, "errors": errors}
    mean, variance = arrays(given, np.array([here, there]))
    reach = Z * np.sqrt(np.maximum(variance, 0.0))
    for k, one in enumerate(limits):
        if one["least"]:
            spare = mean[:, k] - reach[:, k]
            one["limit_kg"] = max(0.0, float(spare.min()) - 5.0) if chance(rng, 0.3) else 0.0
            continue
        needed = mean[:, k] + reach[:, k]
        slack = float(rng.uniform(-12, 0)) if chance(rng, 0.1) else float(rng.uniform(0, 12))
        one["limit_kg"] = round(float(needed[1]) + slack, 3)
        if chance(rng, 0.5):
            one["limit_kg"] = max(one["limit_kg"], round(float(needed[0]) + 1, 3))


def _spread(rng: Rng, size: int) -> list[list[float]]:
    """A covariance near the identity: what weighings tie together is mostly negative."""
    root = np.eye(size) - 0.3 * rng.random((size, size)).round(3)
    return [[float(x) for x in row] for row in root @ root.T]
