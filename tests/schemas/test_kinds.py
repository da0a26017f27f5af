"""Every kind: a least and a full body come in, anything else is refused where it is wrong."""

from typing import Any

import pytest
from factories import AT, new_id

from server.schemas.quick import look_at
from server.schemas.register import KINDS, PLAN_KINDS

ID = new_id()
PLACE = {"name": "by the river", "latitude_deg": -12.5, "longitude_deg": 131}
SURFACE = {"sealed": 0.5, "gravel": 0.25, "sand": 0.25}
SUPPLY = {"name": "bore", "at_km": 80, "fuel": False, "water": True, "certain": False, "latitude_deg": -20.5}
CHANGE = {"at_km": 40, "what": "load", "name": "firewood", "mass_kg": 30, "x_m": 3.9, "until_km": 90}
LINE = {"tank_id": ID, "litres_l": 40.5, "full": True}
READING = {"id": ID, "on_deck": ["front", "rear"], "value_kg": 2310}
BRIDGE = {"form": "single_deck", "interval_kg": 20, "accuracy_class": "III", "key": "site 12"}
STATE = {
    "settled_by": "confirmed",
    "tanks": [{"tank_id": ID, "level": 0.5, "level_u": 0.1, "known_from": "dip"}],
    "seats": [{"seat_id": ID, "person_id": None, "mass_kg": 0, "mass_u_kg": 0}],
    "items": [{"item_id": ID, "aboard": True}],
    "trailers": [{"trailer_id": ID, "coupled": False}],
    "plan": [{"id": ID, "rev": ID}],
}

# kind -> the least body and what may be added
BODIES: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "vehicle": (
        {"name": "Van"},
        {"wheelbase_m": 3.2, "rear_axles": "single", "units": {"mass": "t"}, "terms": "au"},
    ),
    "trailer": (
        {"name": "Box"},
        {"coupling_to_axle_m": 3.1, "axles": 2, "base_axles_kg": 800, "levelling_hitch": True},
    ),
    "plate": (
        {"of": "vehicle"},
        {"gross_kg": 3300, "rear_axle_kg": None, "date_from": "2026-03-04", "photos": [ID]},
    ),
    "item": (
        {"name": "shelf", "nature": "part"},
        {"mass_kg": 12.5, "count": 2, "may_move_to": [{"x_m": 1.5}], "keep_aboard": None},
    ),
    "tank": (
        {"name": "main", "holds": "fuel"},
        {"capacity_l": 80, "z_bottom_m": 0.4, "length_m": 0.9, "drain_order": 1},
    ),
    "seat": ({"name": "driver"}, {"x_m": 1.4, "usual_person_id": ID}),
    "person": ({"name": "E", "nature": "person"}, {"mass_kg": 70, "mass_on": "2026-03-04", "water_share": 1}),
    "route": (
        {"name": "To the well", "legs": [{"distance_km": 120, "surface": SURFACE}]},
        {
            "supplies": [SUPPLY],
            "changes": [CHANGE],
            "day_km": 300,
            "begun_odometer_km": 120_000,
            "fuel_reserve_l": 12,
            "people_ids": [ID],
        },
    ),
    "aboard": (
        {**AT, "subject": "person", "subject_id": ID, "aboard": True},
        {"seat_id": ID, "until": AT["at"]},
    ),
    "weighing": (
        {**AT, "bridge": {}, "readings": [READING]},
        {"bridge": BRIDGE, "state": STATE, "place": PLACE},
    ),
    "fill": ({**AT, "lines": [LINE]}, {"surface": SURFACE, "price": {"amount": "80.25", "currency": "XTS"}}),
    "dip": ({**AT, "tank_id": ID, "how": "gauge"}, {"level": 0.5, "level_u": 0.05, "odometer_km": 120_000}),
    "transfer": ({**AT, "from_tank_id": ID}, {"to_tank_id": ID, "litres_l": 5}),
    "water": (
        {**AT, "tank_id": ID, "action": "fill", "litres_l": 50, "drinkable": "yes"},
        {"source": "bore", "place": PLACE, "everything": False},
    ),
    "event": (
        {**AT, "what": "tyres"},
        {
            **{"odometer_km": 120_000, "rate_u": 0.15, "factor_before": 1, "factor_after": 1.04},
            **{
                "surface": SURFACE,
                "towing": False,
                "water_rate_u": 0.3,
                "supply": "Salt Well",
                "found": "shut",
            },
        },
    ),
    "correction": ({**AT, "of_id": ID, "what": "same_as"}, {"other_id": ID, "reason": "logged twice"}),
}
ODD: list[Any] = [
    *(
        True,
        -1e9,
        1e9,
        float("inf"),
        float("nan"),
        "\x00",
        "\ud800",
        "x" * 3_000,
        "odd",
        ID.upper(),
        f"{ID}\n",
    ),
    *([], {}, [[]], [{}], {"odd": 1}, [None], 5, "2026-02-30", "2026-02-30T00:00:00Z", None),
]


