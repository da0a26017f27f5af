"""Random models, events and logs of fuel and water that several makers of calls share."""

from parity.pieces import Piece, Rng, chance, number
from vectors.decode import call as ask
from vectors.decode import plain

FUEL_KAPPAS = [0.04, 0.07, 0.12, 0.2]
WATER_KAPPAS = [0.1, 0.2, 0.4, 0.8, 1.6]
KINDS = "use use use fill fill full gauge level start missed transfer pour change rescale"
SURFACES = ["sealed", "gravel", "sand"]


def settings(rng: Rng, *, water: bool = False) -> Piece:
    """About the defaults, none of them exactly."""
    return {
        "per": 1.0 if water else 100.0,
        "u_common": number(rng, 0.1, 0.5),
        "u_class": 0.0 if water else number(rng, 0.05, 0.2),
        "walk": number(rng, 0.01, 0.1),
        "walk_class": number(rng, 0, 0.04),
        "walk_ref": 20.0 if water else 1000.0,
        "ell": 1.0 if water else number(rng, 50, 200),
        "fill_u": number(rng, 0.001, 0.03),
        "full_u_l": number(rng, 0.3, 2),
        "gauge_u": number(rng, 0.02, 0.1),
    }


def model(rng: Rng) -> Piece:
    tanks, classes = int(rng.integers(1, 4)), int(rng.integers(1, 4))
    return {
        "tank_ids": ["main", "sub", "rear"][:tanks],
        "capacity_l": [number(rng, 40, 120) for _ in range(tanks)],
        "class_ids": SURFACES[:classes],
        "rate0": [number(rng, 7, 20) for _ in range(classes)],
        "settings": settings(rng),
        "full_u_l": [number(rng, 0.3, 4) for _ in range(tanks)] if chance(rng, 0.5) else None,
    }


def event(rng: Rng, of: Piece) -> Piece:
    """Any event; levels and litres stay within what a tank can hold."""
    t = int(rng.integers(len(of["tank_ids"])))
    tank, capacity = of["tank_ids"][t], of["capacity_l"][t]
    others = [one for one in of["tank_ids"] if one != tank] + [None]
    into = others[int(rng.integers(len(others)))]
    at = {"tank_id": tank}
    kind = str(rng.choice(KINDS.split()))
    return {"kind": kind} | {
        "use": lambda: {
            "amount": number(rng, 0, 400),
            "class_id": str(rng.choice(of["class_ids"])),
            **_shares(rng, of),
        },
        "fill": lambda: {**at, "litres_l": number(rng, 0, capacity)},
        "full": lambda: {"tank_ids": of["tank_ids"] if chance(rng, 0.3) else [tank]},
        "gauge": lambda: {**at, "fraction": number(rng, 0, 1)},
        "level": lambda: {**at, "litres_l": number(rng, 0, capacity), "litres_u_l": number(rng, 0.5, 5)},
        "start": lambda: {**at, "litres_l": number(rng, 0, capacity), "litres_u_l": number(rng, 0.5, 5)},
        "missed": lambda: at,
        "transfer": lambda: {
            **at,
            "into_id": into,
            "litres_l": number(rng, 0, 20),
            "litres_u_l": number(rng, 0, 1),
        },
        "pour": lambda: {**at, "into_id": into},
        "change": lambda: {"rate_u": number(rng, 0.05, 0.3)},
        "rescale": lambda: {"ratio": number(rng, 0.9, 1.1)},
    }[kind]()


def _shares(rng: Rng, of: Piece) -> Piece:
    raw = rng.dirichlet([1.0] * len(of["tank_ids"]))
    return {"shares": [float(one) for one in raw]}


def events(rng: Rng, of: Piece, count: int) -> list[Piece]:
    return [event(rng, of) for _ in range(count)]


def bank_of(made: Piece, kappas: list[float], through: list[Piece]) -> Piece:
    """A bank after some events, as a chain of calls."""
    bank = call("bank", "bank_prior", model=made, kappas=kappas)
    for one in through:
        bank = call("bank", "bank_advance", bank=bank, event=one)
    return bank


def call(module: str, function: str, **given: object) -> Piece:
    """Stands in a call's input for what that call gives."""
    return {"$call": {"module": module, "function": function, "in": given}}


def worked_out(made: Piece) -> Piece:
    """What such a call gives in Python, as JSON: for places deeper inside a call's input."""
    out: Piece = plain(ask(made["$call"]["module"], made["$call"]))
    return out


def mix(rng: Rng, classes: list[str]) -> Piece:
    shares = rng.dirichlet([1.0] * len(classes))
    return {name: float(share) for name, share in zip(classes, shares, strict=True)}


def counting(rng: Rng) -> Piece:
    return {
        "factor": number(rng, 0.95, 1.1),
        "factor_u": number(rng, 0, 0.02),
        "reserve_l": number(rng, 0, 15),
    }


