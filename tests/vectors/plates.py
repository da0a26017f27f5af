"""Vectors of plates and of what is judged anew under them, written out by hand; `books` writes them."""

from typing import Any

from scipy import stats

Json = Any
Stated = tuple[str, float]
RULES = "Rules of plates: later ones replace what they state, the least of several binds"
TABLE = "the table of load indices: 112 is 1120 kg, 116 is 1250 kg, 109 is 1030 kg; by hand"
ROWS = ("front", "rear", "gross", "combination", "trailer", "trailer_axles", "coupling", "roof")


def plate(id: str, of: str = "vehicle", *, order: int = 0, **body: Any) -> Json:
    return {"id": id, "kind": "plate", "rev": f"{id}-1", "body": {"of": of, **body}, "order": order}


MAKER = plate("a", gross_kg=3000.0, rear_axle_kg=1700.0)
UPGRADE = plate("b", gross_kg=3400.0, date_from="2026-03-01")
AXLE = plate("c", "tyres", rear_axle_kg=1650.0)
PLANNED = plate("d", gross_kg=3900.0, standing="planned")
TYRES = plate("t", "tyres", tyre_size="265/70R17 116T", date_from="2026-02-01")
BOAT = plate("boat", "trailer", trailer_id="t1", trailer_kg=1500.0, coupling_kg=150.0)
BAR = plate("bar", "towbar", trailer_kg=2500.0, coupling_kg=250.0)


def case(name: str, given: Json, out: Json) -> Json:
    return {"name": name, "in": given, "out": out}


def rating(row: str, *stated: Stated) -> Json:
    """A rating with all plates that bind it, least first."""
    plate_id, kg = stated[0] if stated else (None, None)
    return {"rating": row, "limit_kg": kg, "plate_id": plate_id, "also": [list(one) for one in stated]}


def rated(**known: Stated | list[Stated]) -> list[Json]:
    """All eight ratings; those not named are not known."""
    lists = {row: [one] if isinstance(one, tuple) else one for row, one in known.items()}
    return [rating(row, *lists.get(row, ())) for row in ROWS]


def on(day: str, *plates: Json, **more: Any) -> Json:
    return {"plates": list(plates), "day": day, **more}


def rating_cases() -> list[Json]:
    old, new, rear = ("a", 3000.0), ("b", 3400.0), ("a", 1700.0)
    april, late = "2026-04-01", plate("e", gross_kg=3700.0, standing="planned", date_from="2027-01-01")
    return [
        case(
            "a later plate replaces only what it states",
            on(april, MAKER, UPGRADE),
            rated(gross=new, rear=rear),
        ),
        case("not before its day", on("2026-02-28", MAKER, UPGRADE), rated(gross=old, rear=rear)),
        case(
            "of several things the least binds",
            on(april, MAKER, AXLE),
            rated(gross=old, rear=[("c", 1650.0), rear]),
        ),
        case("a planned plate does not count", on(april, MAKER, PLANNED), rated(gross=old, rear=rear)),
        case(
            "but it does in a what-if",
            on(april, MAKER, PLANNED, planned=["d"]),
            rated(gross=("d", 3900.0), rear=rear),
        ),
        case(
            "also over one with a date",
            on(april, UPGRADE, PLANNED, planned=["d"]),
            rated(gross=("d", 3900.0)),
        ),
        case("and before its own day", on(april, UPGRADE, late, planned=["e"]), rated(gross=("e", 3700.0))),
        case("no plate, nothing known", on(april), rated()),
        case(
            "equal ones by their id",
            on(april, plate("z", "rack", roof_kg=75.0), plate("y", roof_kg=75.0)),
            rated(roof=[("y", 75.0), ("z", 75.0)]),
        ),
    ]


def tyre_cases() -> list[Json]:
    april = "2026-04-01"
    least = rated(front=("t", 2500.0), rear=[("a", 1700.0), ("t", 2500.0)], gross=("a", 3000.0))
    marked = plate("m", "tyres", tyre_load_index=116, rear_axle_kg=2400.0)
    unread = plate("u", "tyres", tyre_size="round and black")
    rear_only = plate("r", "tyres", tyre_size="265/70R17 112/109S", tyre_axle="rear", tyres_per_axle=4)
    newer = plate("n", "tyres", tyre_load_index=112, date_from="2026-03-20")
    return [
        case("tyres bind both axles", on(april, MAKER, TYRES), least),
        case(
            "a figure beside the index: the least",
            on(april, marked),
            rated(front=("m", 2500.0), rear=("m", 2400.0)),
        ),
        case("a size that cannot be read states nothing", on(april, unread), rated()),
        case("twins on the rear axle", on(april, rear_only), rated(rear=("r", 4120.0))),
        case(
            "a pair of axles shares them",
            on(april, TYRES, axles={"rear": 2}),
            rated(front=("t", 2500.0), rear=("t", 5000.0)),
        ),
        case(
            "later tyres replace the earlier",
            on(april, TYRES, newer),
            rated(front=("n", 2240.0), rear=("n", 2240.0)),
        ),
        case(
            "an index past the table states nothing",
            on(april, plate("p", "tyres", tyre_load_index=148)),
            rated(),
        ),
    ]