def errors(kind: str, body: dict[str, Any]) -> dict[str, Any]:
    return dict(KINDS[kind]().validate(body))


def test_every_kind_takes_part() -> None:
    assert set(BODIES) == set(KINDS)


@pytest.mark.parametrize("kind", BODIES)
def test_the_least_and_the_full_come_in(kind: str) -> None:
    least, more = BODIES[kind]
    assert errors(kind, least) == {}
    assert errors(kind, {**least, **more}) == {}


@pytest.mark.parametrize("kind", BODIES)
def test_nothing_required_may_be_missing(kind: str) -> None:
    least, _ = BODIES[kind]
    for name in least:
        rest = {other: value for other, value in least.items() if other != name}
        assert list(errors(kind, rest)) == [name]


@pytest.mark.parametrize("kind", BODIES)
def test_a_name_that_is_not_known_is_refused(kind: str) -> None:
    least, _ = BODIES[kind]
    assert errors(kind, {**least, "unheard_of": 1}) == {"unheard_of": ["Unknown field."]}


@pytest.mark.parametrize("kind", BODIES)
def test_what_is_odd_is_refused_where_it_is(kind: str) -> None:
    least, more = BODIES[kind]
    whole = {**least, **more}
    for name in KINDS[kind]().fields:
        refused = [value for value in ODD if errors(kind, {**whole, name: value})]
        assert len(refused) >= len(ODD) // 2, name
        for value in refused:
            assert list(errors(kind, {**whole, name: value})) == [name], (name, value)


@pytest.mark.parametrize("kind", sorted(PLAN_KINDS))
def test_a_plan_record_can_be_taken_out_and_noted(kind: str) -> None:
    assert errors(kind, {**BODIES[kind][0], "deleted": True, "note": "sold\nin May"}) == {}


def test_a_state_is_judged_to_its_depth() -> None:
    wrong = {**STATE, "tanks": [{**STATE["tanks"][0], "level": 1.5}]}  # type: ignore[dict-item]
    least, _ = BODIES["weighing"]
    told = errors("weighing", {**least, "state": wrong})["state"]["tanks"][0]["level"]
    assert told == ["1.5 is not possible: it must be 0 to 1."]


@pytest.mark.parametrize(
    ("part", "wrong", "told"),
    [
        ("legs", {"distance_km": -1}, "-1.0 is not possible: it must be 0 to 50000 km."),
        ("legs", {"surface": {**SURFACE, "mud": 0}}, None),
        ("supplies", {"certain": None}, "Field may not be null."),
        ("changes", {"what": "wish"}, "wish is not one of person, item, load, grey."),
    ],
)
def test_a_route_is_judged_to_its_depth(part: str, wrong: dict[str, Any], told: str | None) -> None:
    least, more = BODIES["route"]
    body = {**least, **more}
    body = {**body, part: [body[part][0], {**body[part][0], **wrong}]}
    (name,) = wrong
    found = errors("route", body)[part][1][name]
    assert found == ([told] if told else {"mud": ["Unknown field."]})


ON_TABLE = "it must be 0 to {0} kg, which is {1} intervals of {2} kg, as far as class {3} reaches."