def fuel_log(rng: Rng, count: int) -> tuple[Piece, list[Piece]]:
    """A set-up and a log with partial, full, missed and mistyped fills, dips, transfers, changes and gaps."""
    tanks: list[Piece] = [
        {"id": "main", "capacity_l": 80.0, "drain_order": 1},
        {"id": "can", "capacity_l": 20.0, "drawn": False},
    ]
    if chance(rng, 0.4):
        tanks.append({"id": "sub", "capacity_l": 60.0, "drain_order": 2, "full_u_l": number(rng, 0.5, 4)})
    setup = {
        "tanks": tanks,
        "base_rate": number(rng, 8, 14),
        "factor": number(rng, 0.97, 1.05),
        "factor_u": 0.005,
        "reserve_l": number(rng, 0, 30) if chance(rng, 0.3) else None,
    }
    level, odometer, entries = 80.0, 1000.0, []
    for n in range(count):
        way = number(rng, 50, 450)
        odometer, level = round(odometer + way, 1), level - way * 0.11
        about = {"id": f"e{n}", "at_s": n * 86_400.0, "sequence": n, "odometer_km": odometer}
        entry, level = _entry(rng, about, level, [one["id"] for one in tanks])
        entries.append(entry)
    return setup, entries


def _entry(rng: Rng, about: Piece, level: float, tanks: list[str]) -> tuple[Piece, float]:
    if chance(rng, 0.08):
        about = {**about, "odometer_km": None}
    if chance(rng, 0.05):
        about = {**about, "odometer_km": number(rng, 0, 9000)}
    if chance(rng, 0.4):
        about = {**about, "surface": mix(rng, SURFACES), "towing": chance(rng, 0.2)}
    which = rng.random()
    if which < 0.2:
        how = str(rng.choice(["gauge", "stick", "lamps"]))
        return {
            "kind": "dip",
            **about,
            "tank_id": "main",
            "how": how,
            "level": max(min(level / 80, 1.0), 0.0),
        }, level
    if which < 0.28:
        source, into = ("can", "main") if chance(rng, 0.5) else ("main", None)
        return {
            "kind": "transfer",
            **about,
            "from_tank_id": source,
            "to_tank_id": into,
            "litres_l": 5.0,
        }, level
    if which < 0.32:
        return {
            "kind": "change",
            **about,
            "ratio": float(rng.choice([1.0, 1.03])),
            "rate_u": float(rng.choice([0.0, 0.15])),
        }, level
    full = chance(rng, 0.6) or level < 20
    litres = 80.0 - level if full else number(rng, 5, max(80.0 - level, 6.0))
    typed = litres * (10 if chance(rng, 0.04) else 1)
    lines: list[Piece] = [{"tank_id": "main", "litres_l": max(round(typed, 2), 0.0), "full": full}]
    if chance(rng, 0.15):
        lines.append({"tank_id": "can", "litres_l": 10.0, "full": False})
    if "sub" in tanks and chance(rng, 0.4):
        lines.append({"tank_id": "sub", "litres_l": number(rng, 1, 60), "full": chance(rng, 0.5)})
    entry = {"kind": "fill", **about, "lines": lines, "missed_before": chance(rng, 0.05)}
    return entry, min(level + litres, 80.0)


def water_log(rng: Rng, count: int) -> tuple[Piece, list[Piece]]:
    """A set-up and a log with people who come and go."""
    day = 86_400.0
    people = [
        {"share": 1.0, "from_s": 0.0},
        {"share": number(rng, 0.2, 1), "from_s": number(rng, 0, 9) * day},
    ]
    if chance(rng, 0.5):
        people.append({"share": 1.0, "from_s": 0.0, "until_s": number(rng, 1, 9) * day})
    tanks = [{"id": "fresh", "capacity_l": 90.0}, {"id": "can", "capacity_l": 20.0, "drawn": False}]
    entries: list[Piece] = []
    for n in range(count):
        about = {"id": f"w{n}", "at_s": round(n * 0.7 * day + number(rng, 0, 0.5) * day, 0), "sequence": n}
        tank = "can" if chance(rng, 0.15) else "fresh"
        which = rng.random()
        if which < 0.35:
            entries.append(
                {"kind": "dip", **about, "odometer_km": None, "tank_id": tank, "level": number(rng, 0, 1)}
            )
        elif which < 0.42:
            into = {"from_tank_id": "can", "to_tank_id": "fresh", "litres_l": 4.0}
            entries.append({"kind": "transfer", **about, "odometer_km": None, **into})
        elif which < 0.48:
            entries.append({"kind": "change", **about, "odometer_km": None, "rate_u": number(rng, 0, 0.6)})
        else:
            action = str(rng.choice(["fill", "fill", "fill", "draw", "dump"]))
            word = {"drinkable": str(rng.choice(["yes", "yes", "unknown", "no"])), "full": chance(rng, 0.3)}
            entries.append(
                {
                    "kind": "water",
                    **about,
                    "tank_id": tank,
                    "action": action,
                    **word,
                    "litres_l": number(rng, 1, 22),
                }
            )
    return {"tanks": tanks, "presences": people}, entries


def stretches(rng: Rng, classes: list[str]) -> list[Piece]:
    """Legs of a way, some of them stays."""
    out = []
    for _ in range(int(rng.integers(1, 6))):
        stay = chance(rng, 0.2)
        distance = 0.0 if stay else number(rng, 20, 350)
        amount = number(rng, 0, 20) if stay else distance
        way = {name: amount * share for name, share in mix(rng, classes).items()}
        out.append({"distance_km": distance, "way": way, "points": int(rng.integers(1, 4))})
    return out


def cut_places(rng: Rng, way: list[Piece]) -> list[float]:
    """Places along it, some of them where a leg ends."""
    ends = [sum(one["distance_km"] for one in way[:n]) for n in range(len(way) + 1)]
    places = [number(rng, 0, 1) * ends[-1] for _ in range(3)]
    return [*places, ends[int(rng.integers(len(ends)))]] if chance(rng, 0.5) else places