def trailer_cases() -> list[Json]:
    april, wheels = "2026-04-01", plate("w", "tyres", trailer_id="t1", tyre_load_index=109)
    alone = rated(trailer=("bar", 2500.0), coupling=("bar", 250.0))
    towed = {"trailer": [("boat", 1500.0), ("bar", 2500.0)], "coupling": [("boat", 150.0), ("bar", 250.0)]}
    both = rated(**towed, trailer_axles=("w", 2060.0))
    tandem = rated(**towed, trailer_axles=("w", 4120.0))
    return [
        case("a trailer's plate waits for its trailer", on(april, BAR, BOAT, wheels), alone),
        case("and counts with it", on(april, BAR, BOAT, wheels, trailer_id="t1"), both),
        case("not with another", on(april, BAR, BOAT, wheels, trailer_id="t2"), alone),
        case(
            "tyres of two trailer axles",
            on(april, BAR, BOAT, wheels, trailer_id="t1", axles={"trailer_axles": 2}),
            tandem,
        ),
        case(
            "any trailer's tyres",
            on(april, plate("x", "tyres", tyre_load_index=109, tyre_axle="trailer")),
            rated(trailer_axles=("x", 2060.0)),
        ),
    ]


def stated_cases() -> list[Json]:
    def stated(name: str, out: Json, *, axles: Json = None, **body: Any) -> Json:
        return case(name, {"plate": body, "axles": axles}, out)

    return [
        stated("the figures of a vehicle's plate", {"gross": 3000.0, "roof": 100.0}, of="vehicle", gross_kg=3000.0,
               roof_kg=100.0, rear_axle_kg=None),
        stated("a size on a vehicle's plate is a condition", {}, of="vehicle", tyre_size="265/70R17 116T"),
        stated("tyres of the front axle", {"front": 2240.0}, of="tyres", tyre_load_index=112, tyre_axle="front"),
        stated("of a pair at the rear", {"rear": 4480.0}, of="tyres", tyre_load_index=112, tyre_axle="rear",
               axles={"rear": 2}),
        stated("a higher figure does not lift them", {"front": 2240.0}, of="tyres", tyre_load_index=112,
               tyre_axle="front", front_axle_kg=2500.0),
    ]  # fmt: skip


def changes(*rows: tuple[str, list[Stated], list[Stated], float | None]) -> list[Json]:
    """All eight ratings before and after; those not named are not known either way."""
    named = {row: (before, after, stated) for row, before, after, stated in rows}
    out = []
    for row in ROWS:
        before, after, stated = named.get(row, ([], [], None))
        old, new = rating(row, *before), rating(row, *after)
        changed = old["limit_kg"] != new["limit_kg"]
        out.append({"rating": row, "before": old, "after": new, "stated_kg": stated, "changed": changed})
    return out


def change_cases() -> list[Json]:
    def by(plate_id: str, *plates: Json, **more: Any) -> Json:
        return {"plates": list(plates), "plate_id": plate_id, **more}

    gross, rear, tyres = ("a", 3000.0), ("a", 1700.0), ("t", 2500.0)
    kept, later = ("rear", [rear], [rear], None), plate("f", gross_kg=3600.0, date_from="2027-01-01")
    upgraded = changes(("gross", [gross], [("b", 3400.0)], 3400.0), kept)
    what_if = changes(("gross", [("b", 3400.0)], [("d", 3900.0)], 3900.0), kept)
    bar, boat = ("bar", 2500.0), ("boat", 1500.0)
    first = changes(("gross", [], [gross], 3000.0), ("rear", [], [rear], 1700.0))
    fitted = changes(
        ("gross", [gross], [gross], None),
        ("rear", [rear], [rear, tyres], 2500.0),
        ("front", [], [tyres], 2500.0),
    )
    unknown = {"name": "Unknown", "field": "plate_id"}
    return [
        case("an upgrade raises the gross alone", by("b", MAKER, UPGRADE), upgraded),
        case("what came later does not matter", by("b", MAKER, UPGRADE, later), upgraded),
        case("a planned one neither", by("b", MAKER, UPGRADE, PLANNED), upgraded),
        case("the first plate", by("a", MAKER, UPGRADE), first),
        case("stated, but another plate still binds", by("t", MAKER, TYRES), fitted),
        case("a planned plate is laid over all", by("d", PLANNED, MAKER, UPGRADE), what_if),
        case("or over what is in force on a day", by("d", MAKER, UPGRADE, PLANNED, day="2026-01-01"),
             changes(("gross", [gross], [("d", 3900.0)], 3900.0), kept)),
        case("a trailer's plate beside the towbar's", by("boat", BAR, {**BOAT, "order": 1}), changes(
            ("trailer", [bar], [boat, bar], 1500.0),
            ("coupling", [("bar", 250.0)], [("boat", 150.0), ("bar", 250.0)], 150.0))),
        {"name": "no such plate", "in": by("q", MAKER), "error": unknown},
    ]  # fmt: skip