@pytest.mark.parametrize(
    ("bridge", "value_kg", "told"),
    [
        ({}, 200_000, None),
        ({"interval_kg": 1}, 10_000, None),
        ({"interval_kg": 1}, 10_000.5, "10000.5 is not possible: " + ON_TABLE.format(10000, 10000, 1, "III")),
        ({"interval_kg": 2, "accuracy_class": "IIII"}, 2_000, None),
        (
            {"interval_kg": 2, "accuracy_class": "IIII"},
            2_310,
            "2310 is not possible: " + ON_TABLE.format(2000, 1000, 2, "IIII"),
        ),
        ({"interval_kg": 0.1, "accuracy_class": "percent", "percent": 1}, 200_000, None),
        ({"interval_kg": None}, 3_000, None),
    ],
)
def test_no_reading_lies_beyond_the_class_of_its_scale(
    bridge: dict[str, Any], value_kg: float, told: str | None
) -> None:
    readings = [READING | {"value_kg": 900}, READING | {"value_kg": value_kg}]
    body = {**AT, "bridge": bridge, "readings": readings}
    assert errors("weighing", body) == ({"readings": {1: {"value_kg": [told]}}} if told else {})
    assert look_at(KINDS["weighing"])(body) == (told is None)
    aside = {**body, "readings": [readings[0], readings[1] | {"struck_out": "it rolled"}]}
    assert errors("weighing", aside) == {}


@pytest.mark.parametrize(
    "bridge", [{"accuracy_class": "percent"}, {"accuracy_class": "percent", "percent": None}]
)
def test_a_scale_in_percent_says_how_many(bridge: dict[str, Any]) -> None:
    body = {**AT, "bridge": bridge, "readings": [READING]}
    told = "This cannot be blank with the class percent: a number from 0.01 to 20 is needed."
    assert errors("weighing", body) == {"bridge": {"percent": [told]}}
    assert not look_at(KINDS["weighing"])(body)
    assert errors("weighing", {**body, "bridge": {**bridge, "percent": 1.5}}) == {}


@pytest.mark.parametrize("amount", ["80,25", "-1", "1e3", "80.25\n", "٨٠", "", 80.25])
def test_money_is_plain_digits(amount: Any) -> None:
    least, _ = BODIES["fill"]
    assert list(errors("fill", {**least, "price": {"amount": amount, "currency": "XTS"}})) == ["price"]


@pytest.mark.parametrize("zone", ["Australia/Darwin", "UTC", "Etc/GMT+5", "America/Argentina/Ushuaia"])
def test_zones(zone: str) -> None:
    assert errors("dip", {**BODIES["dip"][0], "zone": zone}) == {}


@pytest.mark.parametrize("zone", ["", "UTC\n", "../etc/passwd", "a b", "Australia/Darwin/x/y", "/UTC"])
def test_what_is_no_zone(zone: str) -> None:
    assert list(errors("dip", {**BODIES["dip"][0], "zone": zone})) == ["zone"]


@pytest.mark.parametrize("kind", BODIES)
def test_a_first_look_sees_what_is_right(kind: str) -> None:
    least, more = BODIES[kind]
    for body in (least, {**least, **more}):
        assert look_at(KINDS[kind])(body)


@pytest.mark.parametrize("kind", BODIES)
def test_a_first_look_never_takes_what_the_schema_refuses(kind: str) -> None:
    least, more = BODIES[kind]
    whole = {**least, **more}
    pairs = [["1", "kg"], ["1", "m"], ["1", "L"], ["1"], ["1", 1], "1m", ["0.5", "%"], ["x" * 25, "kg"]]
    typed = [{name: pair} for name in (*whole, "odd") for pair in pairs]
    tries = [{**whole, name: value} for name in (*KINDS[kind]().fields, "odd") for value in ODD]
    tries += [{**whole, "as_typed": value} for value in (*typed, {}, None, [])]
    tries += [{other: whole[other] for other in whole if other != name} for name in whole]
    looks = {look_at(KINDS[kind])(body): body for body in tries if not errors(kind, body)}
    assert set(looks) == {True}
    assert not any(look_at(KINDS[kind])(body) for body in tries if errors(kind, body))