def book_of(vehicle: Json, *plates: Json, trailers: tuple[Json, ...] = ()) -> Json:
    def row(id: str, kind: str, body: Json) -> Json:
        return {"id": id, "kind": kind, "rev": f"{id}-1", "body": body, "order": 0}

    logs = (
        "items",
        "tanks",
        "seats",
        "people",
        "aboard",
        "weighings",
        "fills",
        "dips",
        "transfers",
        "waters",
    )
    rest: Json = {name: [] for name in (*logs, "gone")}
    towed = [row(one["name"], "trailer", one) for one in trailers]
    return {
        "vehicle": row("v", "vehicle", vehicle), "trailers": towed, "plates": list(plates), **rest, "revisions": {},
    }  # fmt: skip


def book_groups() -> list[Json]:
    tandem = ({"name": "t1", "axles": 2},)
    pair, single = {"rear_axles": "load_sharing_pair"}, {"rear_axles": "single"}
    wheels = plate("w", "tyres", trailer_id="t1", tyre_load_index=109)
    given = {"book": book_of(pair, TYRES, wheels, trailers=tandem), "day": "2026-04-01"}
    own = {"front": ("t", 2500.0), "rear": ("t", 5000.0)}
    counts = [
        case("one axle", {"book": book_of(single)}, {"rear": 1, "trailer_axles": 1}),
        case("nothing said", {"book": book_of({})}, {"rear": 1, "trailer_axles": 1}),
        case("a pair", {"book": book_of(pair)}, {"rear": 2, "trailer_axles": 1}),
        case("a trailer with two", {"book": book_of({}, trailers=tandem), "trailer_id": "t1"}, {"trailer_axles": 2}),
        case("another trailer", {"book": book_of({}, trailers=tandem), "trailer_id": "t2"}, {"trailer_axles": 1}),
    ]  # fmt: skip
    ratings = [
        case("tyres of a pair", given, rated(**own)),
        case("with the trailer", {**given, "trailer_id": "t1"}, rated(**own, trailer_axles=("w", 4120.0))),
    ]
    return [group("axle_counts", "facts of the records", counts), group("ratings_of", TABLE, ratings)]


def group(function: str, source: str, cases: list[Json]) -> Json:
    return {"function": function, "source": source, "cases": cases}


def plate_groups() -> list[Json]:
    return [
        group("ratings_on", RULES, [*rating_cases(), *tyre_cases(), *trailer_cases()]),
        group("stated_by", TABLE, stated_cases()),
        group("changes_by", RULES, change_cases()),
        *book_groups(),
    ]


def judged(limit: float | None, word: str, *, source: str = "readings", why: str | None = None) -> Json:
    """3300 kg with u 20, under or over a limit: z u and the chance by scipy."""
    value, u = (0.0, 0.0) if source == "none" else (3300.0, 20.0)
    known = limit is not None and source != "none"
    return {
        "verdict": {
            "rating": "gross", "limit_kg": limit, "value_kg": value, "u_kg": u,
            "reach_kg": float(stats.norm.ppf(0.95)) * u,
            "margin_kg": limit - value if known else None,
            "over_probability": float(stats.norm.sf((limit - value) / u)) if known else None,
            "word": word,
        },
        "source": source, "why": why,
    }  # fmt: skip


def rejudge_groups() -> list[Json]:
    def again(name: str, before: Json, limit: float | None, after: Json) -> Json:
        ratings = [{"rating": "gross", "limit_kg": limit, "plate_id": "d" if limit else None, "also": []}]
        return case(name, {"judged": [before], "ratings": ratings, "confidence": 0.95}, [after])

    over, blank = judged(3200.0, "over"), judged(None, "not_known")
    apart = judged(3200.0, "cannot_tell", why="readings_disagree")
    absent = {"source": "none", "why": "not_weighed"}
    cases = [
        again("over becomes under", over, 3400.0, judged(3400.0, "under")),
        again("or cannot tell", over, 3310.0, judged(3310.0, "cannot_tell")),
        again("a rating that was blank", blank, 3400.0, judged(3400.0, "under")),
        again("a rating that goes blank", over, None, blank),
        again("readings that disagree settle nothing", apart, 3400.0,
              judged(3400.0, "cannot_tell", why="readings_disagree")),
        again("nor what was not weighed", judged(3200.0, "cannot_tell", **absent), 3400.0,
              judged(3400.0, "cannot_tell", **absent)),
        case("a row without a rating stays", {"judged": [over], "ratings": []}, [over]),
    ]  # fmt: skip
    return [group("rejudged", "the rule of verdicts, margins by hand, chances by scipy", cases)]
